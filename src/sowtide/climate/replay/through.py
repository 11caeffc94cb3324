"""Young plants that come through a frost which would end them in flower, and flower after it.

Peas in leaf stand a frost that takes their flowers and pods. One that has no flowers yet on such a
day lives on, unless it is so cold that the plant dies, and is picked if no such frost comes between
its flowers and the end of its picking. sowtide takes each part of the range of days to harvest to
flower so many days before its own first pick.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from sowtide.climate.answers import Need
from sowtide.climate.fate import Bearing, bearing, fate_of, picking_left
from sowtide.climate.medians import NEVER
from sowtide.climate.replay.ends import A_YEAR
from sowtide.climate.warmth import Years


class Spell(NamedTuple):
    """Days between two frosts in which what has come through flowers and is picked.

    Parameters
    ----------
    after
        The day of the frost before: flowers open later. [index]
    end
        The day of the frost that takes the flowers and pods, `NEVER` where none does. [index]
    until
        The last day whose temperatures matter. [index]
    """

    after: int
    end: int
    until: int


class RangePart(NamedTuple):
    """A part of the range of days to harvest: its first pick without heat, and its own end."""

    pick: int
    end: int


class Through:
    """What frost leaves of a crop while it has no flowers, in each recorded year.

    A winter in which temperatures are missing is one that nothing comes through.

    Parameters
    ----------
    flowers
        Indices of the days that take flowers and pods, in order.
    plants
        Those of them that kill the plants, too.
    years
        The growing years.
    ripens
        Days from a flower to the pick of its fruit. [days]
    missing
        Days without temperatures before each day of the record.
    """

    def __init__(
        self,
        flowers: Sequence[int],
        plants: Sequence[int],
        years: Years,
        *,
        ripens: int,
        missing: Sequence[int],
    ) -> None:
        self.ripens = ripens
        """Days from a flower to the pick of its fruit. [days]"""
        self._plants = plants
        self._missing = missing
        self._spells = [self._of_year(flowers, midsummer) for midsummer in years.midsummers]

    def spells(self, number: int, frost: int) -> list[Spell]:
        """Return the spells of a year in which plants are picked that a frost met in leaf.

        Parameters
        ----------
        number
            Which of the years.
        frost
            The first frost after planting that takes flowers. [index]
        """
        found = self._spells[number]
        if not found or frost > found[-1].after:
            return []
        at = bisect_left(self._plants, frost)
        killed = self._plants[at] if at < len(self._plants) else NEVER
        missing = self._missing
        return [
            spell
            for spell in found
            if frost <= spell.after < killed and missing[spell.until] == missing[frost]
        ]

    def end_of(self, pick: int, spells: Sequence[Spell], frost: int) -> int:
        """Return the day that ends what has its first pick on a day. [index]

        Parameters
        ----------
        pick
            The first pick. [index]
        spells, frost
            The spells after a frost, and the day of that.
        """
        for spell in spells:
            if spell.after + self.ripens < pick <= spell.until:
                return spell.end
        return frost

    def _of_year(self, flowers: Sequence[int], midsummer: int) -> list[Spell]:
        """The spells from a midsummer to the next that are long enough to ripen anything."""
        latest = midsummer + A_YEAR
        first, stop = bisect_left(flowers, midsummer), bisect_right(flowers, latest)
        frosts, found = [*flowers[first:stop], NEVER], []
        for after, end in pairwise(frosts):
            until = min(end, latest)
            if until - after > self.ripens and until < len(self._missing):
                found.append(Spell(after, end, until))
        return found


Hot = tuple[int, int] | None
"""The hot weeks of a year, half-open, or None. [index]"""


def first_of(part: RangePart, need: Need, hot: Hot) -> int:
    """Return the day from which on a part is picked before its end; `NEVER` for none. [index]"""
    return min(fate_of([part.pick], need, hot).first_picks(need), default=NEVER)


def is_worthwhile(part: RangePart, need: Need, hot: Hot) -> bool:
    """Whether a part is picked for its worthwhile days before its end."""
    picks = fate_of([part.pick], need, hot).worthwhile(need)
    return any(pick + need.before_frost <= part.end for pick in picks if pick < NEVER)


def left_of(parts: Sequence[RangePart], need: Need, hot: Hot, since: int) -> tuple[int, int]:
    """Return the picking days from a day on, summed over the parts, and how many have any."""
    fates = (fate_of([part.pick], need, hot) for part in parts)
    found = [
        picking_left(fate, need, part.end, since) for fate, part in zip(fates, parts, strict=True)
    ]
    return sum(days for days, _ in found), sum(some for _, some in found)


def borne_of(parts: Sequence[RangePart], need: Need, hot: Hot, planted: int) -> tuple[Bearing, ...]:
    """Return when each part bears, counted from the planting day."""
    found: list[Bearing] = []
    for part in parts:
        fate, picks = fate_of([part.pick], need, hot), [part.pick]
        found += bearing(fate, need, picks, planted=planted, end=part.end)
    return tuple(found)
