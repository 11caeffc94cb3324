"""Water of a routine that had better come before the heat than on its day: a proposal only."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, timedelta

from sowtide.garden.care import Work
from sowtide.schedule.care import CarePlan, Round, Taken, taken_by
from sowtide.units import Units
from sowtide.values import value

_AHEAD = timedelta(days=14)
"""How far ahead the next watering is looked for: sowtide's own. [days]"""
_DRIED_OUT = timedelta(days=2)
"""How long after a watering the ground asks for the next in great heat: sowtide's own. [days]"""


@value
class WaterForward:
    """A watering of a bed that comes forward."""

    round: Round
    """What it is, on the day on which it is proposed, for the waves that need it."""
    due: date
    """The day on which it is due."""
    taken: Taken
    """How much it takes."""


def water_forward(
    care: CarePlan, needs: Iterable[tuple[str, str]], begins: date, units: Units, *, today: date
) -> Iterator[WaterForward]:
    """Yield the next watering of each bed, where it comes only after the heat has begun.

    What was watered on the day before, or is due on the first day of the heat, stays as it is.

    Parameters
    ----------
    care
        The care of the season.
    needs
        The waves that need water, each with its bed.
    begins
        First day of the heat.
    units
        What amounts are said in.
    today
        The day up to which rain counts.
    """
    wanted, seen = set(needs), set()
    for each in care.rounds(begins, begins + _AHEAD):
        bed = each.bed.name
        plots = tuple(plot for plot in each.plots if (plot.wave.id, bed) in wanted)
        if each.routine.work is not Work.WATER or bed in seen or not plots:
            continue
        seen.add(bed)
        before = (day for day in care.days_of(each.routine, each.bed) if day < each.day)
        last = max(before, default=None)
        if each.day == begins or (last is not None and begins - last < _DRIED_OUT):
            continue
        sooner = replace(each, day=begins, plots=plots)
        taken = taken_by(sooner, care, units, today)
        if taken.amount is None or taken.amount.size:
            yield WaterForward(sooner, each.day, taken)
