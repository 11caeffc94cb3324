"""Families and rotation beside Iowa State, West Virginia University and botany."""

from __future__ import annotations

import pytest

import published_tables
from sowtide.garden.library import builtin as library
from sowtide.garden.library.table import Row

# What growers call each family; Iowa State and West Virginia University name them so or nearly so,
# those with one crop here are named by the plant they are best known for.
GROWERS_NAME = {
    "Fabaceae": "bean family",
    "Poaceae": "grass family",
    "Cucurbitaceae": "squash family",
    "Solanaceae": "nightshade family",
    "Lamiaceae": "mint family",
    "Asteraceae": "lettuce family",
    "Amaranthaceae": "beet family",
    "Apiaceae": "carrot family",
    "Amaryllidaceae": "onion family",
    "Brassicaceae": "cabbage family",
    "Malvaceae": "mallow family",
    "Convolvulaceae": "bindweed family",
    "Aizoaceae": "ice plant family",
    "Caprifoliaceae": "valerian family",
    "Montiaceae": "miner's lettuce family",
    "Polygonaceae": "buckwheat family",
}


def _same(figure: str, row: Row) -> bool:
    return row.value == figure


@pytest.mark.parametrize("name", ["iowa-state-rotation", "fao-ecocrop-families"])
def test_families_are_the_published_ones(name: str) -> None:
    # Iowa State's and FAO Ecocrop's rows agree with the library's, whichever it claims
    found = published_tables.complaints(published_tables.table(name), _same)
    assert found == []


def test_growers_families_are_the_botanists() -> None:
    for name in (*library.names(), *library.cover_names()):
        botanical, growers = (
            published_tables.row_of(name, field) for field in ("botanical_family", "family")
        )
        assert botanical is not None, name
        assert growers is not None, name
        assert growers.value == GROWERS_NAME[botanical.value], name


def test_spinach_is_no_mustard() -> None:
    # One old page of North Carolina State lists it so; it is an error
    row = published_tables.row_of("spinach", "family")
    assert row is not None
    assert row.value == "beet family"


def test_rotation_is_iowa_states_two_or_three_years() -> None:
    # West Virginia University Extension, 2025, has the same interval for every family
    claimed = dict(published_tables.claims("rotation", "iowa-state-rotation"))
    assert all(row.value in ("2", "3") for row in claimed.values())
    for line in published_tables.table("iowa-state-rotation").lines:
        if line.kept != published_tables.NO_CROP:
            assert line.crop in claimed, line.place
    # families without a published interval are the library's own choice
    chosen = dict(published_tables.claims("rotation", "sowtide"))
    assert {row.value for row in chosen.values()} == {"1"}
    ours = set(chosen)
    assert ours == {
        *("basil", "okra", "sweet potato", "New Zealand spinach", "corn salad", "claytonia")
    }
    # and so are salads and radishes, by common practice
    moved = dict(published_tables.claims("rotation", "practice"))
    assert {row.value for row in moved.values()} == {"1"}
    assert set(moved) == {
        *("leaf lettuce", "butterhead lettuce", "head lettuce", "endive", "chicory", "radish"),
        *("arugula", "cress", "mizuna", "tatsoi"),
    }
    assert ours | set(moved) | set(claimed) == set(library.names())
