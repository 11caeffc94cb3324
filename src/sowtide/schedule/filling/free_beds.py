"""The free area of every bed day by day, and what rotation keeps out of it."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import pairwise

from sowtide.schedule.filling.plantings import PlantingOption
from sowtide.schedule.season import Season
from sowtide.schedule.stays import LONG_STAY, family_key

_DAYS = 800
"""Days that are followed from the first of the growing year on: nothing planted in it stands
longer. [days]"""

_Kin = tuple[int, int, bool]
"""Planting day, the day it is gone, and whether it may not follow its own family."""
_SICK = -1
"""Stands for the day it is gone where plants were pulled as sick: never again this season."""


class FreeBeds:
    """Beds as they fill up, whatever is planted when.

    Parameters
    ----------
    season
        The season: what it has in the beds stays.
    """

    def __init__(self, season: Season) -> None:
        self.beds = season.garden.beds
        self._begin = season.garden.year.first.toordinal()
        self._free = [[bed.area] * _DAYS for bed in self.beds]
        self._kin: list[dict[str, list[_Kin]]] = [{} for _ in self.beds]
        self._grew: list[dict[str, int]] = [{} for _ in self.beds]
        self._year = season.garden.year.season
        sick = season.room.sick
        rotates = {wave.id: bool(wave.crop.rotation) for wave in season.waves}
        for index, (bed, stays) in enumerate(zip(self.beds, season.room.stays, strict=True)):
            for stay in stays:
                self._change(index, stay.first, stay.until, -stay.area)
                if stay.pulled > stay.first:
                    kin = stay.first, stay.pulled, rotates[stay.wave]
                    self._kin[index].setdefault(stay.family, []).append(kin)
            for span in bed.taken:
                first, until = span.first.toordinal(), span.last.toordinal() + 1
                self._change(index, first, until, -bed.area)
            for year, family in bed.grew:
                key = family_key(family)
                self._grew[index][key] = max(year, self._grew[index].get(key, year))
            for (number, family), found in sick.items():
                if number == index:
                    kin = found.on.toordinal(), _SICK, True
                    self._kin[index].setdefault(family, []).append(kin)

    def room(self, option: PlantingOption, index: int) -> int:
        """Return how many plants of an option go into a bed for their whole stay. [1]"""
        if not self._may(option, index):
            return 0
        first = option.first - self._begin
        until = option.pulled + self.beds[index].rest - self._begin
        return max(min(self._free[index][first:until], default=0), 0) // option.area

    def days_short(self, planted: Collection[int]) -> tuple[int, ...]:
        """Return planting days and the days on which a bed has less room than the day before."""
        found = set(planted)
        for days in self._free:
            pairs = enumerate(pairwise(days), self._begin + 1)
            found |= {day for day, (before, after) in pairs if after < before}
        return tuple(sorted(found))

    def free_on(self, index: int, days: Collection[int]) -> list[int]:
        """Return the free area of a bed on some days. [µm²]"""
        free, begin = self._free[index], self._begin
        return [max(free[day - begin], 0) for day in days]

    def on_ground(self, ground: float) -> Iterator[int]:
        """Yield the numbers of the beds on a kind of ground."""
        return (i for i, bed in enumerate(self.beds) if bed.colder_than_site == ground)

    def _change(self, index: int, first: int, until: int, area: int) -> None:
        begin, stop = max(first - self._begin, 0), min(until - self._begin, _DAYS)
        days = self._free[index]
        days[begin:stop] = [free + area for free in days[begin:stop]]

    def _may(self, option: PlantingOption, index: int) -> bool:
        """Say whether rotation lets an option into a bed, and what follows it after it."""
        grew = self._grew[index].get(option.family)
        if grew is not None and grew < self._year < grew + option.crop.rotation:
            return False
        return not any(_clashes(kin, option) for kin in self._kin[index].get(option.family, ()))


def clashes(one: PlantingOption, other: PlantingOption) -> bool:
    """Say whether two of a family may not stand in one bed, one after the other."""
    return _clashes(_kin(one), other)


def _kin(option: PlantingOption) -> _Kin:
    return option.first, option.pulled, option.rotates


def _clashes(kin: _Kin, option: PlantingOption) -> bool:
    """Say whether two of a family may not follow each other in one bed."""
    first, pulled, rotates = kin
    if pulled == _SICK:
        return option.first >= first
    if pulled <= option.first:
        return option.rotates and pulled - first >= LONG_STAY
    return rotates and option.pulled <= first and option.is_long
