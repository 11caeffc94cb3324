"""The days on which a routine asks for care: from a stage to another, every so many days."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta

from sowtide.days import GrowingYear
from sowtide.garden.care import Moment, Routine, StageDay, WaveStage, Work
from sowtide.schedule.waves import Stages, Wave
from sowtide.values import value

_DAY = timedelta(days=1)
_ON_THE_GROUND = (Work.WATER, Work.FEED, Work.COVER, Work.OWN)
"""What is done to the ground, and so from the day of a sowing on; all else once it is up."""

_DRY_IN_THE_GROUND = frozenset({"garlic", "onion", "shallot"})
"""Kinds that are not watered towards the end, so that their skins dry (UC IPM)."""
_DRY_FOR = timedelta(days=14)
"""How long before the first pick; one to three weeks are common practice, two ours. [days]"""


@value
class CareSpan:
    """The days of a routine on a wave."""

    begins: date
    ends: date
    """First and last day on which it may be done."""
    counted: date
    """The day from which its interval is counted."""


@value
class FrostFree:
    """The growing year, and its days between the average frosts; None where there are none."""

    year: GrowingYear
    """The growing year."""
    last_frost: date | None
    first_frost: date | None = None
    """The average frosts of spring and of autumn at 0 °C."""


def span_of(routine: Routine, wave: Wave, free: FrostFree) -> CareSpan | None:
    """Return the days of a routine on a wave; None where the wave has no such days.

    What goes round the garden leaves alone what stands over the winter till the last frost, and all
    from the first frost on, unless the file says else.
    """
    year = free.year
    stages = wave.stages
    planted, gone = stages.plant.day, stages.pull_out.day - _DAY
    counted = planted
    if routine.start is not None:
        start = _on(routine.start, stages)
        if start is None:
            return None
        counted = start
    elif routine.work.goes_round and routine.every is not None:
        counted = year.first + timedelta(days=-year.first.weekday() % 7)
    begins = counted if isinstance(routine.start, StageDay) else max(counted, planted)
    if routine.start is None:
        begins = planted
        if stages.up is not None and routine.work not in _ON_THE_GROUND:
            begins = stages.up.day
            counted = max(counted, begins) if counted == planted else counted
        if routine.work.goes_round and free.last_frost is not None and planted < year.first:
            begins = max(begins, free.last_frost)
    last = stages.last_pick.day if stages.last_pick is not None else gone
    if routine.until is not None:
        until = _on(routine.until, stages)
        if until is None:
            return None
        last = until
    elif isinstance(routine.start, date) and routine.every is None and counted < planted:
        begins = last = counted  # once, before it is planted
    elif routine.work.goes_round and free.first_frost is not None:
        last = min(last, free.first_frost)
    if routine.until is None and routine.work is Work.WATER:
        last = min(last, _wet_until(wave) or last)
    ends = min(last, gone)
    if begins > ends:
        return None
    return CareSpan(begins, ends, counted)


def _wet_until(wave: Wave) -> date | None:
    """Return the last day on which bulbs that dry in the ground are watered; None for the rest."""
    first = wave.stages.first_pick
    if wave.crop.kind not in _DRY_IN_THE_GROUND or first is None:
        return None
    return first[0].day - _DRY_FOR


def _on(moment: Moment, stages: Stages) -> date | None:
    """Return the day that is meant; None where the wave has no such stage."""
    if isinstance(moment, date):
        return moment
    day = stage_day(moment.stage, stages)
    return None if day is None else day + timedelta(days=moment.days)


def stage_day(stage: WaveStage, stages: Stages) -> date | None:
    """Return the day of a stage of a wave; of the first pick the early end."""
    first = stages.first_pick
    dated = {
        WaveStage.SOWING: stages.sow,
        WaveStage.UP: stages.up,
        WaveStage.HARDENING_OFF: stages.harden_off,
        WaveStage.PLANTING: stages.plant,
        WaveStage.FLOWER: stages.flower,
        WaveStage.FIRST_PICK: None if first is None else first[0],
        WaveStage.LAST_PICK: stages.last_pick,
        WaveStage.PULL_OUT: stages.pull_out,
    }[stage]
    return None if dated is None else dated.day


def first_asked(routine: Routine, span: CareSpan, after: date | None) -> date | None:
    """Return the first day that is asked for.

    Parameters
    ----------
    routine
        The routine.
    span
        Its days.
    after
        The day it was last done, or None.
    """
    if after is not None:
        return next_asked(routine, span, after)
    return next(_asked_from(routine, span, span.begins), None)


def next_asked(routine: Routine, span: CareSpan, done: date) -> date | None:
    """Return the next day that is asked for after it was done on a day; None for no more."""
    if routine.every is None:
        return None
    if routine.every.days is not None:
        day = max(done + timedelta(days=routine.every.days), span.begins)
        return day if day <= span.ends else None
    return next(_asked_from(routine, span, max(done + _DAY, span.begins)), None)


def asked_since(routine: Routine, span: CareSpan, since: date) -> date | None:
    """Return the first day that is asked for on or after a day, by the plain count."""
    return next(_asked_from(routine, span, max(since, span.begins)), None)


def _asked_from(routine: Routine, span: CareSpan, since: date) -> Iterator[date]:
    every = routine.every
    if every is None:
        if since <= span.begins:
            yield span.begins
        return
    if every.days is not None:
        behind = max((since - span.counted).days, 0)
        day = span.counted + timedelta(days=-(-behind // every.days) * every.days)
        while day <= span.ends:
            yield day
            day += timedelta(days=every.days)
        return
    from dateutil.rrule import rrule, rrulestr

    assert every.rule is not None  # one of the two is set
    found = rrulestr(every.rule, dtstart=_moment(span.counted))
    assert isinstance(found, rrule)  # a single rule gives no set of them
    for moment in found.replace(until=_moment(span.ends)):
        if moment.date() >= since:
            yield moment.date()


def _moment(day: date) -> datetime:
    """Return the midnight that begins a day: the library of rules counts in moments."""
    return datetime.fromordinal(day.toordinal())
