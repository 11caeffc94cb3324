"""The average of recorded years, day by day, where some or all of them lack a reading."""

from __future__ import annotations

from math import isnan, nan

import pytest

from made_years import FIRST, SEASONS, YEAR
from sowtide.climate.average.average_year import average_year
from sowtide.climate.warmth import Years


def test_a_day_is_the_mean_of_the_years_that_have_it() -> None:
    years = Years(FIRST, SEASONS, YEAR)
    ground, nights = [8.0] * 4800, [2.0] * 4800
    first, second, third = 40, 41, 42
    for number, at in enumerate(years.indices(first)):
        ground[at] = float(number)  # 0 to 11: a mean of 5.5
    for number, at in enumerate(years.indices(second)):
        ground[at] = 3.0 if number == 4 else nan  # one year alone has it
    for at in years.indices(third):
        ground[at] = nan
    found = average_year(ground, nights, years, YEAR)
    assert found.ground[first - 1] == 8.0
    assert found.ground[first] == pytest.approx(5.5)
    assert found.ground[second] == 3.0
    assert isnan(found.ground[third])
    assert found.ground[third + 1] == 8.0
    assert len(found.ground) == 365


def test_no_year_is_no_average() -> None:
    found = average_year([1.0] * 4800, [1.0] * 4800, Years(FIRST, (), YEAR), YEAR)
    assert len(found.ground) == 365
    assert all(map(isnan, found.ground))
