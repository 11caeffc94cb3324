"""Plantings as they are chosen: what they take of the beds, and what they leave lacking."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeAlias

from sowtide.schedule.filling.free_beds import FreeBeds
from sowtide.schedule.filling.plantings import PlantingOption
from sowtide.schedule.filling.search_ground import SearchGround
from sowtide.values import value

STAND = 0.015
"""What a sowing must be worth, of a week's want: sowtide's own choice. [weeks]"""
_BED_MORE = 0.04
"""What a sowing costs for each bed beyond its first; our own. [weeks]"""
SURPLUS = 0.02
"""What it costs that a week brings one want more than is wanted; our own. [weeks]"""
GLUT = 0.08
"""What it costs besides that it brings one more than twice of it; our own. [weeks]"""
_UNASKED = 0.03
"""What it costs that so much is picked in weeks in which nobody wants it; our own. [weeks]"""
_GROUND = 0.003
"""What it costs that a square metre is taken for a year; our own. [weeks]"""
_YEAR = 365

Worth: TypeAlias = tuple[int, float]
"""Plants of an option that are worth it, and what they take off the cost; (0, 0) if none are."""


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
    counts
        How much more an unmet week of each want counts than one of others; None: all alike. [1]
    """

    def __init__(
        self,
        options: Sequence[PlantingOption],
        beds: FreeBeds,
        lacking: Sequence[Sequence[float]],
        counts: Sequence[float] | None = None,
    ) -> None:
        self.options, self.beds = options, beds.beds
        self.ground = SearchGround(options, beds)
        self.numbers: list[list[int]] = [[] for _ in lacking]
        """The options of each want that some bed may take."""
        for number, places in enumerate(self.ground.places):
            if places:
                self.numbers[options[number].want].append(number)
        self.balance = [[-share for share in each] for each in lacking]
        """What each week has beyond its want; below zero what it lacks."""
        self.plants: dict[tuple[int, int], int] = {}
        """Plants by option and bed. [1]"""
        self.lacked = sum(sum(each) for each in lacking)
        """What was lacking before anything was chosen. [weeks]"""
        self.counts = tuple(counts) if counts is not None else (1.0,) * len(lacking)
        self.takes = [o.area * (o.pulled - o.first) / 1e12 for o in options]
        """The area and days that a plant of each option takes. [m²·d]"""
        self.spends = [
            _UNASKED * self.counts[o.want] * o.unasked + _GROUND * takes / _YEAR
            for o, takes in zip(options, self.takes, strict=True)
        ]
        """What it costs that a plant of each takes its ground, and is picked unasked. [weeks]"""
        self.sown: dict[int, int] = {}
        """Plants by option, in all beds. [1]"""
        self._spent = 0.0
        self.near = _near(options, self.numbers)
        """The options of its want that are picked in the same weeks as each."""
        self.worths: list[dict[float, dict[int, Worth]]] = [{} for _ in lacking]
        """What is known of the plantings of each want as it stands, by how much may be wasted."""
        self._sums: list[tuple[float, float] | None] = [None] * len(lacking)

    def copy(self) -> Chosen:
        """Return the same, to be changed by itself."""
        made = object.__new__(Chosen)
        made.options, made.ground = self.options, self.ground.copy()
        made.beds, made.numbers = self.beds, self.numbers
        made.balance, made.worths, made._sums = self.balance[:], self.worths[:], self._sums[:]
        made.plants, made.counts = dict(self.plants), self.counts
        made.lacked, made.near = self.lacked, self.near
        made.takes, made.spends, made.sown = self.takes, self.spends, dict(self.sown)
        made._spent = self._spent
        return made

    def differs(self, other: Chosen, key: tuple[int, int]) -> bool:
        """Say whether an option in a bed might have more plants here than in another plan."""
        number, bed = key
        want = self.options[number].want
        # What is known of a want, or of a bed, is replaced by each change of it.
        return self.balance[want] is not other.balance[want] or self.ground.differs(
            other.ground, bed
        )

    def _lacks_and_gluts(self) -> Iterator[tuple[float, float]]:
        """Yield for each want what is lacking of it and what its gluts cost."""
        sums = self._sums
        for want, known in enumerate(sums):
            if known is None:
                known = sums[want] = _lacks_and_gluts(self.balance[want])
            yield known

    @property
    def unmet(self) -> float:
        """What is still lacking. [weeks]"""
        return sum(lacks for lacks, _ in self._lacks_and_gluts())

    @property
    def counted(self) -> float:
        """The same, as much as it counts. [weeks]"""
        known = zip(self.counts, self._lacks_and_gluts(), strict=True)
        return sum(counts * lacks for counts, (lacks, _) in known)

    @property
    def cost(self) -> float:
        """What is lacking, as much as it counts, and what all the rest costs. [weeks]"""
        beds_more = len(self.plants) - len(self.sown)
        found = STAND * len(self.sown) + _BED_MORE * beds_more + self._spent
        for counts, (lacks, gluts) in zip(self.counts, self._lacks_and_gluts(), strict=True):
            found += counts * (lacks + gluts)
        return found

    def add(self, number: int, bed: int, plants: int) -> None:
        """Add some plants of an option to a bed; fewer than none take them away."""
        option, key = self.options[number], (number, bed)
        before = self.plants.get(key, 0)
        self.ground.take(number, bed, plants)
        balance = self.balance[option.want][:]
        for place, share in option.gives:
            balance[place] += plants * share
        self.balance[option.want] = balance
        self.worths[option.want], self._sums[option.want] = {}, None
        self._spent += plants * self.spends[number]
        sown = self.sown.get(number, 0) + plants
        if sown:
            self.sown[number] = sown
        else:
            del self.sown[number]
        if not before:
            self.ground.stand(number, bed)
        if before + plants:
            self.plants[key] = before + plants
        else:
            del self.plants[key]
            self.ground.stand(number, bed, -1)

    def gain(self, number: int, plants: int) -> float:
        """Return what some plants of an option would take off the cost. [weeks]"""
        option, met, costs = self.options[number], 0.0, 0.0
        balance = self.balance[option.want]
        for place, share in option.gives:
            there, brought = balance[place], plants * share
            if there < 0:
                met += min(-there, brought)
            after = there + brought
            if after > 0:
                costs += SURPLUS * min(after, brought)
                if after > 1:
                    costs += GLUT * min(after - 1, brought)
        return self.counts[option.want] * (met - costs) - plants * self.spends[number]

    def most(self, number: int) -> int:
        """Return how many plants more may be sown of an option on its day. [1]"""
        return self.ground.most[number] - self.sown.get(number, 0)

    def spare(self, number: int) -> int:
        """Return how many plants of an option could be left out without leaving more unmet. [1]"""
        option = self.options[number]
        balance = self.balance[option.want]
        return min(int(balance[place] / share + 1e-6) for place, share in option.gives)

    def choices(self) -> tuple[Choice, ...]:
        """Return what was chosen, in order of planting day, want and bed."""
        found = [Choice(option, bed, plants) for (option, bed), plants in self.plants.items()]
        options = self.options
        found.sort(key=lambda c: (options[c.option].first, options[c.option].want, c.bed))
        return tuple(found)

    def within(self, count: int) -> Chosen:
        """Return the same plan, to which only the first so many beds are open."""
        made = self.copy()
        made.ground = made.ground.within(count)
        made.worths = [{} for _ in made.worths]
        return made


def _near(
    options: Sequence[PlantingOption], numbers: Sequence[Sequence[int]]
) -> dict[int, list[int]]:
    """Return for each option those of its want that are picked in some week between its own."""
    spans = [(each.gives[0][0], each.gives[-1][0]) for each in options]
    return {
        number: [
            other
            for other in of_want
            if spans[other][0] <= spans[number][1] and spans[number][0] <= spans[other][1]
        ]
        for of_want in numbers
        for number in of_want
    }


def _lacks_and_gluts(balance: Sequence[float]) -> tuple[float, float]:
    """Return what is lacking of a want, and what all costs that is beyond it. [weeks]"""
    lacks = beyond = 0.0
    for each in balance:
        if each < 0:
            lacks -= each
        else:
            beyond += SURPLUS * each + GLUT * max(each - 1, 0.0)
    return lacks, beyond
