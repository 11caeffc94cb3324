"""Making a record of the days of a file: its unit settled, days that cannot be left out."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from datetime import date, timedelta
from itertools import count, pairwise, repeat

from sowtide.climate.record.degrees import LEAST, MOST, RARE, Range, Unit, range_of, step_of
from sowtide.climate.record.faults import Faults
from sowtide.climate.record.gathering import NOTHING, THE_FORM, DayLines
from sowtide.climate.record.record import Record
from sowtide.diagnostics import Severity, Span
from sowtide.units import show_number
from sowtide.values import value

WIDEST = 40.0
"""No day is that much warmer than its night. [°C]"""

LONG = 365
"""DayLines without a line from which on a file seems to lack a part. [days]"""

_NO_NUMBER = {-99.0, -99.9, -99.99}
"""Further marks of a missing reading, where they cannot be tenths. [°C, °F]"""


@value
class Settled:
    """The unit of a file and what says so."""

    unit: Unit
    by: str


def settle_unit(
    days: DayLines, given: Unit | None, faults: Faults, *, otherwise: Unit | None
) -> Settled | None:
    """Return the unit of a file, or None with what is wrong with it.

    Parameters
    ----------
    days
        The file's days.
    given
        What the user says the unit is, or None.
    faults
        Takes what is wrong.
    otherwise
        What it is where neither the file nor its values tell one unit from another, or None.
    """
    reach = range_of(days.lows, days.highs, days.ordinals, integers=days.integers)
    if days.unit is not None and given is not None and days.unit is not given:
        _fault(
            faults,
            f"{days.unit_from} says {days.unit.value}, but {given.value} is stated for the record",
            f"delete {given.key} in the garden's file"
            + ("" if days.unit_from == THE_FORM else f", or correct {days.unit_from}"),
            days.unit_line,
        )
        return None
    said, by = (days.unit, days.unit_from) if given is None else (given, "given")
    if said is not None:
        if reach.allows(said):
            return Settled(said, by)
        _cannot_be(said, by, reach, days, faults)
        return None
    possible = reach.possible()
    if len(possible) == 1:
        return Settled(possible[0], "the values")
    if otherwise in possible:
        return Settled(otherwise, "the garden's file")
    if possible:
        *others, last = (unit.value for unit in possible)
        names = f"{', '.join(others)} or {last}"
        them = "any of them" if len(others) > 1 else "either"
        what = f"nothing says whether these are {names}, and they could be {them}"
        one = [unit for unit in possible if unit is not Unit.TENTHS][-1]
        hint = f"name it in the header, such as tmin ({one.value}), or write {one.key}"
        hint += " beside the record"
    else:
        what = f"no unit fits these temperatures: {_reach(reach)}"
        hint = "are the columns of daily minima and maxima those that the header names so?"
    _fault(faults, what, hint, days.unit_line)
    return None


def _cannot_be(said: Unit, by: str, reach: Range, days: DayLines, faults: Faults) -> None:
    others = [unit for unit in reach.possible() if unit is not said]
    hint = "correct the unit, or the file"
    if by == THE_FORM:
        hint = "take the file from the archive again"
    elif len(others) == 1 and by == "given":
        hint = f"are these {others[0].value}? then write {others[0].key} beside the record"
    elif len(others) == 1:
        hint = f"are these {others[0].value}? then correct {by}"
    named = f"{said.value} is stated" if by == "given" else f"{by} says {said.value}"
    _fault(
        faults,
        f"{named}, which these temperatures cannot be: {_reach(reach)}",
        hint,
        days.unit_line,
    )


def _reach(reach: Range) -> str:
    kind = "maxima" if reach.maxima else "minima"
    return f"the warmest {kind} are about {show_number(reach.warm)}"


def _fault(faults: Faults, message: str, hint: str, line: int) -> None:
    faults.at("record-unit", message, hint, line=line)


@value
class Wild:
    """A day that cannot be."""

    index: int
    """Which of the file's days."""
    message: str
    """What is wrong with it."""
    swapped: bool
    """Whether its minimum is above its maximum."""


def in_celsius(numbers: Sequence[float], unit: Unit) -> array[float]:
    """Return the readings of a file in °C."""
    known = {number: unit.celsius(number) for number in set(numbers)}
    if unit is not Unit.TENTHS:
        known.update(dict.fromkeys(_NO_NUMBER, NOTHING))
    return array("d", map(known.get, numbers, repeat(NOTHING)))


def wild_days(days: DayLines, lows: array[float], highs: array[float], unit: Unit) -> list[Wild]:
    """Return the days that cannot be, as the file has them.

    Parameters
    ----------
    days
        The file's days.
    lows, highs
        Their minima and maxima, the latter perhaps empty. [°C]
    unit
        The file's unit, for what is said.
    """
    found = []
    odd = [
        (index, low, high)
        for index, low, high in zip(count(), lows, highs or repeat(NOTHING), strict=False)
        if not (low >= LEAST and high <= MOST and 0 <= high - low <= WIDEST)
    ]
    for index, low, high in odd:
        at = index, unit
        if low > high:
            what = f"the minimum {_said(days.lows, *at)} is above the maximum"
            found.append(Wild(index, f"{what} {_said(days.highs, *at)}", True))
        elif high - low > WIDEST:
            what = f"from {_said(days.lows, *at)} to {_said(days.highs, *at)} in one day"
            found.append(Wild(index, f"{what} is not possible", False))
        elif not (LEAST <= low <= MOST or low != low):
            found.append(Wild(index, f"a minimum of {_said(days.lows, *at)}", False))
        elif not (LEAST <= high <= MOST or high != high):
            found.append(Wild(index, f"a maximum of {_said(days.highs, *at)}", False))
    return found


def _said(numbers: Sequence[float], index: int, unit: Unit) -> str:
    number = numbers[index]
    if unit is Unit.TENTHS:
        return f"{show_number(number / 10)} °C"
    return f"{show_number(number, 2)} {unit.value}"


def report_wild(wild: list[Wild], days: DayLines, spans: Sequence[Span], faults: Faults) -> bool:
    """Warn of days that cannot be; where they are many, make it errors and return True.

    Parameters
    ----------
    wild
        The days.
    days
        The file's days.
    spans
        The places of the first of them.
    faults
        Takes the problems.
    """
    many = len(wild) > max(1, RARE * len(days.ordinals))
    severity = Severity.ERROR if many else Severity.WARNING
    for number, each in enumerate(wild):
        day = date.fromordinal(days.ordinals[each.index])
        if not many:
            hint = "the day is left out; correct it if you know better"
        elif each.swapped:
            hint = "are the two columns swapped?"
        else:
            hint = "many days are so: is the unit right?"
        span = spans[number] if number < len(spans) else Span(faults.label, 1)
        faults.add("record-wild", f"{day}: {each.message}", hint, span, severity)
    return many


def report_gaps(days: DayLines, faults: Faults) -> None:
    """Note where the lines of a year or more are not there, as when a file was left out."""
    ordinals = days.ordinals
    if ordinals[-1] - ordinals[0] + 1 - len(ordinals) < LONG:
        return
    for index, (before, after) in enumerate(pairwise(ordinals), 1):
        if after - before > LONG:
            first, last = (date.fromordinal(day) for day in (before, after))
            faults.add(
                "record-gap",
                f"no line stands for {first + timedelta(1)} to {last - timedelta(1)}",
                "those years are not used; add their lines if you have them",
                Span(faults.label, days.lines[index]),
                Severity.NOTE,
            )


def record_of(
    days: DayLines,
    lows: array[float],
    highs: array[float],
    *,
    settled: Settled,
    wild: list[Wild],
    label: str,
) -> Record:
    """Return the record of a file's days, each day in its place.

    Parameters
    ----------
    days
        The file's days.
    lows, highs
        Their minima and maxima, the latter perhaps empty; taken over. [°C]
    settled
        The file's unit, and what says so.
    wild
        Days that are left out.
    label
        The file's name.
    """
    for each in wild:
        lows[each.index] = NOTHING
        if highs:
            highs[each.index] = NOTHING
    return Record(
        label=label,
        station=days.station,
        first=date.fromordinal(days.ordinals[0]),
        tmin=_dense(days.ordinals, lows),
        tmax=_dense(days.ordinals, highs) if any(each == each for each in highs) else None,
        resolution=step_of(lows),
        fahrenheit=settled.unit is Unit.FAHRENHEIT,
        flagged=days.flagged,
        wild=len(wild),
        unit_from=settled.by,
    )


def _dense(ordinals: array[int], readings: array[float]) -> array[float]:
    """Return the readings with a place for each day from the first to the last."""
    first = ordinals[0]
    length = ordinals[-1] - first + 1
    if length == len(readings):
        return readings
    dense = array("d", [NOTHING]) * length
    for ordinal, reading in zip(ordinals, readings, strict=True):
        dense[ordinal - first] = reading
    return dense
