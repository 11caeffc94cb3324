"""Two routines that can never both be kept: where they are done to the same wave."""

from __future__ import annotations

import pytest

from sowtide.garden.read import read_garden
from tended import garden_with


@pytest.mark.parametrize(
    ("one", "other", "clash"),
    [
        ("fruit", "fruit", True),
        ("fruit", "leaf", False),
        ("everything", "fruit", True),
        ("fruit", "everything", True),
        ("everything", "everything", True),
        ("Long", "fruit", True),  # what stands in a bed may be of any crop
        ("fruit", "Long", True),
        ("Long", "everything", True),
    ],
)
def test_two_that_are_kept_apart_clash_where_they_share_a_wave(
    one: str, other: str, clash: bool
) -> None:
    # Oil every 5 days and sulfur every 5, two weeks apart: neither leaves room for the other.
    file = garden_with(
        f"name: oil, do: spray, on: {one}, every: 5, label: {{not_within: {{sulfur: 14}}}}",
        f"name: sulfur, do: spray, on: {other}, every: 5",
    )
    found = [each.code for each in read_garden(file.encode(), "garden.yaml").problems]
    assert found == (["care-conflict"] if clash else [])


@pytest.mark.parametrize(("every", "clash"), [("27", True), ("28", False)])
def test_one_of_them_leaves_twice_the_days_between(every: str, clash: bool) -> None:
    file = garden_with(
        "name: oil, do: spray, on: fruit, every: 5, label: {not_within: {sulfur: 14}}",
        f"name: sulfur, do: spray, on: fruit, every: {every}",
    )
    found = [each.code for each in read_garden(file.encode(), "garden.yaml").problems]
    assert found == (["care-conflict"] if clash else [])
