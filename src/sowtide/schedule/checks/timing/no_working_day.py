"""Work comes on a day on which nobody is there, and the next working day is too late for it."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.checks import Plan, Said, SeasonRule
from sowtide.schedule.work import WorkingDays, all_work


def _check(plan: Plan) -> Iterator[Said]:
    working = WorkingDays(plan.garden)
    if working.are_all:
        return
    said = set()
    for job in all_work(plan.garden, plan.waves):
        if not job.cannot_wait or job.due < plan.today or (job.wave.id, job.kind) in said:
            continue
        said.add((job.wave.id, job.kind))  # once, over however many beds
        last = "" if job.last_day is None else f", its last safe day is {short_day(job.last_day)}"
        yield Said(
            f"{job.wave.id}: {job.kind.value} on {short_day(job.due)}{last}, and nobody works "
            f"before {short_day(working.next(job.due))}",
            "ask someone to do it, or plant it earlier or later",
            span=job.wave.entry.span,
            name=job.wave.id,
        )


RULE = SeasonRule("no-working-day", Severity.WARNING, _check)
