"""Means over the last days."""

from __future__ import annotations

from math import isnan, nan

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sowtide.climate.warmth.running import running_mean

STEADY = settings(deadline=None, derandomize=True, database=None, max_examples=200)


def _same(found: list[float], expected: list[float]) -> bool:
    return np.allclose(found, expected, rtol=0, atol=1e-9, equal_nan=True)


def test_the_mean_of_a_day_and_those_before_it() -> None:
    # (1 + 2 + 6) / 3 = 3, (2 + 6 + 10) / 3 = 6; the first two days have not three behind them
    assert _same(list(running_mean([1.0, 2.0, 6.0, 10.0], 3, missing=0)), [nan, nan, 3, 6])


def test_a_mean_over_one_day_is_the_day() -> None:
    assert _same(list(running_mean([1.0, nan, 6.0], 1, missing=0.5)), [1, nan, 6])


def test_as_many_may_be_missing_as_stated() -> None:
    # two of five: 0.4; the first day has four missing before it, the third two
    values = [1.0, 2.0, 3.0, nan, 5.0, nan, nan, 8.0]
    found = running_mean(values, 5, missing=0.4)
    assert _same(list(found), [nan, nan, 2, 2, 11 / 4, 10 / 3, nan, nan])
    assert isnan(running_mean(values, 5, missing=0.39)[2])


@pytest.mark.parametrize(("days", "missing", "least"), [(11, 0.2, 9), (15, 0.2, 12), (7, 2 / 7, 5)])
def test_a_share_of_the_days(days: int, missing: float, least: int) -> None:
    # 11 × 0.2 = 2.2: two may be missing; 15 × 0.2 = 3; 7 × 2/7 = 2, for all its rounding
    found = running_mean([4.0] * days, days, missing=missing)
    assert [isnan(each) for each in found] == [n < least for n in range(1, days + 1)]


def test_of_a_mean_at_least_one_day_is_there() -> None:
    assert _same(list(running_mean([1.0, nan, nan, nan], 2, missing=1)), [1, 1, nan, nan])


def test_no_days_no_means() -> None:
    assert len(running_mean([], 5, missing=0.2)) == 0


@STEADY
@given(
    values=st.lists(st.floats(-60, 60) | st.just(nan), max_size=60),
    days=st.integers(1, 20),
    missing=st.integers(0, 19),
)
def test_means_by_pandas(values: list[float], days: int, missing: int) -> None:
    missing = min(missing, days - 1)
    expected = pd.Series(values, dtype=float).rolling(days, min_periods=days - missing).mean()
    assert _same(list(running_mean(values, days, missing=missing / days)), expected.tolist())


def test_ninety_years_are_as_good_as_one() -> None:
    values = np.random.default_rng(91).uniform(-30, 45, 91 * 365)
    found = np.array(running_mean(values.tolist(), 15, missing=0))
    windows = np.lib.stride_tricks.sliding_window_view(values, 15)
    assert np.abs(found[14:] - windows.mean(axis=1)).max() < 1e-9


@pytest.mark.parametrize("days", [0, -3])
def test_over_at_least_one_day(days: int) -> None:
    with pytest.raises(ValueError, match="mean over"):
        running_mean([1.0], days, missing=0)


@pytest.mark.parametrize("missing", [-0.1, 1.1, nan])
def test_a_share_it_must_be(missing: float) -> None:
    with pytest.raises(ValueError, match="is no share"):
        running_mean([1.0], 1, missing=missing)
