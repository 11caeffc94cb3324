"""What the hot weeks do to the first picks of one planting day.

A cool-season crop is not picked in the hot weeks. What is ripe before them is picked until they
begin; what gets ripe in them and is not over when they end is picked from then on, with the days
it has left: of the picking days, or for a crop cut once those it holds in warm weather. Where heat
drops flowers, their fruit is missing on the days on which it would be picked: those days are lost.

Of each year it tells when a wave bears. The years of one place and crop come in one order for all
its waves, so that what they bring in can be added up year by year: a late frost that spares one
wave spares the others too.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from operator import add
from typing import TYPE_CHECKING, NamedTuple

from sowtide.climate.answers import Need
from sowtide.climate.medians import NEVER
from sowtide.values import value

if TYPE_CHECKING:  # only where temperatures are known
    from sowtide.climate.warmth import Barren

YEARS_OF_CURVE = 20
"""Equally likely years that stand for a curve of frosts. [years]"""

_MOST_PARTS = 12
"""Parts of the range of first picks that are followed, where a climate knows more. [1]"""

Total = Callable[[int, int], float]
"""The mean number of days, of some from a first one on, on which a crop still stands. [days]"""

Bearing = tuple[int, int, int] | None
"""The day from which a part bears, is picked, and is picked no more, counted from its planting day;
what it bore before it was picked is lost. None for a part that comes to nothing. [days]"""

Lost = tuple[tuple[int, int], ...]
"""Runs of days, half-open, counted from the planting day. [days]"""


class PickSpan(NamedTuple):
    """The days on which a first pick and what follows it can be picked before frost.

    Parameters
    ----------
    first, stop
        The days, half-open, as ordinals.
    barren
        The days without fruit, since heat dropped their flowers; None without any.
    """

    first: int
    stop: int
    barren: Barren | None

    def picked(self, first: int, stop: int) -> int:
        """Return on how many days of some there is something to pick, half-open. [days]"""
        return stop - first if self.barren is None else self.barren.picked(first, stop)

    def nth(self, first: int, number: int) -> int:
        """Return the day with fruit of a number, counted from a first day on; the first is 1."""
        return first + number - 1 if self.barren is None else self.barren.nth(first, number)


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
    lead
        How many that come to nothing are earlier than those in `picks`. [1]
    hot_end
        The day on which heat ends the wave, or None.
    too_hot
        Whether heat takes all of it, or more than half: of an autumn wave, or by its flowers.
    """

    def __init__(
        self,
        picks: Sequence[int],
        count: int,
        early: int,
        late: int,
        left: Sequence[int] | None = None,
        *,
        waits: int = 0,
        lead: int = 0,
        hot_end: int | None = None,
        too_hot: bool = False,
    ) -> None:
        self.picks, self.count, self.lead = picks, count, lead
        self.early, self.late = early, late
        self.left, self.waits, self.hot_end, self.too_hot = left, waits, hot_end, too_hot
        self.barren: Barren | None = None
        """The days without fruit in the usual season; None where no pick meets any."""
        self.each: Sequence[Barren] = ()
        """Those of the season of each of `picks`; empty where no pick meets any."""
        self._spans: tuple[PickSpan, ...] | None = None
        self._lasting: Sequence[int] | None = None

    def worthwhile(self, need: Need) -> Sequence[int]:
        """Return first picks so early that the worthwhile days come before and after the heat.

        Where heat drops flowers each is as much later as it takes to pick so many days.
        """
        if self._lasting is None:
            self._lasting = self._long_enough(need) if self.barren is None else self._setting(need)
        return self._lasting

    def first_picks(self, need: Need) -> Sequence[int]:
        """Return the days from which on there is something to pick, of those that come to any."""
        if self.barren is None:
            return self.picks
        found = ((span.nth(span.first, 1), span.stop) for span in self.spans(need))
        return [pick for pick, stop in found if pick < stop]

    def spans(self, need: Need) -> tuple[PickSpan, ...]:
        """Return the days on which each of `picks` can be picked before frost."""
        if self._spans is None:
            each: Sequence[Barren | None] = self.each or [None] * len(self.picks)
            stops = map(add, self.picks, self.days_left(need))
            self._spans = tuple(map(PickSpan, self.picks, stops, each))
        return self._spans

    def days_left(self, need: Need) -> Sequence[int]:
        """Return the picking days left of each of `picks`. [days]"""
        return self.left or [need.picking] * len(self.picks)

    def first_fruit(self, day: int) -> int:
        """Return the first day from one on whose fruit no heat has dropped."""
        return day if self.barren is None else self.barren.nth(day, 1)

    def last_worthwhile(self, pick: int, need: Need) -> int:
        """Return the last worthwhile day of a first pick, as far as it must come before frost."""
        days = need.before_frost
        if self.barren is None or need.picking == 1:
            return pick + days - 1
        return self.barren.nth(pick, days)

    def heat_margin(self, need: Need) -> int | None:
        """Days from the last worthwhile pick of the late end to the heat; None where there is none.

        Where heat drops flowers, the days with fruit beyond those that make it worth while. [days]
        """
        if self.barren is not None:
            lasting = min(need.worthwhile, need.picking)
            return self.barren.picked(self.late, self.late + need.picking) - lasting
        return None if self.hot_end is None else self.hot_end - (self.late + need.worthwhile)

    def _setting(self, need: Need) -> Sequence[int]:
        """Picks with the worthwhile days left beside those without fruit, each as late as that."""
        before = min(need.before_frost, need.picking)
        spans = self.spans(need)
        if need.picking == 1 and self.hot_end is not None:
            latest = self.hot_end - need.worthwhile
            spans = tuple(span for span in spans if span.first <= latest)
        lasting = min(need.worthwhile, need.picking)
        return [
            span.nth(span.first, before) - before + 1
            for span in spans
            if span.picked(span.first, span.stop) >= lasting
        ]

    def _long_enough(self, need: Need) -> Sequence[int]:
        """Picks with the worthwhile days left before and after the hot weeks."""
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


def fate_of(
    picks: Sequence[int],
    need: Need,
    hot: tuple[int, int] | None,
    barren: Barren | None = None,
    each: Sequence[Barren] = (),
) -> Fate:
    """Return the fate of a planting day.

    Parameters
    ----------
    picks
        Its first picks without heat, as ordinals in order.
    need
        What the crop needs.
    hot
        The first day of the hot weeks and the day after them, as ordinals; None without any.
    barren
        The days without fruit, since heat dropped their flowers; None without any.
    each
        Those of the season of each first pick; empty where all are of one.
    """
    fate = _in_hot_weeks(picks, need, hot)
    if barren is None:
        return fate
    of_each = each if len(each) == len(fate.picks) else [barren] * len(fate.picks)
    spans = zip(fate.picks, fate.days_left(need), of_each, strict=True)
    if any(lost.count(pick, pick + days) for pick, days, lost in spans):
        lasting = len(fate.worthwhile(need))
        fate.barren, fate.each, fate._lasting = barren, of_each, None
        fate.too_hot |= 2 * (lasting - len(fate.worthwhile(need))) > fate.count
    return fate


def _in_hot_weeks(picks: Sequence[int], need: Need, hot: tuple[int, int] | None) -> Fate:
    """Return what the hot weeks make of the first picks of a planting day."""
    early, late, count = picks[0], picks[-1], len(picks)
    if hot is None or not need.heat_ends or early >= hot[1]:
        return Fate(picks, count, early, late)
    begins, over = hot
    if early < begins:
        ripe = [pick for pick in picks if pick < begins]
        left = [min(need.picking, begins - pick) for pick in ripe]
        return Fate(ripe, count, early, late, left, hot_end=begins)
    if late < over:
        return Fate((), count, early, late, (), hot_end=begins, too_hot=True)
    return _after(picks, need, over)


def expected_days(fate: Fate, need: Need, total: Total) -> float:
    """Return the mean picking days over the range of days to harvest. [days]"""
    found = [picking_days(span, need, total) for span in fate.spans(need)]
    return sum(found) / fate.count


def picking_days(span: PickSpan, need: Need, total: Total) -> float:
    """Return the mean days with something to pick, from a first pick until it is over. [days]"""
    first, stop = span.first, span.stop
    if need.stands:
        return total(first, 1) * span.picked(first, stop)
    lost = () if span.barren is None else span.barren.spans(first, stop)
    gone = sum(total(begin, over - begin) for begin, over in lost)
    return total(first, stop - first) - gone


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
    days = parts = 0
    latest = NEVER if need.stands else end
    for span in fate.spans(need):
        begin, over = max(span.first, since), min(span.stop, latest)
        if span.first >= end or over <= begin:
            continue
        left = span.picked(begin, over)
        days, parts = days + left, parts + (left > 0)
    return days, parts


def _after(picks: Sequence[int], need: Need, over: int) -> Fate:
    """An autumn wave, some of whose first picks wait for the end of the heat."""
    keeps = need.holds_in_heat if need.picking == 1 else need.picking - 1
    kept = [pick for pick in picks if over - pick <= keeps]
    left = [need.picking - max(over - pick, 0) if need.picking > 1 else 1 for pick in kept]
    waited = [max(pick, over) for pick in kept]
    lead = len(picks) - len(kept)
    fate = Fate(waited, len(picks), picks[0], picks[-1], left, waits=over, lead=lead)
    fate.too_hot = 2 * len(fate.worthwhile(need)) < fate.count
    return fate


@value
class Borne:
    """What one year does to one wave."""

    season: int
    """The growing year, or which of the years that stand for a curve, from 0 on."""
    parts: tuple[Bearing, ...]
    """One for each part of the range of days to harvest, all equally likely."""
    lost: tuple[Lost, ...] = ()
    """Of each part the days without fruit, since heat dropped their flowers; empty without any."""


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
    for number, span in enumerate(fate.spans(need), fate.lead):
        first = span.nth(span.first, 1)
        if first >= min(span.stop, end):
            continue
        stop = NEVER if need.picking == 1 else span.stop
        if not need.stands:
            stop = min(stop, end)
        if fate.hot_end is not None:
            stop = min(stop, fate.hot_end)
        parts[number] = picks[number] - planted, first - planted, stop - planted
    return tuple(parts)


def without_fruit(fate: Fate, need: Need, *, planted: int) -> tuple[Lost, ...]:
    """Return the days without fruit in the picking of each part, counted from planting.

    Parameters
    ----------
    fate, need, planted
        As for `bearing`.
    """
    if fate.barren is None:
        return ()
    found: list[Lost] = [()] * fate.count
    spans = zip(fate.spans(need), fate.each, strict=True)
    for number, (span, barren) in enumerate(spans, fate.lead):
        lost = barren.spans(span.first, span.stop)
        found[number] = tuple((first - planted, stop - planted) for first, stop in lost)
    return tuple(found)


def borne_by_curve(
    fate: Fate, need: Need, picks: Sequence[int], *, planted: int, ends: Sequence[int]
) -> tuple[Borne, ...]:
    """Return what equally likely years do to a wave, by the days on which frost ends it in each."""
    lost = without_fruit(fate, need, planted=planted)
    chosen: Sequence[int] = range(fate.count)
    if fate.count > _MOST_PARTS:
        step = fate.count / _MOST_PARTS
        chosen = [int((each + 0.5) * step) for each in range(_MOST_PARTS)]
        lost = tuple(lost[each] for each in chosen) if lost else ()
    found = []
    for number, end in enumerate(ends):
        parts = bearing(fate, need, picks, planted=planted, end=end)
        found.append(Borne(number, tuple(parts[each] for each in chosen), lost))
    return tuple(found)
