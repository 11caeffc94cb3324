"""Seed counts and germination beside the federal tables and Kew's weights."""

from __future__ import annotations

import re

import pytest

import published_tables
from sowtide.garden.library import builtin as library
from sowtide.garden.library.table import Row
from sowtide.garden.varieties import built_in_crop

COUNTS = published_tables.table("federal-seed-act-201-46")
WEIGHTS = published_tables.table("kew-sid")
FLOORS = published_tables.table("federal-seed-act-201-31")


def test_seed_counts_are_the_federal_ones() -> None:
    assert len(COUNTS.lines) >= 55
    assert published_tables.complaints(COUNTS, published_tables.same) == []


def _count(grams: str) -> float:
    """Return the seeds in a gram by the weight of a thousand."""
    return 1000 / float(grams)


def test_seed_counts_are_those_of_kews_weights_or_near_them() -> None:
    factor = 2.5
    assert WEIGHTS.head["agrees"] == f"within a factor of {factor}"

    def near(figure: str, row: Row) -> bool:
        return published_tables.within_factor(factor)(f"{_count(figure):.6f}", row)

    def same(figure: str, row: Row) -> bool:
        return row.value == f"{_count(figure):.2g}" or row.value == f"{_count(figure):.0f}"

    found = published_tables.complaints(WEIGHTS, near, lambda *_: True)
    assert found == []
    for crop, row in published_tables.claims("seeds_per_gram", WEIGHTS.source):
        (line,) = (each for each in WEIGHTS.lines if each.crop == crop)
        assert same(line.figures["grams"], row), crop


def test_notes_tell_kews_counts_rightly() -> None:
    told = 0
    for line in WEIGHTS.lines:
        row = published_tables.row_of(line.crop, "seeds_per_gram")
        assert row is not None
        found = re.search(r"Kew's seed weights give ([\d.]+)", row.note)
        assert (found is None) == (row.source == WEIGHTS.source), line.place
        if found is not None:
            told += 1
            assert float(found[1]) == pytest.approx(_count(line.figures["grams"]), rel=0.05)
    assert told >= 50


def test_germination_is_fifteen_points_over_the_federal_floor() -> None:
    assert len(FLOORS.lines) >= 60

    def agrees(floor: str, row: Row) -> bool:
        return row.unit == "%" and int(row.value) == min(int(floor) + 15, 95)

    assert published_tables.complaints(FLOORS, agrees) == []
    for line in FLOORS.lines:
        row = published_tables.row_of(line.crop, "germination")
        assert row is not None
        assert row.source == "sowtide", "an estimate, and called one"
        assert f"{line.figures['floor']} % (7 CFR 201.31)" in row.note, line.place
    assert {crop for crop, _ in published_tables.claims("germination", "sowtide")} == {
        line.crop for line in FLOORS.lines
    }


def test_the_engine_reckons_with_shares() -> None:
    found = library.find("carrot")
    assert found is not None
    assert built_in_crop(found).germination == 0.70
