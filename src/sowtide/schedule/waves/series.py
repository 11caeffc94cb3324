"""From the entries of the file to planting days: waves and the gaps between their runs."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from enum import Enum

from sowtide.days import DateSpan, short_day
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed, Entry
from sowtide.reasons import OURS, Dated, Origin
from sowtide.schedule.sowing import chilled
from sowtide.schedule.waves.conditions import Conditions
from sowtide.schedule.waves.wave import Gap
from sowtide.schedule.waves.windows import Prospects
from sowtide.values import value

MOST_WAVES = 366
"""More waves than this in one entry are a slip of the pen. [1]"""

_DAY = timedelta(days=1)


class Over(Enum):
    """Why a series has no further wave."""

    SINGLE = "a single wave"
    COUNT = "as many as asked for"
    UNTIL = "the next would come after its until"
    NOT_SAFE = "no safe day is left for the next"
    TOO_MANY = "more than an entry may have"


@value
class Planting:
    """One wave asked for: its entry, its number from 1, and its planting day, counted."""

    entry: Entry
    number: int
    planted: Dated
    """What is asked for."""
    latest: date
    """The last day to which it may be moved to find room; its planting day unless its entry gives a
    range of days from one wave to the next."""
    begun: Dated
    times: int = 0
    """The planting day from which its own was counted, and how many intervals after it. [1]"""
    gap: Gap | None = None
    """The days before it on which nothing of its series could be planted, or None."""
    happened: bool = False
    """Whether it was planted on that day, and is not only planned."""
    picked: date | None = None
    """The day it was first picked, as the journal says; None where it says nothing of that."""

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
        """Return it so many days later, for want of room before; what follows steps on. [days]"""
        if not days:
            return self
        text = f"moved by {days} day{'s' if days > 1 else ''}: no room before"
        later = self.planted.then(days, "room", text, self.entry.every_origin)
        return replace(self, planted=later, begun=later, times=0)

    def followed_by(self, entry: Entry, number: int) -> Planting:
        """Return the next one of a series whose seedlings are sown, whatever days are safe."""
        assert entry.every is not None  # after a single wave there is none
        days = entry.every.low
        text = f"{_every(days)}, its seedlings are sown"
        planted = self.planted.then(days, "series", text, entry.every_origin)
        return Planting(
            entry=entry, number=number, planted=planted, latest=planted.day, begun=planted
        )

    def done(self, planted: Dated, picked: date | None = None) -> Planting:
        """Return it as it happened, early or late; what follows steps on from that day."""
        return replace(
            self,
            planted=planted,
            latest=planted.day,
            begun=planted,
            times=0,
            happened=True,
            picked=picked,
        )


class EvenPicks:
    """Finds planting days whose pickings are evenly spaced.

    Days to harvest are warmth: what is sown two weeks apart in a cool spring ripens one week apart,
    and in autumn it is the other way round. Each planting is the first day after the one before it
    whose first pick, in the middle of the years, comes so many days later or more.

    Parameters
    ----------
    prospects
        The crop where it is planted.
    days
        From one first pick to the next. [days]
    until
        The last day that is looked at.
    origin
        Where the days are written.
    """

    def __init__(self, prospects: Prospects, days: int, *, until: date, origin: Origin) -> None:
        self._prospects = prospects
        self._days = days
        self._until = until.toordinal()
        self._origin = origin
        self._picked: dict[int, date] = {}

    def after(
        self, begun: Dated, previous: date, *, times: int, picked: date | None
    ) -> Dated | None:
        """Return the planting that is picked so many days after another; None if no day is.

        Parameters
        ----------
        begun
            The planting that the pickings are counted from.
        previous
            The planting day before.
        times
            How many times the days are counted on from there. [1]
        picked
            When it was really picked, if that is known.
        """
        base = picked or self._first_pick(begun.day.toordinal())
        wanted = base + timedelta(days=self._days * times)
        days = range(previous.toordinal() + 1, self._until + 1)
        at = bisect_left(days, wanted, key=self._first_pick)
        if at == len(days):
            return None
        found = date.fromordinal(days[at])
        text = (
            f"to be picked from {short_day(self._first_pick(days[at]))}: pickings every "
            f"{self._days} days" + (f", {times} times" if times > 1 else "")
        )
        return begun.then((found - begun.day).days, "even-pickings", text, self._origin)

    def _first_pick(self, planted: int) -> date:
        """Return the first pick of a planting day. [ordinal]"""
        if planted not in self._picked:
            found = self._prospects.picked_from(date.fromordinal(planted))
            assert found is not None  # it is only made where that is known
            self._picked[planted] = found
        return self._picked[planted]


@value
class Series:
    """What one entry asks for: a first planting, and after any plantings the next.

    "earliest" and "last safe" are days that hold in every bed the entry may use. A day the grower
    wrote is kept whatever comes of it. Between two safe runs nothing is planted: a named gap. A
    series from the earliest to the last safe day has no wave where no day is safe.
    """

    entry: Entry
    """What asks for the waves."""
    start: Dated
    """The day of its first planting."""
    runs: tuple[DateSpan, ...]
    """Days on which it may be planted, in runs; looked at where it goes on while it is safe."""
    unsafe: str
    """What is the matter between the runs, in a few words."""
    hot_soil: tuple[DateSpan, ...]
    """Days between them on which the soil is too hot for its seed."""
    times: tuple[DateSpan, ...]
    """The times of the year in which the crop is planted; none for any."""
    even: EvenPicks | None = None
    """What spaces its pickings evenly; None where its plantings are so many days apart."""

    @property
    def safe_until(self) -> date | None:
        """The last day that is safe in every bed it may use, where it ends on one."""
        return self.runs[-1].last if self.runs else None

    def step(self, before: Sequence[Planting]) -> Planting | Over:
        """Return the next planting after some others, or why there is none.

        Parameters
        ----------
        before
            The plantings that went before it, as they were planned, moved or happened: it is
            counted on from the last of them, and numbered by how many there are.
        """
        entry, number = self.entry, len(before) + 1
        if not before:
            return self._first()
        if entry.every is None:
            return Over.SINGLE
        if entry.count is not None and number > entry.count:
            return Over.COUNT
        previous = before[-1]
        planted = self.after(previous)
        if planted is None:
            return Over.NOT_SAFE
        begun, times, gap = previous.begun, previous.times + 1, None
        if entry.until is not None:
            last = entry.until
            if planted.day > last:
                return Over.UNTIL
        else:
            run = next((run for run in self.runs if run.last >= planted.day), None)
            if run is None:
                return Over.NOT_SAFE
            last = run.last
            gap = self._gap(previous, planted, run)
            if gap is not None:
                text = "first safe day after the gap"
                begun = planted = Dated.on(run.first, "last-safe", text, OURS)
                times = 0
        if number > MOST_WAVES:
            return Over.TOO_MANY
        may_wait = not self.even and (not entry.wave_beds or bool(entry.beds_of(number)[0]))
        most = previous.planted.day + timedelta(days=entry.every.high)
        return Planting(
            entry=entry,
            number=number,
            planted=planted,
            latest=max(planted.day, min(most, last)) if may_wait else planted.day,
            begun=begun,
            times=times,
            gap=gap,
        )

    def after(self, previous: Planting) -> Dated | None:
        """Return the day that follows a planting, safe or not; None where the year has none."""
        if self.even is None:
            return _nth(self.entry, previous.begun, previous.times + 1)
        return self.even.after(
            previous.begun, previous.planted.day, times=previous.times + 1, picked=previous.picked
        )

    def _first(self) -> Planting | Over:
        """Return the first planting: where its day is written, it stands whatever comes of it."""
        entry, start = self.entry, self.start
        if entry.every is not None and entry.start is None:
            if entry.until is not None:
                if start.day > entry.until:
                    return Over.UNTIL
            elif not self.runs:
                return Over.NOT_SAFE
        return Planting(entry=entry, number=1, planted=start, latest=start.day, begun=start)

    def _gap(self, previous: Planting, planted: Dated, run: DateSpan) -> Gap | None:
        """Return the days from a run that is over to the next one, where a planting falls there."""
        ended = [each.last for each in self.runs if each.last < planted.day]
        if planted.day >= run.first or not ended:
            return None
        days = DateSpan(max(ended[-1], previous.planted.day) + _DAY, run.first - _DAY)
        return Gap(self.entry.name, days.first, days.last, self._unsafe_on(days))

    def _unsafe_on(self, days: DateSpan) -> str:
        """Return what is the matter on some days: whether it is the seed that the heat harms."""
        if self.times and not any(_common((days,), self.times)):
            return "not the time of the year for it"
        in_hot_soil = sum(both.length for both in _common((days,), self.hot_soil))
        if in_hot_soil == days.length:
            return "the soil is too hot for its seed"
        return f"{self.unsafe}, and the soil for its seed" if in_hot_soil else self.unsafe


def series_of(entry: Entry, conditions: Conditions) -> Series:
    """Return what an entry asks for in a growing year of a place."""
    prospects = tuple(
        conditions.prospects(entry.crop, entry.raised, colder_by=ground)
        for ground in conditions.grounds(entry.beds)
    )
    start = _start(entry, prospects)
    if entry.start is None and entry.raised is Raised.DIRECT:
        start = _after_chill(entry.crop, start, conditions)
    runs: tuple[DateSpan, ...] = ()
    if entry.every is not None and entry.until is None:
        runs = _runs(prospects, start, conditions)
        if entry.start is None and runs:
            start = _first_safe(start, runs[0])
    hot = any(each.minds_heat for each in prospects)
    in_some_years = "too hot in some years" if prospects[0].need.fruit_set else "not safe"
    even = None
    if entry.pick_every is not None and prospects[0].picked_from(start.day) is not None:
        even = EvenPicks(
            prospects[0], entry.pick_every, until=conditions.year.last, origin=entry.every_origin
        )
    return Series(
        entry=entry,
        start=start,
        runs=runs,
        unsafe="too hot" if hot else in_some_years,
        hot_soil=prospects[0].hot_soil if hot else (),
        times=prospects[0].times,
        even=even,
    )


def _start(entry: Entry, prospects: tuple[Prospects, ...]) -> Dated:
    if entry.start is not None:
        return Dated.on(entry.start, "written", "planting day as written", entry.start_origin)
    return max((each.begins for each in prospects), key=lambda begins: begins.day)


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


def _nth(entry: Entry, start: Dated, number: int) -> Dated:
    """The planting so many intervals after the start."""
    assert entry.every is not None
    days = entry.every.low
    words = _every(days) if number == 1 else f"{_every(days)}, {number} times"
    if entry.pick_every is not None:
        words += "; no temperatures are known to space pickings with"
    return start.then(number * days, "series", words, entry.every_origin)


def _every(days: int) -> str:
    return "every day" if days == 1 else f"every {days} days"
