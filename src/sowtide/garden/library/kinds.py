"""Kinds of figures: how each is read from the table and from a file, converted, and written again.

A figure of the table is a row; of a file, a text that a reader takes first. Both become what a crop
holds, in °C, µm and kg; and what a crop holds is written as a file would have it.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from fractions import Fraction
from typing import Any

from sowtide.days import DayRange, MonthDay
from sowtide.garden import readers
from sowtide.garden.by_temperature import ByTemperature
from sowtide.garden.crop import Sort, Yield
from sowtide.garden.library.table import Row
from sowtide.garden.planting_times import planting_times, ready_time, seed_time
from sowtide.garden.readers import Frame
from sowtide.units import KILOGRAMS, Units, celsius, fahrenheit, length_in, micrometres, show_number
from sowtide.values import value

NOT_MEASURED = "none"
"""Stands in ``emergence`` where no seed came up."""

Reader = Callable[[str], Any]
Text = tuple[str, str | None]
"""A figure as a file has it, and its unit; None for words and bare numbers."""


class Wording(Enum):
    """How a figure is put into words, where that is more than a number and its unit."""

    FIGURE = "a number or a word"
    HARDINESS = "with the temperature that harms"
    BEFORE_LAST_FROST = "days before the average last frost"
    AFTER_LAST_FROST = "days after the average last frost"
    BEFORE_FIRST_FROST = "days before the average first frost"
    WARM_COOL = "in warm and in cool weather"
    SPACING = "in the row and between rows"
    DAYS_OF_YEAR = "two days of the year"
    CHORE = "when, and what"
    BY_SORT = "days by sort"
    PLANTING_TIMES = "times of the year"
    READY_TIME = "a time about the longest day"
    SEED_TIME = "a day about the longest day"


def as_it_is(_: Frame, found: Any) -> Any:
    """Take what was read for what a crop holds."""
    return found


@value
class FigureKind:
    """A kind of figure."""

    of_row: Callable[[Row], Any] | None = None
    """Reads it from the table of built-in crops; None where nothing hangs on it."""
    read: Reader | None = None
    """Reads a grower's text; None where it stands in no file."""
    convert: Callable[[Frame, Any], Any] = as_it_is
    """Makes what a crop holds of what was read, in the units of the file. Raises `Refused`."""
    written: Callable[[Any, Units | None], Text] = lambda found, _: (str(found), None)
    """Writes what a crop holds as a file in these units would have it."""
    said: Wording = Wording.FIGURE
    """How it is put into words."""


# What a row of the table holds


def temperature(row: Row) -> float:
    """Return a temperature. [°C]"""
    return _degrees(row.value, row.unit)


def days(row: Row) -> DayRange:
    """Return a range of days, or one number as a range."""
    return _span(row.value)


def _span(text: str) -> DayRange:
    low, _, high = text.partition("-")
    return DayRange(int(low), int(high or low))


def whole(row: Row) -> int:
    """Return a whole number."""
    return int(row.value)


def _degrees(text: str, unit: str) -> float:
    written = float(text)
    return celsius(written) if unit.endswith("°F") else written


def _by_temperature(row: Row) -> ByTemperature:
    points = []
    for point in row.value.split(", "):
        at, figure = point.split(": ")
        points.append((_degrees(at, row.unit), None if figure == NOT_MEASURED else float(figure)))
    return ByTemperature(tuple(points))


def _temperatures(row: Row) -> tuple[float, float]:
    low, _, high = row.value.partition("-")
    return _degrees(low, row.unit), _degrees(high or low, row.unit)


def _by_sort(row: Row) -> tuple[tuple[Sort, DayRange], ...]:
    """Return days to harvest by sort, of ``early: 90-100, main: 100-130``."""
    parts = (part.split(": ") for part in row.value.split(", "))
    return tuple((Sort(sort), _span(text)) for sort, text in parts)


def _yield(frame: Frame, found: readers.WrittenAmount) -> Yield:
    """Return what a plant gives; a bare number is a weight in the unit of the file."""
    factor = KILOGRAMS[frame.units.weight_unit] if found.unit is None else 1
    return Yield(float(found.low * factor), float(found.high * factor), found.unit or "kg")


# What a file would have


def _range(found: DayRange) -> str:
    return str(found.low) if found.low == found.high else f"{found.low}-{found.high}"


def _in_degrees(found: float, units: Units | None) -> Text:
    metric = units is Units.METRIC
    return show_number(found if metric else fahrenheit(found)), "°C" if metric else "°F"


def _in_degree_days(found: DayRange, units: Units | None) -> Text:
    if units is Units.METRIC:
        return _range(found), "°C·d"
    return _range(DayRange(*(round(end * 9 / 5) for end in (found.low, found.high)))), "°F·d"


def _in_row(found: int, units: Units | None) -> Text:
    unit = (units or Units.US).short_unit
    return show_number(length_in(found, unit), 2), unit


def _in_yield(found: Yield, units: Units | None) -> Text:
    unit, factor = found.unit, 1.0
    if unit == "kg":
        unit = (units or Units.US).weight_unit
        factor = float(KILOGRAMS[unit])
    low, high = (show_number(end / factor, 2) for end in (found.low, found.high))
    return low if low == high else f"{low}-{high}", unit


def _of_year(found: tuple[MonthDay, MonthDay], _: Units | None) -> Text:
    return "..".join(f"{day.month:02}-{day.day:02}" for day in found), None


# The kinds

TOLD = FigureKind()
"""Told as the table has it; no date hangs on it."""

CHORE = FigureKind(said=Wording.CHORE)
SPACING = FigureKind(said=Wording.SPACING)
"""Spacings in long rows, told as the table has them: in the row, and between rows."""

TEXT = FigureKind(lambda row: row.value, readers.text)
LOWER_TEXT = FigureKind(lambda row: row.value, readers.lower_text)
YES_NO = FigureKind(
    lambda row: row.value == "yes",
    readers.yes_no,
    written=lambda found, _: ("yes" if found else "no", None),
)
TEMPERATURE = FigureKind(temperature, readers.decimal(-100, 150), Frame.temperature, _in_degrees)
"""A temperature. [°C]"""

CURVE_TEMPERATURE = FigureKind(temperature, written=_in_degrees)
CURVE_TEMPERATURES = FigureKind(_temperatures)
BUILT_IN_NUMBER = FigureKind(lambda row: float(row.value))
BUILT_IN_SHARE = FigureKind(lambda row: int(row.value) / 100)
BUILT_IN_YES = FigureKind(lambda row: row.value == "yes")
"""What growth is counted with, in the table alone. [°C]"""

PLANTING_TIMES = FigureKind(lambda row: planting_times(row.value), said=Wording.PLANTING_TIMES)
READY_TIME = FigureKind(lambda row: ready_time(row.value), said=Wording.READY_TIME)
SEED_TIME = FigureKind(lambda row: seed_time(row.value), said=Wording.SEED_TIME)
BY_SORT = FigureKind(
    _by_sort,
    written=lambda found, _: (
        ", ".join(f"{sort.value}: {_range(days)}" for sort, days in found),
        "days",
    ),
    said=Wording.BY_SORT,
)
"""Days to harvest of early, main and late sorts. [days]"""

BY_TEMPERATURE = FigureKind(_by_temperature)
"""Figures measured at several temperatures of the soil."""

DEGREE_DAYS = FigureKind(
    read=readers.range_within(1, 20_000),
    convert=lambda frame, found: DayRange(
        frame.degree_days(found.low), frame.degree_days(found.high)
    ),
    written=_in_degree_days,
)
LENGTH = FigureKind(
    lambda row: micrometres(Fraction(row.value), row.unit),
    readers.above_zero(1000),
    Frame.spacing,
    _in_row,
)
"""The spacing of plants in a bed. [µm]"""

SHARE = FigureKind(
    lambda row: int(row.value) / 100,
    readers.percent(1, 100),
    written=lambda found, _: (show_number(found * 100, 2), "%"),
)
YIELD = FigureKind(read=readers.yield_of_plant, convert=_yield, written=_in_yield)
"""What one plant gives. [kg or 1]"""

DAYS_OF_YEAR = FigureKind(read=readers.month_days, written=_of_year, said=Wording.DAYS_OF_YEAR)


def choice(options: type[Enum], said: Wording = Wording.FIGURE) -> FigureKind:
    """Return the kind of a word out of a few."""
    return FigureKind(
        lambda row: options(row.value),
        readers.choice(options),
        written=lambda found, _: (str(found.value), None),
        said=said,
    )


def count(
    low: int, high: int = readers.LONGEST, unit: str = "days", said: Wording = Wording.FIGURE
) -> FigureKind:
    """Return the kind of a whole number of days or years, both bounds included."""
    return FigureKind(
        whole, readers.whole(low, high), written=lambda found, _: (str(found), unit), said=said
    )


def span(read: Reader | None = None, said: Wording = Wording.FIGURE) -> FigureKind:
    """Return the kind of a range of days."""
    return FigureKind(days, read, written=lambda found, _: (_range(found), "days"), said=said)


def number(read: Reader, unit: str | None = None) -> FigureKind:
    """Return the kind of a number with decimals."""
    return FigureKind(
        lambda row: float(row.value),
        read,
        lambda _, found: float(found),
        lambda found, _: (show_number(found, 2), unit),
    )
