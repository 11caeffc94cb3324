"""Why a wave is judged as it is, sentence by sentence: head, reasons, years and care."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import factory
from printed import page
from sowtide.climate.answers import EndedBy
from sowtide.garden.crop import Raised
from sowtide.report.kinds import FromTo
from sowtide.report.kit.stands import BedPlants
from sowtide.report.why import REPORT, view
from sowtide.report.why.care_of_wave import CareDay, CareOfWave
from sowtide.report.why.view import (
    BarredBed,
    FruitGapView,
    SpringFrost,
    WinterView,
    YearView,
)
from sowtide.schedule.waves.wave import Overlap, Status, Verdict

WHY = view(factory.wave(), factory.season(factory.wave()))
DAY = date(2026, 7, 20)
A_DAY = timedelta(days=1)
NONE: tuple[BedPlants, ...] = ()


def said(*, judged: dict[str, Any] | None = None, **changes: Any) -> str:
    of = replace(WHY, **changes, judged=replace(WHY.judged, **(judged or {})))
    return " ".join(" ".join(page(REPORT, of, 100)).split())


@pytest.mark.parametrize(
    ("changes", "head"),
    [
        ({}, "bush-bean-1: 60 plants of bush bean, sown direct, in Long 1 Each date is"),
        ({"plants": 1, "raised": Raised.TRAYS}, "1 plant of bush bean, raised in trays, in Long 1"),
        ({"beds": NONE, "status": Status.NO_ROOM}, "sown direct, no room in any of its beds Each"),
        ({"beds": NONE, "status": Status.OVER}, "sown direct, no room in any of its beds Each"),
        ({"beds": NONE, "status": Status.LOST}, "sown direct, lost Each"),
        ({"beds": NONE, "status": Status.SKIPPED}, "sown direct, skipped Each"),
        (
            {"barred": (BarredBed("Gate", "kale-1 was pulled on 1 Jul"),)},
            "Gate is barred to the bean family this season: kale-1 was pulled on 1 Jul.",
        ),
    ],
)
def test_the_head_says_what_it_is_and_where(changes: dict[str, Any], head: str) -> None:
    assert head in said(**changes)


def test_its_first_days_are_called_as_it_is_raised() -> None:
    direct, trays = said(), said(raised=Raised.TRAYS)
    assert "sow Wed 1 Jul" in direct
    assert "sow in trays Wed 1 Jul" in trays
    assert "sow in trays" not in direct


@pytest.mark.parametrize(
    ("changes", "verdict"),
    [
        ({}, "verdict safe, 83 in 100 "),
        ({"judged": {"odds": 1.0, "end": None, "margin": None}}, "safe, nothing ends it early "),
        ({"judged": {"verdict": None}}, "verdict none: it stands over the winter "),
        ({"judged": {"odds": None}}, "verdict none: it stands over the winter "),
        ({"beds": NONE, "status": Status.LOST}, "verdict none: lost "),
        ({"beds": NONE, "status": Status.NO_ROOM}, "verdict safe, 83 in 100 "),
        ({"status": Status.OVER}, "verdict safe, 83 in 100 "),  # it stood, and was judged
    ],
)
def test_the_verdict_and_what_it_is_of(changes: dict[str, Any], verdict: str) -> None:
    assert verdict in said(**changes)


COUNTS = "A year counts where 14 days of picking"


@pytest.mark.parametrize(
    ("changes", "there", "missing"),
    [
        ({}, COUNTS, "no day is safe"),
        ({"judged": {"cut_once": True, "worthwhile_days": 1}}, "where 1 day to cut it", COUNTS),
        ({"judged": {"end": None}}, "Safe means", COUNTS),
        ({"earliest": DAY}, "May be sown from 20 Jul.", "Not to be"),
        (
            {"earliest": DAY, "judged": {"verdict": Verdict.TOO_EARLY}, "raised": Raised.TRAYS},
            "Not to be planted out before 20 Jul.",
            "May be",
        ),
        ({"last_safe": DAY}, "The last safe day to have it sown is 20 Jul.", "No day is safe"),
        ({"last_safe": None}, "No day is safe to have it sown.", "The last safe day"),
        (
            {"last_safe": None, "judged": {"winter_kills": True, "odds": 0.4}},
            "spares it in 40 years of 100 only",
            "No day is safe",
        ),
        (
            {"overlap": Overlap("kale-1", DAY)},
            "It is set between the plants of kale-1, which is pulled out on 20 Jul; until then it",
            "kills it",
        ),
        ({"overlap": None}, "Safe means", "between the plants"),
        (
            {"spring_loss": 0.05},
            "A frost of spring kills it in 5 years of 100: its odds",
            "comes after",
        ),
        ({"spring_loss": 0.049}, "Safe means", "A frost of spring kills"),
        (
            {"spring_frost": SpringFrost(at_c=0.0, after=DAY, odds=0.2)},
            "A frost of 32 °F by the site's dates, which ends the part that is picked, still comes "
            "after 20 Jul, when it is up, in 20 years of 100",
            "kills it",
        ),
        ({"judged": {"margin": None}}, "Safe means", "To spare:"),
        ({"judged": {"first_pick": None}}, "Safe means", "To spare:"),
        ({"judged": {"ended_by": EndedBy.HEAT}}, "Safe means", "To spare:"),
    ],
)
def test_each_reason_is_given_where_it_is_one(
    changes: dict[str, Any], there: str, missing: str
) -> None:
    text = said(**changes)
    assert there in text
    assert missing not in text


def test_days_to_spare_are_a_sum() -> None:
    # 25 August, the late first pick, and 14 days: 8 September; 20 more are 28 September.
    assert WHY.judged.first_pick is not None
    late = WHY.judged.first_pick[1]
    after = late + timedelta(days=14)
    last = after + timedelta(days=20)
    sum_of = (
        f"{late.day} {late:%b} + 14 days = {after.day} {after:%b}, +20 days = {last.day} {last:%b}"
    )
    assert f"To spare: {sum_of}, the average frost that ends it." in said()
    short = said(judged={"margin": -3})
    assert f"= {after.day} {after:%b}, -3 days = " in short


GAP = FruitGapView(
    share=0.2,
    years=None,
    flowers=FromTo(from_=DAY, to=DAY + A_DAY),
    picks=FromTo(from_=DAY + 9 * A_DAY, to=DAY + 11 * A_DAY),
)


def test_heat_in_flower_is_told_with_its_days() -> None:
    days = "as a rule from 20 Jul to 21 Jul: nothing to pick from 29 Jul to 31 Jul."
    mean = "In an average year a week or more while it is in flower is too hot to set fruit, "
    assert mean + days in said(fruit_gap=GAP)
    assert "In 6 of 30 years a week or more" in said(fruit_gap=replace(GAP, years=30))
    assert "To spare:" not in said(fruit_gap=GAP)
    assert "too hot to set fruit" not in said()


@pytest.mark.parametrize(
    ("winter", "sentence"),
    [
        (WinterView(None, 0.5, 0.5, None), "No day here is too short for it to grow."),
        (
            WinterView(DAY, 0.746, 0.5, None),
            "When the days fall under 10 hours, 20 Jul, it is about 75 % grown; three quarters are "
            "enough to be ready in or after the short days.",
        ),
        (WinterView(DAY, 0.746, 0.5, 30), "short days, and it reaches them in 15 of 30 years."),
    ],
)
def test_over_the_winter_it_is_told_how_far_it_is_grown(winter: WinterView, sentence: str) -> None:
    assert sentence in said(winter=winter, judged={"verdict": None})
    assert sentence not in said(winter=winter)


def year(season: int, **changes: Any) -> YearView:
    made = YearView(
        year=season,
        first_pick=(date(season, 8, 20), date(season, 8, 25)),
        end=date(season, 10, 2),
        ended_by=EndedBy.FROST,
        picking_days=18.0,
        worth=1.0,
        is_poor=False,
    )
    return replace(made, **changes)


@pytest.mark.parametrize(
    ("changes", "row"),
    [
        ({}, "2011 20 Aug – 25 Aug frost 2 Oct 18 days yes"),
        ({"worth": 0.0, "picking_days": 0.0}, "2011 20 Aug – 25 Aug frost 2 Oct none no"),
        ({"worth": 0.004}, "18 days 1 %"),
        ({"worth": 0.999}, "18 days 99 %"),
        ({"worth": 0.5}, "18 days 50 %"),
        ({"first_pick": (None, None)}, "2011 not ripe frost"),
        ({"first_pick": (date(2011, 8, 20), None)}, "2011 from 20 Aug frost"),
        ({"first_pick": (date(2011, 8, 20),) * 2}, "2011 20 Aug frost"),
        ({"end": None, "ended_by": EndedBy.PICKED_OUT}, "2011 20 Aug – 25 Aug 18 days yes"),
        ({"ended_by": None, "end": None}, "2011 20 Aug – 25 Aug 18 days yes"),
    ],
)
def test_a_recorded_year_has_its_row(changes: dict[str, Any], row: str) -> None:
    assert row in said(years=(year(2011, **changes),), by_year=True)


def test_of_a_crop_cut_once_no_picking_days_are_told() -> None:
    once = said(years=(year(2011),), by_year=True, judged={"cut_once": True, "worthwhile_days": 7})
    assert "2011 20 Aug – 25 Aug frost 2 Oct yes" in once
    assert "Worth it: 7 days or more to cut it before the end" in once
    assert "Worth it: 14 days or more of picking" in said(years=(year(2011),), by_year=True)
    assert "YEAR BY YEAR" not in said(years=(year(2011),))
    none = said(years=None, by_year=True)
    assert "No recorded year tells of it: there is no record." in none
    winter = said(years=None, by_year=True, judged={"odds": None, "verdict": None})
    assert "No recorded year tells of it: it stands over the winter." in winter


@pytest.mark.parametrize(
    ("poor", "sentence"),
    [
        (0, "There is no poor year among the 20 (`--years` tells each)."),
        (1, "1 poor year of 20: 2000 (`--years` tells each)."),
        (10, "10 poor years of 20: 2000, 2001,"),
        (11, "11 poor years of 20: the worst of them 2001, 2002,"),
    ],
)
def test_the_worst_ten_of_the_poor_years_are_named(poor: int, sentence: str) -> None:
    years = tuple(year(2000 + n, is_poor=n < poor, worth=0.5 if n == 0 else 0.1) for n in range(20))
    assert sentence in said(years=years)


CARE = CareOfWave(
    routine="soak",
    does="water",
    file="garden.yaml",
    line=30,
    bed="Long 1",
    days=(CareDay(DAY, DAY, None, False, None),),
    goes_round=False,
)


@pytest.mark.parametrize(
    ("day", "told"),
    [
        ({}, "soak, garden.yaml:30: 20 Jul"),
        ({"done": True}, "20 Jul done"),
        ({"why": "rain", "asked": DAY - A_DAY}, "20 Jul (asked for 19 Jul: rain)"),
        ({"why": "rain"}, "garden.yaml:30: 20 Jul Rests"),  # it waited for nothing
        ({"blocked_until": DAY + 3 * A_DAY}, "20 Jul (not picked until 23 Jul)"),
        (
            {"why": "heat", "asked": DAY - A_DAY, "blocked_until": DAY + A_DAY, "done": True},
            "20 Jul done (asked for 19 Jul: heat; not picked until 21 Jul)",
        ),
    ],
)
def test_its_care_has_its_days(day: dict[str, Any], told: str) -> None:
    days = (replace(CARE.days[0], **day),)
    assert told in said(care=(replace(CARE, days=days),))


def test_care_names_the_bed_where_there_are_several_and_no_round_is_told() -> None:
    other = replace(CARE, bed="Gate")
    assert "soak in Long 1, garden.yaml:30: 20 Jul soak in Gate, garden" in said(care=(CARE, other))
    assert "soak in" not in said(care=(CARE,))
    assert "CARE" not in said(care=(replace(CARE, goes_round=True),))
