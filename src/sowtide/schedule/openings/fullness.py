"""How full the beds are week by week, and the longest stretches in which one is free."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import accumulate, groupby
from operator import itemgetter

from sowtide.climate.questions import Climate
from sowtide.days import DateSpan, GrowingYear, Half, week_start
from sowtide.garden.model import Bed
from sowtide.schedule.stays import Room
from sowtide.units import FREEZING
from sowtide.values import value

SHORTEST = 14
"""Days that a bed must be free to be said to. [days]"""

_BEFORE_LAST_FROST = 28
"""Days before the average last frost from which a bed can grow anything: sowtide's own. [days]"""


@value
class FreeBed:
    """Days on which half of a bed or more is free."""

    bed: Bed
    span: DateSpan
    """The days."""


@value
class FullWeek:
    """How much of some beds is planted in a week."""

    first: date
    """Its first day."""
    share: float
    """Planted area × days over the area × days to be had. [0–1]"""


def growing_days(climate: Climate, year: GrowingYear) -> DateSpan:
    """Return the days on which a free bed is a bed lost.

    From four weeks before the average last frost to the average first one; without frost the whole
    growing year.
    """
    last = climate.frosts.day(Half.SPRING, at=FREEZING, share=0.5)
    first = climate.frosts.day(Half.AUTUMN, at=FREEZING, share=0.5)
    begins = year.first if last is None else last.day - timedelta(days=_BEFORE_LAST_FROST)
    ends = year.last if first is None else first.day
    return DateSpan(max(begins, year.first), min(ends, year.last))


def free_spans(room: Room, bed: Bed, within: DateSpan, *, least: int) -> Iterator[DateSpan]:
    """Yield the stretches in which so much of a bed is free, and the grower does not keep it.

    Parameters
    ----------
    room
        The beds as the plan fills them.
    bed
        The bed.
    within
        The days that are looked at.
    least
        The area that must be free. [µm²]
    """
    begin, over = within.first.toordinal(), within.last.toordinal() + 1
    changes = [(begin, 0), (over, 0)]
    for stay in room.stays[room.number[bed.name]]:
        changes += [(stay.first, stay.area), (stay.until, -stay.area)]
    for span in bed.taken:
        changes += [(span.first.toordinal(), bed.area), (span.last.toordinal() + 1, -bed.area)]
    taken, since = 0, None
    for day, of_day in groupby(sorted(changes), key=itemgetter(0)):
        taken += sum(area for _, area in of_day)
        if not begin <= day <= over:
            continue
        is_free = bed.area - taken >= least and day < over
        if is_free and since is None:
            since = day
        elif not is_free and since is not None:
            yield DateSpan(date.fromordinal(since), date.fromordinal(day - 1))
            since = None


def longest_free(room: Room, within: DateSpan, *, most: int) -> tuple[FreeBed, ...]:
    """Return the longest stretches in which at least half of a bed is free, longest first."""
    found = [
        FreeBed(bed, span)
        for bed in room.beds
        for span in free_spans(room, bed, within, least=bed.area // 2)
        if span.length >= SHORTEST
    ]
    found.sort(key=lambda each: (-each.span.length, each.span.first))
    return tuple(found[:most])


def full_weeks(
    room: Room, beds: tuple[Bed, ...], within: DateSpan, *, starts: int
) -> tuple[FullWeek, ...]:
    """Return how full some beds are together in each week.

    Parameters
    ----------
    room
        The beds as the plan fills them.
    beds
        Those that are looked at.
    within
        The days whose weeks are wanted.
    starts
        The weekday a week starts with: 0 for Monday … 6 for Sunday.
    """
    first = week_start(within.first, starts=starts)
    weeks = (within.last - first).days // 7 + 1
    begin, days = first.toordinal(), 7 * weeks
    planted, kept = [0] * (days + 1), [0] * (days + 1)
    for bed in beds:
        for stay in room.stays[room.number[bed.name]]:
            _add(planted, stay.first - begin, stay.pulled - begin, stay.area)
        for span in bed.taken:
            _add(kept, span.first.toordinal() - begin, span.last.toordinal() + 1 - begin, bed.area)
    area = sum(bed.area for bed in beds)
    used, lost = list(accumulate(planted)), list(accumulate(kept))
    found = []
    for week in range(weeks):
        of_week = slice(7 * week, 7 * week + 7)
        to_be_had = 7 * area - sum(lost[of_week])
        share = sum(used[of_week]) / to_be_had if to_be_had > 0 else 0.0
        found.append(FullWeek(first + timedelta(weeks=week), share))
    return tuple(found)


def _add(changes: list[int], first: int, until: int, area: int) -> None:
    """Add an area from a day on and take it off again on another."""
    last = len(changes) - 1
    if until <= 0 or first >= last:
        return
    changes[max(first, 0)] += area
    changes[min(until, last)] -= area
