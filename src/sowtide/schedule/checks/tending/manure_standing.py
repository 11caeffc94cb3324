"""Raw manure comes on a wave that stands, or too soon before its picking."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.garden.care import Made
from sowtide.schedule.checks import Plan, Said, SeasonRule


def _check(plan: Plan) -> Iterator[Said]:
    if plan.care is None:
        return
    said = set()
    for dose in plan.care.doses:
        wave = dose.plot.wave
        standing = wave.stages.plant.day <= dose.day < wave.stages.pull_out.day
        if dose.routine.made_of is Made.RAW_MANURE and standing and dose.routine.key not in said:
            said.add(dose.routine.key)
            yield Said(
                f"{dose.routine.name} on {short_day(dose.day)}: {wave.id} stands there then, and "
                "raw manure is not put on a standing crop",
                "dig it in before planting, or write made_of: composted manure if it is that",
                span=dose.routine.span,
            )


RULE = SeasonRule("manure-standing", Severity.ERROR, _check)
