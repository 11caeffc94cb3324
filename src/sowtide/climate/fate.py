"""What the hot weeks do to the first picks of one planting day.

A cool-season crop is not picked in the hot weeks. What is ripe before them is picked until they
begin; what gets ripe in them and is not over when they end is picked from then on, with the days
it has left: of the picking days, or for a crop cut once those it holds in warm weather.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sowtide.climate.answers import Need


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
