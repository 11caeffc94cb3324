"""Picking begins while nobody is there, and does not wait until someone is."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.checks import Plan, Said, SeasonRule
from sowtide.schedule.work import away_at_first_pick


def _check(plan: Plan) -> Iterator[Said]:
    if not plan.garden.away:
        return
    for wave in plan.waves:
        first = wave.stages.first_pick
        if first is None or not wave.stands or first[0].day < plan.today:
            continue
        away = away_at_first_pick(plan.garden, wave.crop, wave.stages)
        if away is None:
            continue
        yield Said(
            f"{wave.id} is first picked on {short_day(first[0].day)}, and nobody is there until "
            f"{short_day(away.last)}",
            "ask someone to pick it, or plant it so that it is ready at another time",
            span=wave.entry.span,
            name=wave.id,
            about=wave.id,
        )


RULE = SeasonRule("away-first-pick", Severity.WARNING, _check)
