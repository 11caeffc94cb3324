"""From the entries of the file to planting days: waves and the gaps between their runs."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from itertools import islice

from sowtide.days import DateSpan
from sowtide.garden.model import Entry
from sowtide.reasons import OURS, Dated
from sowtide.schedule.wave import Gap
from sowtide.schedule.windows import Conditions, Prospects
from sowtide.values import value

MOST_WAVES = 366
"""More waves than this in one entry are a slip of the pen. [1]"""

_DAY = timedelta(days=1)


@value
class Planting:
    """One wave asked for: its entry, its number from 1, and its planting day, counted."""

    entry: Entry
    number: int
    planted: Dated

    @property
    def id(self) -> str:
        """Name of the wave."""
        return f"{self.entry.name}-{self.number}"


@value
class Series:
    """The plantings of one entry, and the gaps between them."""

    plantings: tuple[Planting, ...]
    gaps: tuple[Gap, ...]


def series_of(entry: Entry, conditions: Conditions) -> Series:
    """Return the waves that an entry asks for.

    "earliest" and "last safe" are days that hold in every bed the entry may use. A day the grower
    wrote is kept whatever comes of it. Between two safe runs nothing is planted: a named gap. A
    series from the earliest to the last safe day has no wave where no day is safe.
    """
    prospects = tuple(
        conditions.prospects(entry.crop, entry.raised, colder_by=ground)
        for ground in conditions.grounds(entry.beds)
    )
    start = _start(entry, prospects)
    if entry.every is None:
        return Series((Planting(entry, 1, start),), ())
    gaps: list[Gap] = []
    if entry.until:
        days = _until_date(entry, start)
    else:
        runs = _runs(prospects, start, conditions)
        if entry.start is None:
            if not runs:
                return Series((), ())
            start = _first_safe(start, runs[0])
        hot = conditions.climate.hot_weeks is not None and prospects[0].need.heat_ends
        why = "too hot" if hot else "not safe"
        days = _while_safe(entry, start, runs=runs, gaps=gaps, why=why)
    most = MOST_WAVES if entry.count is None else min(entry.count, MOST_WAVES)
    plantings = tuple(
        Planting(entry, number, planted) for number, planted in enumerate(islice(days, most), 1)
    )
    if not plantings:
        return Series((), ())
    last = plantings[-1].planted.day
    return Series(plantings, tuple(gap for gap in gaps if gap.last < last))


def _start(entry: Entry, prospects: tuple[Prospects, ...]) -> Dated:
    if entry.start is not None:
        return Dated.on(entry.start, "written", "planting day as written", entry.start_origin)
    return max((each.earliest for each in prospects), key=lambda earliest: earliest.day)


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


def _until_date(entry: Entry, start: Dated) -> Iterator[Dated]:
    assert entry.until is not None
    number = 0
    while True:
        planted = _nth(entry, start, number)
        if planted.day > entry.until and (number or entry.start is None):
            return
        yield planted
        number += 1


def _while_safe(
    entry: Entry, start: Dated, *, runs: tuple[DateSpan, ...], gaps: list[Gap], why: str
) -> Iterator[Dated]:
    """Step on through the safe runs; the first planting stands even outside them."""
    yield start
    previous, number = start, 1
    begun = start
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
        yield planted
        previous = planted
        number += 1


def _nth(entry: Entry, start: Dated, number: int) -> Dated:
    """The planting so many intervals after the start."""
    assert entry.every is not None
    if number == 0:
        return start
    days = entry.every.low
    words = f"every {days} days" if number == 1 else f"every {days} days, {number} times"
    return start.then(number * days, "series", words, entry.every_origin)
