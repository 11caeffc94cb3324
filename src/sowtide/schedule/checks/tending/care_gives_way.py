"""A routine of care asks for a day and finds none before it ends: something else keeps it off."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.care import Hindrance
from sowtide.schedule.checks import Plan, Said, SeasonRule


def _check(plan: Plan) -> Iterator[Said]:
    if plan.care is None:
        return
    found: dict[tuple[str, Hindrance], list[str]] = {}
    for each in plan.care.gives:
        key = each.routine.key, each.why
        waves = found.setdefault(key, [])
        if each.plot.wave.id not in waves:
            waves.append(each.plot.wave.id)
    for (name, why), waves in found.items():
        first = next(e for e in plan.care.gives if e.routine.key == name and e.why == why)
        more = len(waves) - 1
        others = "" if not more else f" and on {more} more {'wave' if more == 1 else 'waves'}"
        yield Said(
            f"{first.routine.name} gives way on {waves[0]}{others}, from "
            f"{short_day(first.asked)} on: {why.said}",
            "is that what you want? Else change every:, from: or until: of one of the two",
            span=first.routine.span,
        )


RULE = SeasonRule("care-gives-way", Severity.NOTE, _check)
