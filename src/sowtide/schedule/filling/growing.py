"""How many plants of a planting are worth it, and more of them where they stand already."""

from __future__ import annotations

from math import ceil

from sowtide.schedule.filling.chosen import GLUT, Chosen

_LITTLE = 1e-9


def useful(of: Chosen, number: int, waste: float) -> int:
    """Return how many plants of an option are worth it; none where it meets nothing. [1]"""
    option = of.options[number]
    balance, counts = of.balance[option.want], of.counts[option.want]
    turns, whole = [], 0.0
    for place, share in option.gives:
        there = balance[place]
        if there < 0:
            turns.append((-there / share, counts * share))
            whole += counts * share
        if there < 1:
            turns.append(((1 - there) / share, GLUT * share))
        else:
            whole -= GLUT * share
    if whole <= _LITTLE:
        return 0
    # A plant more meets less from where a week is met in full, and less again from its glut on.
    turns.sort()
    slope, plants = whole, 0.0
    for full, less in turns:
        plants = full
        slope -= less
        if slope < waste * whole + _LITTLE:
            break
    return max(ceil(plants - 1e-6), of.ground.least[number])


def grow(of: Chosen) -> None:
    """Let what stands have more plants where they meet something."""
    for number, bed in tuple(of.plants):
        room = of.ground.room(number, bed)
        plants = room and min(useful(of, number, 0.0), room)
        if plants and of.gain(number, plants) > _LITTLE:
            of.add(number, bed, plants)
