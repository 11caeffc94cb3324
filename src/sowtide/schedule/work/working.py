"""Work on the days on which there is someone to do it: what may wait is put off, the rest is said.

The dates of the waves stay as they are planned. Work waits for the next working day, and never
beyond the last day on which it does its good: the last safe day of a sowing or a planting, planting
out for hardening off and for preparing the bed, the next planting in its bed for pulling out. That
it waits and is not done ahead is sowtide's own reading.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from sowtide.days import DateSpan
from sowtide.garden.crop import Crop
from sowtide.garden.model import EVERY_DAY, Garden
from sowtide.schedule.waves import Stages, Wave, picked_in
from sowtide.schedule.work.jobs import Job, last_to_plant, picking_days
from sowtide.schedule.work.task import Kind

_DAY = timedelta(days=1)


def away_at_first_pick(garden: Garden, crop: Crop, stages: Stages) -> DateSpan | None:
    """Return the absence into which a first pick falls, and does not wait until it is over.

    What is cut once and holds is cut afterwards.
    """
    picked = picked_in(stages)
    if picked is None:
        return None
    away = next((span for span in garden.away if picked.first in span), None)
    return None if away is None or (crop.cut_once and picked.last > away.last) else away


class WorkingDays:
    """The days on which there is someone to work."""

    def __init__(self, garden: Garden) -> None:
        self._weekdays, self._away = garden.working_days, garden.away
        self.are_all = self._weekdays == EVERY_DAY and not self._away
        """Whether every day is a working day."""
        away = sum(span.length for span in self._away)
        self.longest = timedelta() if self.are_all else timedelta(days=away + len(EVERY_DAY))
        """No work waits longer than this."""

    def __contains__(self, day: date) -> bool:
        return day.weekday() in self._weekdays and not any(day in span for span in self._away)

    def next(self, day: date) -> date:
        """Return the first working day on or after a day."""
        while day not in self:
            day += _DAY
        return day

    def put_off(self, job: Job, neighbours: Sequence[Wave]) -> Job:
        """Return work on a working day; what cannot wait for one keeps its day.

        Parameters
        ----------
        job
            A piece of work, picking left out.
        neighbours
            The waves that stand in its bed before it and after it.
        """
        due = job.due
        if job.kind in (Kind.LOOK, Kind.THIN):  # so many days after its sowing
            due += self._planted(job.wave) - job.wave.stages.plant.day
        day = self.next(due)
        if day == job.due:
            return job
        latest = self._latest(job, neighbours)
        if day > due and latest is not None and day > latest:
            return replace(job, due=due, cannot_wait=True)
        return replace(job, due=day, planned=job.due)

    def _latest(self, job: Job, neighbours: Sequence[Wave]) -> date | None:
        """Return the last day that a piece of work may wait for; None if any."""
        if job.kind is Kind.HARDEN_OFF:
            return self._planted(job.wave) - _DAY
        if job.kind is Kind.PREPARE:
            return self._planted(job.wave)
        if job.kind is Kind.PULL:
            follow = (wave for wave in neighbours if wave.stages.plant.day >= job.due)
            return min(map(self._planted, follow), default=None)
        return job.last_day

    def _planted(self, wave: Wave) -> date:
        """Return the day on which a wave is planted."""
        planned, last = wave.stages.plant.day, last_to_plant(wave)
        day = self.next(planned)
        return planned if last is not None and day > last else day

    def first_pick(self, wave: Wave) -> date | None:
        """Return the day on which picking begins; None where it comes to nothing.

        Where no working day comes before its last pick, it is the planned one.
        """
        picked = picked_in(wave.stages)
        if picked is None or not wave.stands:
            return None
        day = self.next(picked.first)
        return day if day <= picked.last else picked.first

    def picks(self, wave: Wave, first: date, last: date) -> tuple[date, ...]:
        """Return the days of a span, both ends included, on which a wave is to be picked."""
        begins, ends = self.first_pick(wave), wave.stages.last_pick
        if begins is None or ends is None:
            return ()
        if begins not in self:
            return picking_days(wave, first, last)
        before = timedelta() if wave.crop.cut_once else self.longest
        moved = map(self.next, picking_days(wave, first - before, last))
        return tuple(dict.fromkeys(day for day in moved if first <= day <= min(last, ends.day)))
