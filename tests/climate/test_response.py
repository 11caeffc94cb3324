"""Growth by temperature: hand-computed days, an independent sum over the day, published seasons."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from math import ceil, nan
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import replayed
from sowtide.climate.answers import Response, Warmth
from sowtide.climate.warmth.gathered import Gathered, totals_of
from sowtide.climate.warmth.response import rate_of
from sowtide.garden.crop import HeatMethod, Raised
from sowtide.garden.library import builtin as library
from sowtide.schedule.waves.demands import need_of
from sowtide.units import celsius

BEAN = Response(5, 24, 31, 44, 20, light=0.0)
COUNTING = Path(__file__).parents[2] / "docs" / "counting.md"


def warmth_of(name: str) -> Warmth:
    crop = replayed.crop(name)
    raised = Raised.TRAYS if crop.raised is Raised.TRAYS else Raised.DIRECT
    found = need_of(crop, raised, colder_by=0).warmth
    assert found is not None
    return found


def days_of_growth(low: list[float], high: list[float], response: Response) -> list[float]:
    """Return the days of good growth gathered before each day in full light. [days]"""
    warmth = replace(warmth_of("bush bean"), response=response)
    return Gathered(low, high).of(warmth)


@pytest.mark.parametrize(
    ("low", "high", "rate"),
    [
        (0, 5, 0),
        (14.5, 14.5, 0.5),  # half way from 5 to 24
        (10, 19, 0.5),  # its mean, since all of it lies on one line
        (24, 31, 1),
        (37.5, 37.5, 0.5),  # half way from 31 to 44
        (33, 42, 0.5),
        (44, 60, 0),
        # half of a sine from 0 to 10 lies over 5: its mean there is 5 / π, of 19
        (0, 10, 5 / np.pi / 19),
    ],
)
def test_rates_by_hand(low: float, high: float, rate: float) -> None:
    assert rate_of(low, high, BEAN) == pytest.approx(rate)


@given(
    st.floats(-20, 45),
    st.floats(0, 25),
    st.sampled_from(["bush bean", "cabbage", "tomato", "pepper", "okra", "broad bean", "potato"]),
)
def test_a_day_is_that_of_an_independent_sum_over_its_minutes(
    low: float, swing: float, name: str
) -> None:
    warmth = warmth_of(name)
    assert warmth.response is not None
    expected = replayed.grown(np.array([low]), np.array([low + swing]), warmth, np.ones(1))[0]
    (_, brought) = days_of_growth([low], [low + swing], warmth.response)
    assert brought == pytest.approx(expected, abs=2e-4)


def test_a_day_without_readings_brings_nothing() -> None:
    gathered = Gathered([10, nan, 10], [20, 20, 20]).of(warmth_of("bush bean"))
    assert gathered[1] == gathered[2] < gathered[3]


@pytest.mark.parametrize("low", [10, nan])
@pytest.mark.parametrize("high", [20, nan])
@pytest.mark.parametrize("method", HeatMethod)
def test_a_day_of_which_either_reading_lacks_brings_nothing(
    low: float, high: float, method: HeatMethod
) -> None:
    by_degrees = Warmth(
        base=5.0, upper=30.0, method=method, low=100.0, high=100.0, parts=1, least=1
    )
    lacks = low != low or high != high
    for warmth in (warmth_of("bush bean"), by_degrees):
        gathered = Gathered([10, low, 10], [20, high, 20]).of(warmth)
        assert (gathered[1] == gathered[2]) is lacks
        assert gathered[2] < gathered[3]


@pytest.mark.parametrize("name", library.names())
def test_the_packet_is_right_in_good_weather_and_nothing_rushes(name: str) -> None:
    warmth = warmth_of(name)
    response = warmth.response
    assert response is not None
    assert response.base < response.best_from <= response.best_to < response.ceiling
    rated = response.rated

    def days(mean: float, total: float) -> int:
        gathered = days_of_growth([mean - 5] * 900, [mean + 5] * 900, response)
        return int(np.searchsorted(gathered, total - 1e-9))

    for total in (totals_of(warmth)[0], totals_of(warmth)[-1]):
        assert days(rated, total) == total
        for mean in range(2, 36):
            assert days(mean, total) >= 0.85 * total - 1e-9
        taken = [days(rated - below, total) for below in (8, 6, 4, 2, 0)]
        assert taken == sorted(taken, reverse=True)
        assert all(slower > faster for slower, faster in pairwise(taken) if total > 20)


def test_both_ends_of_a_range_stay_apart_in_the_best_weather() -> None:
    # Cabbage of 55 to 70 days: 0.85 of each is 46.75 and 59.5
    warmth = warmth_of("cabbage")
    assert warmth.response is not None
    gathered = days_of_growth([18] * 100, [24] * 100, warmth.response)
    ends = [int(np.searchsorted(gathered, end - 1e-9)) for end in (warmth.low, warmth.high)]
    assert ends == [ceil(0.85 * warmth.low), ceil(0.85 * warmth.high)]


def test_beans_of_fifty_days_where_summers_are_cool_and_hot() -> None:
    """DSSAT's curve of bean, on days like those of 16.5 and 30 °C.

    Straight heat above 10 °C takes 77 and 25 days. Corvallis, Oregon, 1961 to 1968, read in an
    abstract: 64 to 84 days from planting to harvest, and from 800 to 1,160 °F-days.
    """
    cool = days_of_growth([11.5] * 90, [21.5] * 90, BEAN)
    hot = days_of_growth([25] * 90, [35] * 90, BEAN)
    assert int(np.searchsorted(cool, 50)) == 65
    assert int(np.searchsorted(hot, 50 - 1e-9)) == 43


def test_the_picture_of_numbers_is_what_the_curves_give() -> None:
    rows = re.findall(
        r"^  \| (\d+) °F, (\d+) °C \| (\d+) \((\w+)\) \| (\d+) \((\w+)\) \| (\d+) \((\w+)\) \|$",
        COUNTING.read_text(encoding="utf-8"),
        re.MULTILINE,
    )
    assert len(rows) == 11
    crops = [
        (warmth_of(name), base)
        for name, base in (("bush bean", 50), ("cabbage", 40), ("tomato", 50))
    ]
    for fahrenheit, degrees, *told in rows:
        mean = celsius(float(fahrenheit))
        assert round(mean) == int(degrees)
        for (warmth, base), days, straight in zip(crops, told[::2], told[1::2], strict=True):
            assert warmth.response is not None
            brought = replayed.grown(
                np.array([mean - 5]), np.array([mean + 5]), warmth, np.ones(1)
            )[0]
            assert int(days) == ceil(50 / brought - 1e-6)
            above = mean - celsius(base)
            a_day = above / (warmth.response.rated - celsius(base))
            assert straight == (str(ceil(50 / a_day - 1e-9)) if above > 0.01 else "never")
