"""What the search for plantings has found so far: another way through it is to be looked at.

Few rounds, so that little is sown well: what is held here is the way that the search takes, step by
step. How near it comes to the least that must be left is proven elsewhere.
"""

from __future__ import annotations

import pytest

from households import drawn, household
from sowtide.schedule.filling import FreeBeds, choose
from sowtide.schedule.filling.chosen import Chosen

FEW = {
    64: (1.582580, 15),
    65: (3.270259, 22),
    66: (1.882078, 14),
    67: (4.031985, 13),
    68: (1.782939, 19),
    69: (3.697603, 20),
    70: (19.413396, 13),
    71: (4.906131, 10),
}
"""What the plans of small households cost, and how many plantings they have. [weeks], [1]"""
MANY = {6: (13.802912, 57), 7: (3.090807, 32), 12: (9.369255, 40)}
"""The same of households with more beds than are planted one after the other."""


def told(plan: Chosen) -> tuple[float, int]:
    return round(plan.cost, 6), len(plan.plants)


@pytest.mark.parametrize("seed", FEW)
def test_a_small_household_is_filled_as_ever(seed: int) -> None:
    of = drawn(household(seed, wants_of=(3, 4), most_beds=3))
    found = choose(of.options, FreeBeds(of.season), of.lacking, rounds=lambda _: 30)
    assert told(found) == FEW[seed]


@pytest.mark.parametrize("seed", MANY)
def test_a_household_of_many_beds_is_filled_as_ever(seed: int) -> None:
    of = drawn(household(seed, most_beds=14))
    counts = [1 + number % 2 for number in range(len(of.lacking))]
    found = choose(of.options, FreeBeds(of.season), of.lacking, counts=counts, rounds=lambda _: 12)
    assert told(found) == MANY[seed]
