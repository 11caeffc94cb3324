"""Units: exact lengths and areas, temperatures, and how the two systems write them.

Lengths are whole micrometres and areas whole square micrometres, so that inches and centimetres
alike are exact and no bed is over-full by a rounding error. Temperatures are degrees Celsius.
"""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

from sowtide.values import value

FREEZING = 0.0
"""Where water freezes. [°C]"""

TOO_HOT = 32.2
"""The maximum from which on nothing is sprayed, dusted or fed, and working wants care: 90 °F. [°C]

UC IPM says it of oil and of sulfur; that it is taken for all is sowtide's own.
"""

ROUNDING_OF_SUMS = 1e-9
"""How far a sum of floats may be off, so that a total that it hits exactly is hit. [°C·d, days]"""

ROUNDING_OF_MEANS = 1e-6
"""The same of a mean of temperatures, or of one converted from another unit. [°C]"""

_MICROMETRES = {"in": 25_400, "ft": 304_800, "cm": 10_000, "m": 1_000_000}
KILOGRAMS = {
    "kg": Fraction(1),
    "g": Fraction(1, 1000),
    "lb": Fraction("0.45359237"),
    "oz": Fraction("0.45359237") / 16,
}
"""What the units of weight are. [kg] Exact by definition."""
POUND, OUNCE = (float(1000 * KILOGRAMS[unit]) for unit in ("lb", "oz"))
"""[g]"""
SQUARE_METRE = 10**12
"""[µm²]"""

_PARTS_OF_SPACINGS = {"in": 4, "cm": 2}
"""Parts of the unit that a spacing is rounded to: quarters of an inch, half centimetres."""


class Units(Enum):
    """The system a file is written in, and its results are shown in."""

    US = "us"
    """Feet, inches, °F, pounds."""
    METRIC = "metric"
    """Metres, centimetres, °C, kilograms."""

    @property
    def long_unit(self) -> str:
        """What beds are measured in: ``ft`` or ``m``."""
        return "ft" if self is Units.US else "m"

    @property
    def short_unit(self) -> str:
        """What spacings are measured in: ``in`` or ``cm``."""
        return "in" if self is Units.US else "cm"

    @property
    def weight_unit(self) -> str:
        """What harvests are weighed in: ``lb`` or ``kg``."""
        return "lb" if self is Units.US else "kg"

    @property
    def degree(self) -> str:
        """``°F`` or ``°C``."""
        return "°F" if self is Units.US else "°C"

    def difference(self, value: Fraction | float) -> float:
        """Convert a difference of temperatures in its degrees. [°C]"""
        return float(value * 5 / 9) if self is Units.US else float(value)


def micrometres(value: Fraction, unit: str) -> int:
    """Convert a length in ``in``, ``ft``, ``cm`` or ``m`` to whole micrometres, halves up.

    Examples
    --------
    >>> micrometres(Fraction(3), "in")
    76200
    """
    exact = value * _MICROMETRES[unit]
    return (2 * exact.numerator + exact.denominator) // (2 * exact.denominator)


def length_in(length: int, unit: str) -> float:
    """Convert micrometres to ``in``, ``ft``, ``cm`` or ``m``."""
    return length / _MICROMETRES[unit]


def area_in(area: int, unit: str) -> float:
    """Convert square micrometres to the square of ``in``, ``ft``, ``cm`` or ``m``."""
    return area / _MICROMETRES[unit] ** 2


def celsius(fahrenheit: float) -> float:
    """Convert a temperature from °F to °C.

    Examples
    --------
    >>> round(celsius(28), 1)
    -2.2
    """
    return (fahrenheit - 32) * 5 / 9


def fahrenheit(celsius: float) -> float:
    """Convert a temperature from °C to °F."""
    return celsius * 9 / 5 + 32


@value
class Size:
    """Width and length of a bed. [µm]"""

    width: int
    length: int

    @property
    def area(self) -> int:
        """Its area. [µm²]"""
        return self.width * self.length


def show_number(value: float, digits: int = 1) -> str:
    """Write a number with at most so many decimals and no idle zeros.

    Examples
    --------
    >>> show_number(4.0), show_number(4.25)
    ('4', '4.2')
    """
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def show_length(length: int, units: Units) -> str:
    """Write a bed-sized length with its unit, such as ``20 ft`` or ``6.1 m``."""
    return f"{show_number(length_in(length, units.long_unit))} {units.long_unit}"


def show_spacing(length: int, units: Units) -> str:
    """Write a spacing with its unit, to the half centimetre or the quarter of an inch, halves up.

    Examples
    --------
    >>> show_spacing(101_600, Units.METRIC), show_spacing(101_600, Units.US)
    ('10 cm', '4 in')
    """
    exact = length_in(length, units.short_unit)
    parts = _PARTS_OF_SPACINGS[units.short_unit]
    rounded = int(exact * parts + 0.5) / parts
    return f"{show_number(rounded or exact, 2)} {units.short_unit}"


def show_temperature(celsius: float, units: Units) -> str:
    """Write a temperature with its unit, to the whole °F or the tenth of a °C."""
    if units is Units.US:
        return f"{show_number(fahrenheit(celsius), 0)} °F"
    return f"{show_number(celsius, 1)} °C"


def show_temperature_difference(celsius: float, units: Units) -> str:
    """Write a difference of temperatures with its unit, such as ``4 °F``."""
    if units is Units.US:
        return f"{show_number(celsius * 9 / 5)} °F"
    return f"{show_number(celsius)} °C"


def show_degree_days(celsius_days: float, units: Units) -> str:
    """Write heat with its unit.

    Examples
    --------
    >>> show_degree_days(461.4, Units.US), show_degree_days(461.4, Units.METRIC)
    ('831 °F·d', '461 °C·d')
    """
    if units is Units.US:
        return f"{show_number(celsius_days * 9 / 5, 0)} °F·d"
    return f"{show_number(celsius_days, 0)} °C·d"


def in_hundred(share: float, *, estimated: bool = True, of: int = 100) -> str:
    """Say a share of years as whole years of a hundred, halves up, without "in 100".

    Parameters
    ----------
    share
        Share of years. [0–1]
    estimated
        Whether it comes from a curve, which is never quite sure of anything: then it is not said
        to be all of the years or none of them.
    of
        Of how many years, where they are recorded ones and not a hundred. [years]

    Examples
    --------
    >>> in_hundred(0.825), in_hundred(0.998), in_hundred(0.001), in_hundred(1, estimated=False)
    ('83', 'over 99', 'under 1', '100')
    >>> in_hundred(0.9, of=30), in_hundred(0.99, of=30)
    ('27', 'over 29')
    """
    whole = int(share * of + 0.5 + 1e-9)
    if whole >= of and (estimated or share < 1):
        return f"over {of - 1}"
    if whole <= 0 and (estimated or share > 0):
        return "under 1"
    return str(whole)


def years_of_hundred(share: float, *, estimated: bool = True, of: int = 100) -> str:
    """Say a share of years, such as ``83 years of 100`` or ``under 1 year of 100``."""
    said = in_hundred(share, estimated=estimated, of=of)
    return f"{said} {'year' if said in ('1', 'under 1') else 'years'} of {of}"


def unit_told(unit: str, units: Units) -> tuple[str, float]:
    """Return the unit that amounts of a crop are told in, and how many of it one of theirs is.

    Parameters
    ----------
    unit
        What the crop is counted in: ``kg``, or pieces or bunches, which stay as they are.
    units
        The garden's.
    """
    if unit != "kg":
        return unit, 1.0
    return units.weight_unit, float(1 / KILOGRAMS[units.weight_unit])
