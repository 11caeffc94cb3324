"""Choosing plantings: what costs least, unmet wants first of all.

What a plan costs is counted in weeks' wants. A week's want that is unmet costs one; far less cost
what is picked beyond a week's want, more beyond twice of it, and in weeks in which nobody wants it,
each sowing, each bed more on its day, and the ground. So a plan has no glut that would not meet a
good part of itself, and no sowing that meets next to nothing. `Chosen.cost` adds it up.

One planting after another is taken that saves most for the bed's area and days it takes. Then,
again and again, a little of what was chosen is given up and chosen again with other weights (large
neighbourhood search: Shaw, Using Constraint Programming and Local Search Methods to Solve Vehicle
Routing Problems, 1998). What is a little worse may be gone on from too, the less so the longer it
goes on (simulated annealing: Kirkpatrick, Gelatt and Vecchi, Science 220, 1983); the best of all is
kept. The numbers that this is drawn by come from a fixed seed, so that the same garden always gets
the same plantings.

A search does not try every plan, so of more beds it might make less. Therefore the first bed is
planted alone, then what was found for it is gone on from with the second, and so on, each with a
search of its own; the beds of a large garden beyond the first eight come in all at once.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import log
from random import Random
from typing import TypeAlias

from sowtide.progress import Progress, part, unwatched
from sowtide.schedule.filling.chosen import Chosen, Worth
from sowtide.schedule.filling.free_beds import FreeBeds
from sowtide.schedule.filling.growing import grow, offers, offers_after
from sowtide.schedule.filling.plantings import PlantingOption
from sowtide.schedule.filling.tidying import tidied

_LITTLE = 1e-9
_WASTE = 0.5
"""A wave grows while a further plant meets at least this share of what the first one does. [0–1]"""
_WASTES = 0.4, 0.6, 0.8, 1.0
"""One of these is drawn where some of a plan is chosen again. [0–1]"""
_KEEPS = 20
"""Rounds that go by with one of them, so that much of what was weighed is known again. [1]"""
_GROUND = (1.6, 1.3, 1.0, 0.7)
"""How much the ground that is taken counts: a planting's gain is divided by its power."""
ONE_BY_ONE = 8
"""Beds that are planted one after the other; the rest of them all at once. [1]"""
_HOT, _COLD = 0.05, 0.003
"""How much more may be left unmet at the first round and at the last, on average. [weeks]"""
_FEW = 7
"""Plantings given up at once, at most, where it is not a whole bed or want. [1]"""
_NEAR = 30
"""Plantings of a want so far apart or farther are for different weeks. [days]"""

_Ranked: TypeAlias = tuple[float, int, int]
"""What speaks for a planting, its option and its plants."""
_NONE = 0.0, -1, -1, 0

Rounds: TypeAlias = Callable[[int], int]
"""How often some is chosen again, by how many beds are planted. [1]"""


def choose(
    options: Sequence[PlantingOption],
    beds: FreeBeds,
    lacking: Sequence[Sequence[float]],
    *,
    counts: Sequence[float] | None = None,
    rounds: Rounds,
    progress: Progress = unwatched,
) -> Chosen:
    """Return plantings that leave little unmet.

    Up to so many beds as are planted one after the other, a bed more behind the others never
    leaves more of it.

    Parameters
    ----------
    options, beds, lacking, counts
        As in `Chosen`.
    rounds
        How often some of it is chosen again, by how many beds are planted.
    progress
        Told how much is done.
    """
    count = len(beds.beds)
    stages = (*range(1, min(count, ONE_BY_ONE) + 1), *((count,) if count > ONE_BY_ONE else ()))
    best = Chosen(options, beds, lacking, counts).within(0)
    for number, first in enumerate(stages):
        told = part(progress, number, len(stages))
        before, best = best, best.within(first)
        _fill(best, 1.0, _WASTE, None)
        found = _searched(best, rounds=rounds(first), progress=told)
        if found.counted <= before.counted + _LITTLE:
            best = found
    progress(1, 1)
    return best


def _searched(start: Chosen, *, rounds: int, progress: Progress) -> Chosen:
    """Return what is found for a plan that is chosen again in parts so many times."""
    grow(start)
    best = at = start
    chance, waste = Random(0), _WASTE
    for done in range(rounds):
        progress(done, rounds)
        heat = _HOT * (_COLD / _HOT) ** (done / rounds)
        tried = at.copy()
        if done % _KEEPS == 0:
            waste = chance.choice(_WASTES)
        _give_up(tried, chance)
        _fill(tried, chance.choice(_GROUND), waste, chance)
        grow(tried, [key for key in tried.plants if tried.differs(at, key)])
        if tried.cost <= at.cost - heat * log(1 - chance.random()):
            at = tried
            if at.cost < best.cost - _LITTLE:
                best = at
    return tidied(best)


def _fill(of: Chosen, power: float, waste: float, chance: Random | None) -> None:
    """Add plantings, the best of all first, while any meets something."""
    weights = _weights(of, chance)
    worths = [offers(of, want, waste) for want in range(len(of.numbers))]
    ranked = [_ranked(of, each, weights, power) for each in worths]
    firsts = [_first(of, each, weights, power) for each in ranked]
    while firsts:
        score, number, bed, plants = max(firsts)
        if score <= 0:
            break
        of.add(number, bed, plants)
        want = of.options[number].want
        worths[want] = offers_after(of, number, waste, worths[want])
        ranked[want] = _ranked(of, worths[want], weights, power)
        for other, first in enumerate(firsts):
            # What another bed was found for has as much room there as before.
            if other == want or first[2] == bed:
                firsts[other] = _first(of, ranked[other], weights, power)


def _first(
    of: Chosen, ranked: Sequence[_Ranked], weights: Sequence[float], power: float
) -> tuple[float, int, int, int]:
    """Return the best planting that there is room for, with its bed and plants; 0 for none."""
    ground, best = of.ground, _NONE
    for score, number, plants in ranked:
        if score <= best[0]:
            break
        bed, fits = ground.best(number, plants)
        if fits < plants:
            if fits < ground.least[number]:
                continue
            score = weights[number] * of.gain(number, fits) / (fits * of.takes[number]) ** power
            if score <= best[0]:
                continue
        best = score, number, bed, fits
    return best


def _weights(of: Chosen, chance: Random | None) -> Sequence[float]:
    """Return a weight for each option: drawn, or the same for all. [1]"""
    if chance is None:
        return (1.0,) * len(of.options)
    drawn = chance.random
    return [0.6 + 0.8 * drawn() for _ in of.options]


def _ranked(
    of: Chosen, worths: Mapping[int, Worth], weights: Sequence[float], power: float
) -> list[_Ranked]:
    """Return plantings with their plants, the best first."""
    takes = of.takes
    found = [
        (weights[number] * gain / (plants * takes[number]) ** power, number, plants)
        for number, (plants, gain) in worths.items()
    ]
    found.sort(reverse=True)
    return found


def _give_up(of: Chosen, chance: Random) -> None:
    """Take away some of what was chosen: of a bed, a want or a day, here and there, or rivals."""
    keys = sorted(of.plants)
    if not keys:
        return
    chosen = chance.choice(keys)
    number, bed = chosen
    options, way = of.options, chance.randrange(40)
    if way == 0:
        gone = [key for key in keys if key[1] == bed]
    elif way < 6:
        gone = [key for key in keys if options[key[0]].want == options[number].want]
    elif way == 6:
        day = [key for key in keys if key[0] == number]
        gone = [key for key in keys if key in day or (key[1] == bed and _competes(of, key, chosen))]
    elif way < 12:
        gone = chance.sample(keys, min(chance.randint(1, _FEW), len(keys)))
    else:
        near = [key for key in keys if key != chosen and _competes(of, key, chosen)]
        gone = [chosen, *chance.sample(near, min(chance.randrange(_FEW), len(near)))]
    for key in gone:
        of.add(*key, -of.plants[key])


def _competes(of: Chosen, key: tuple[int, int], other: tuple[int, int]) -> bool:
    """Say whether two plantings are for about the same weeks of a want, or stand side by side."""
    one, two = of.options[key[0]], of.options[other[0]]
    if one.want == two.want and abs(one.first - two.first) < _NEAR:
        return True
    return key[1] == other[1] and one.first < two.pulled and two.first < one.pulled
