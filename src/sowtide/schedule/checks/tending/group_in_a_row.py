"""Sprays of one group follow one another so often that what they are for gets used to them."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.grouping import grouped
from sowtide.schedule.care import Dose
from sowtide.schedule.checks import Plan, Said, SeasonRule

IN_A_ROW = 2
"""Times in a row of one group, unless the label says otherwise. [1]"""


def _check(plan: Plan) -> Iterator[Said]:
    if plan.care is None:
        return
    sprays = (dose for dose in plan.care.doses if dose.routine.work.on_leaves)
    by_plot = grouped(sprays, lambda dose: (dose.plot.wave.id, dose.plot.bed.name))
    said = set()
    for doses in by_plot.values():
        for dose in _too_often(doses):
            if dose.routine.group not in said:
                said.add(dose.routine.group)
                yield Said(
                    f"{dose.routine.name} on {short_day(dose.day)} is once more group "
                    f"{dose.routine.group} in a row on {dose.plot.wave.id}: what it is for may get "
                    "used to it",
                    "put one of another group between, or write in_a_row: as its label says",
                    span=dose.routine.span,
                )


def _too_often(doses: list[Dose]) -> Iterator[Dose]:
    """Yield what is put on once too often; groups that act on many sites are left alone."""
    row, group = 0, None
    for dose in doses:
        same = dose.routine.group is not None and dose.routine.group == group
        row, group = (row + 1 if same else 1), dose.routine.group
        most = dose.routine.label.in_a_row or IN_A_ROW
        if group is not None and not group.startswith("M") and row > most:
            yield dose


RULE = SeasonRule("group-in-a-row", Severity.NOTE, _check)
