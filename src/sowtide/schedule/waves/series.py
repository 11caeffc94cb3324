"""From the entries of the file to planting days: waves and the gaps between their runs."""

from __future__ import annotations

from collections.abc import Generator, Iterator
from datetime import date, timedelta

from sowtide.days import DateSpan
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed, Entry
from sowtide.reasons import OURS, Dated
from sowtide.schedule.waves.chill import chilled
from sowtide.schedule.waves.wave import Gap
from sowtide.schedule.waves.windows import Conditions, Prospects
from sowtide.values import value

MOST_WAVES = 366
"""More waves than this in one entry are a slip of the pen. [1]"""

_DAY = timedelta(days=1)

_Days = Generator[tuple[Dated, date], Dated, None]
"""Planting days, each with the last day it may be moved to; takes the day it really was."""


@value
class Planting:
    """One wave asked for: its entry, its number from 1, and its planting day, counted.

    Parameters
    ----------
    entry, number, planted
        What is asked for.
    latest
        The last day to which it may be moved to find room; its planting day unless its entry
        gives a range of days from one wave to the next.
    """

    entry: Entry
    number: int
    planted: Dated
    latest: date

    @property
    def id(self) -> str:
        """Name of the wave."""
        return f"{self.entry.name}-{self.number}"

    @property
    def beds(self) -> tuple[Bed, ...]:
        """Beds it may go to, in order."""
        entry = self.entry
        return entry.beds_of(self.number)[0] if entry.wave_beds else entry.beds

    @property
    def beds_named(self) -> bool:
        """Whether the grower named them."""
        entry = self.entry
        return entry.beds_of(self.number)[1] if entry.wave_beds else entry.beds_named

    def moved(self, days: int) -> Planting:
        """Return it so many days later, for want of room before. [days]"""
        if not days:
            return self
        text = f"moved by {days} day{'s' if days > 1 else ''}: no room before"
        later = self.planted.then(days, "room", text, self.entry.every_origin)
        return Planting(self.entry, self.number, later, self.latest)


class Series:
    """The plantings of one entry, handed out one by one, because each steps on from the last.

    "earliest" and "last safe" are days that hold in every bed the entry may use. A day the grower
    wrote is kept whatever comes of it. Between two safe runs nothing is planted: a named gap. A
    series from the earliest to the last safe day has no wave where no day is safe.

    Parameters
    ----------
    entry
        What asks for the waves.
    conditions
        The place in the growing year.
    """

    def __init__(self, entry: Entry, conditions: Conditions) -> None:
        self.entry = entry
        self.cut_short = False
        """Whether it would have more waves than an entry may have."""
        self.safe_until: date | None = None
        """The last day that is safe in every bed it may use, where it ends on one."""
        self._gaps: list[Gap] = []
        self._last: Planting | None = None
        self._days = self._begin(conditions)

    def _begin(self, conditions: Conditions) -> _Days:
        entry = self.entry
        prospects = tuple(
            conditions.prospects(entry.crop, entry.raised, colder_by=ground)
            for ground in conditions.grounds(entry.beds)
        )
        start = _start(entry, prospects)
        if entry.start is None and entry.raised is Raised.DIRECT:
            start = _after_chill(entry.crop, start, conditions)
        if entry.every is None:
            return _once(start)
        if entry.until:
            return _until_date(entry, start)
        runs = _runs(prospects, start, conditions)
        self.safe_until = runs[-1].last if runs else None
        if entry.start is None:
            if not runs:
                return _never()
            start = _first_safe(start, runs[0])
        hot = conditions.climate.hot_weeks is not None and prospects[0].need.heat_ends
        why = "too hot" if hot else "not safe"
        return _while_safe(entry, start, runs=runs, gaps=self._gaps, why=why)

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """The gaps between the plantings handed out."""
        if self._last is None:
            return ()
        last = self._last.planted.day
        return tuple(gap for gap in self._gaps if gap.last < last)

    def first(self) -> Planting | None:
        """Return its first planting, or None where it has none."""
        return self._take(1, None)

    def after(self, planting: Planting) -> Planting | None:
        """Return the planting after one, counted from the day on which that one is planted."""
        if self.entry.every is None:
            return None
        number = planting.number + 1
        most = self.entry.count
        if most is not None and number > most:
            return None
        following = self._take(number, planting.planted)
        if following is not None and number > MOST_WAVES:
            self.cut_short, self._last = True, planting
            return None
        return following

    def _take(self, number: int, planted: Dated | None) -> Planting | None:
        try:
            day, latest = next(self._days) if planted is None else self._days.send(planted)
        except StopIteration:
            return None
        if self.entry.wave_beds and not self.entry.beds_of(number)[0]:
            latest = day.day
        self._last = Planting(self.entry, number, day, latest)
        return self._last


def _once(start: Dated) -> _Days:
    yield start, start.day


def _never() -> _Days:
    yield from ()


def _start(entry: Entry, prospects: tuple[Prospects, ...]) -> Dated:
    if entry.start is not None:
        return Dated.on(entry.start, "written", "planting day as written", entry.start_origin)
    return max((each.earliest for each in prospects), key=lambda earliest: earliest.day)


def _after_chill(crop: Crop, earliest: Dated, conditions: Conditions) -> Dated:
    """Return the first day, sown direct, whose young plants meet no cold to run to seed from.

    Plants set out may be so small that they stand it; what is sown in place can only wait.
    """
    wait = 0
    while (
        chilled(crop, earliest.day + timedelta(days=wait), conditions.climate, conditions.year)
        is not None
    ):
        wait += 1
    if not wait:
        return earliest
    text = "until its young plants meet no cold to run to seed from"
    return earliest.then(wait, "earliest", text, crop.origin("chill_limit"))


def _first_safe(earliest: Dated, run: DateSpan) -> Dated:
    wait = (run.first - earliest.day).days
    if wait <= 0:
        return earliest
    return earliest.then(wait, "last-safe", "to the first safe day", OURS)


def _runs(
    prospects: tuple[Prospects, ...], start: Dated, conditions: Conditions
) -> tuple[DateSpan, ...]:
    """Days that are safe on every kind of ground, in runs."""
    if any(each.overwinters(start.day) for each in prospects):
        return (DateSpan(start.day, conditions.year.last),)
    runs = prospects[0].windows
    for each in prospects[1:]:
        runs = tuple(_common(runs, each.windows))
    return runs


def _common(left: tuple[DateSpan, ...], right: tuple[DateSpan, ...]) -> Iterator[DateSpan]:
    """Days in a run of both."""
    for one in left:
        for other in right:
            first, last = max(one.first, other.first), min(one.last, other.last)
            if first <= last:
                yield DateSpan(first, last)


def _until_date(entry: Entry, start: Dated) -> _Days:
    until = entry.until
    assert until is not None
    if start.day > until and entry.start is None:
        return
    begun = previous = yield start, start.day
    number = 1
    while True:
        planted = _nth(entry, begun, number)
        if planted.day > until:
            return
        previous = yield planted, _latest(entry, planted, previous, last=until)
        number += 1
        if previous is not planted:
            begun, number = previous, 1


def _while_safe(
    entry: Entry, start: Dated, *, runs: tuple[DateSpan, ...], gaps: list[Gap], why: str
) -> _Days:
    """Step on through the safe runs; the first planting stands even outside them."""
    begun = previous = yield start, start.day
    number = 1
    while True:
        planted = _nth(entry, begun, number)
        run = next((run for run in runs if run.last >= planted.day), None)
        if run is None:
            return
        ended = [each.last for each in runs if each.last < planted.day]
        if planted.day < run.first and ended:
            gap_from = max(ended[-1], previous.day) + _DAY
            gaps.append(Gap(entry.name, gap_from, run.first - _DAY, why))
            planted = Dated.on(run.first, "last-safe", "first safe day after the gap", OURS)
            begun, number = planted, 0
        previous = yield planted, _latest(entry, planted, previous, last=run.last)
        number += 1
        if previous is not planted:
            begun, number = previous, 1


def _latest(entry: Entry, planted: Dated, previous: Dated, *, last: date) -> date:
    """The last day a planting may be moved to: in its range after the one before it."""
    assert entry.every is not None
    most = previous.day + timedelta(days=entry.every.high)
    return max(planted.day, min(most, last))


def _nth(entry: Entry, start: Dated, number: int) -> Dated:
    """The planting so many intervals after the start."""
    assert entry.every is not None
    days = entry.every.low
    words = f"every {days} days" if number == 1 else f"every {days} days, {number} times"
    return start.then(number * days, "series", words, entry.every_origin)
