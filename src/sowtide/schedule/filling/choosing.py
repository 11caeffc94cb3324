"""Choosing plantings: the most want met for the ground it takes, then chosen again in parts.

One planting after another is taken that meets most for the bed's area and days it takes. Then some
of what was chosen is given up, by crop, by bed or by season, and chosen again with other weights;
what leaves less unmet is kept. The numbers that this is drawn by come from a fixed seed, so that
the same garden always gets the same plantings.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from random import Random

from sowtide.progress import Progress, unwatched
from sowtide.schedule.filling.free_beds import FreeBeds
from sowtide.schedule.filling.plantings import PlantingOption, unmet
from sowtide.values import value

_LITTLE = 1e-9
_WASTE = 0.5
"""A wave grows while a further plant meets at least this share of what the first one does."""
_WORTHWHILE = 0.02
"""What a planting must meet to be worth sowing, of a week's want. [0–1]"""
_GROUND = (1.0, 0.5, 0.0)
"""How much the ground that is taken counts: a planting's gain is divided by its power."""


@value
class Choice:
    """Plants of an option in a bed."""

    option: int
    bed: int
    plants: int


class Chosen:
    """Plantings chosen so far, and what is still lacking.

    Parameters
    ----------
    options
        All plantings that are possible.
    beds
        The beds.
    lacking
        What each want lacks in each of its weeks. [0–1]
    """

    def __init__(
        self,
        options: Sequence[PlantingOption],
        beds: FreeBeds,
        lacking: Sequence[Sequence[float]],
    ) -> None:
        self.options, self.beds = options, beds
        self.balance = [[-share for share in each] for each in lacking]
        """What each week has beyond its want; below zero what it lacks."""
        self.plants: dict[tuple[int, int], int] = {}
        self.fitting = _Fitting(options, beds)

    def copy(self) -> Chosen:
        """Return the same, to be changed by itself."""
        made = object.__new__(Chosen)
        made.options, made.beds = self.options, self.beds.copy()
        made.balance = [each[:] for each in self.balance]
        made.plants = dict(self.plants)
        made.fitting = self.fitting.on(made.beds)
        return made

    @property
    def unmet(self) -> float:
        """What is still lacking. [weeks]"""
        return unmet([[max(-each, 0.0) for each in of] for of in self.balance])

    @property
    def ground(self) -> int:
        """The area and days that are taken. [µm²·d]"""
        options = self.options
        return sum(
            n * options[o].area * (options[o].pulled - options[o].first)
            for (o, _), n in self.plants.items()
        )

    def add(self, number: int, bed: int, plants: int) -> None:
        """Add some plants of an option to a bed; fewer than none take them away."""
        option, key = self.options[number], (number, bed)
        before = self.plants.get(key, 0)
        self.beds.take(option, bed, plants)
        if not before:
            self.beds.stand(option, bed)
        balance = self.balance[option.want]
        for place, share in option.gives:
            balance[place] += plants * share
        if before + plants:
            self.plants[key] = before + plants
        else:
            del self.plants[key]
            self.beds.leave(option, bed)

    def choices(self) -> tuple[Choice, ...]:
        """Return what was chosen, in order of planting day, want and bed."""
        found = [Choice(option, bed, plants) for (option, bed), plants in self.plants.items()]
        options = self.options
        found.sort(key=lambda c: (options[c.option].first, options[c.option].want, c.bed))
        return tuple(found)


class _Fitting:
    """How many plants of each option go into each bed, looked up again where a bed has changed."""

    def __init__(self, options: Sequence[PlantingOption], beds: FreeBeds) -> None:
        self._options, self._beds = options, beds
        on = {ground: tuple(beds.on_ground(ground)) for ground in {o.ground for o in options}}
        self.places = [on[option.ground] for option in options]
        self._known: list[dict[int, tuple[int, int]]] = [{} for _ in options]

    def on(self, beds: FreeBeds) -> _Fitting:
        """Return the same for a copy of the beds."""
        made = object.__new__(_Fitting)
        made._options, made._beds, made.places = self._options, beds, self.places
        made._known = [dict(each) for each in self._known]
        return made

    def best(self, number: int, plants: int) -> tuple[int, int]:
        """Return the bed that so many plants fit into most tightly, else the one with most room."""
        known, beds, option = self._known[number], self._beds, self._options[number]
        tight, most, bed, widest = 1 << 60, 0, -1, -1
        for index in self.places[number]:
            version = beds.version[index]
            found = known.get(index)
            if found is None or found[0] != version:
                found = known[index] = version, beds.room(option, index)
            room = found[1]
            if plants <= room < tight:
                tight, bed = room, index
            if room > most:
                most, widest = room, index
        return (bed, plants) if bed >= 0 else (widest, most)


def choose(
    options: Sequence[PlantingOption],
    beds: FreeBeds,
    lacking: Sequence[Sequence[float]],
    *,
    rounds: int,
    progress: Progress = unwatched,
) -> Chosen:
    """Return plantings that leave little unmet.

    Parameters
    ----------
    options, beds, lacking
        As in `Chosen`.
    rounds
        How often some of it is chosen again. [1]
    progress
        Told how many rounds are done.
    """
    starts = []
    for power in _GROUND:
        start = Chosen(options, beds.copy(), lacking)
        _fill(start, power, _WASTE, None)
        starts.append(start)
    best = min(starts, key=_worth)
    chance = Random(0)
    for done in range(rounds):
        progress(done, rounds)
        tried = best.copy()
        _give_up(tried, chance)
        _fill(tried, chance.choice(_GROUND), chance.uniform(0.2, 0.8), chance)
        if _worth(tried) < _worth(best):
            best = tried
    progress(rounds, rounds)
    _trim(best)
    return best


def _worth(of: Chosen) -> tuple[float, int]:
    """Return what makes one better than another: less unmet, then less ground."""
    return round(of.unmet, 9), of.ground


def _fill(of: Chosen, power: float, waste: float, chance: Random | None) -> None:
    """Add plantings, the best of all first, while any meets something."""
    weights = [1.0 if chance is None else chance.uniform(0.6, 1.4) for _ in of.options]
    by_want: dict[int, list[int]] = {}
    for number, option in enumerate(of.options):
        by_want.setdefault(option.want, []).append(number)
    offers: dict[int, dict[int, tuple[int, float]]] = {}
    while True:
        best: tuple[float, int, int, int] | None = None
        for want, numbers in by_want.items():
            if want not in offers:
                offers[want] = {n: o for n in numbers if (o := _offer(of, n, waste)) is not None}
            for number, (plants, gain) in offers[want].items():
                option = of.options[number]
                bed, fits = of.fitting.best(number, plants)
                if fits < plants:
                    if fits < option.least:
                        continue
                    gain = _gain(of.balance[want], option, fits)
                taken = fits * option.area * (option.pulled - option.first) / 1e12
                score = weights[number] * gain / taken**power
                if best is None or score > best[0]:
                    best = score, number, bed, fits
        if best is None:
            return
        _, number, bed, plants = best
        of.add(number, bed, plants)
        del offers[of.options[number].want]


def _offer(of: Chosen, number: int, waste: float) -> tuple[int, float] | None:
    """Return how many plants of an option are worth it, and what they meet; None if nothing."""
    option = of.options[number]
    balance = of.balance[option.want]
    # What meets a week in full comes first where a plant brings most of what that week lacks.
    filled = sorted(
        (-balance[place] / share, share) for place, share in option.gives if balance[place] < 0
    )
    slope = whole = sum(share for _, share in filled)
    if whole <= _LITTLE:
        return None
    plants = 0.0
    for full, share in filled:
        plants = full
        slope -= share
        if slope < waste * whole:
            break
    count = max(ceil(plants - 1e-6), option.least)
    gain = _gain(balance, option, count)
    return (count, gain) if gain > _WORTHWHILE else None


def _gain(balance: Sequence[float], option: PlantingOption, plants: int) -> float:
    """Return what some plants meet of what is lacking. [weeks]"""
    met = 0.0
    for place, share in option.gives:
        lack = -balance[place]
        if lack > 0:
            met += min(lack, plants * share)
    return met


def _give_up(of: Chosen, chance: Random) -> None:
    """Take away some of what was chosen: of a want, in a bed, in some weeks, or here and there."""
    keys = sorted(of.plants)
    if not keys:
        return
    options, way = of.options, chance.randrange(4)
    number, bed = chance.choice(keys)
    if way == 0:
        gone = [key for key in keys if options[key[0]].want == options[number].want]
    elif way == 1:
        gone = [key for key in keys if key[1] == bed]
    elif way == 2:
        near = chance.randint(7, 35)
        first = options[number].first
        gone = [key for key in keys if abs(options[key[0]].first - first) <= near]
    else:
        gone = [key for key in keys if chance.random() < 0.3]
    for key in gone:
        of.add(*key, -of.plants[key])


def _trim(of: Chosen) -> None:
    """Take away plants that meet nothing, of the largest waves first."""
    for number, bed in sorted(of.plants, key=lambda key: (-of.plants[key], key)):
        option, plants = of.options[number], of.plants[number, bed]
        balance = of.balance[option.want]
        spare = min(int(balance[place] / share + 1e-6) for place, share in option.gives)
        if spare >= plants:
            of.add(number, bed, -plants)
        elif spare > 0 and plants > option.least:
            of.add(number, bed, -min(spare, plants - option.least))
