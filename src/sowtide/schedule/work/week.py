"""A week's sheet: its tasks in order, what cannot slip, what to pick, and the bench."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta
from itertools import chain
from typing import TYPE_CHECKING

from sowtide.days import week_name
from sowtide.garden.model import Garden
from sowtide.schedule.waves import Conditions, Wave
from sowtide.schedule.work.closed_picks import ClosedPicks, OpenPicks
from sowtide.schedule.work.codes import codes_of
from sowtide.schedule.work.jobs import (
    PREPARE_AHEAD,
    Job,
    is_sown_in_trays,
    jobs_of,
    prepare_jobs,
)
from sowtide.schedule.work.task import Kind, Picking, Seedlings, Task, WeekSheet
from sowtide.schedule.work.working import WorkingDays
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal, or where there is care
    from sowtide.schedule.care import CarePlan
    from sowtide.schedule.happened import Accounts
    from sowtide.schedule.work.still_to_do import StillToDo

_KINDS = {kind: number for number, kind in enumerate(Kind)}
_WEEK = timedelta(days=7)
_DAY = timedelta(days=1)


def week_sheets(
    garden: Garden,
    waves: tuple[Wave, ...],
    first: date,
    *,
    weeks: int,
    accounts: Accounts | None = None,
    conditions: Conditions | None = None,
    care: CarePlan | None = None,
    today: date | None = None,
) -> tuple[WeekSheet, ...]:
    """Return the sheets of some weeks, with codes that no two of their tasks share.

    Parameters
    ----------
    garden
        The garden.
    waves
        All its waves.
    first
        First day of the first sheet.
    weeks
        How many sheets.
    accounts, conditions
        What happened until today, and the place; None without a journal.
    care
        What is done to the waves; None for nothing.
    today
        The day up to which rain counts; the first day unless given.
    """
    still = None
    if accounts is not None and conditions is not None:
        from sowtide.schedule.work.still_to_do import StillToDo

        still = StillToDo(accounts, conditions)
    picks = ClosedPicks(WorkingDays(garden), care)
    drafts = [
        _draft(garden, waves, first + number * _WEEK, still, picks) for number in range(weeks)
    ]
    if care is not None:
        drafts = [_tended(draft, garden, care, today or first) for draft in drafts]
    if still is not None:
        waves = still.started(waves)
    codes = codes_of({_id(job, week) for draft in drafts for job, week in draft.all_jobs()})
    return tuple(_sheet(draft, waves, codes) for draft in drafts)


@value
class _Draft:
    """A week's jobs before they have codes: now, to be picked with its days, next week, late."""

    first: date
    now: list[Job]
    picked: list[tuple[Job, OpenPicks]]
    coming: list[Job]
    overdue: list[Job]

    @property
    def following(self) -> date:
        return self.first + _WEEK

    def all_jobs(self) -> Iterator[tuple[Job, date]]:
        """Yield every job with the first day of its week."""
        for job in (*self.overdue, *self.now):
            yield job, self.first
        for job, _ in self.picked:
            yield job, self.first
        for job in self.coming:
            yield job, self.following


def _draft(
    garden: Garden,
    waves: tuple[Wave, ...],
    first: date,
    still: StillToDo | None,
    picks: ClosedPicks,
) -> _Draft:
    last = first + _WEEK - _DAY
    begins = first if still is None else still.since(first, last)
    jobs = sorted(_jobs(garden, waves, begins, last + _WEEK, still), key=_in_order(garden))
    overdue: list[Job] = []
    if still is not None:
        overdue, jobs = still.parted(jobs, first, last)
        waves = still.started(waves)
    picked = [
        (_pick_job(wave, (*found.days, *found.closed)[0]), found)
        for wave in waves
        if (found := picks.picks(wave, first, last)).days or found.closed
    ]
    coming = [job for job in jobs if job.due > last]
    coming += _first_picks(waves, picks, last + _DAY, last + _WEEK)
    return _Draft(
        first=first,
        now=[job for job in jobs if job.due <= last],
        picked=picked,
        coming=sorted(coming, key=lambda job: job.due),
        overdue=overdue,
    )


def _in_order(garden: Garden) -> Callable[[Job], tuple[date, int, int]]:
    """Return what jobs are sorted by: the day, the work, the bed."""
    order = {bed.name: number for number, bed in enumerate(garden.beds)}
    return lambda job: (job.due, _KINDS[job.kind], order.get(job.bed or "", -1))


def _tended(draft: _Draft, garden: Garden, care: CarePlan, today: date) -> _Draft:
    """Return a week's jobs with its care; of the week after what does not come every week."""
    from sowtide.schedule.work.care_jobs import care_jobs

    first, last, units = draft.first, draft.following - _DAY, garden.site.units
    mine = list(care_jobs(care, units, first, last, today=today))
    late = [job for job in mine if job.care is not None and job.care.overdue]
    after = care_jobs(care, units, draft.following, draft.following + _WEEK - _DAY, today=today)
    coming = [job for job in after if job.kind not in (Kind.WATER, Kind.SCOUT)]
    now = [*draft.now, *(job for job in mine if job not in late)]
    return replace(
        draft,
        now=sorted(now, key=_in_order(garden)),
        coming=sorted([*draft.coming, *coming], key=lambda job: job.due),
        overdue=[*draft.overdue, *late],
    )


def _sheet(draft: _Draft, waves: tuple[Wave, ...], codes: Mapping[str, str]) -> WeekSheet:
    first, last = draft.first, draft.following - _DAY
    work = tuple(_task(job, first, codes) for job in draft.now)
    return WeekSheet(
        week=week_name(first),
        first=first,
        last=last,
        cannot_slip=_cannot_slip(work, last),
        pickings=tuple(
            Picking(
                task=_task(job, first, codes),
                days=found.days,
                until=job.wave.stages.last_pick.day,
                closed=found.closed,
                open_again=found.open_again,
                closed_by=found.closed_by,
            )
            for job, found in draft.picked
            if job.wave.stages.last_pick is not None
        ),
        tasks=work,
        bench=_bench(waves, first, last),
        next_week=tuple(_task(job, draft.following, codes) for job in draft.coming),
        overdue=tuple(_task(job, first, codes, overdue=True) for job in draft.overdue),
    )


def all_work(garden: Garden, waves: tuple[Wave, ...]) -> Iterator[Job]:
    """Yield all the work of some waves but picking, in no order."""
    if waves:
        first = min(wave.stages.sow.day for wave in waves) - timedelta(days=PREPARE_AHEAD)
        last = max(wave.stages.pull_out.day for wave in waves) + WorkingDays(garden).longest
        yield from _jobs(garden, waves, first, last, None)


def _jobs(
    garden: Garden, waves: tuple[Wave, ...], first: date, last: date, still: StillToDo | None
) -> Iterator[Job]:
    """Yield the jobs due from the first to the last day; none of waves that are over."""
    neighbours = defaultdict(list)
    working, soon = WorkingDays(garden), timedelta(days=PREPARE_AHEAD)
    begins = first - working.longest
    near = [
        wave
        for wave in waves
        if wave.stages.sow.day - soon <= last + working.longest
        and wave.stages.pull_out.day >= begins - soon
    ]
    for wave in near:
        for stand in wave.stands:
            neighbours[stand.bed.name].append(wave)
    for wave in near if still is None else still.unfinished(near, last):
        jobs = jobs_of(wave, garden.site.units, since=begins - working.longest)
        if begins <= wave.stages.plant.day <= last + soon:
            jobs = chain(jobs, prepare_jobs(wave, neighbours))
        for planned in jobs:
            job = planned
            if not working.are_all:
                job = working.put_off(planned, neighbours.get(planned.bed or "", ()))
            if first <= job.due <= last:
                yield job


def _first_picks(
    waves: tuple[Wave, ...], picks: ClosedPicks, first: date, last: date
) -> Iterator[Job]:
    for wave in waves:
        day = picks.first_pick(wave)
        if day is not None and first <= day <= last:
            yield _pick_job(wave, day)


def _pick_job(wave: Wave, day: date) -> Job:
    text = wave.crop.pick_when or ("cut" if wave.crop.cut_once else "pick")
    beds = ", ".join(wave.bed_names)
    return Job(kind=Kind.PICK, due=day, wave=wave, bed=beds, text=text, cautions=("picking",))


def _cannot_slip(tasks: tuple[Task, ...], last: date) -> tuple[Task, ...]:
    urgent = [task for task in tasks if task.last_day is not None and task.last_day <= last]
    return tuple(sorted(urgent, key=lambda task: (task.due, task.last_day or task.due)))


def _bench(waves: tuple[Wave, ...], first: date, last: date) -> tuple[Seedlings, ...]:
    """Return the seedlings that stand on the bench, those that stand by after those with a place.

    They stand by from the sowing on until they are too old.
    """
    seedlings, standing_by = [], []
    for wave in waves:
        stages = wave.stages
        if stages.ready is None or stages.too_old is None or _is_gone(wave):
            continue
        if not wave.stands and not is_sown_in_trays(wave):
            continue
        sown, ready, too_old = stages.sow.day, stages.ready.day, stages.too_old.day
        if sown > last:
            continue
        if stages.plant.day >= first and not wave.is_planted:
            seedlings.append(
                Seedlings(
                    wave=wave,
                    plants=wave.plants,
                    sown=sown,
                    ready=ready,
                    too_old=too_old,
                    plant=stages.plant.day,
                    beds=wave.bed_names,
                )
            )
        if wave.entry.standby and too_old >= first:
            kept = Seedlings(
                wave=wave,
                plants=wave.entry.standby,
                sown=sown,
                ready=ready,
                too_old=too_old,
                plant=None,
                beds=(),
            )
            standing_by.append(kept)
    return (
        *sorted(seedlings, key=lambda each: each.plant or each.ready),
        *sorted(standing_by, key=lambda each: each.too_old),
    )


def _is_gone(wave: Wave) -> bool:
    """Say whether its seedlings are no more: lost, or pulled."""
    return wave.done is not None and wave.done.pull_out is not None


def _task(job: Job, week: date, codes: Mapping[str, str], *, overdue: bool = False) -> Task:
    name = _id(job, week)
    return Task(
        id=name,
        code=codes[name],
        due=job.due,
        kind=job.kind,
        wave=job.wave,
        bed=job.bed,
        text=job.text,
        amount=job.amount,
        last_day=job.last_day,
        overdue=overdue,
        cautions=job.cautions,
        delay=job.delay,
        planned=job.planned,
        cannot_wait=job.cannot_wait,
        part=job.part,
        care=job.care,
    )


def _id(job: Job, week: date) -> str:
    if job.care is not None:
        return job.care.id
    return task_id(job.kind, job.wave, job.bed, week)


def task_id(kind: Kind, wave: Wave, bed: str | None, week: date) -> str:
    """Return what a piece of work is called; a picking by its week, given by the first day."""
    name = f"{wave.id}:{kind.value}"
    if kind is Kind.PICK:
        return f"{name}:{week_name(week)}"
    return part_id(kind, wave, bed) if bed and len(wave.stands) > 1 else name


def part_id(kind: Kind, wave: Wave, bed: str) -> str:
    """Return what a piece of work is called on the part of a wave that one of its beds holds."""
    return f"{wave.id}:{kind.value}:{bed}"
