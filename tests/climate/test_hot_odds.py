"""How sure the hot weeks are: their days over the years, by hand and on real records."""

from __future__ import annotations

import json
from array import array
from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

import gardens
import replayed
from printed import frost_json, frost_text
from sowtide.climate.warmth.hot_odds import HotOdds, hot_odds
from sowtide.season import Place
from sowtide.units import celsius

FIRST = date(2026, 1, 1)


def test_days_of_years_as_numpy_has_them() -> None:
    spans = [(150, 240), (160, 250), (155, 235), None, (170, 245)]
    found = hot_odds(spans, FIRST)
    begins, ends = [150.0, 155, 160, 170, np.inf], [239.0, 249, 234, -np.inf, 244]
    assert (found.with_any, found.years) == (4, 5)
    for share, begin, over in zip((0.1, 0.5, 0.9), found.begin, found.over, strict=True):
        wanted = np.quantile(begins, share, method="lower" if share > 0.8 else "linear")
        if share > 0.8:  # between a day and never it is never
            assert begin is None
        else:
            assert begin == FIRST + timedelta(int(wanted + 0.5))
        if share > 0.8:
            assert over is None
        else:
            assert over == FIRST + timedelta(int(np.quantile(ends, 1 - share) + 0.5))


def test_a_place_without_them() -> None:
    assert hot_odds([None, None], FIRST) == HotOdds((None,) * 3, (None,) * 3, 0, 2)


def place(name: str, **more: str) -> Place:
    on = replayed.season(replayed.record(name), latitude=replayed.LATITUDES[name], **more)
    return Place(on.garden, on.climate)


def hot_by_year(years: range) -> tuple[list[int], list[int]]:
    """The first and the last day of each year at Clemson whose 15-day mean is over 75 °F.

    Counted with numpy, in days from the first of January of a common year.
    """
    kept = replayed.record("clemson")
    assert kept.tmax is not None
    means = (np.array(kept.tmin) + np.array(kept.tmax)) / 2
    begins, ends = [], []
    for year in years:
        at = (date(year, 1, 1) - kept.first).days
        over = [
            day
            for day in range(366)
            if np.isnan(around := means[at + day - 7 : at + day + 8]).sum() <= 4
            and np.nanmean(around) > celsius(75) + 1e-6
        ]
        leap = year % 4 == 0  # 2026 is none: days behind February are one earlier in it
        begins.append(over[0] - leap)
        ends.append(over[-1] - leap)
    return begins, ends


def test_clemsons_hot_weeks_year_by_year() -> None:
    """Independently in numpy, from the first to the last day whose 15-day mean is over 75 °F."""
    begins, ends = hot_by_year(range(1951, 1981))
    found = place("clemson", years="1951-1980").climate.weather.hot_odds
    assert found is not None
    assert (found.with_any, found.years) == (30, 30)
    for share, begin, over in zip((0.1, 0.5, 0.9), found.begin, found.over, strict=True):
        assert begin is not None
        assert over is not None
        assert abs((begin - FIRST).days - np.quantile(begins, share)) <= 1.5
        assert abs((over - FIRST).days - np.quantile(ends, 1 - share)) <= 1.5


def test_the_usual_hot_weeks_go_from_the_middle_first_day_to_the_middle_last() -> None:
    """Of 29 years at Clemson, by numpy: the fifteenth of their days in order."""
    begins, ends = hot_by_year(range(1951, 1980))
    hot = place("clemson", years="1951-1979").climate.weather.hot_weeks
    assert hot is not None
    assert (hot.last - FIRST).days == sorted(ends)[14]
    # The days of a leap year are matched to those of the year planned one by one: give or take one.
    assert abs((hot.first - FIRST).days - sorted(begins)[14]) <= 1


def test_years_without_readings_of_the_summer_tell_of_no_heat_and_of_no_lack_of_it() -> None:
    """Twenty years at Clemson, each with hot weeks; ten of them lose their summer's maxima."""
    kept = replayed.record("clemson")
    assert kept.tmax is not None
    highs = kept.tmax[:]
    for year in range(1951, 1961):
        first = (date(year, 5, 15) - kept.first).days
        highs[first : first + 130] = array("d", [float("nan")]) * 130
    on = replayed.season(replace(kept, tmax=highs), latitude=34.7, years="1951-1970")
    found = on.climate.weather.hot_odds
    assert found is not None
    assert (found.with_any, found.years) == (10, 10)
    assert on.climate.weather.hot_weeks is not None


def page(of: Place) -> str:
    return " ".join(" ".join(frost_text(of, width=80)).split())


def test_the_page_says_them() -> None:
    text = page(place("clemson"))
    assert (
        "HOT WEEKS: 15 days with a mean over 75 °F, too hot for most cool-season crops. In " in text
    )
    assert "They begin before " in text
    assert " in 10 years of 100, " in text
    found = json.loads(frost_json(place("clemson")))["hot_weeks"]
    assert found["begin"]["10"] < found["begin"]["50"] < found["begin"]["90"]
    assert found["over"]["10"] > found["over"]["50"] > found["over"]["90"]


@pytest.mark.parametrize("name", ["seattle", "wageningen", "fulda"])
def test_a_cool_place_says_that_it_has_none(name: str) -> None:
    """Seattle and Wageningen have no hot weeks."""
    text = page(place(name))
    found = place(name).climate.weather.hot_odds
    assert found is not None
    if name == "fulda":  # one of its ten summers may have some
        assert found.with_any <= 1
    else:
        assert f"None in {found.years} years." in text


def test_without_a_record_there_are_the_weeks_that_were_written() -> None:
    garden = gardens.read(gardens.text(too_hot="07-01..08-10"))
    on = gardens.season(gardens.text(too_hot="07-01..08-10"))
    text = page(Place(garden, on.climate))
    assert "As you wrote them: 1 Jul – 10 Aug." in text
    unknown = gardens.season(gardens.text())
    assert "HOT WEEKS" not in page(Place(unknown.garden, unknown.climate))
    assert json.loads(frost_json(Place(unknown.garden, unknown.climate)))["hot_weeks"] is None
