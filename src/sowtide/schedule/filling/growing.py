"""How many plants of a planting are worth it, and more of them where they stand already."""

from __future__ import annotations

from collections.abc import Collection
from math import ceil

from sowtide.schedule.filling.chosen import GLUT, STAND, SURPLUS, Chosen, Worth

_LITTLE = 1e-9


def offers(of: Chosen, want: int, waste: float) -> dict[int, Worth]:
    """Return the plantings of a want that are worth it. To be read, not changed.

    A search comes back to the same state of a want again and again: what is known of it is kept.
    """
    found = of.worths[want].get(waste)
    if found is None:
        found = of.worths[want][waste] = {}
        _weigh(of, of.numbers[want], waste, found)
    return found


def offers_after(
    of: Chosen, number: int, waste: float, before: dict[int, Worth]
) -> dict[int, Worth]:
    """Return the same once more plants of an option stand.

    A planting changes only those that are picked in the same weeks; the rest of them need not be
    weighed anew.
    """
    found = of.worths[of.options[number].want][waste] = before.copy()
    _weigh(of, of.near[number], waste, found)
    return found


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
    balance, counts = of.balance[option.want], of.counts[option.want]
    lacks = meets = beyond = 0.0
    turns = []
    for place, share in option.gives:
        there = balance[place]
        if there < 0:
            lacks -= there
            meets += share
            turns.append((-there / share, counts * (1 + SURPLUS) * share))
            turns.append(((1 - there) / share, counts * GLUT * share))
        elif there < 1:
            beyond += SURPLUS * share
            turns.append(((1 - there) / share, counts * GLUT * share))
        else:
            beyond += (SURPLUS + GLUT) * share
    if counts * lacks <= least:
        return 0, 0.0
    whole = counts * (meets - beyond) - of.spends[number]
    if whole <= _LITTLE:
        return 0, 0.0
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


def grow(of: Chosen, keys: Collection[tuple[int, int]] | None = None) -> None:
    """Let what stands have more plants where they meet something; None: all that stands."""
    for number, bed in tuple(of.plants if keys is None else keys):
        room = of.ground.room(number, bed)
        plants = room and min(useful(of, number, 0.0)[0], room)
        if plants and of.gain(number, plants) > _LITTLE:
            of.add(number, bed, plants)
