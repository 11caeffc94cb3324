"""Days on which a wave is not to be picked: after a spray, and after raw manure in its bed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import timedelta

from sowtide.garden.care import Made
from sowtide.grouping import grouped
from sowtide.schedule.care.care_plan import Dose, PickBlock, Plot

_DAY = timedelta(days=1)
TOUCHES_SOIL, OFF_THE_SOIL = 120, 90
"""Days between raw manure and picking: 7 CFR 205.203(c)(1)(ii) and (iii). [days]"""


def blocks_of(doses: Iterable[Dose], plots: Iterable[Plot]) -> tuple[PickBlock, ...]:
    """Return the days on which waves are not to be picked, in order of day.

    After a spray so many whole days lie between: sprayed on Wednesday evening with 3 days, a wave
    is not picked on Thursday, Friday and Saturday. Raw manure closes its bed to all that is picked
    there within its days, whichever wave it was dug in for.
    """
    in_bed = grouped(plots, lambda plot: plot.bed.name)
    found = {}
    for dose in doses:
        for block in _of(dose, in_bed[dose.plot.bed.name]):
            found[block.wave, block.routine.key, block.done] = block
    return tuple(sorted(found.values(), key=lambda block: (block.first, block.wave)))


def _of(dose: Dose, plots: Iterable[Plot]) -> Iterator[PickBlock]:
    routine = dose.routine
    days = routine.label.days_before_harvest
    if days:
        first, until = dose.day + _DAY, dose.day + timedelta(days=days + 1)
        yield PickBlock(
            wave=dose.plot.wave.id,
            routine=routine,
            done=dose.day,
            first=first,
            until=until,
            days=days,
        )
    if routine.made_of is Made.RAW_MANURE:
        days = TOUCHES_SOIL if routine.touches_soil else OFF_THE_SOIL
        until = dose.day + timedelta(days=days)
        for plot in plots:
            last = plot.wave.stages.last_pick
            if last is not None and dose.day <= last.day:
                yield PickBlock(
                    wave=plot.wave.id,
                    routine=routine,
                    done=dose.day,
                    first=dose.day,
                    until=until,
                    days=days,
                )
