"""A smooth year from twelve monthly means."""

from __future__ import annotations

from datetime import date, timedelta
from math import cos, pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sowtide.climate.average.smooth_year import DAYS, days_of, smooth_year
from sowtide.days import DateSpan, GrowingYear

STEADY = settings(deadline=None, derandomize=True, database=None, max_examples=200)

MONTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
MONTH_OF = np.repeat(np.arange(12), MONTHS)
NORTH = (2.0, 3.0, 7.0, 12.0, 17.0, 22.0, 25.0, 24.0, 19.0, 13.0, 8.0, 3.0)
SOUTH = NORTH[6:] + NORTH[:6]

twelve = st.lists(st.floats(-40, 50), min_size=12, max_size=12)


def _monthly(year: np.ndarray) -> np.ndarray:
    return np.bincount(MONTH_OF, weights=year) / MONTHS


@STEADY
@given(means=twelve)
def test_every_month_keeps_its_mean(means: list[float]) -> None:
    year = smooth_year(means)
    assert len(year) == DAYS
    assert np.abs(_monthly(np.array(year)) - means).max() < 1e-9


def test_a_year_without_seasons_is_flat() -> None:
    assert np.abs(np.array(smooth_year([14.0] * 12)) - 14).max() < 1e-9


@pytest.mark.parametrize("coldest", [15, 196])
def test_a_cosines_monthly_means_give_the_cosine(coldest: int) -> None:
    """The course of a year, north and south: 10 °C with a swing of 12 °C to either side."""
    cosine = np.array([10 - 12 * cos(2 * pi * (day - coldest) / DAYS) for day in range(DAYS)])
    off = np.abs(np.array(smooth_year(_monthly(cosine))) - cosine)
    assert off.max() < 0.05
    steps = np.array(smooth_year(_monthly(cosine)))[[*range(DAYS), 0]]
    assert np.abs(np.diff(steps)).max() < 12 * 2 * pi / DAYS + 0.01  # none but the cosine's own


@pytest.mark.parametrize("means", [NORTH, SOUTH])
def test_the_year_closes_over_new_year(means: tuple[float, ...]) -> None:
    """The step from 31 December to 1 January lies between those on either side of it."""
    year = smooth_year(means)
    before, over, after = year[364] - year[363], year[0] - year[364], year[1] - year[0]
    assert min(before, after) - 1e-9 <= over <= max(before, after) + 1e-9


@STEADY
@given(means=twelve, months=st.integers(0, 11))
def test_a_year_turned_by_some_months_is_the_same_year(means: list[float], months: int) -> None:
    """But for the lengths of the months: at their middles, within a tenth of their spread."""
    turned = means[months:] + means[:months]
    starts = np.cumsum([0, *MONTHS[:-1]])
    first = [smooth_year(means)[starts[(m + months) % 12] + 14] for m in range(12)]
    second = [smooth_year(turned)[starts[m] + 14] for m in range(12)]
    spread = max(means) - min(means)
    assert np.abs(np.subtract(first, second)).max() <= 0.1 * spread + 1e-9


@STEADY
@given(means=twelve)
def test_no_day_lies_far_outside_of_the_means(means: list[float]) -> None:
    """The worst that twelve means can do is 0.373 of their spread; see the next test for real."""
    year = smooth_year(means)
    most = 0.374 * (max(means) - min(means)) + 1e-9
    assert min(means) - most <= min(year)
    assert max(year) <= max(means) + most


def test_the_worst_that_any_means_can_do() -> None:
    """The year is linear in the means: the weights under zero, summed, are the worst overshoot."""
    each = np.array([smooth_year([float(m == at) for m in range(12)]) for at in range(12)])
    assert np.abs(each.sum(axis=0) - 1).max() < 1e-12
    assert -np.minimum(each, 0).sum(axis=0).min() == pytest.approx(0.373, abs=5e-4)


@pytest.mark.parametrize("means", [NORTH, SOUTH])
def test_a_real_years_warmest_day_is_hardly_warmer_than_its_warmest_month(
    means: tuple[float, ...],
) -> None:
    year = smooth_year(means)
    assert 25 < max(year) < 25.5
    assert 1.5 < min(year) < 2


def test_ten_degrees_more_in_every_month_are_ten_more_on_every_day() -> None:
    maxima, minima = smooth_year([each + 10 for each in NORTH]), smooth_year(NORTH)
    assert np.abs(np.subtract(maxima, minima) - 10).max() < 1e-9


# Laid along real days

COUNTING = tuple(float(day) for day in range(1, DAYS + 1))  # the day of a common year as its value


def test_a_common_year_is_the_smooth_year_itself() -> None:
    year = GrowingYear(2026, south=False)
    assert days_of(COUNTING, DateSpan(year.first, year.last)).tolist() == list(COUNTING)


def test_29_february_lies_between_its_neighbours() -> None:
    around = days_of(COUNTING, DateSpan(date(2028, 2, 27), date(2028, 3, 2)))
    assert around.tolist() == [58, 59, 59.5, 60, 61]


def test_a_southern_growing_year_runs_over_new_year() -> None:
    year = GrowingYear(2027, south=True)  # to 30 June 2028, a leap year
    found = days_of(COUNTING, DateSpan(year.first, year.last))
    assert len(found) == 366
    assert (found[0], found[183], found[184], found[-1]) == (182, 365, 1, 181)


@STEADY
@given(
    first=st.dates(date(1999, 1, 1), date(2030, 12, 31)),
    length=st.integers(1, 1200),
)
def test_every_day_has_its_own_value(first: date, length: int) -> None:
    found = days_of(COUNTING, DateSpan(first, first + timedelta(days=length - 1)))
    assert len(found) == length
    for number, each in enumerate(found):
        day = first + timedelta(days=number)
        if (day.month, day.day) == (2, 29):
            assert each == 59.5
        else:
            assert each == day.replace(year=2026).timetuple().tm_yday


@pytest.mark.parametrize("count", [0, 11, 13])
def test_twelve_means_it_must_be(count: int) -> None:
    with pytest.raises(ValueError, match=f"{count} monthly means"):
        smooth_year([1.0] * count)


@pytest.mark.parametrize("count", [364, 366])
def test_a_smooth_year_has_365_days(count: int) -> None:
    with pytest.raises(ValueError, match=f"{count} days"):
        days_of([1.0] * count, DateSpan(date(2026, 1, 1), date(2026, 1, 2)))
