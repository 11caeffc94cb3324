"""How many plants of a planting are worth it, and more of them where they stand already."""

from __future__ import annotations

from collections.abc import Collection
from math import ceil
from typing import TypeAlias

from sowtide.schedule.filling.chosen import GLUT, STAND, SURPLUS, Chosen

_LITTLE = 1e-9

Worth: TypeAlias = tuple[int, float]
"""Plants of an option that are worth it, and what they take off the cost; (0, 0) if none are."""


class Offers:
    """What the plantings of each want are worth, kept for as long as nothing changes it.

    A search comes back to the same state of a want again and again, and a planting changes only
    those that are picked in the same weeks; the rest of them need not be weighed anew.
    """

    def __init__(self, of: Chosen) -> None:
        spans = [(gives[0][0], gives[-1][0]) for gives in (each.gives for each in of.options)]
        self._near: dict[int, list[int]] = {
            number: [
                other
                for other in numbers
                if spans[other][0] <= spans[number][1] and spans[number][0] <= spans[other][1]
            ]
            for numbers in of.numbers
            for number in numbers
        }
        self._known: dict[tuple[int, float], dict[int, Worth]] = {}

    def of(self, of: Chosen, want: int, waste: float) -> dict[int, Worth]:
        """Return the plantings of a want that are worth it. To be read, not changed."""
        key = of.marks[want], waste
        found = self._known.get(key)
        if found is None:
            found = {}
            _weigh(of, of.numbers[want], waste, found)
            self.keep(of, want, waste, found)
        return found

    def after(
        self, of: Chosen, number: int, waste: float, before: dict[int, Worth]
    ) -> dict[int, Worth]:
        """Return the same once more plants of an option stand."""
        found = before.copy()
        _weigh(of, self._near[number], waste, found)
        return found

    def keep(self, of: Chosen, want: int, waste: float, found: dict[int, Worth]) -> None:
        """Keep what is known of a state that may come back."""
        if len(self._known) > _KEPT:
            self._known.clear()
        self._known[of.marks[want], waste] = found


_KEPT = 2_000
"""States that are kept at most."""


def _weigh(of: Chosen, numbers: Collection[int], waste: float, found: dict[int, Worth]) -> None:
    for number in numbers:
        worth = useful(of, number, waste, STAND)
        if worth[1] > STAND:
            found[number] = worth
        else:
            found.pop(number, None)


def useful(of: Chosen, number: int, waste: float, least: float = 0.0) -> Worth:
    """Return how many plants of an option are worth it, and what they take off the cost.

    Parameters
    ----------
    of
        The plan so far.
    number
        Of the option.
    waste
        A plant more is worth it that meets at least this share of what the first one does. [0–1]
    least
        Not worth it is what cannot take more than this off the cost. [weeks]
    """
    option = of.options[number]
    want = option.want
    balance, counts = of.balance[want], of.counts[want]
    whole = _saves(of, number, least)
    if whole <= _LITTLE:
        return 0, 0.0
    turns = []
    for place, share in option.gives:
        there = balance[place]
        if there < 0:
            turns.append((-there / share, counts * (1 + SURPLUS) * share))
        if there < 1:
            turns.append(((1 - there) / share, counts * GLUT * share))
    # A plant more meets less from where a week is met in full, and less again from its glut on.
    turns.sort()
    slope, enough, worth_it = whole, waste * whole + _LITTLE, 0.0
    for full, less in turns:
        worth_it = full
        slope -= less
        if slope < enough:
            break
    few = of.ground.least[number]
    plants = min(max(ceil(worth_it - 1e-6), few), of.most(number))
    if (plants < few and number not in of.sown) or plants <= 0:
        return 0, 0.0
    gain = whole * plants
    for full, less in turns:
        if full >= plants:
            break
        gain -= less * (plants - full)
    return plants, gain


def _saves(of: Chosen, number: int, least: float) -> float:
    """Return what the first plant of an option takes off the cost; 0 where all cannot take more."""
    option = of.options[number]
    balance, counts = of.balance[option.want], of.counts[option.want]
    lacks = meets = beyond = 0.0
    for place, share in option.gives:
        there = balance[place]
        if there < 0:
            lacks -= there
            meets += share
        else:
            beyond += SURPLUS * share
            if there >= 1:
                beyond += GLUT * share
    return counts * (meets - beyond) - of.spends[number] if counts * lacks > least else 0.0


def grow(of: Chosen, keys: Collection[tuple[int, int]] | None = None) -> None:
    """Let what stands have more plants where they meet something; None: all that stands."""
    for number, bed in tuple(of.plants if keys is None else keys):
        room = of.ground.room(number, bed)
        plants = room and min(useful(of, number, 0.0)[0], room)
        if plants and of.gain(number, plants) > _LITTLE:
            of.add(number, bed, plants)
