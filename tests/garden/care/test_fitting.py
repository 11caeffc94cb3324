"""Whether the values of a routine go together: each pair that may clash, and the edges of it."""

from __future__ import annotations

import pytest

from sowtide.garden.read import read_garden
from tended import garden_with


def told(*care: str) -> list[str]:
    """Return the key that each problem of some routines stands at, and its code."""
    file = garden_with(*care)
    found = []
    for problem in read_garden(file.encode(), "garden.yaml").problems:
        assert problem.span is not None
        before = problem.span.text[: problem.span.column - 1].rstrip(" :{[").replace("{", " ")
        found.append(f"{before.rpartition(' ')[2]} {problem.code}")
    return found


@pytest.mark.parametrize(
    ("keys", "problems"),
    [
        # A depth is for water alone, and water is a depth or a volume.
        ("do: water, amount: 1 in", []),
        ("do: water, amount: 2 gal per bed", []),
        ("do: water, amount: 2 lb per bed", ["amount amount-kind"]),
        ("do: water", []),
        ("do: feed, amount: 1 in", ["amount amount-kind"]),
        ("do: spray, amount: 1 in", ["amount amount-kind"]),
        ("do: feed, amount: 2 lb per bed", []),
        ("do: feed, amount: 2 gal per bed", []),
        # Of a mix it is said how much is put on, by volume.
        ("do: spray, mix: 2 tsp per gal", ["mix care-mix"]),
        ("do: spray, amount: 1 lb per bed, mix: 2 tsp per gal", ["mix care-mix"]),
        ("do: spray, amount: 1 gal per bed, mix: 2 tsp per gal", []),
        # What nitrogen it holds is known of a weight, or of a volume that was weighed.
        ("do: feed, amount: 4 tbsp per plant, analysis: 3-2-3", ["analysis care-density"]),
        ("do: feed, amount: 4 oz per plant, analysis: 3-2-3", []),
        ("do: feed, amount: 4 tbsp per plant, analysis: 3-2-3, weighs: 14 g per tbsp", []),
        ("do: feed, analysis: 3-2-3", []),
        (
            "do: feed, amount: 1 gal per bed, mix: 2 oz per gal, analysis: 3-2-3",
            [],  # it is the material that is weighed, not the mix
        ),
        (
            "do: feed, amount: 1 gal per bed, mix: 2 tsp per gal, analysis: 3-2-3",
            ["analysis care-density"],
        ),
        # The package's rate and the grower's are both a mix or neither, both weights or volumes.
        ("do: feed, amount: 4 tbsp per plant, package_rate: 5 tbsp per plant", []),
        ("do: feed, package_rate: 5 tbsp per plant", []),
        (
            "do: feed, amount: 4 tbsp per plant, package_rate: 2 tsp per gal",
            ["package_rate care-mix"],
        ),
        (
            "do: feed, amount: 1 gal per bed, mix: 2 tsp per gal, package_rate: 5 tbsp per plant",
            ["package_rate care-mix"],
        ),
        ("do: feed, amount: 1 gal per bed, mix: 2 tsp per gal, package_rate: 2 tsp per gal", []),
        (
            "do: feed, amount: 1 gal per bed, mix: 2 tsp per gal, package_rate: 2 oz per gal",
            ["package_rate care-density"],
        ),
        (
            "do: feed, amount: 4 tbsp per plant, package_rate: 5 oz per plant",
            ["package_rate care-density"],
        ),
        (
            "do: feed, amount: 4 oz per plant, package_rate: 5 tbsp per plant",
            ["package_rate care-density"],
        ),
        (
            "do: feed, amount: 4 oz per plant, package_rate: 5 tbsp per plant, "
            "weighs: 14 g per tbsp",
            [],
        ),
        # It ends where it begins at the earliest.
        ("do: feed, from: 06-10, until: 06-10", []),
        ("do: feed, from: 06-10, until: 06-09", ["until date-range"]),
        ("do: feed, from: 06-10, until: last pick", []),
        ("do: feed, until: 06-09", []),
        ("do: feed, from: planting + 7, until: planting + 7", []),
        ("do: feed, from: planting + 7, until: planting + 6", ["until date-range"]),
        ("do: feed, from: planting - 7, until: planting - 8", ["until date-range"]),
        ("do: feed, from: first pick, until: planting", ["until date-range"]),
        ("do: feed, from: first pick, until: planting + 1", []),  # who knows how far apart
        ("do: feed, from: first pick + 1, until: planting + 1", ["until date-range"]),
        ("do: feed, from: planting + 99, until: first pick", []),
        ("do: feed, until: on demand", ["until care-stage"]),
        # The label's days apart are the least.
        ("do: spray, every: 7, label: {days_apart: 7}", []),
        ("do: spray, every: 6, label: {days_apart: 7}", ["every care-conflict"]),
        ("do: spray, label: {days_apart: 7}", []),
        ("do: spray, every: 'FREQ=DAILY', label: {days_apart: 7}", []),
        # Raw manure is dug in before there is a crop; seen from its stage or day.
        ("do: feed, made_of: raw manure", ["made_of raw-manure"]),
        ("do: feed, made_of: raw manure, from: planting", ["made_of raw-manure"]),
        ("do: feed, made_of: raw manure, from: planting - 1", []),
        ("do: feed, made_of: raw manure, from: first pick + 3", ["made_of raw-manure"]),
        ("do: feed, made_of: raw manure, from: last pick", ["made_of raw-manure"]),
        ("do: feed, made_of: raw manure, from: up", ["made_of raw-manure"]),
        ("do: feed, made_of: raw manure, from: in flower", ["made_of raw-manure"]),
        ("do: feed, made_of: raw manure, from: sowing", []),
        ("do: feed, made_of: raw manure, from: pull out", []),
        ("do: feed, made_of: raw manure, from: 03-01", []),
        ("do: feed, made_of: raw manure, from: on demand", ["made_of raw-manure"]),
        (
            "do: feed, made_of: raw manure, from: 03-01, on_demand: many",
            ["made_of raw-manure"],
        ),
        ("do: feed, made_of: composted manure", []),
        # A limit of heat is one that an air temperature can have: 0 to 60 °C.
        ("do: spray, label: {hottest: 32F}", []),
        ("do: spray, label: {hottest: 31F}", ["hottest out-of-range"]),
        ("do: spray, label: {hottest: 140F}", []),
        ("do: spray, label: {hottest: 141F}", ["hottest out-of-range"]),
        ("do: spray, label: {hottest: 60}", []),  # the garden is metric
        ("do: spray, label: {hottest: 61}", ["hottest out-of-range"]),
        # A mix stands once.
        (
            "do: spray, amount: 1 gal per bed of a mix of 1 tsp per gal, mix: 2 tsp per gal",
            ["mix care-mix"],
        ),
    ],
)
def test_what_does_not_go_together_is_told_at_its_key(keys: str, problems: list[str]) -> None:
    assert told(f"name: a, on: fruit, {keys}") == problems


@pytest.mark.parametrize(
    ("one", "other", "problems"),
    [
        ("every: 5, label: {not_within: {b: 14}}", "every: 5", ["every care-conflict"]),
        ("every: 5", "every: 5, label: {not_within: {a: 14}}", ["label care-conflict"]),
        ("every: 5, label: {not_within: {b: 3}}", "every: 5", ["every care-conflict"]),
        ("every: 5, label: {not_within: {b: 2}}", "every: 5", []),  # 5 days hold 2 and 2
        ("every: 6, label: {not_within: {b: 3}}", "every: 5", []),
        (
            "every: 5, label: {not_within: {b: 2}}",
            "every: 5, label: {not_within: {a: 3}}",  # the stricter label holds
            ["label care-conflict"],
        ),
        ("every: 5, label: {not_within: {b: 0}}", "every: 5", []),
        ("label: {not_within: {b: 14}}", "every: 5", []),
        ("every: 5, label: {not_within: {b: 14}}", "do: spray", []),
        ("every: 5, from: on demand, label: {not_within: {b: 14}}", "every: 5", []),
        ("every: 5, label: {not_within: {b: 14}}", "every: 5, from: on demand", []),
        ("every: 'FREQ=DAILY', label: {not_within: {b: 14}}", "every: 5", []),
        ("every: 5, label: {not_within: {b: 14}}", "every: 'FREQ=DAILY'", []),
        ("label: {not_within: {c: 14}}", "every: 5", ["not_within care-material"]),
        ("label: {together_with: [B, c]}", "every: 5", ["label care-material"]),
    ],
)
def test_two_routines_leave_each_other_the_days_that_a_label_asks(
    one: str, other: str, problems: list[str]
) -> None:
    each = [f"name: {name}, on: fruit, {keys}" for name, keys in (("a", one), ("b", other))]
    asked = [keys if "do:" in keys else f"{keys}, do: spray" for keys in each]
    assert told(*asked) == problems


def test_a_name_is_that_of_one_routine() -> None:
    assert told("name: A, on: fruit, do: feed", "name: a, on: leaf, do: spray") == [
        "name care-name"
    ]
