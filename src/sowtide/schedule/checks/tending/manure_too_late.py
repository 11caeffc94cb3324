"""A wave is to be picked sooner after raw manure than food safety allows."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.garden.care import Made
from sowtide.schedule.checks import Plan, Said, SeasonRule


def _check(plan: Plan) -> Iterator[Said]:
    if plan.care is None:
        return
    waves = {wave.id: wave for wave in plan.waves}
    for block in plan.care.blocks:
        first = waves[block.wave].stages.first_pick
        if block.routine.made_of is not Made.RAW_MANURE or first is None:
            continue
        if block.done < first[0].day < block.until:
            days = (first[0].day - block.done).days
            yield Said(
                f"{block.wave} would be picked from {short_day(first[0].day)} on, {days} days "
                f"after {block.routine.name}: not before {short_day(block.until)}, {block.days} "
                "days after it",
                "dig it in earlier, in the fall before, or use compost",
                span=block.routine.span,
            )


RULE = SeasonRule("manure-too-late", Severity.WARNING, _check)
