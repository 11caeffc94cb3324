"""A spray falls so that its days before harvest close part of a wave's best picking week."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.care import PickBlock
from sowtide.schedule.checks import Plan, Said, SeasonRule
from sowtide.schedule.waves import Wave, picked_in

BEST_WEEK = 7
"""Days from the early first pick on that are a wave's best picking: our own reading. [days]"""


def _check(plan: Plan) -> Iterator[Said]:
    if plan.care is None:
        return
    waves = {wave.id: wave for wave in plan.waves}
    said: set[tuple[str, str]] = set()
    for block in plan.care.blocks:
        key = block.wave, block.routine.key
        if key not in said and block.routine.label.days_before_harvest:
            found = _of(block, waves[block.wave])
            if found is not None:
                said.add(key)
                yield found


def _of(block: PickBlock, wave: Wave) -> Said | None:
    picked = picked_in(wave.stages)
    if picked is None:
        return None
    begins = picked.first
    ends = min(begins + timedelta(days=BEST_WEEK), picked.last + timedelta(days=1))
    closed = (min(block.until, ends) - max(block.first, begins)).days
    if closed <= 0:
        return None
    before = begins - timedelta(days=block.days + 1)
    return Said(
        f"{block.routine.name} on {short_day(block.done)} closes {closed} of the {BEST_WEEK} days "
        f"of the best picking of {wave.id}: not picked until {short_day(block.until)}",
        f"spray it by {short_day(before)}, or end it there: until: first pick - {block.days + 1}",
        span=block.routine.span,
    )


RULE = SeasonRule("spray-closes-picking", Severity.NOTE, _check)
