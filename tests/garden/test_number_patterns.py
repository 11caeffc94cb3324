"""Patterns of numbers beside plain comparisons, over bounds at which their digits change."""

from __future__ import annotations

import re
from itertools import combinations_with_replacement

import pytest

from sowtide.garden.described.number_patterns import between, decimal_between, positive, up_to

BOUNDS = (0, 1, 9, 10, 11, 19, 20, 99, 100, 101, 109, 110, 250, 366, 999, 1000, 1250, 2200, 10_000)
TRIED = sorted({n for bound in BOUNDS for n in (bound - 1, bound, bound + 1) if n >= 0})
"""Every bound with its neighbours."""


@pytest.mark.parametrize(("low", "high"), [*combinations_with_replacement(BOUNDS, 2)])
def test_whole_numbers_between_two_bounds(low: int, high: int) -> None:
    pattern = re.compile(between(low, high))
    taken = [number for number in TRIED if pattern.fullmatch(str(number))]
    assert taken == [number for number in TRIED if low <= number <= high]


def test_each_whole_number_up_to_1300_lies_between_its_bounds() -> None:
    for low, high in ((0, 1300), (7, 1234), (100, 1250), (999, 1001)):
        pattern = re.compile(between(low, high))
        taken = [number for number in range(1400) if pattern.fullmatch(str(number))]
        assert taken == list(range(low, high + 1))


DECIMALS = ("0", "0.0", "0.1", "0.9", "1", "1.0", "1.5", "9", "9.9", "10", "10.0", "10.1", "11")


@pytest.mark.parametrize("high", [0, 1, 9, 10])
def test_decimals_up_to_a_bound(high: int) -> None:
    within = [text for text in DECIMALS if float(text) <= high]
    assert [text for text in DECIMALS if re.fullmatch(up_to(high), text)] == within
    above = [text for text in within if float(text) > 0]
    assert [text for text in DECIMALS if re.fullmatch(positive(high), text)] == above


@pytest.mark.parametrize(("low", "high"), [(-10, 9), (-1, 10), (0, 1), (1, 9), (9, 10), (10, 10)])
def test_decimals_between_two_bounds(low: int, high: int) -> None:
    both = [f"-{text}" for text in DECIMALS if float(text)] + list(DECIMALS)
    pattern = decimal_between(low, high)
    taken = [text for text in both if re.fullmatch(pattern, text)]
    assert taken == [text for text in both if low <= float(text) <= high]
