"""Choosing plantings: the most want met for the ground it takes, then chosen again in parts.

One planting after another is taken that meets most for the bed's area and days it takes. Then,
again and again, a little of what was chosen is given up and chosen again with other weights (large
neighbourhood search: Shaw, Using Constraint Programming and Local Search Methods to Solve Vehicle
Routing Problems, 1998). What is a little worse may be gone on from too, the less so the longer it
goes on (simulated annealing: Kirkpatrick, Gelatt and Vecchi, Science 220, 1983); the best of all is
kept. The numbers that this is drawn by come from a fixed seed, so that the same garden always gets
the same plantings.

A search does not try every plan, so it may find a better one for fewer beds. Therefore the garden
is searched without its last bed as well, and what leaves less unmet is kept.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import log
from random import Random
from typing import TypeAlias

from sowtide.progress import Progress, part, unwatched
from sowtide.schedule.filling.chosen import STAND, Chosen
from sowtide.schedule.filling.free_beds import FreeBeds
from sowtide.schedule.filling.growing import grow, useful
from sowtide.schedule.filling.plantings import PlantingOption
from sowtide.schedule.filling.tidying import tidied

_LITTLE = 1e-9
_WASTE = 0.5
"""A wave grows while a further plant meets at least this share of what the first one does. [0–1]"""
_WASTES = 0.4, 1.0
"""Between these it is drawn where some of a plan is chosen again. [0–1]"""
_GROUND = (1.6, 1.3, 1.0, 0.7)
"""How much the ground that is taken counts: a planting's gain is divided by its power."""
_HOT, _COLD = 0.6, 0.005
"""How much more may be left unmet at the first round and at the last, on average. [weeks]"""
_FEW = 5
"""Plantings given up at once, at most, where it is not a whole bed or want. [1]"""
_NEAR = 30
"""Plantings of a want so far apart or farther are for different weeks. [days]"""

Rounds: TypeAlias = Callable[[int], int]
"""How often some is chosen again, by how many beds there are. [1]"""


def choose(
    options: Sequence[PlantingOption],
    beds: FreeBeds,
    lacking: Sequence[Sequence[float]],
    *,
    counts: Sequence[float] | None = None,
    rounds: Rounds,
    progress: Progress = unwatched,
) -> Chosen:
    """Return plantings that leave little unmet: no more than are found without the last bed.

    Parameters
    ----------
    options, beds, lacking, counts
        As in `Chosen`.
    rounds
        How often some of it is chosen again, by how many beds there are.
    progress
        Told how much is done.
    """
    count = len(beds.beds)
    nothing = Chosen(options, beds, lacking, counts)
    best = _searched(nothing, rounds=rounds(count), progress=part(progress, 0, 2))
    if count > 1 and best.unmet > _LITTLE:
        fewer = Chosen(options, beds, lacking, counts, count - 1)
        found = _searched(fewer, rounds=rounds(count - 1), progress=part(progress, 1, 2))
        if found.counted < best.counted - _LITTLE:
            best = found.in_all_of(nothing)
            _fill(best, 1.0, _WASTE, None)
            best.weigh()
    progress(1, 1)
    return best


def _searched(nothing: Chosen, *, rounds: int, progress: Progress) -> Chosen:
    """Return what is found for a plan of nothing, chosen again in parts so many times."""
    starts = []
    for power in _GROUND:
        start = nothing.copy()
        _fill(start, power, _WASTE, None)
        starts.append(start)
    best = at = min(starts, key=_worth)
    chance = Random(0)
    for done in range(rounds):
        progress(done, rounds)
        heat = _HOT * (_COLD / _HOT) ** (done / rounds)
        tried = at.copy()
        _give_up(tried, chance)
        _fill(tried, chance.choice(_GROUND), chance.uniform(*_WASTES), chance)
        if tried.cost <= at.cost - heat * log(1 - chance.random()):
            at = tried
            if _worth(at) < _worth(best):
                best = at
    return tidied(best)


def _worth(of: Chosen) -> tuple[float, float]:
    """Return what makes one better than another: what it costs, then what it spends."""
    return round(of.cost, 9), of.spent


def _fill(of: Chosen, power: float, waste: float, chance: Random | None) -> None:
    """Add plantings, the best of all first, while any meets something."""
    weights = {
        number: 1.0 if chance is None else chance.uniform(0.6, 1.4)
        for numbers in of.numbers
        for number in numbers
    }
    offers: dict[int, list[tuple[float, int, int]]] = {}
    while True:
        best: tuple[float, int, int, int] | None = None
        for want, numbers in enumerate(of.numbers):
            if want not in offers:
                offers[want] = _offers(of, numbers, weights, power, waste)
            for score, number, plants in offers[want]:
                if best is not None and score <= best[0]:
                    break
                bed, fits = of.ground.best(number, plants)
                if fits < plants:
                    if fits < of.ground.least[number]:
                        continue
                    score = weights[number] * of.gain(number, fits)
                    score /= _taken(of.options[number], fits) ** power
                    if best is not None and score <= best[0]:
                        continue
                best = score, number, bed, fits
        if best is None:
            break
        _, number, bed, plants = best
        of.add(number, bed, plants)
        del offers[of.options[number].want]
    grow(of)
    of.weigh()


def _offers(
    of: Chosen, numbers: Sequence[int], weights: Mapping[int, float], power: float, waste: float
) -> list[tuple[float, int, int]]:
    """Return the plantings for a want that are worth it, with their plants, the best first."""
    found = []
    for number in numbers:
        plants = useful(of, number, waste)
        if plants:
            gain = of.gain(number, plants)
            if gain > STAND:
                taken = _taken(of.options[number], plants)
                found.append((weights[number] * gain / taken**power, number, plants))
    found.sort(reverse=True)
    return found


def _taken(option: PlantingOption, plants: int) -> float:
    """Return the area and days that some plants take. [m²·d]"""
    return plants * option.area * (option.pulled - option.first) / 1e12


def _give_up(of: Chosen, chance: Random) -> None:
    """Take away some of what was chosen: of a bed, of a want, here and there, or what competes."""
    keys = sorted(of.plants)
    if not keys:
        return
    chosen = chance.choice(keys)
    number, bed = chosen
    options, way = of.options, chance.randrange(8)
    if way == 0:
        gone = [key for key in keys if key[1] == bed]
    elif way == 1:
        gone = [key for key in keys if options[key[0]].want == options[number].want]
    elif way == 2:
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
