"""What a week of care takes altogether, routine by routine."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from sowtide.garden.care import Routine
from sowtide.grouping import grouped
from sowtide.schedule.care.care_plan import CarePlan, Round
from sowtide.schedule.care.measuring import Taken, taken_by, together
from sowtide.units import Units
from sowtide.values import value


@value
class CareTotal:
    """What a routine takes in a week."""

    routine: Routine
    rounds: int
    """How often it is done, counted bed by bed. [1]"""
    taken: Taken
    """What that takes."""


def totals_of(
    rounds: Iterable[Round], plan: CarePlan, units: Units, today: date
) -> tuple[CareTotal, ...]:
    """Return what some rounds take, a total for each routine, in the file's order."""
    in_order = sorted(rounds, key=lambda each: each.routine.span.line)
    found = grouped(in_order, lambda each: each.routine.key)
    return tuple(
        CareTotal(
            of[0].routine,
            len(of),
            together(taken_by(each, plan, units, today) for each in of),
        )
        for of in found.values()
    )
