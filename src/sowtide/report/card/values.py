"""Figures of crops as a grower reads them: value and unit, in the garden's units where it has any.

What is converted is rounded as the trade rounds, and the published figure stands behind it in
brackets.
"""

from __future__ import annotations

from collections.abc import Callable
from math import floor, log10

from sowtide.report.kit import words
from sowtide.units import OUNCE, POUND, Units, celsius, fahrenheit, show_number
from sowtide.values import value

BY_TEMPERATURE = " at °"
"""In the unit of a figure that was measured at several temperatures."""

_CM = 2.54  # to the inch, exact by definition
_PER_10_FT = "/10 ft"
_M_IN_10_FT = 3.048  # exact by definition
_KG_PER_M = POUND / 1000 / _M_IN_10_FT  # of a pound to ten feet
_KG_PER_M2 = POUND / 1000 / 9.290304  # of a pound to a hundred square feet, exact by definition
_G_PER_M2 = OUNCE / 9.290304  # of an ounce to a hundred square feet, exact by definition


_STAGES = {
    "sow": ("at sowing", "after sowing"),
    "up": ("once it is up", "after it is up"),
    "plant": ("at planting", "after planting"),
    "flower": ("when it flowers", "after flowering"),
    "first pick": ("at the first pick", "after first pick"),
    "picking": ("while picking", "into the picking"),
    "pull out": ("at pulling out", "after pulling out"),
    "dig in": ("at digging in", "after digging in"),
}


@value
class _Conversion:
    """How a unit is written in the other system: its new name and what becomes of a number."""

    unit: str
    convert: Callable[[float], float]


def said(text: str, unit: str | None, units: Units | None) -> str:
    """Say a value with its unit; with another system's units the published figure stays beside it.

    Parameters
    ----------
    text
        The value as it is written in the table or the file, such as ``46-65`` or ``3-4 x 18``.
    unit
        Its unit as it is written there, or None.
    units
        The garden's units; None leaves the value as it was published.

    Examples
    --------
    >>> said("46-65", "days", None), said("6", "in", Units.METRIC), said("60-85", "°F", None)
    ('46–65 days', '15 cm (6 in)', '60–85 °F')
    """
    if unit is None:
        return text
    conversion = _conversion(unit, units)
    if conversion is None:
        return f"{_dashed(text)} {_counted(text, unit)}"
    return f"{_converted(text, conversion)} {conversion.unit} ({_dashed(text)} {unit})"


def chore(written: str) -> tuple[str, str]:
    """Return when a chore is done and what it is, from the table's ``plant +28: water well``.

    Examples
    --------
    >>> chore("plant +28: look under the leaves")
    ('28 days after planting', 'look under the leaves')
    >>> chore("flower: take the net off")
    ('when it flowers', 'take the net off')
    """
    stage, _, words = written.partition(": ")
    name, plus, days = stage.partition(" +")
    at, after = _STAGES[name]
    return (f"{days} days {after}" if plus else at), words


def frost_days(text: str, *, frost: str) -> str:
    """Say a number of days before a frost; fewer than none are days after it.

    Examples
    --------
    >>> frost_days("45", frost="last frost"), frost_days("-14", frost="first frost")
    ('45 days before the average last frost', '14 days after the average first frost')
    """
    days = int(text)
    if not days:
        return f"the day of the average {frost}"
    side = "after" if days < 0 else "before"
    return f"{words.count(abs(days), 'day')} {side} the average {frost}"


def temperatures(text: str, unit: str, units: Units | None) -> tuple[tuple[str, str, str], ...]:
    """Take apart a figure that was measured at several temperatures.

    Returns
    -------
        Temperature in the garden's unit, the same as published, and the figure, for each.

    Examples
    --------
    >>> temperatures("50: 17, 104: none", "days at °F", Units.METRIC)
    (('10', '50', '17'), ('40', '104', 'none'))
    """
    degree = degree_of(unit)
    conversion = _conversion(degree, units)
    points = []
    for point in text.split(", "):
        at, figure = point.split(": ")
        points.append((_converted(at, conversion) if conversion else at, at, figure))
    return tuple(points)


def degree_of(unit: str) -> str:
    """Return the degree in the unit of a figure that was measured at several temperatures."""
    return unit[unit.index(BY_TEMPERATURE) + len(BY_TEMPERATURE) - 1 :]


def is_converted(unit: str, units: Units | None) -> bool:
    """Whether figures of a unit are written otherwise in the garden's units."""
    return _conversion(unit, units) is not None


def converted_unit(unit: str, units: Units | None) -> str:
    """Return what a unit becomes in the garden's units."""
    conversion = _conversion(unit, units)
    return unit if conversion is None else conversion.unit


def _conversion(unit: str, units: Units | None) -> _Conversion | None:
    """Return how a unit is written in a system; None where it stays as it is."""
    if units is Units.METRIC:
        if unit not in _TO_METRIC and unit.endswith(_PER_10_FT):  # heads, ears, bunches
            return _Conversion(
                unit.removesuffix(_PER_10_FT) + "/m", lambda count: _two_digits(count / _M_IN_10_FT)
            )
        return _TO_METRIC.get(unit)
    if units is Units.US:
        return _TO_US.get(unit)
    return None


def _converted(text: str, conversion: _Conversion) -> str:
    """Convert every number of a text such as ``3-4 x 18-36``, each end of a range by itself."""
    return " × ".join(_range(part, conversion) for part in text.split(" x "))


def _range(text: str, conversion: _Conversion) -> str:
    shown = [_number(conversion.convert(float(end))) for end in _ends(text)]
    return "–".join(dict.fromkeys(shown))  # two ends may become one


def _number(number: float) -> str:
    return f"{number:,.0f}" if number >= 1000 else show_number(number, 3)


def _ends(text: str) -> tuple[str, ...]:
    """Return the one or two ends of a range; a number may begin with a minus."""
    low, dash, high = text[1:].partition("-")
    return (text[0] + low, high) if dash else (text,)


def _dashed(text: str) -> str:
    """Write ranges with the sign for them, ``46–65``, and a minus as it is."""
    return " × ".join("–".join(_ends(part)) for part in text.split(" x "))


def _counted(text: str, unit: str) -> str:
    """Return the unit of one thing where there is one."""
    return unit[:-1] if text == "1" and unit in ("days", "years") else unit


def _spacing(cm: float) -> float:
    """Round a spacing: to 5 from 40 on, to 1 from 10 on, below to a half. [cm]"""
    step = 5 if cm >= 40 else 1 if cm >= 10 else 0.5
    return floor(cm / step + 0.5) * step


def _inches(cm: float) -> float:
    """Round a spacing: to 1 from 6 on, below to a half. [in]"""
    inches = cm / _CM
    step = 1 if inches >= 6 else 0.5
    return floor(inches / step + 0.5) * step or 0.5


def _two_digits(number: float) -> float:
    return float(round(number, 1 - floor(log10(abs(number))))) if number else 0.0


_TO_METRIC = {
    "in": _Conversion("cm", lambda inches: _spacing(inches * _CM)),
    "°F": _Conversion("°C", lambda degrees: float(floor(celsius(degrees) + 0.5))),
    "°F·d": _Conversion("°C·d", lambda units: float(floor(units * 5 / 9 + 0.5))),
    "lb/10 ft": _Conversion("kg/m", lambda pounds: _two_digits(pounds * _KG_PER_M)),
    "oz/100 ft²": _Conversion("g/m²", lambda ounces: float(floor(ounces * _G_PER_M2 + 0.5))),
}
_TO_US = {
    "cm": _Conversion("in", _inches),
    "°C": _Conversion("°F", lambda degrees: float(floor(fahrenheit(degrees) + 0.5))),
    "°C·d": _Conversion("°F·d", lambda units: float(floor(units * 9 / 5 + 0.5))),
    "kg/m": _Conversion("lb/10 ft", lambda kilograms: _two_digits(kilograms / _KG_PER_M)),
    "kg/m²": _Conversion("lb/100 ft²", lambda kilograms: _two_digits(kilograms / _KG_PER_M2)),
    "seeds/g": _Conversion("seeds/oz", lambda seeds: _two_digits(seeds * OUNCE)),
}
