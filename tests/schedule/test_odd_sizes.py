"""Sizes that ask whether their unit is the right one, to the edge."""

from __future__ import annotations

import pytest

import gardens
from gardens import text, wave


@pytest.mark.parametrize(("size", "asked"), [("12.49 x 20", False), ("12.5 x 20", True)])
def test_a_wide_bed(size: str, asked: bool) -> None:
    found = gardens.season(text(wave(), beds=[f"{{bed: Long, size: {size}}}"]))
    assert ("odd-size" in dict(gardens.codes(found))) is asked


@pytest.mark.parametrize(
    ("spacing", "asked"),
    [
        ("between_rows: 3.9", True),
        ("between_rows: 4", False),
        ("in_row: 3", False),
        ("in_row: 16.7, between_rows: 30", False),  # 2.19 times 7.62
        ("in_row: 16.8, between_rows: 30", True),  # 2.205
        ("in_row: 3.46, between_rows: 4", False),
        ("in_row: 3, between_rows: 30", False),  # closer one way, wider the other
    ],
)
def test_spacings(spacing: str, asked: bool) -> None:
    found = gardens.season(text(wave("carrot"), crops=[f"carrot: {{{spacing}}}"]))
    assert ("odd-size" in dict(gardens.codes(found))) is asked
