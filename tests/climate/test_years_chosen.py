"""Which years of a record tell of frost, to the day on which it begins, ends or lacks a reading."""

from __future__ import annotations

from datetime import date
from math import nan

import pytest

from records.made import record
from sowtide.climate.frost_record.frost_years import FrostYears
from sowtide.climate.frost_record.record_years import RecordYears
from sowtide.climate.frost_record.search import FrostSearch
from sowtide.climate.frost_record.trend import Trend
from sowtide.days import GrowingYear, Half
from sowtide.diagnostics import Span
from sowtide.garden.crop import Hardiness
from sowtide.garden.site import ALL_YEARS, NEWEST_YEARS, YearsWanted

PLANNED = GrowingYear(2026, south=False)
HERE = Span("garden.yaml", 3, 5, 1, "  record: station.csv")


def low(day: date) -> float:
    """−5 °C on 10 April and 20 October of each year, −3 in the south's, 5 °C else."""
    return -5.0 if (day.month, day.day) in ((4, 10), (10, 20)) else 5.0


def chosen(
    last: date,
    wanted: YearsWanted = ALL_YEARS,
    *,
    first: date = date(1980, 1, 1),
    planned: GrowingYear = PLANNED,
) -> RecordYears:
    kept = record(first, last, low)
    return RecordYears(kept, south=planned.south, wanted=wanted, before=planned)


def springs(of: RecordYears) -> tuple[int, int]:
    years = of.frosts(0.0).spring.years
    return years[0].season, years[-1].season


FIVE, CHOSEN = YearsWanted(last=5), YearsWanted(first=1990, to=2024)


@pytest.mark.parametrize(
    ("last", "wanted", "autumns", "of_spring"),
    [
        # A year tells of its autumn from 1 October on, of its spring from 30 June on.
        (date(2025, 10, 1), ALL_YEARS, (1980, 2025), (1980, 2025)),
        (date(2025, 9, 30), ALL_YEARS, (1980, 2024), (1980, 2025)),
        (date(2025, 6, 30), ALL_YEARS, (1980, 2024), (1980, 2025)),
        (date(2025, 6, 29), ALL_YEARS, (1980, 2024), (1980, 2024)),
        # nothing of the year planned is known, or of what comes after it
        (date(2026, 11, 3), ALL_YEARS, (1980, 2025), (1980, 2025)),
        (date(2025, 12, 31), FIVE, (2021, 2025), (2021, 2025)),
        (date(2025, 8, 1), FIVE, (2020, 2024), (2021, 2025)),
        (date(2025, 6, 29), FIVE, (2020, 2024), (2020, 2024)),
        (date(2025, 12, 31), NEWEST_YEARS, (1996, 2025), (1996, 2025)),
        (date(2025, 12, 31), YearsWanted(last=60), (1980, 2025), (1980, 2025)),
        (date(2025, 8, 1), YearsWanted(last=60), (1980, 2024), (1980, 2025)),
        (date(2025, 12, 31), CHOSEN, (1990, 2024), (1990, 2024)),
        (date(2025, 8, 1), CHOSEN, (1990, 2024), (1990, 2024)),
        (date(2024, 8, 1), CHOSEN, (1990, 2023), (1990, 2024)),
        (date(2025, 12, 31), YearsWanted(first=1970, to=2030), (1980, 2025), (1980, 2025)),
    ],
)
def test_years_that_end_before_their_autumn_or_spring(
    last: date, wanted: YearsWanted, autumns: tuple[int, int], of_spring: tuple[int, int]
) -> None:
    found = chosen(last, wanted)
    assert found.span == autumns
    assert found.seasons == tuple(range(autumns[0], autumns[1] + 1))
    assert springs(found) == of_spring
    assert found.there == (2025 if last >= date(2025, 10, 1) else last.year - 1) - 1980 + 1


def test_nothing_is_learned_from_the_first_day_of_the_year_planned() -> None:
    # The autumn of 2025 has no frost before its first, on 1 January 2026
    def lows(day: date) -> float:
        if day >= date(2025, 7, 1):
            return -5.0 if day == date(2026, 1, 1) else 5.0
        return low(day)

    kept = record(date(2000, 1, 1), date(2026, 11, 3), lows)
    found = RecordYears(kept, south=False, wanted=ALL_YEARS, before=PLANNED).frosts(0.0).autumn
    assert [(each.season, each.reason) for each in found.left_out] == [
        (2025, "days after 31 Dec 2025 are not used")
    ]


def test_in_the_south_a_growing_year_begins_in_july() -> None:
    planned = GrowingYear(2026, south=True)  # from July 2026 on
    first = date(1980, 7, 1)
    for last, span in (
        (date(2026, 4, 1), (1980, 2025)),  # the first of April is in its autumn
        (date(2026, 3, 31), (1980, 2024)),
        (date(2026, 8, 1), (1980, 2025)),
    ):
        assert chosen(last, first=first, planned=planned).span == span


def test_a_record_that_tells_of_no_half_year_says_what_it_lacks() -> None:
    assert chosen(date(2025, 12, 31)).untold(HERE) is None
    found = chosen(date(2025, 12, 31), YearsWanted(first=1950, to=1960)).untold(HERE)
    assert found is not None
    assert found.code == "record-years"
    assert found.message == (
        "no spring of the record can be used for frost: it has none among the years wanted"
    )
    assert found.hint is not None
    assert found.hint.startswith("choose other years, take a longer record")
    short = chosen(date(2025, 12, 31), first=date(2025, 11, 3)).untold(HERE)
    assert short is not None
    assert short.message == (
        "no spring of the record can be used for frost: it reaches from 2025-11-03 to 2025-12-31"
    )
    assert short.hint is not None
    assert short.hint.startswith("take a longer record")


@pytest.mark.parametrize(("years", "told", "more"), [(3, 3, False), (4, 3, True)])
def test_three_years_that_are_left_out_are_named(years: int, told: int, more: bool) -> None:
    def holed(day: date) -> float:
        return nan if day.month == 4 else 5.0

    kept = record(date(2026 - years, 1, 1), date(2025, 12, 31), holed)
    found = RecordYears(kept, south=False, wanted=ALL_YEARS, before=PLANNED).untold(HERE)
    assert found is not None
    assert found.message.count("(") == told
    assert found.message.endswith(", …") is more


def test_of_a_frost_that_no_year_tells_of_the_next_warmer_one_is_told() -> None:
    # Eight years: at −2.2 °C (28 °F) and colder a missing day of April could hide a frost in each;
    # at 0 °C and warmer the frost of 20 April, after it, decides.
    def lows(day: date) -> float:
        if (day.month, day.day) == (4, 12):
            return nan
        return -1.0 if (day.month, day.day) in ((4, 20), (10, 20)) else 5.0

    kept = record(date(2018, 1, 1), date(2025, 12, 31), lows)
    found = RecordYears(kept, south=False, wanted=ALL_YEARS, before=PLANNED)
    half_hardy, tender = Hardiness.HALF_HARDY.killed_at, Hardiness.TENDER.killed_at
    assert found.nearest_known(Half.SPRING, tender).at == tender
    assert found.nearest_known(Half.SPRING, 1.0).at == 1.0
    for colder in (half_hardy, -4.4, -1.5):
        assert found.frosts(colder).spring.years == ()
        assert found.nearest_known(Half.SPRING, colder).at == tender


def frosts(first: date, last: date, missing: date | None = None) -> FrostYears:
    kept = record(first, last, lambda day: nan if day == missing else low(day))
    return FrostSearch(kept, south=False).at(0.0)


@pytest.mark.parametrize(
    ("missing", "half"),
    [
        # As near in the year as 45 days a frost was seen: 10 April is 45 days before 25 May, and
        # 20 October 45 days after 5 September
        (date(2005, 5, 25), Half.SPRING),
        (date(2005, 5, 26), None),
        (date(2005, 9, 5), Half.AUTUMN),
        (date(2005, 9, 4), None),
    ],
)
def test_a_frost_may_hide_within_45_days_of_any_that_was_seen(
    missing: date, half: Half | None
) -> None:
    found = frosts(date(2000, 7, 1), date(2011, 6, 30), missing)
    for each in Half:
        left_out = [year.season for year in found.of(each).left_out]
        assert left_out == ([2005] if each is half else [])


@pytest.mark.parametrize(("first", "known"), [(date(2000, 7, 1), True), (date(2001, 7, 1), False)])
def test_ten_readings_of_a_day_tell_what_it_can_bring(first: date, known: bool) -> None:
    # Eleven springs with one day of May missing leave ten readings of it, ten springs nine.
    found = frosts(first, date(2011, 6, 30), date(2005, 5, 26))
    assert [year.season for year in found.spring.left_out] == ([] if known else [2005])
    if not known:
        assert found.spring.left_out[0].reason == "no reading on 26 May 2005"


def test_a_spring_of_which_one_day_is_there_is_left_out_and_named() -> None:
    for last, left_out in ((date(2012, 1, 1), [2012]), (date(2011, 12, 31), [])):
        found = frosts(date(2000, 7, 1), last)
        assert [year.season for year in found.spring.left_out] == left_out


@pytest.mark.parametrize(
    ("slope", "chance", "sure"),
    [(1.0, 0.05, True), (-1.0, 0.05, True), (1.0, 0.051, False), (0.0, 0.01, False)],
)
def test_a_trend_is_more_than_chance(slope: float, chance: float, sure: bool) -> None:
    assert Trend(slope, chance, 30).is_sure is sure
