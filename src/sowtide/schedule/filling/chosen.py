"""Plantings as they are chosen: what they take of the beds, and what they leave lacking."""

from __future__ import annotations

from collections.abc import Sequence

from sowtide.schedule.filling.free_beds import FreeBeds
from sowtide.schedule.filling.plantings import PlantingOption
from sowtide.schedule.filling.search_ground import SearchGround
from sowtide.values import value

STAND = 0.02
"""What a sowing in a bed must be worth, of a week's want: sowtide's own choice. [weeks]"""
GLUT = 0.05
"""What it costs that a week brings one want more than twice of it; sowtide's own choice. [weeks]"""
_UNASKED = 0.02
"""What it costs that so much is picked in weeks in which nobody wants it; our own. [weeks]"""
_GROUND = 0.02
"""What it costs that a bed is taken whole for a year; sowtide's own choice. [weeks]"""
_YEAR = 365


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
    of_first
        How many of the beds are planted, from the first on; None: all. [1]
    """

    def __init__(
        self,
        options: Sequence[PlantingOption],
        beds: FreeBeds,
        lacking: Sequence[Sequence[float]],
        counts: Sequence[float] | None = None,
        of_first: int | None = None,
    ) -> None:
        self.options, self.beds = options, beds.beds
        self.ground = SearchGround(options, beds, of_first)
        self.numbers: list[list[int]] = [[] for _ in lacking]
        """The options of each want that some bed may take."""
        for number, places in enumerate(self.ground.places):
            if places:
                self.numbers[options[number].want].append(number)
        self.balance = [[-share for share in each] for each in lacking]
        """What each week has beyond its want; below zero what it lacks."""
        self.plants: dict[tuple[int, int], int] = {}
        """Plants by option and bed. [1]"""
        self.unmet = 0.0
        """What is still lacking. [weeks]"""
        self.counted = 0.0
        """The same, as much as it counts. [weeks]"""
        self._gluts = 0.0
        self.spent = 0.0
        """What the ground that is taken costs, and what is picked unasked. [weeks]"""
        self.counts = tuple(counts) if counts is not None else (1.0,) * len(lacking)
        self.weigh()

    def copy(self) -> Chosen:
        """Return the same, to be changed by itself."""
        made = object.__new__(Chosen)
        made.options, made.ground = self.options, self.ground.copy()
        made.beds, made.numbers = self.beds, self.numbers
        made.balance = [each[:] for each in self.balance]
        made.plants, made.counts = dict(self.plants), self.counts
        made.unmet, made.counted = self.unmet, self.counted
        made._gluts, made.spent = self._gluts, self.spent
        return made

    def weigh(self) -> None:
        """Add up anew what is lacking, and what gluts cost."""
        self.unmet = self.counted = self._gluts = 0.0
        for weeks, counts in zip(self.balance, self.counts, strict=True):
            lacks = -sum(each for each in weeks if each < 0)
            self.unmet += lacks
            self.counted += counts * lacks
            self._gluts += GLUT * sum(each - 1 for each in weeks if each > 1)

    @property
    def cost(self) -> float:
        """What is lacking, as much as it counts, and what gluts and sowings cost. [weeks]"""
        return self.counted + self._gluts + STAND * len(self.plants)

    def add(self, number: int, bed: int, plants: int) -> None:
        """Add some plants of an option to a bed; fewer than none take them away."""
        option, key = self.options[number], (number, bed)
        before = self.plants.get(key, 0)
        self.ground.take(number, bed, plants)
        balance = self.balance[option.want]
        for place, share in option.gives:
            balance[place] += plants * share
        ground = option.area * (option.pulled - option.first) / (self.beds[bed].area * _YEAR)
        self.spent += plants * (_UNASKED * option.unasked + _GROUND * ground)
        if not before:
            self.ground.stand(number, bed)
        if before + plants:
            self.plants[key] = before + plants
        else:
            del self.plants[key]
            self.ground.stand(number, bed, -1)

    def gain(self, number: int, plants: int) -> float:
        """Return what some plants of an option would take off the cost. [weeks]"""
        option, met, beyond = self.options[number], 0.0, 0.0
        balance = self.balance[option.want]
        for place, share in option.gives:
            there, brought = balance[place], plants * share
            if there < 0:
                met += min(-there, brought)
            if there + brought > 1:
                beyond += min(there + brought - 1, brought)
        return self.counts[option.want] * met - GLUT * beyond

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

    def in_all_of(self, other: Chosen) -> Chosen:
        """Return the same plantings with all beds that another plan may use."""
        made = other.copy()
        for (number, bed), plants in self.plants.items():
            made.add(number, bed, plants)
        made.weigh()
        return made
