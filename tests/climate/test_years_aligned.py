"""The same day of each recorded year, under the year planned: leap days, and a record's ends.

The record begins on 1 January 2023 unless said otherwise: 2024 begins on day 365 and has a leap
day, 2025 begins on day 731. 1 March is day 59 of a common year.
"""

from __future__ import annotations

from datetime import date
from math import isnan

import pytest

from sowtide.climate.warmth import Years, centred_means, hot_spans
from sowtide.days import GrowingYear

COMMON, LEAP = GrowingYear(2026, south=False), GrowingYear(2028, south=False)
SEASONS = (2023, 2024, 2025)


def years(planned: GrowingYear = COMMON, first: date = date(2023, 1, 1)) -> Years:
    return Years(first, SEASONS, planned)


def test_each_year_lies_where_the_calendar_has_it() -> None:
    found = years()
    assert found.bases == (0, 365, 731)
    assert found.midsummers == (181, 365 + 182, 731 + 181)
    assert (found.leaps, found.days) == ((0, 1, 0), 365)
    leap = years(LEAP)
    assert (leap.bases, leap.leaps, leap.days) == ((0, 365, 731), (-1, 0, -1), 366)


@pytest.mark.parametrize(
    ("planned", "offset", "places"),
    [
        (COMMON, 0, [0, 365, 731]),
        (COMMON, 58, [58, 423, 789]),  # 28 February
        (COMMON, 59, [59, 425, 790]),  # 1 March
        (COMMON, 364, [364, 730, 1095]),
        (LEAP, 58, [58, 423, 789]),
        (LEAP, 59, [59, 424, 790]),  # 29 February, of common years the day after the 28th
        (LEAP, 60, [59, 425, 790]),
        (LEAP, 365, [364, 730, 1095]),
    ],
)
def test_a_day_is_found_in_each_of_them(
    planned: GrowingYear, offset: int, places: list[int]
) -> None:
    assert years(planned).indices(offset) == places


def test_the_leap_day_is_in_february_of_the_second_half_in_the_south() -> None:
    # 1 July 2023 to 30 June 2024 has one; 1 March is day 243 of a year without
    south = GrowingYear(2026, south=True)
    found = Years(date(2022, 7, 1), (2022, 2023), south)
    assert (found.bases, found.leaps) == ((0, 365), (0, 1))
    assert found.indices(242) == [242, 607]
    assert found.indices(243) == [243, 609]


@pytest.mark.parametrize("planned", [COMMON, LEAP])
@pytest.mark.parametrize("number", [0, 1, 2])
def test_a_year_is_read_day_by_day(planned: GrowingYear, number: int) -> None:
    found, readings = years(planned), [float(day) for day in range(1096)]
    expected = [found.indices(day)[number] for day in range(found.days)]
    assert found.of_year(number, readings) == expected
    # Figures of its own days, and some to spare, are laid under the planned ones alike
    own = list(range(found.bases[number], found.bases[number] + 367))
    assert found.laid_under(found.leaps[number], own) == expected


def test_beyond_the_record_nothing_is_known() -> None:
    found = years().of_year(2, [1.0] * 900)
    assert [isnan(each) for each in found] == [False] * 169 + [True] * 196
    late = years(first=date(2023, 3, 5)).of_year(0, [1.0] * 900)  # 63 days into the year
    assert [isnan(each) for each in late] == [True] * 63 + [False] * 302
    whole = years().of_year(2, [1.0] * 1096)
    assert not any(map(isnan, whole))
    assert isnan(years().of_year(2, [1.0] * 1095)[-1])


def test_light_is_laid_along_the_record() -> None:
    light = [1.0] * 200 + [round(0.9 - day / 1000, 3) for day in range(165)]
    found = years().light_of(light, 1100)
    assert len(found) == 1100
    for number in range(3):
        for day in (200, 364):
            assert found[years().indices(day)[number]] == light[day]
    assert set(found[1096:]) == {1.0}  # after the years it is not told
    cut = years(first=date(2023, 8, 1)).light_of(light, 700)  # 212 days into the year
    assert cut[0] == light[212]
    assert len(cut) == 700


def test_years_that_follow_the_planned_calendar_have_no_leap_days() -> None:
    found = Years.laid_out((10, 400), (2023, 2024), COMMON)
    assert found.midsummers == (191, 581)
    assert found.indices(59) == [69, 459]
    assert found.seasons == (2023, 2024)


def test_the_hot_weeks_of_a_year_are_from_its_first_to_its_last_hot_day() -> None:
    means = [20.0] * 1100
    for day in (150, 170, 240, 365 + 160, 731 + 364):
        means[day] = 25.0
    # A day before the first year and behind the last are of no year; at the limit it is not hot.
    means[200] = 24.0
    spans = hot_spans(means, years(), 24.0)
    assert spans == ((150, 241), (525, 526), (1095, 1096))
    assert hot_spans(means, years(), 25.0) == (None, None, None)


def test_a_centred_mean_is_of_a_week_on_both_sides() -> None:
    means = [10.0] * 40
    means[20] = 25.0
    found = centred_means(means)
    # 15 degrees more on one of 15 days are one degree more from a week before to a week after
    assert [round(each, 6) for each in found[12:29]] == [10.0, *([11.0] * 15), 10.0]
    assert len(found) == 40 - 7
