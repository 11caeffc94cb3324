"""What a week's care comes to: its totals, what is not done this week, what was found."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from sowtide.garden.care import Measured, Routine
from sowtide.report.heat import PutOffView
from sowtide.report.kinds import AmountView
from sowtide.report.week.tasks_view import HeldView, TotalView, VerdictWanted
from sowtide.schedule.care import HEAT, CarePlan, CareTotal, totals_of
from sowtide.schedule.season import Season
from sowtide.units import OUNCE, POUND, Units, area_in

_LOOKED_BACK = timedelta(days=7)


def totals(season: Season, care: CarePlan, first: date, last: date) -> Iterator[TotalView]:
    """Yield what each routine takes in a week, both days included, in the file's order."""
    units = season.garden.site.units
    for total in totals_of(care.rounds(first, last), care, units, season.today):
        yield _total(total, units)


def _total(of: CareTotal, units: Units) -> TotalView:
    taken = of.taken
    return TotalView(
        routine=of.routine.name,
        does=of.routine.does,
        rounds=of.rounds,
        amount=_amount(taken.amount),
        mix=_amount(taken.mix),
        weight=_amount(taken.weight),
        nitrogen=None if taken.nitrogen is None else _nitrogen(taken.nitrogen, units),
        nitrogen_per_area=None
        if taken.nitrogen is None or not taken.area
        else _per_area(taken.nitrogen, taken.area, units),
        minutes=taken.minutes,
    )


def _amount(of: Measured | None) -> AmountView | None:
    return None if of is None else AmountView(float(of.number), of.unit)


def _nitrogen(grams: float, units: Units) -> AmountView:
    if units is Units.METRIC:
        return AmountView(grams, "g")
    return AmountView(grams / POUND, "lb") if grams >= POUND else AmountView(grams / OUNCE, "oz")


def _per_area(grams: float, area: int, units: Units) -> AmountView:
    if units is Units.METRIC:
        return AmountView(grams / area_in(area, "m"), "g per m2")
    return AmountView(grams / POUND * 1000 / area_in(area, "ft"), "lb per 1000 ft2")


def held(care: CarePlan, first: date, last: date, today: date) -> Iterator[HeldView]:
    """Yield what a week asks for and does not get: put off beyond it, or given up.

    What is overdue is asked for by the week of today.
    """
    late_too = first <= today <= last
    found: dict[tuple[Routine, str, date, str, date | None], list[str]] = {}
    for dose in care.doses:
        asks = first <= dose.asked or (dose.overdue and late_too)
        if asks and dose.asked <= last < dose.day and dose.why is not None:
            key = dose.routine, dose.plot.bed.name, dose.asked, dose.why, dose.day
            found.setdefault(key, []).append(dose.plot.wave.id)
    for gives in care.gives:
        if first <= gives.asked <= last:
            given = gives.routine, gives.plot.bed.name, gives.asked, gives.why, None
            found.setdefault(given, []).append(gives.plot.wave.id)
    for (routine, bed, asked, why, until), waves in found.items():
        yield HeldView(
            routine=routine.name,
            does=routine.does,
            bed=bed,
            waves=tuple(waves),
            asked=asked,
            why=why,
            until=until,
        )


def put_off_by_heat(held: Iterable[HeldView]) -> Iterator[PutOffView]:
    """Yield the care that waits for the heat to be over."""
    for each in held:
        if each.why == HEAT:
            yield PutOffView(
                what=each.routine,
                kind=each.does,
                bed=each.bed,
                waves=each.waves,
                due=each.asked,
                until=each.until,
                cannot_wait=each.until is None,
                task=None,
            )


def to_decide(season: Season, care: CarePlan, first: date, last: date) -> Iterator[VerdictWanted]:
    """Yield the waves on which something was found lately: keep them, or put others in place?"""
    waves = {wave.id: wave for wave in season.waves}
    for name, on, found in care.found:
        wave = waves[name]
        if found != "none" and first - _LOOKED_BACK <= on <= last and wave.stands_on(first):
            yield VerdictWanted(name, wave.crop.name, on, found)
