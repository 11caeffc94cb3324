"""More is to be put on than the package allows."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.care import exceeds
from sowtide.schedule.checks import Plan, Said, SeasonRule


def _check(plan: Plan) -> Iterator[Said]:
    if plan.care is None:
        return
    said = set()
    for dose in plan.care.doses:
        routine = dose.routine
        if routine.key in said or routine.package_rate is None:
            continue
        found = exceeds(routine, dose.plot)
        if found is not None:
            said.add(routine.key)
            asked, most = routine.mix or routine.amount, routine.package_rate
            yield Said(
                f"{routine.name}: {asked} is more than the {most} of its package",
                "take no more than the package says: more burns roots and runs into streams",
                span=routine.span,
            )


RULE = SeasonRule("above-package", Severity.WARNING, _check)
