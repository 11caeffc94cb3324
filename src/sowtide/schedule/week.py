"""A week's sheet: its tasks in order, what cannot slip, what to pick, and the bench."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from zlib import crc32

from sowtide.days import week_name
from sowtide.garden.model import Garden
from sowtide.schedule.task import Kind, Picking, Seedlings, Task, WeekSheet
from sowtide.schedule.tasks import PREPARE_AHEAD, Job, jobs_of, picking_days, prepare_jobs
from sowtide.schedule.wave import Wave

_LETTERS = "bcdfghjkmnpqrstvwxyz"
_SHORTEST, _LONGEST = 3, 7
_KINDS = {kind: number for number, kind in enumerate(Kind)}
_WEEK = timedelta(days=7)


def week_sheet(garden: Garden, waves: tuple[Wave, ...], first: date) -> WeekSheet:
    """Return the sheet of the seven days from `first` on.

    Parameters
    ----------
    garden
        The garden.
    waves
        All its waves.
    first
        First day of the sheet.
    """
    last = first + timedelta(days=6)
    following = last + _WEEK
    order = {bed.name: number for number, bed in enumerate(garden.beds)}
    jobs = sorted(
        _jobs(garden, waves, first, following),
        key=lambda job: (job.due, _KINDS[job.kind], order.get(job.bed or "", -1)),
    )
    now = [job for job in jobs if job.due <= last]
    picked = [(wave, days) for wave in waves if (days := picking_days(wave, first, last))]
    tasks = _coded(now + [_pick_job(wave, days[0]) for wave, days in picked], first)
    work, picks = tasks[: len(now)], tasks[len(now) :]
    coming = [job for job in jobs if job.due > last]
    coming += _first_picks(waves, last + timedelta(days=1), following)
    return WeekSheet(
        week_name(first),
        first,
        last,
        _cannot_slip(work, last),
        tuple(
            Picking(task, days, wave.stages.last_pick.day)
            for task, (wave, days) in zip(picks, picked, strict=True)
            if wave.stages.last_pick is not None
        ),
        work,
        _bench(waves, first, last),
        _coded(sorted(coming, key=lambda job: job.due), first + _WEEK),
    )


def _jobs(garden: Garden, waves: tuple[Wave, ...], first: date, last: date) -> Iterator[Job]:
    """Yield the jobs due from the first to the last day."""
    neighbours = defaultdict(list)
    soon = timedelta(days=PREPARE_AHEAD)
    near = [
        wave
        for wave in waves
        if wave.stages.sow.day - soon <= last and wave.stages.pull_out.day >= first - soon
    ]
    for wave in near:
        for place in wave.places:
            neighbours[place.bed.name].append(wave)
    for wave in near:
        for job in jobs_of(wave, garden.site.units):
            if first <= job.due <= last:
                yield job
        if first <= wave.stages.plant.day <= last + soon:
            for job in prepare_jobs(wave, neighbours):
                if first <= job.due <= last:
                    yield job


def _first_picks(waves: tuple[Wave, ...], first: date, last: date) -> Iterator[Job]:
    for wave in waves:
        picks = wave.stages.first_pick
        if picks is not None and wave.places and first <= picks[0].day <= last:
            yield _pick_job(wave, picks[0].day)


def _pick_job(wave: Wave, day: date) -> Job:
    text = wave.crop.pick_when or ("cut" if wave.crop.cut_once else "pick")
    beds = ", ".join(place.bed.name for place in wave.places)
    return Job(Kind.PICK, day, wave, beds, text, cautions=("picking",))


def _cannot_slip(tasks: tuple[Task, ...], last: date) -> tuple[Task, ...]:
    urgent = [task for task in tasks if task.last_day is not None and task.last_day <= last]
    return tuple(sorted(urgent, key=lambda task: task.last_day or task.due))


def _bench(waves: tuple[Wave, ...], first: date, last: date) -> tuple[Seedlings, ...]:
    seedlings = []
    for wave in waves:
        stages = wave.stages
        if stages.ready is None or stages.too_old is None or not wave.places:
            continue
        if stages.sow.day <= last and stages.plant.day >= first:
            beds = tuple(place.bed.name for place in wave.places)
            seedlings.append(
                Seedlings(
                    wave,
                    stages.sow.day,
                    stages.ready.day,
                    stages.too_old.day,
                    stages.plant.day,
                    beds,
                )
            )
    return tuple(sorted(seedlings, key=lambda each: each.plant))


def _coded(jobs: Iterable[Job], week: date) -> tuple[Task, ...]:
    """Make tasks of jobs, each with a code that no other task of the sheet has."""
    jobs = tuple(jobs)
    ids = [_id(job, week) for job in jobs]
    return tuple(
        Task(
            id,
            code,
            job.due,
            job.kind,
            job.wave,
            job.bed,
            job.text,
            job.amount,
            job.last_day,
            False,
            job.cautions,
        )
        for id, code, job in zip(ids, _codes(ids), jobs, strict=True)
    )


def _id(job: Job, week: date) -> str:
    name = f"{job.wave.id}:{job.kind.value}"
    if job.kind is Kind.PICK:
        return f"{name}:{week_name(week)}"
    return f"{name}:{job.bed}" if job.bed and len(job.wave.places) > 1 else name


def _codes(ids: list[str]) -> list[str]:
    """Return a short code for each name: the same for a name on every sheet that it is alone on."""
    codes = [_letters(name, _SHORTEST) for name in ids]
    for length in range(_SHORTEST + 1, _LONGEST + 1):
        alike = defaultdict(list)
        for number, code in enumerate(codes):
            alike[code].append(number)
        for numbers in alike.values():
            if len(numbers) > 1:
                for number in numbers:
                    codes[number] = _letters(ids[number], length)
    return codes


def _letters(name: str, length: int) -> str:
    number = crc32(name.encode())
    letters = []
    for _ in range(length):
        number, rest = divmod(number, len(_LETTERS))
        letters.append(_LETTERS[rest])
    return "".join(letters)
