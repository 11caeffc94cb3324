"""The usual maximum of a day: counted from a record by numpy, and from monthly means by hand."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

import gardens
import replayed
from sowtide.schedule.season import Season

HIGHS = (5, 6, 10, 15, 20, 26, 34, 30, 24, 18, 11, 6)


def site(frost: str, **more: str) -> Season:
    return gardens.season(gardens.text(frost=frost, **more))


@pytest.mark.parametrize("day", [date(2026, 1, 3), date(2026, 7, 16), date(2026, 10, 30)])
def test_clemsons_days_equal_an_independent_mean(day: date) -> None:
    record = replayed.record("clemson")
    season = replayed.season(record, latitude=34.7, crops=())
    found = season.climate.weather.usual_high(day)
    used = replayed.years("clemson").seasons
    highs = np.array(record.tmax)
    means = []
    for year in used:
        at = (date(year, day.month, day.day) - record.first).days
        means += [highs[max(at - 5, 0) : at + 6]]
    assert found == pytest.approx(np.nanmean(np.concatenate(means)), abs=0.02)
    again = season.climate.weather.usual_high(day.replace(year=2031))
    assert again == pytest.approx(found, abs=0.3)  # of any year


def test_months_keep_their_mean_maximum() -> None:
    frost = f"{{last: 05-10, first: 10-01, normals: {{max: {list(HIGHS)}, min: {[1] * 12}}}}}"
    weather = site(frost).climate.weather
    for month, mean in enumerate(HIGHS, start=1):
        days = [date(2026, month, 1) + timedelta(days=number) for number in range(28)]
        found = [weather.usual_high(day) for day in days]
        assert np.mean([each for each in found if each is not None]) == pytest.approx(mean, abs=0.7)


def test_nothing_is_said_of_a_place_whose_maxima_nobody_knows() -> None:
    frost = "{last: 05-10, first: 10-01}"
    assert site(frost).climate.weather.usual_high(date(2026, 7, 1)) is None
    two = site(frost, warmest_month="24", coldest_month="-5")
    assert two.climate.weather.usual_high(date(2026, 7, 1)) is None
