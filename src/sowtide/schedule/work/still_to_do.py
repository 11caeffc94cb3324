"""Which work is done, as the journal tells it, and which is overdue."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from sowtide.garden.journal import PICKINGS, Did, Happening
from sowtide.schedule.happened import Accounts
from sowtide.schedule.waves import Conditions, Wave
from sowtide.schedule.work.jobs import PREPARE_AHEAD, Job
from sowtide.schedule.work.task import Delay, Kind

_GONE = (Did.PULLED, Did.LOST)
_GROWN = (*PICKINGS, *_GONE)
_DONE_BY: dict[Kind, tuple[Did, ...]] = {
    Kind.SOW_IN_TRAYS: (Did.SOWN, Did.UP, Did.HARDENED, Did.PLANTED_OUT, *_GROWN),
    Kind.HARDEN_OFF: (Did.HARDENED, Did.PLANTED_OUT, *_GROWN),
    Kind.PULL: _GONE,
    Kind.PREPARE: (Did.PREPARED, Did.PLANTED_OUT, *_GROWN),
    Kind.SOW: (Did.SOWN, Did.UP, Did.THINNED, Did.PLANTED_OUT, *_GROWN),
    Kind.PLANT_OUT: (Did.PLANTED_OUT, *_GROWN),
    Kind.LOOK: (Did.UP, Did.THINNED, *_GROWN),
    Kind.THIN: (Did.THINNED, *_GROWN),
    Kind.PICK: _GONE,
}
"""What is noted of a wave of which a kind of work is done, or no longer to be done."""

STAGE_OF = {kind: stages[0] for kind, stages in _DONE_BY.items()} | {Kind.PICK: Did.PICKED}
"""What is noted down where a kind of work is done."""

_AFTER = {
    Kind.SOW_IN_TRAYS: (Kind.HARDEN_OFF, Kind.PLANT_OUT, Kind.PULL),
    Kind.SOW: (Kind.LOOK, Kind.THIN, Kind.PULL),
    Kind.PLANT_OUT: (Kind.PULL,),
}
"""What cannot be done before the wave is started."""

_HOPELESS = 0.05
"""Odds below which what is late need not be asked for any more: ours. [0–1]"""


class StillToDo:
    """Tells what is done from what is not."""

    def __init__(self, accounts: Accounts, conditions: Conditions) -> None:
        self._accounts, self._conditions = accounts, conditions
        self._prepared = [
            each for each in accounts.happenings if each.did is Did.PREPARED and each.bed
        ]

    def is_done(self, job: Job) -> bool:
        """Say whether work is noted as done, or left out, or can be no more."""
        account = self._accounts.of(job.wave.id)
        if job.kind is Kind.PREPARE and any(_prepares(each, job) for each in self._prepared):
            return True
        if account is None:
            return False
        stages = _DONE_BY[job.kind]
        if job.kind is Kind.PREPARE and not job.wave.from_trays:
            stages = (*stages, Did.SOWN, Did.UP)
        return any(_settles(each, job, stages) for each in account.happenings)

    def unfinished(self, waves: list[Wave], last: date) -> list[Wave]:
        """Return the waves of which something may still be to be done up to a day."""
        return [wave for wave in waves if not _is_settled(wave, last)]

    def started(self, waves: tuple[Wave, ...]) -> tuple[Wave, ...]:
        """Return the waves that are sown, or to be sown from today on: not those that are late."""
        return tuple(wave for wave in waves if not self._waits(wave))

    def _waits(self, wave: Wave) -> bool:
        if not self._accounts.is_overdue(wave.stages.sow.day):
            return False
        account = self._accounts.of(wave.id)
        return account is None or not (account.sown or account.grows(wave.entry.raised))

    def since(self, first: date, last: date) -> date:
        """Return the day from which on the sheet of a week looks for work."""
        begun = self._accounts.begun
        return first if begun is None or not first <= self._accounts.today <= last else begun

    def parted(self, jobs: list[Job], first: date, last: date) -> tuple[list[Job], list[Job]]:
        """Return the work that is overdue, and the rest that is to be done from a day on.

        Overdue work stands on the sheet of the week that today lies in; the most pressing first.
        """
        left = [job for job in jobs if not self.is_done(job)]
        if not first <= self._accounts.today <= last:
            return [], [job for job in left if job.due >= first]
        late = [job for job in left if self._accounts.is_overdue(job.due)]
        waiting = {(job.wave.id, kind) for job in late for kind in _AFTER.get(job.kind, ())}
        left = [job for job in left if (job.wave.id, job.kind) not in waiting]
        rest = [j for j in left if j.due >= first and not self._accounts.is_overdue(j.due)]
        found = [j for j in left if self._accounts.is_overdue(j.due) and not self._is_outgrown(j)]
        found.sort(key=lambda job: (job.last_day or date.max, job.due))
        return [self._late(job) for job in found], rest

    def _late(self, job: Job) -> Job:
        """Return overdue work as it is today."""
        text, today, again = job.text, self._accounts.today, job.wave.sow_again_by
        if job.kind is Kind.LOOK and again is not None and job.due <= again < today:
            text = "is it up? The days to sow it again are over"
        return replace(job, text=text, delay=self._delay(job))

    def _is_outgrown(self, job: Job) -> bool:
        """Say whether work on the young plants of a wave is overdue since before it is picked."""
        picks = job.wave.stages.first_pick
        young = job.kind in (Kind.LOOK, Kind.THIN)
        return young and picks is not None and picks[0].day <= self._accounts.today

    def _delay(self, job: Job) -> Delay | None:
        """Return what it costs that a wave is started today and not on its day."""
        wave, today = job.wave, self._accounts.today
        if not job.kind.starts_a_wave or wave.judged.odds is None:
            return None
        later = today - job.begins
        beds = [stand.bed for stand in wave.stands] or wave.entry.beds
        ground = max((bed.colder_than_site for bed in beds), default=0.0)
        prospects = self._conditions.prospects(wave.crop, wave.entry.raised, colder_by=ground)
        day = wave.stages.plant.day + later
        now, _ = prospects.promise(day)
        over = now < _HOPELESS and all(window.last < day for window in prospects.windows)
        return Delay(later.days, wave.judged.odds, now, over)


def _is_settled(wave: Wave, last: date) -> bool:
    """Whether a wave is gone, or is being picked and not to be pulled out yet."""
    if wave.done is None:
        return False
    picking = wave.done.first_pick is not None and wave.stages.pull_out.day > last
    return picking or wave.done.pull_out is not None


def _prepares(each: Happening, job: Job) -> bool:
    """Say whether an entry says that the bed of a job was prepared for it."""
    return each.bed == job.bed and each.on >= job.begins - timedelta(days=2 * PREPARE_AHEAD)


def _settles(each: Happening, job: Job, stages: tuple[Did, ...]) -> bool:
    elsewhere = None not in (each.bed, job.bed) and each.bed != job.bed
    if each.did is Did.SKIPPED:
        skips = STAGE_OF[job.kind] if each.skips is not None else None
        return each.skips is skips and job.begins <= each.on and not elsewhere
    if each.did not in stages:
        return False
    if each.did in _GONE and (each.plants is not None or elsewhere):
        return False  # the others stand
    return not (elsewhere and each.did is STAGE_OF[job.kind])
