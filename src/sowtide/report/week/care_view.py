"""What a week's care comes to: its totals, what is not done this week, what was found."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.garden.care import Measured, Routine
from sowtide.report.heat import PutOffView
from sowtide.report.kinds import AmountView
from sowtide.report.week.tasks_view import HeldView, TotalView, VerdictWanted
from sowtide.schedule.care import CarePlan, CareTotal, Hindrance, totals_of
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


def held(care: CarePlan, first: date, last: date, *, today: date) -> Iterator[HeldView]:
    """Yield what a week asks for and does not get: put off beyond it, or given up.

    What is overdue is asked for by the week of today.
    """
    return (view for view, _ in _held(care, first, last, today))


def put_off_by_heat(
    care: CarePlan, first: date, last: date, *, today: date
) -> Iterator[PutOffView]:
    """Yield the care of a week that waits for the heat to be over."""
    for each, why in _held(care, first, last, today):
        if why.is_heat:
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


def _held(
    care: CarePlan, first: date, last: date, today: date
) -> Iterator[tuple[HeldView, Hindrance]]:
    late_too = first <= today <= last
    found: dict[tuple[Routine, str, date, Hindrance, date | None], list[str]] = {}
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
        view = HeldView(
            routine=routine.name,
            does=routine.does,
            bed=bed,
            waves=tuple(waves),
            asked=asked,
            why=why.said,
            until=until,
        )
        yield view, why


def to_decide(season: Season, care: CarePlan, first: date, last: date) -> Iterator[VerdictWanted]:
    """Yield the waves on which something was found lately: keep them, or put others in place?"""
    waves = {wave.id: wave for wave in season.waves}
    for look in care.looks:
        wave = waves[look.wave]
        lately = first - _LOOKED_BACK <= look.on <= last
        if look.found.any and lately and wave.stands_on(first):
            yield VerdictWanted(wave.id, wave.crop.name, look.on, look.found.value)
