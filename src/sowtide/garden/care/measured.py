"""Amounts with units as people write them, exact, and how they are shown.

The usual words are a table, since a library of units takes longer to load than a week's sheet to
make; all other words are looked up in that library. A test holds the table against it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from sowtide.garden.care.dimensions import Dimension
from sowtide.garden.readers import decimal
from sowtide.garden.text import Refused, quoted
from sowtide.units import show_number
from sowtide.values import value

_GALLON = Fraction(231) * Fraction("2.54") ** 3
_POUND = Fraction("453.59237")
_INCH = Fraction(25_400)
_METRE = Fraction(1_000_000)

_SIZES: dict[str, tuple[Dimension, Fraction]] = {
    "tsp": (Dimension.VOLUME, _GALLON / 768),
    "tbsp": (Dimension.VOLUME, _GALLON / 256),
    "fl oz": (Dimension.VOLUME, _GALLON / 128),
    "cup": (Dimension.VOLUME, _GALLON / 16),
    "pint": (Dimension.VOLUME, _GALLON / 8),
    "quart": (Dimension.VOLUME, _GALLON / 4),
    "gal": (Dimension.VOLUME, _GALLON),
    "ml": (Dimension.VOLUME, Fraction(1)),
    "l": (Dimension.VOLUME, Fraction(1000)),
    "oz": (Dimension.WEIGHT, _POUND / 16),
    "lb": (Dimension.WEIGHT, _POUND),
    "g": (Dimension.WEIGHT, Fraction(1)),
    "kg": (Dimension.WEIGHT, Fraction(1000)),
    "in": (Dimension.LENGTH, _INCH),
    "ft": (Dimension.LENGTH, 12 * _INCH),
    "mm": (Dimension.LENGTH, _METRE / 1000),
    "cm": (Dimension.LENGTH, _METRE / 100),
    "m": (Dimension.LENGTH, _METRE),
    "ft2": (Dimension.AREA, (12 * _INCH) ** 2),
    "m2": (Dimension.AREA, _METRE**2),
    "plant": (Dimension.PLANTS, Fraction(1)),
    "bed": (Dimension.BEDS, Fraction(1)),
}
"""The usual units: a gallon is 231 in³, a pound 453.59237 g, an inch 2.54 cm, exact by definition.

What stands under US words are US measures.
"""

_ALSO = {
    "tsp": "teaspoon",
    "tbsp": "tablespoon",
    "fl oz": "fluid ounce",
    "pint": "pt",
    "quart": "qt",
    "gal": "gallon",
    "l": "litre liter",
    "oz": "ounce",
    "lb": "pound",
    "g": "gram",
    "kg": "kilogram kilo",
    "in": "inch",
    "ft": "foot",
    "m": "metre meter",
}
_WORDS = {word: unit for unit, words in _ALSO.items() for word in words.split()}
_WORDS |= {"floz": "fl oz", "fluid ounce": "fl oz", "inches": "in", "feet": "ft", '"': "in"}
_WORDS |= dict.fromkeys(("sq ft", "square foot", "square feet"), "ft2")
_WORDS |= dict.fromkeys(("sq m", "square metre", "square meter"), "m2")
_SPLIT = re.compile(r"([0-9]+(?:\.[0-9]+)?)\s*(.*)", re.DOTALL)
_MOST = 1_000_000

US_VOLUMES = ("gal", "quart", "cup", "tbsp", "tsp")
LADDERS = (US_VOLUMES, ("l", "ml"), ("lb", "oz"), ("kg", "g"))
"""Units in which one system shows an amount, the largest first."""
_AND = {"cup": "tbsp", "tbsp": "tsp", "lb": "oz"}
"""What the rest is said in, where nobody measures decimals of a unit."""


@value
class Measured:
    """A number and its unit."""

    number: Fraction
    """How many."""
    unit: str
    """The unit as it is shown."""
    dimension: Dimension
    """What it measures."""
    size: Fraction
    """How much it is, in what the dimension is counted in."""

    def __str__(self) -> str:
        return said(float(self.number), self.unit)


def measured(text: str, *, bare: bool = False) -> Measured:
    """Read a number with its unit.

    Parameters
    ----------
    text
        What is written, such as ``4 tbsp`` or ``100 ft2``.
    bare
        Whether a unit alone stands for one of it, as in ``per plant``.

    Raises
    ------
    Refused
        If there is no number, no unit, or a unit that nobody knows.
    """
    found = _SPLIT.fullmatch(text)
    if found is None and not bare:
        raise Refused(
            "amount", f"{quoted(text)} is no amount", "write a number and its unit: 4 tbsp"
        )
    digits, word = ("1", text) if found is None else found.groups()
    number = decimal(0, _MOST)(digits)
    if not word:
        raise Refused(
            "amount-unit",
            f"{quoted(text)} has no unit",
            "write its unit: tsp, tbsp, cup, pint, quart, gal, ml, l, oz, lb, g, kg or in",
        )
    unit, dimension, size = _unit(word)
    return Measured(number, unit, dimension, number * size)


def _unit(word: str) -> tuple[str, Dimension, Fraction]:
    plain = " ".join(word.replace("²", "2").replace(".", "").lower().split())
    if plain == "t":
        raise Refused("amount-unit", f"{quoted(word)} may be two spoons", "write tsp or tbsp")
    for name in (plain, plain.removesuffix("s")):
        name = _WORDS.get(name, name)
        if name in _SIZES:
            return name, *_SIZES[name]
    from sowtide.garden.care.more_units import look_up

    return look_up(word)


def size_of(unit: str) -> Fraction:
    """Return how much one of a usual unit is, in what its dimension is counted in."""
    return _SIZES[unit][1]


def usual_units() -> Iterator[tuple[str, Dimension, Fraction]]:
    """Yield the units of the table."""
    for unit, (dimension, size) in _SIZES.items():
        yield unit, dimension, size


def ladder_of(unit: str) -> tuple[str, ...]:
    """Return the units that volumes or weights written in a unit are shown in."""
    of_pints = US_VOLUMES  # of fluid ounces too: both can be written, neither is shown
    return next((ladder for ladder in LADDERS if unit in ladder), of_pints)


def in_largest(size: float | Fraction, ladder: tuple[str, ...]) -> tuple[float, str]:
    """Return an amount as a number of the largest unit of which it is one or more.

    Examples
    --------
    >>> in_largest(946.352946, US_VOLUMES)
    (1.0, 'quart')
    """
    for unit in ladder:
        number = float(size) / float(_SIZES[unit][1])
        if number >= 1 - 1e-9:
            return number, unit
    return number, unit


def said(number: float, unit: str) -> str:
    """Say an amount: ``4.5 gal``, ``2 lb 4 oz``, ``1 tbsp 2 tsp``, ``28 gal``.

    Three digits are as much as anyone measures.
    """
    rest = _AND.get(unit)
    if rest is None or unit not in _SIZES:
        return f"{_rounded(number)} {unit}{_plural(unit, number)}"
    small = int(_SIZES[unit][1] / _SIZES[rest][1])
    whole = int(number + 1e-6)
    more = round((number - whole) * small, 1)
    if more >= small:
        whole, more = whole + 1, 0.0
    text = f"{whole} {unit}{_plural(unit, whole)}" if whole else ""
    return f"{text} {_rounded(more)} {rest}".strip() if more else text or f"0 {unit}"


def _rounded(number: float) -> str:
    return show_number(number, 2 if number < 10 else 1 if number < 100 else 0)


def _plural(unit: str, number: float) -> str:
    return "s" if unit in ("cup", "plant", "bed", "quart", "pint") and number > 1 else ""
