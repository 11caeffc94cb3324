"""What comes into a space, by hand: one wave in place of another, and all that fits into a bed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import factory
import gardens
from printed import page
from sowtide.climate.answers import Left
from sowtide.days import DateSpan
from sowtide.garden.crop import Raised
from sowtide.report import fits, instead_of, into_bed
from sowtide.report.instead_of.view import (
    InItsPlace,
    InsteadOfView,
    KinStanding,
    KnownView,
    ScoutedView,
    WaveKept,
)
from sowtide.report.into_bed.view import CropThere, IntoBedView
from sowtide.report.kinds import FromTo
from sowtide.report.kit.spots import BesideIt
from sowtide.report.kit.stands import BedPlants
from sowtide.schedule.fits import BedQuestion, Question, weigh, what_fits

TODAY = date(2026, 7, 15)
DAY = timedelta(days=1)
GARDEN = gardens.season(
    gardens.text(gardens.wave(start="06-01", plants="4"), crops=(gardens.crop(),)), TODAY
)
SPOT = fits.view((factory.answer(),), factory.season()).best.places[0]
SPOT = replace(
    SPOT,
    bed="Long",
    plants=10,
    free_from=TODAY,
    first_pick=(date(2026, 9, 9), date(2026, 9, 16)),
)


def weighed(**changes: Any) -> InsteadOfView:
    asked = Question(GARDEN.garden.crops[0], None, None, None, False)
    made = instead_of.view(weigh(GARDEN, GARDEN.waves[0], asked), GARDEN)
    base: dict[str, Any] = {
        "keep": WaveKept(last_pick=TODAY + 9 * DAY, picking_days_left=4.0, odds=0.9),
        "left": Left(days=4.0, odds=0.9, years=None),
        "replace": InItsPlace("pea", SPOT, cut_once=False),
        "title": "pea",
        "instead": "pea",
        "raised": Raised.DIRECT,
        "asked_on": TODAY,
        "on": TODAY,
        "planted": TODAY - DAY,
        "not_picked": (),
        "same_crop": (),
        "kin": (),
        "known": None,
        "rotation": None,
        "comes": None,
        "seedlings": None,
    }
    return replace(made, **(base | changes))


def said(**changes: Any) -> str:
    return " ".join(" ".join(page(instead_of.REPORT, weighed(**changes), 100)).split())


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({}, "Pulled on 15 Jul, fruit-1 gives up 4 days of picking on average, any in 90 years of"),
        ({"planted": TODAY}, "Not planted on 15 Jul, fruit-1 gives up 4 days"),
        ({"left": Left(4.0, 0.9, 30)}, "on average, any in 27 years of 30; pea sown"),
        (
            {"left": None, "keep": WaveKept(None, None, None)},
            "fruit-1 gives up what nobody can date; pea sown",
        ),
        (
            {"left": None, "ahead": DateSpan(TODAY, TODAY + DAY), "cut_once": False},
            "gives up 2 days of picking in half of the years, 15 Jul to 24 Jul; pea sown",
        ),
        (
            {"left": None, "ahead": DateSpan(TODAY, TODAY + DAY), "cut_once": True},
            "gives up what stands to be cut until 24 Jul; pea sown",
        ),
        (
            {"left": None, "ahead": None, "cut_once": False},
            "gives up what stands to be cut until 24 Jul; pea sown",
        ),
    ],
)
def test_what_is_given_up(changes: dict[str, Any], told: str) -> None:
    assert told in said(**changes)


def in_place(**changes: Any) -> dict[str, Any]:
    cut_once = changes.pop("cut_once", False)
    return {"replace": InItsPlace("pea", replace(SPOT, **changes), cut_once=cut_once)}


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        (
            in_place(),
            "pea sown there on 15 Jul would be picked from 9–16 Sep, 18 days on average, worth it "
            "in 83 years of 100.",
        ),
        (in_place(free_from=TODAY + DAY), "; pea sown there only on 16 Jul would be picked from"),
        (
            in_place(cut_once=True),
            "would be ready to cut 9–16 Sep, worth it in 83 years of 100.",
        ),
        (in_place(first_pick=None), "would give nothing to pick by what is known."),
        ({"replace": None}, "; there is no room for pea in its place. "),
        (
            {"replace": None, "comes": BesideIt("kale-1", TODAY + 9 * DAY)},
            "; there is no room for pea in its place: kale-1 comes on 24 Jul. ",
        ),
    ],
)
def test_what_would_come_in_its_place(changes: dict[str, Any], told: str) -> None:
    assert told in said(**changes)


def test_both_stand_beside_each_other() -> None:
    lines = page(instead_of.REPORT, weighed(plants=1200), 100)
    first = next(n for n, each in enumerate(lines) if "keep fruit-1" in each)
    assert lines[first : first + 6] == (
        "              keep fruit-1          pea instead",
        "plants        1,200                 10",
        "picked        to 24 Jul             from 9–16 Sep",
        "picking days  4 days                18 days",
        "odds          any in 90 in 100      83",
        "                                    safe",
    )
    unknown = said(keep=WaveKept(None, None, None), left=None, replace=None)
    assert "picked not known nothing" in unknown
    assert "plants 4" in unknown
    assert "no room" in unknown
    once = said(**in_place(cut_once=True))
    assert "picking days 4 days odds" in once


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"same_crop": ("a-1",)}, "a-1 is picked on some of the same days."),
        ({"same_crop": ("a-1", "b-1")}, "a-1 and b-1 are picked on some of the same days."),
        (
            {"not_picked": (FromTo(from_=TODAY, to=TODAY + DAY),)},
            "Without it no fruit is picked on 15–16 Jul.",
        ),
        (
            {"kin": (KinStanding("a-1", (BedPlants("Long", 4),)),)},
            "Of the fruit family there stand, too: a-1 in Long. What ails it may ail them.",
        ),
        (
            {"rotation": "fruit family in 2025"},
            "Rotation speaks against pea: fruit family in 2025.",
        ),
    ],
)
def test_what_stands_beside_it_is_told_where_there_is_any(
    changes: dict[str, Any], told: str
) -> None:
    assert told in said(**changes)
    bare = said()
    for title in ("some of the same days", "Without it", "there stand, too", "Rotation speaks"):
        assert (title in said(**changes)) is (title in told)
        assert title not in bare


@pytest.mark.parametrize(
    ("found", "is_kin", "bars"),
    [("many", True, True), ("none", True, False), ("many", False, False)],
)
def test_what_was_scouted_bars_the_bed_to_its_kin_alone(
    found: str, is_kin: bool, bars: bool
) -> None:
    known = KnownView(pickings=(), best=None, scouted=(ScoutedView(TODAY, found, None),))
    text = said(known=known, is_kin=is_kin)
    assert f"Looked at on 15 Jul: {found} found. " in text
    assert ("Pulled as sick, it bars its bed" in text) is bars
    assert "only you see how it looks" in text
    assert "how it looks and bears is not known here" in said()


THERE = CropThere(
    crop="pea",
    variety=None,
    raised=Raised.DIRECT,
    free_until=None,
    away_when_planted=False,
    away_when_picked=False,
    spot=replace(SPOT, until=TODAY + 5 * DAY),
    title="pea",
)


def bed(*safe: CropThere, **changes: Any) -> str:
    question = BedQuestion(GARDEN.garden.beds[0], TODAY, False)
    made: IntoBedView = into_bed.view(what_fits(GARDEN, question), GARDEN)
    empty: dict[str, Any] = {"chancy": (), "closed_by_rotation": (), "cover_crops": ()}
    of = replace(made, **(empty | {"safe": safe, "crops": safe} | changes))
    return " ".join(" ".join(page(into_bed.REPORT, of, 100)).split())


@pytest.mark.parametrize(
    ("title", "order", "most"), [("SAFE", "soonest", 30), ("CHANCY", "likeliest", 10)]
)
def test_as_many_crops_are_listed_of_a_bed(title: str, order: str, most: int) -> None:
    def listed(number: int) -> str:
        crops = tuple(replace(THERE, title=f"c{n}x") for n in range(number))
        return bed(*crops) if title == "SAFE" else bed(THERE, chancy=crops)

    assert f"{title} {order} first" in listed(most)
    assert f"c{most - 1}x 10 sow 15–20 Jul 9 Sep 83" in listed(most)
    assert "more; `--format json`" not in listed(most)
    assert "and 1 more; `--format json` lists them all" in listed(most + 1)
    assert f"c{most}x" not in listed(most + 1)


def test_a_bed_for_which_nothing_is_safe_says_so() -> None:
    assert "No crop would be safe there." in bed()
    assert "SAFE soonest" not in bed()
    some = bed(THERE)
    assert "No crop would be safe there." not in some
    for title in ("CHANCY", "TO CLOSE THE SPACE", "Rotation keeps out", "while nobody is there"):
        assert title not in some
    assert "pea 1,000 sow" in bed(replace(THERE, spot=replace(THERE.spot, plants=1000)))
    none = bed(replace(THERE, spot=replace(THERE.spot, first_pick=None)))
    assert "pea 10 sow 15–20 Jul 83" in none


def test_days_on_which_nobody_is_there_are_told_by_crop() -> None:
    planted = replace(THERE, title="pea", away_when_planted=True)
    picked = replace(THERE, title="kale", away_when_picked=True)
    both = bed(planted, picked)
    assert "Planted while nobody is there: pea. First picked while nobody is there: kale." in both
    assert "First picked while" not in bed(planted)
    assert "Planted while" not in bed(picked)
