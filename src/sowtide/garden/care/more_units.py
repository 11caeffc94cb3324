"""Units that are not in the table of the usual ones: looked up in a library of units."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

from sowtide.garden.care.dimensions import Dimension
from sowtide.garden.text import Refused, quoted

if TYPE_CHECKING:
    from pint import UnitRegistry

_WORD = re.compile(r"[A-Za-z][A-Za-z_ ]{0,30}[2²]?")
_KNOWN = "write tsp, tbsp, cup, pint, quart, gal, ml, l, oz, lb, g, kg, in, ft, m, ft2 or m2"
_BASES = {
    "milliliter": Dimension.VOLUME,
    "gram": Dimension.WEIGHT,
    "micrometer": Dimension.LENGTH,
    "micrometer**2": Dimension.AREA,
}


@cache
def _registry() -> UnitRegistry[Any]:
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Fraction)


def look_up(word: str) -> tuple[str, Dimension, Fraction]:
    """Return a unit as it is shown, what it measures, and how much one of it is.

    Raises
    ------
    Refused
        If nobody knows it, or it measures nothing that is fed, sprayed or watered.
    """
    if _WORD.fullmatch(word) is None:
        raise _unknown(word)
    squared = word.endswith(("2", "²"))
    name = "_".join(word.rstrip("2²").split())
    from pint.errors import UndefinedUnitError

    registry = _registry()
    for spelt in (name, name.lower()):
        try:
            unit = registry.parse_units(spelt)
        except (UndefinedUnitError, ValueError):
            continue
        one = registry.Quantity(Fraction(1), unit**2 if squared else unit)
        for base, dimension in _BASES.items():
            to = registry.parse_units(base)
            if one.is_compatible_with(to):
                size = Fraction(one.to(to).magnitude).limit_denominator(10**12)
                return " ".join(word.split()), dimension, size
        raise Refused("amount-kind", f"{quoted(word)} is no volume, weight, length or area", _KNOWN)
    raise _unknown(word)


def _unknown(word: str) -> Refused:
    return Refused("amount-unit", f"{quoted(word)} is no unit that sowtide knows", _KNOWN)
