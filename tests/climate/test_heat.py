"""Degree-days against published examples, numerical integration and a library that counts them."""

from __future__ import annotations

from bisect import bisect_left
from datetime import date, timedelta
from functools import partial
from math import nan

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from nonlineartemppy import degree_days

from sowtide.climate.warmth.heat import accumulated, missing_before
from sowtide.garden.crop import HeatMethod
from sowtide.units import celsius

STEADY = settings(deadline=None, derandomize=True, database=None, max_examples=200)
EVERY_METHOD = pytest.mark.parametrize("method", HeatMethod)

degrees = st.floats(-60, 60)
days = st.tuples(degrees, degrees).map(sorted)
uppers = st.none() | st.floats(10.5, 45)


def _day(
    method: HeatMethod, tmin: float, tmax: float, *, base: float, upper: float | None = None
) -> float:
    """Count one day. [°C·d]"""
    before, after = accumulated([tmin], [tmax], base=base, upper=upper, method=method)
    assert before == 0
    return after


def _fahrenheit(
    method: HeatMethod, *, tmax: float, tmin: float, base: float, upper: float | None
) -> float:
    """Count a day given in °F. [°F·d]"""
    limit = None if upper is None else celsius(upper)
    found = _day(method, celsius(tmin), celsius(tmax), base=celsius(base), upper=limit)
    return found * 9 / 5


# Published examples


@pytest.mark.parametrize(
    ("tmax", "tmin", "expected"), [(90, 65, 25.5), (72, 46, 11), (63, 42, 6.5)]
)
def test_a_newspapers_days_of_corn(tmax: float, tmin: float, expected: float) -> None:
    """Waushara Argus, 25 April 2018: the 86/50 method explained on three days."""
    found = _fahrenheit(HeatMethod.CLIP, tmax=tmax, tmin=tmin, base=50, upper=86)
    assert found == pytest.approx(expected)


def test_the_three_days_of_corn_add_up_to_43() -> None:
    """The same: 25.5 + 11 + 6.5 = 43 °F·d."""
    totals = accumulated(
        [celsius(f) for f in (65, 46, 42)],
        [celsius(f) for f in (90, 72, 63)],
        base=celsius(50),
        upper=celsius(86),
        method=HeatMethod.CLIP,
    )
    assert [total * 9 / 5 for total in totals] == pytest.approx([0, 25.5, 36.5, 43])


@EVERY_METHOD
def test_a_mean_of_64_over_a_base_of_53(method: HeatMethod) -> None:
    """University of California, Statewide IPM Program, degree-day concepts: 64 − 53 = 11 °F·d."""
    assert _fahrenheit(method, tmax=74, tmin=54, base=53, upper=None) == pytest.approx(11)


@EVERY_METHOD
def test_peas_sown_on_1_may_are_ready_on_20_july(method: HeatMethod) -> None:
    """Vermont State Colleges, Meteorology 130, chapter 3: question; the answer counted here.

    1,200 °F·d over 55 °F, mean maximum 80 °F and minimum 60 °F: 15 a day, so 80 days, the last of
    them 19 July; the first pick is the day after.
    """
    start, long = date(2026, 5, 1), 120
    lows, highs = [celsius(60)] * long, [celsius(80)] * long
    totals = accumulated(lows, highs, base=celsius(55), upper=None, method=method)
    reached = bisect_left(totals, 1200 * 5 / 9 - 1e-9)
    assert reached == 80
    assert start + timedelta(days=reached) == date(2026, 7, 20)


# Vectors counted by hand; the single sine's checked against numerical integration as well


@pytest.mark.parametrize(
    ("tmax", "tmin", "upper", "average", "clip", "sine"),
    [
        (80, 40, None, 10, 15, 12.1800),
        (60, 40, 86, 0, 5, 3.1831),  # 10 °F over half of a sine: 10/π
        (55, 30, 86, 0, 2.5, 0.9693),
        (48, 30, 86, 0, 0, 0),
        (70, 50, 86, 10, 10, 10),
        (90, 65, 86, 27.5, 25.5, 26.8095),
        (72, 46, 86, 9, 11, 9.6767),
        (63, 42, 86, 2.5, 6.5, 4.6874),
        (95, 60, 86, 27.5, 23, 25.5086),
        (100, 88, 86, 36, 36, 36),  # never under the upper limit
    ],
)
def test_days_over_50_fahrenheit(
    tmax: float, tmin: float, upper: float | None, average: float, clip: float, sine: float
) -> None:
    expected = {HeatMethod.AVERAGE: average, HeatMethod.CLIP: clip, HeatMethod.SINE: sine}
    for method, degree_days_f in expected.items():
        found = _fahrenheit(method, tmax=tmax, tmin=tmin, base=50, upper=upper)
        assert found == pytest.approx(degree_days_f, abs=5e-5), method


@pytest.mark.parametrize(
    ("tmin", "tmax", "average", "clip", "sine"),
    [
        (5, 25, 5.0, 7.5, 6.0900),
        (15, 35, 15.0, 12.5, 13.9100),
        (5, 9, 0, 0, 0),
        (0, 20, 0, 5.0, 3.1831),
        (5, 30, 7.5, 10, 8.4693),
        (2, 12, 0, 1, 0.3877),
        (31, 39, 20, 20, 20),  # a mean of 35 counts as 30
    ],
)
def test_days_between_10_and_30_celsius(
    tmin: float, tmax: float, average: float, clip: float, sine: float
) -> None:
    assert _day(HeatMethod.AVERAGE, tmin, tmax, base=10, upper=30) == pytest.approx(average)
    assert _day(HeatMethod.CLIP, tmin, tmax, base=10, upper=30) == pytest.approx(clip)
    assert _day(HeatMethod.SINE, tmin, tmax, base=10, upper=30) == pytest.approx(sine, abs=5e-5)


# Other reckonings of the same


@pytest.fixture(scope="module")
def weather() -> tuple[np.ndarray, np.ndarray]:
    """Two thousand days from hard frost to great heat, some without any swing."""
    random = np.random.default_rng(1969)
    middle, swing = random.uniform(-15, 40, 2000), random.uniform(0, 25, 2000).round(1)
    swing[::50] = 0
    return middle - swing / 2, middle + swing / 2


def test_the_sine_is_that_of_another_library(weather: tuple[np.ndarray, np.ndarray]) -> None:
    """Nonlineartemppy counts the area over one threshold; it rounds to five decimals."""
    tmin, tmax = weather
    table = pd.DataFrame({"date": range(len(tmin)), "tmin": tmin, "tmax": tmax})
    found = degree_days(table, [5, 10, 30])
    over_base = [
        _day(HeatMethod.SINE, low, high, base=10.0) for low, high in zip(tmin, tmax, strict=True)
    ]
    assert np.abs(over_base - found.dday10C).max() < 6e-6
    between = [
        _day(HeatMethod.SINE, low, high, base=5.0, upper=30.0)
        for low, high in zip(tmin, tmax, strict=True)
    ]
    assert np.abs(between - (found.dday5C - found.dday30C)).max() < 1.2e-5


def test_the_sine_is_the_mean_of_a_sine_kept_between_the_limits(
    weather: tuple[np.ndarray, np.ndarray],
) -> None:
    """With the horizontal cut-off, from ten thousand moments of each day."""
    moments = np.sin((np.arange(10_000) + 0.5) / 10_000 * 2 * np.pi)
    for low, high in list(zip(*weather, strict=True))[:200]:
        course = (low + high) / 2 + (high - low) / 2 * moments
        expected = (np.clip(course, 10, 30) - 10).mean()
        assert _day(HeatMethod.SINE, low, high, base=10.0, upper=30.0) == pytest.approx(
            expected, abs=1e-5
        )


@EVERY_METHOD
def test_totals_are_sums_of_days(
    method: HeatMethod, weather: tuple[np.ndarray, np.ndarray]
) -> None:
    tmin, tmax = (each.tolist() for each in weather)
    totals = accumulated(tmin, tmax, base=8.0, upper=28.0, method=method)
    assert isinstance(totals, list)
    heat = [
        _day(method, low, high, base=8.0, upper=28.0) for low, high in zip(tmin, tmax, strict=True)
    ]
    assert np.allclose(totals, [0.0, *np.cumsum(heat)], rtol=0, atol=1e-8)


def test_totals_by_numpy(weather: tuple[np.ndarray, np.ndarray]) -> None:
    tmin, tmax = weather
    clip = (np.clip(tmin, 8, 28) + np.clip(tmax, 8, 28)) / 2 - 8
    average = np.clip((tmin + tmax) / 2, 8, 28) - 8
    for method, heat in ((HeatMethod.CLIP, clip), (HeatMethod.AVERAGE, average)):
        totals = accumulated(tmin.tolist(), tmax.tolist(), base=8.0, upper=28.0, method=method)
        assert np.allclose(totals, [0.0, *np.cumsum(heat)], rtol=0, atol=1e-8), method


# What must hold for every day


@STEADY
@given(day=days, upper=uppers, warmer=st.floats(0, 30), method=st.sampled_from(HeatMethod))
def test_more_warmth_never_gives_fewer_degree_days(
    day: list[float], upper: float | None, warmer: float, method: HeatMethod
) -> None:
    tmin, tmax = day
    a_day = partial(_day, method)
    least = a_day(tmin, tmax, base=10.0, upper=upper) - 1e-9
    assert a_day(tmin, tmax + warmer, base=10.0, upper=upper) >= least
    assert a_day(min(tmin + warmer, tmax), tmax, base=10.0, upper=upper) >= least


@STEADY
@given(day=days, upper=uppers, method=st.sampled_from(HeatMethod))
def test_a_day_counts_between_nothing_and_the_whole_way_to_the_upper_limit(
    day: list[float], upper: float | None, method: HeatMethod
) -> None:
    tmin, tmax = day
    found = _day(method, tmin, tmax, base=10.0, upper=upper)
    assert 0 <= found <= (60 if upper is None else upper) - 10 + 1e-9
    if tmin >= 10 and (upper is None or tmax <= upper):
        assert found == pytest.approx((tmin + tmax) / 2 - 10, abs=1e-9)


@STEADY
@given(day=days)
def test_the_sine_lies_between_the_average_and_the_clipped(day: list[float]) -> None:
    """Without an upper limit: the mean of a convex curve, at its middle, along it, at its ends."""
    tmin, tmax = day
    average, sine, clip = (
        _day(method, tmin, tmax, base=10.0)
        for method in (HeatMethod.AVERAGE, HeatMethod.SINE, HeatMethod.CLIP)
    )
    assert average - 1e-9 <= sine <= clip + 1e-9


@STEADY
@given(threshold=st.floats(-60, 60), step=st.sampled_from((1, -1)))
def test_the_sine_stands_a_threshold_at_the_very_end_of_its_swing(
    threshold: float, step: int
) -> None:
    """Where rounding would take an arc cosine out of its range."""
    edge = float(np.nextafter(threshold, threshold + step))
    assert _day(HeatMethod.SINE, min(edge, -70.0), edge, base=threshold) == pytest.approx(
        0, abs=1e-9
    )
    warm = _day(HeatMethod.SINE, edge, 80.0, base=threshold)
    assert warm == pytest.approx((80 + edge) / 2 - threshold, abs=1e-6)


# Days without a temperature


@EVERY_METHOD
@pytest.mark.parametrize("gap", [(nan, 25.0), (15.0, nan), (nan, nan), (nan, 4.0), (35.0, nan)])
def test_a_missing_day_adds_nothing_and_is_counted(
    method: HeatMethod, gap: tuple[float, float]
) -> None:
    tmin, tmax = [12.0, gap[0], 12.0], [20.0, gap[1], 22.0]
    totals = accumulated(tmin, tmax, base=10.0, upper=30.0, method=method)
    assert totals == [0.0, 6.0, 6.0, 13.0]
    assert missing_before(tmin, tmax).tolist() == [0, 0, 1, 1]


@EVERY_METHOD
def test_no_days_give_a_total_of_nothing(method: HeatMethod) -> None:
    assert accumulated([], [], base=10.0, upper=None, method=method) == [0.0]
    assert missing_before([], []).tolist() == [0]


# What cannot be


@pytest.mark.parametrize("upper", [10.0, 9.0])
def test_the_upper_limit_must_be_over_the_base(upper: float) -> None:
    message = "is not above the base"
    for method in HeatMethod:
        with pytest.raises(ValueError, match=message):
            accumulated([5.0], [15.0], base=10.0, upper=upper, method=method)


@EVERY_METHOD
def test_as_many_minima_as_maxima(method: HeatMethod) -> None:
    with pytest.raises(ValueError, match="shorter"):
        accumulated([5.0, 6.0], [15.0], base=10.0, upper=None, method=method)
    with pytest.raises(ValueError, match="shorter"):
        missing_before([5.0, 6.0], [15.0])
