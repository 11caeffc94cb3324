"""The care of a week as pieces of work: what is to be done in each bed, how, and with how much."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.days import short_day
from sowtide.garden.care import Against, Made, Measured, Routine, TimeOfDay, Work
from sowtide.schedule.care import (
    CarePlan,
    Round,
    Taken,
    in_flower,
    order_of,
    signs_of,
    taken_by,
)
from sowtide.schedule.work.jobs import Job
from sowtide.schedule.work.task import Amount, CareWork, DayPart, Kind
from sowtide.units import Units, show_number

_KINDS = {
    Work.FEED: Kind.FEED,
    Work.SPRAY: Kind.SPRAY,
    Work.DUST: Kind.DUST,
    Work.WATER: Kind.WATER,
    Work.SCOUT: Kind.SCOUT,
    Work.COVER: Kind.COVER,
    Work.THIN: Kind.THIN,
    Work.PRUNE: Kind.PRUNE,
    Work.SUPPORT: Kind.SUPPORT,
    Work.OWN: Kind.TEND,
}
_READ_IT = "read it on the label"


def care_jobs(
    care: CarePlan, units: Units, first: date, last: date, *, today: date
) -> Iterator[Job]:
    """Yield the care of a span of days, both ends included, in the order of an evening.

    Water that the rain has brought already is left out.
    """
    rounds = care.rounds(first, last)
    for each in sorted(rounds, key=lambda each: (each.day, order_of(each.routine))):
        taken = taken_by(each, care, units, today)
        if is_done_by_rain(each, taken):
            continue
        yield _job(each, taken, care, units)


def is_done_by_rain(each: Round, taken: Taken) -> bool:
    """Say whether the rain has brought all the water that a round would."""
    return each.routine.work is Work.WATER and taken.amount is not None and not taken.amount.size


def _job(each: Round, taken: Taken, care: CarePlan, units: Units) -> Job:
    routine = each.routine
    weight = None if taken.weight is None else _amount(taken.weight)
    return Job(
        kind=_KINDS[routine.work],
        due=each.asked if each.overdue else each.day,
        wave=each.plots[0].wave,
        bed=each.bed.name,
        text="; ".join(_says(each, taken, units)),
        amount=None if taken.amount is None else _amount(taken.amount),
        cautions=tuple(_cautions(routine)),
        part=_part(routine),
        care=CareWork(
            id=each.id,
            routine=routine.name,
            waves=tuple(plot.wave.id for plot in each.plots),
            mix=None if taken.mix is None else _amount(taken.mix),
            weight=weight,
            minutes=taken.minutes,
            overdue=each.overdue,
            not_picked_until=_closed_until(each, care),
        ),
    )


def _amount(of: Measured) -> Amount:
    return Amount(float(of.number), of.unit)


def _part(routine: Routine) -> DayPart:
    if routine.time is TimeOfDay.EVENING:
        return DayPart.EVENING
    return DayPart.MORNING if routine.time is TimeOfDay.MORNING else DayPart.ANY_TIME


def _closed_until(each: Round, care: CarePlan) -> date | None:
    picked = {
        plot.wave.id: plot.wave.stages.first_pick[0].day
        for plot in each.plots
        if plot.wave.stages.first_pick is not None
    }
    return max(
        (
            block.until
            for block in care.closed_by(each.routine, each.day)
            if block.wave in picked and picked[block.wave] < block.until
        ),
        default=None,
    )


def _cautions(routine: Routine) -> Iterator[str]:
    if routine.work.on_leaves:
        yield "spray"
        if routine.label.days_before_harvest is None and routine.label.hours_before_entry is None:
            yield "no-label"
    if routine.work is Work.DUST:
        yield "dust"
    if routine.work is Work.FEED:
        yield "feed"
        if routine.made_of in (Made.RAW_MANURE, Made.COMPOSTED_MANURE):
            yield "manure"


def _says(each: Round, taken: Taken, units: Units) -> Iterator[str]:
    """Yield what is said of a round, its amount left out."""
    routine = each.routine
    if routine.work.on_leaves:
        yield from _of_spray(each, taken)
    elif routine.work is Work.FEED:
        yield from _of_feed(routine, taken, units)
    elif routine.work is Work.WATER:
        yield _of_water(routine, taken, units)
    elif routine.work is Work.SCOUT:
        families = dict.fromkeys(plot.wave.crop.family for plot in each.plots)
        yield from (signs_of(family) for family in families)
    else:
        yield routine.name if routine.work is not Work.OWN else f"{routine.does}: {routine.name}"
    if each.why is not None and each.asked < each.day and not each.overdue:
        yield f"put off from {short_day(each.asked)}: {each.why.said}"


def _of_feed(routine: Routine, taken: Taken, units: Units) -> Iterator[str]:
    if taken.mix is not None:
        yield f"{routine.name}, {taken.mix} in it"
        yield "a third over each third of the bed"
        return
    weight = "" if taken.weight is None else f" ({taken.weight})"
    yield f"{routine.name}{weight}"
    if routine.made_of is not Made.RAW_MANURE:
        away = "an inch or two" if units is Units.US else "3 to 5 cm"
        yield f"{away} from the stems, watered in"


def _of_water(routine: Routine, taken: Taken, units: Units) -> str:
    where = "over the leaves, early" if routine.overhead else "at the soil"
    if not taken.rain or routine.amount is None:
        return f"{routine.name}, {where}"
    fell = f"{show_number(taken.rain / 25.4, 2)} in" if units is Units.US else f"{taken.rain:g} mm"
    return f"{routine.name}, {where}: {routine.amount} less {fell} of rain"


def _of_spray(each: Round, taken: Taken) -> Iterator[str]:
    routine, label = each.routine, each.routine.label
    mix = "" if taken.mix is None else f", {taken.mix} in it"
    yield (
        f"{routine.name}{mix}" if taken.amount is not None else f"{routine.name}, as its label says"
    )
    if routine.work is Work.DUST:
        yield "dry leaves, still air; off in the morning"
    elif routine.against in (Against.INSECTS, Against.MITES):
        yield "undersides of the leaves first"
    flowering = [plot for plot in each.plots if in_flower(plot, each.day)]
    if any(plot.wave.crop.needs_bees for plot in flowering):
        yield "in flower: late, when the bees are home"
    elif flowering:
        yield "in flower: late, when the flowers are shut"
    if routine.keep_dry:
        until = each.day + timedelta(days=routine.keep_dry)
        yield f"leaves dry till {short_day(until)}"
    if label.hours_before_entry is not None:
        yield f"nobody in for {label.hours_before_entry} h"
    if label.days_before_harvest is None:
        yield f"days before harvest: {_READ_IT}"
