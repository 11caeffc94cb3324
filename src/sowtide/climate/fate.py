"""What the hot weeks do to the first picks of one planting day.

A cool-season crop is not picked in the hot weeks. What is ripe before them is picked until they
begin; what gets ripe in them and is not over when they end is picked from then on, with the days
it has left: of the picking days, or for a crop cut once those it holds in warm weather.

Of each year it tells when a wave bears. The years of one place and crop come in one order for all
its waves, so that what they bring in can be added up year by year: a late frost that spares one
wave spares the others too.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sowtide.climate.answers import Need
from sowtide.climate.medians import NEVER
from sowtide.values import value

YEARS_OF_CURVE = 20
"""Equally likely years that stand for a curve of frosts. [years]"""

_MOST_PARTS = 12
"""Parts of the range of first picks that are followed, where a climate knows more. [1]"""

Bearing = tuple[int, int, int] | None
"""The day from which a part bears, is picked, and is picked no more, counted from its planting day;
what it bore before it was picked is lost. None for a part that comes to nothing. [days]"""


@dataclass(slots=True)
class Fate:
    """The first picks of a planting day, one for each day of the range of days to harvest.

    Parameters
    ----------
    picks
        Those that come to something, as ordinals in order.
    count
        How many there are, with those that come to nothing. [1]
    early, late
        The first and the last of all, without waiting for the heat to end, as ordinals.
    left
        Picking days left of each in `picks`; None where heat takes none. [days]
    waits
        The day before which nothing is picked because of the heat; 0 where there is none.
    hot_end
        The day on which heat ends the wave, or None.
    too_hot
        Whether heat takes all of it, or of an autumn wave more than half.
    """

    picks: Sequence[int]
    count: int
    early: int
    late: int
    left: Sequence[int] | None = None
    waits: int = 0
    hot_end: int | None = None
    too_hot: bool = False

    def worthwhile(self, need: Need) -> Sequence[int]:
        """Return the picks with the worthwhile days left before and after the heat."""
        if self.left is None or need.picking == 1:
            return self.picks if self.hot_end is None else self._before(need.worthwhile)
        return [
            pick
            for pick, days in zip(self.picks, self.left, strict=True)
            if days >= need.worthwhile
        ]

    def _before(self, days: int) -> Sequence[int]:
        """Picks with so many days until heat ends the wave."""
        assert self.hot_end is not None
        latest = self.hot_end - days
        return [pick for pick in self.picks if pick <= latest]


def fate_of(picks: Sequence[int], need: Need, hot: tuple[int, int] | None) -> Fate:
    """Return the fate of a planting day.

    Parameters
    ----------
    picks
        Its first picks without heat, as ordinals in order.
    need
        What the crop needs.
    hot
        The first day of the hot weeks and the day after them, as ordinals; None without any.
    """
    early, late, count = picks[0], picks[-1], len(picks)
    if hot is None or not need.heat_ends or early >= hot[1]:
        return Fate(picks, count, early, late)
    begins, over = hot
    if early < begins:
        ripe = [pick for pick in picks if pick < begins]
        left = [min(need.picking, begins - pick) for pick in ripe]
        if need.picking == 1:
            left = [1] * len(ripe)
        return Fate(ripe, count, early, late, left, hot_end=begins)
    if late < over:
        return Fate((), count, early, late, (), hot_end=begins, too_hot=True)
    return _after(picks, need, over)


def picking_left(fate: Fate, need: Need, end: int, since: int) -> tuple[int, int]:
    """Return the picking days from a day on, summed over the range, and how many parts have any.

    Parameters
    ----------
    fate
        What the hot weeks leave of it.
    need
        What the crop needs.
    end
        The day that frost ends it, as an ordinal.
    since
        The first day that counts, as an ordinal.
    """
    left = fate.left or [need.picking] * len(fate.picks)
    days = [
        max((pick + picking if need.stands else min(pick + picking, end)) - max(pick, since), 0)
        for pick, picking in zip(fate.picks, left, strict=True)
        if pick < end
    ]
    return sum(days), sum(each > 0 for each in days)


def _after(picks: Sequence[int], need: Need, over: int) -> Fate:
    """An autumn wave, some of whose first picks wait for the end of the heat."""
    keeps = need.holds_in_heat if need.picking == 1 else need.picking - 1
    kept = [pick for pick in picks if over - pick <= keeps]
    left = [need.picking - max(over - pick, 0) if need.picking > 1 else 1 for pick in kept]
    waited = [max(pick, over) for pick in kept]
    fate = Fate(waited, len(picks), picks[0], picks[-1], left, waits=over)
    fate.too_hot = 2 * len(fate.worthwhile(need)) < fate.count
    return fate


@value
class Borne:
    """What one year does to one wave.

    Parameters
    ----------
    season
        The growing year, or which of the years that stand for a curve, from 0 on.
    parts
        One for each part of the range of days to harvest, all equally likely.
    """

    season: int
    parts: tuple[Bearing, ...]


def bearing(
    fate: Fate, need: Need, picks: Sequence[int], *, planted: int, end: int
) -> tuple[Bearing, ...]:
    """Return when each part of the range bears.

    Parameters
    ----------
    fate
        What the hot weeks make of the first picks.
    need
        What the crop needs.
    picks
        The first picks without heat, one for each part, as ordinals in order.
    planted, end
        The planting day and the day that frost ends it, as ordinals.
    """
    parts: list[Bearing] = [None] * fate.count
    lead = len(picks) - len(fate.picks) if fate.waits else 0
    left = fate.left or [need.picking] * len(fate.picks)
    for number, (pick, days) in enumerate(zip(fate.picks, left, strict=True), lead):
        if pick >= end or pick >= NEVER:
            continue
        stop = NEVER if need.picking == 1 else pick + days
        if not need.stands:
            stop = min(stop, end)
        if fate.hot_end is not None:
            stop = min(stop, fate.hot_end)
        parts[number] = picks[number] - planted, pick - planted, stop - planted
    return tuple(parts)


def borne_by_curve(
    fate: Fate, need: Need, picks: Sequence[int], *, planted: int, ends: Sequence[int]
) -> tuple[Borne, ...]:
    """Return what equally likely years do to a wave, by the days on which frost ends it in each."""
    found = []
    for number, end in enumerate(ends):
        parts = bearing(fate, need, picks, planted=planted, end=end)
        if len(parts) > _MOST_PARTS:
            step = len(parts) / _MOST_PARTS
            parts = tuple(parts[int((each + 0.5) * step)] for each in range(_MOST_PARTS))
        found.append(Borne(number, parts))
    return tuple(found)
