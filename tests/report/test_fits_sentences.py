"""Yes or no to one more wave, sentence by sentence: the reason, the room, and the safe days."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

import factory
from sowtide.garden.crop import Raised
from sowtide.report.blocks import Line, Text
from sowtide.report.fits import view
from sowtide.report.fits.sentences import another_first, answered, limits, other_year
from sowtide.report.fits.view import AnswerView, FitsView
from sowtide.report.kinds import FromTo
from sowtide.schedule.waves import HeatHarm, Verdict

FITS = view((factory.answer(),), factory.season(), asked="bush bean")
BEST = FITS.best
ON = date(2026, 7, 15)
LATER = date(2026, 8, 20)


def fits(of: AnswerView | None = None, **changes: Any) -> FitsView:
    return replace(FITS, best=replace(of or BEST, **changes))


def flat(*texts: Text) -> str:
    words = (each.words for each in texts)
    said = (each.plain if isinstance(each, Line) else str(each) for each in words)
    return " ".join(said).replace("\N{NO-BREAK SPACE}", " ")


def no(hot: FromTo | None = None, **changes: Any) -> str:
    """Return the reason of a no."""
    judged = changes.pop("judged", {})
    made = {"good": (), "places": (), "heat": None} | changes
    of = fits(**made, judged=replace(BEST.judged, **judged))
    text = flat(*answered(replace(of, hot_weeks=hot)))
    assert text.startswith("No, ")
    return text.removeprefix("No, ").partition(". ")[0]


RUNS = (FromTo(from_=ON, to=ON), FromTo(from_=LATER, to=LATER))
LAST = date(2026, 7, 14)


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        (
            {"verdict": Verdict.TOO_EARLY, "earliest_planting": LATER},
            "too early: not to be sown before 20 Aug",
        ),
        (
            {"verdict": Verdict.TOO_HOT, "heat": HeatHarm.SPOILS_SEED},
            "too hot: the soil is too warm for its seed",
        ),
        (
            {"verdict": Verdict.TOO_HOT, "heat": HeatHarm.SPOILS_ROOT},
            "too hot: its roots would grow pale and tough in the heat",
        ),
        (
            {"verdict": Verdict.TOO_HOT, "heat": HeatHarm.DROPS_FLOWERS},
            "too hot: its flowers drop in the heat, and most of it sets no fruit",
        ),
        (
            {"verdict": Verdict.CHANCY, "heat": HeatHarm.DROPS_FLOWERS, "windows": RUNS, "on": ON},
            "not safe on that day, since its flowers drop in the heat of some years: the next safe "
            "day is 20 Aug",
        ),
        ({"verdict": Verdict.TOO_HOT}, "too hot: its first pick would fall into the hot weeks"),
        (
            {"verdict": Verdict.TOO_HOT, "hot": FromTo(from_=ON, to=LATER)},
            "too hot: its first pick would fall into the hot weeks, 15 Jul – 20 Aug",
        ),
        (
            {"verdict": Verdict.CHANCY, "last_safe_planting": None},
            "no day of this season is safe for it",
        ),
        (
            {"verdict": Verdict.CHANCY, "windows": RUNS, "on": ON},
            "not safe on that day: the next safe day is 20 Aug",
        ),
        (
            {"verdict": Verdict.NOT_ITS_TIME, "windows": RUNS, "on": ON},
            "not the time of the year for it: the next safe day is 20 Aug",
        ),
        (
            {"verdict": Verdict.CHANCY, "windows": RUNS, "on": LATER, "last_safe_planting": ON},
            "too late to be safe: the last safe day to sow it is 15 Jul",
        ),
        (
            {"verdict": Verdict.TOO_LATE, "windows": (), "last_safe_planting": LAST},
            "too late: the last safe day to sow it was 14 Jul",
        ),
        (
            {
                "verdict": Verdict.NOT_ITS_TIME,
                "windows": (),
                "last_safe_planting": LAST,
                "raised": Raised.TRAYS,
            },
            "not the time of the year for it: the last safe day to plant it out was 14 Jul",
        ),
        (
            {
                "verdict": Verdict.WINTER,
                "windows": (),
                "judged": {"winter_kills": True},
                "odds": 0.4,
            },
            "the winter, or a frost on its flowers, spares it in 40 years of 100 only: ",
        ),
        (
            {
                "verdict": Verdict.TOO_LATE,
                "windows": (),
                "judged": {"winter_kills": True},
                "odds": None,
                "last_safe_planting": LAST,
            },
            "too late: the last safe day to sow it was 14 Jul",
        ),
    ],
)
def test_a_no_says_why(changes: dict[str, Any], reason: str) -> None:
    said = no(**changes)
    assert said.startswith(reason) if reason.endswith(" ") else said == reason


SPOT = BEST.places[0]


@pytest.mark.parametrize(
    ("verdict", "places", "reason"),
    [
        (
            Verdict.SAFE,
            (replace(SPOT, free_from=LATER), replace(SPOT, free_from=date(2026, 8, 2))),
            "there is no room on that day: the next with room is 2 Aug",
        ),
        (
            Verdict.SAFE,
            (replace(SPOT, verdict=Verdict.TOO_LATE),),
            "there is no room in time: where there is room, it comes too late to be safe",
        ),
        (
            Verdict.SAFE,
            (),
            "there is no room for 60 plants: the day is safe, but the beds are full or closed by "
            "rotation",
        ),
        (
            None,
            (),
            "there is no room for 60 plants over the winter: the beds are full or closed by "
            "rotation",
        ),
    ],
)
def test_a_matter_of_room_says_when_there_is_some(
    verdict: Verdict | None, places: tuple[Any, ...], reason: str
) -> None:
    assert no(verdict=verdict, places=places, plants=60) == reason


@pytest.mark.parametrize(
    ("plants", "beds", "said"),
    [
        (60, (60,), "Yes, in B0: bush bean sown on"),
        (60, (40, 20, 9), "Yes, in B0 and B1: bush bean sown on"),
        (60, (40, 19), "Yes, but only for 59 of 60 plants, in B0 and B1: bush bean sown on"),
        (1200, (1000,), "Yes, but only for 1,000 of 1,200 plants, in B0: bush bean sown on"),
    ],
)
def test_a_yes_names_the_beds_that_it_takes(plants: int, beds: tuple[int, ...], said: str) -> None:
    good = tuple(replace(SPOT, bed=f"B{n}", plants=many) for n, many in enumerate(beds))
    assert flat(*answered(fits(good=good, plants=plants))).startswith(said)


def test_a_yes_says_what_is_less_than_sure() -> None:
    good = (SPOT,)

    def judged(**changes: Any) -> str:
        planted = replace(BEST.planted, judged=replace(BEST.planted.judged, **changes))
        return flat(*answered(fits(good=good, planted=planted)))

    assert judged().startswith("Yes, in ")
    assert judged(verdict=Verdict.SAFE_FROM_FROST).startswith("Safe from frost, in ")
    bolt = "It would be picked in high summer and may bolt or turn bitter"
    assert bolt in judged(may_bolt=True)
    assert bolt not in judged(may_bolt=False)
    winter = "No odds are counted over the winter."
    assert winter in judged(verdict=None)
    assert winter not in judged()
    assert "The soil is then likely" not in judged()
    assert "The soil is then likely cold." in flat(*answered(fits(good=good, seed="cold")))


def test_all_of_it_at_some_risk_is_offered_where_a_part_alone_is_safe() -> None:
    whole = replace(SPOT, bed="Wide", free_from=LATER, odds=0.64)
    offer = "All 60 have room in Wide from 20 Aug: 64 in 100."
    some = {"good": (replace(SPOT, plants=20),), "plants": 60, "whole": whole}
    assert offer in flat(*answered(fits(**some, fits=False)))
    assert "have room in" not in flat(*answered(fits(**some, fits=True)))
    assert "have room in" not in flat(*answered(fits(**(some | {"good": ()}), fits=False)))


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (
            {"verdict": None},
            "Sowtide knows no safe days for it: it counts none for a crop over the",
        ),
        ({"windows": (), "earliest_planting": ON}, "No safe day to sow it. Earliest: 15 Jul."),
        (
            {"windows": RUNS[:1], "earliest_planting": ON},
            "Safe days to sow it: 15 Jul.",
        ),
        (
            {"windows": RUNS, "earliest_planting": date(2026, 6, 15)},
            "Safe days to sow it: 15 Jul and 20 Aug. Earliest: 15 Jun.",
        ),
        (
            {"windows": RUNS[:1], "earliest_planting": date(2026, 7, 14), "raised": Raised.TRAYS},
            "Safe days to plant it out: 15 Jul. Earliest: 14 Jul.",
        ),
    ],
)
def test_the_safe_days_are_named_and_the_earliest_where_that_is_another(
    changes: dict[str, Any], said: str
) -> None:
    text = limits(fits(**{"frost_limit": None, "verdict": Verdict.SAFE} | changes))
    assert text.replace("\N{NO-BREAK SPACE}", " ").startswith(said)
    if changes.get("verdict", 0) is not None:
        assert text.replace("\N{NO-BREAK SPACE}", " ") == said


STANDS = {"stands_after_frost": True, "knows_ground": True, "pulled_again": False}


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (
            STANDS | {"stands_after_frost": False},
            " By 20 Aug frost has ended it in half of the years.",
        ),
        (STANDS, " What is ripe stands till the ground freezes, about 20 Aug."),
        (
            STANDS | {"pulled_again": True},
            " What is ripe when the ground freezes, about 20 Aug, is pulled as it thaws.",
        ),
        (
            STANDS | {"pulled_again": True, "knows_ground": False},
            " By 20 Aug frost has stopped its growth in half of the years; what is ripe by then "
            "stands till the ground freezes, and when that is nobody knows here.",
        ),
    ],
)
def test_what_frost_does_to_it_is_told(changes: dict[str, Any], said: str) -> None:
    made = {"verdict": Verdict.SAFE, "frost_limit": LATER, "spring_loss": 0.0} | changes
    made |= {"windows": RUNS[:1], "earliest_planting": ON}
    text = limits(fits(**made)).replace("\N{NO-BREAK SPACE}", " ")
    assert text == f"Safe days to sow it: 15 Jul.{said}"


@pytest.mark.parametrize(
    ("loss", "told"), [(0.049, ""), (0.05, " A frost of spring kills it in 5 ")]
)
def test_what_a_frost_of_spring_takes_is_told_where_it_matters(loss: float, told: str) -> None:
    text = limits(fits(verdict=Verdict.SAFE, frost_limit=LATER, spring_loss=loss))
    assert ("A frost of spring" in text) is bool(told)
    assert told in text


def test_another_variety_that_does_better_is_named_first() -> None:
    other = replace(BEST, crop="runner bean")
    both = replace(FITS, asked="Runner Bean", varieties=(BEST, other))
    said = "You asked for runner bean; bush bean, of the same kind, does better."
    assert flat(*another_first(both)) == said
    assert list(another_first(replace(both, asked="Bush bean"))) == []
    assert list(another_first(replace(both, asked="bean"))) == []  # a word for both of them
    assert list(another_first(replace(both, varieties=None))) == []
    assert list(other_year(FITS)) == []
    assert flat(*other_year(fits(on=date(2028, 2, 1)))) == (
        "Judged on 1 Feb 2028, but the file plans 2026: write `season: 2028` to plan that year."
    )
