"""Units as people write them: the table beside a library of units, and what is shown of them."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import pytest

from sowtide.garden.care import Dimension, in_largest, ladder_of, said, usual_units
from sowtide.garden.care.measured import measured
from sowtide.garden.text import Refused

if TYPE_CHECKING:
    import pint

_BASE = {
    Dimension.VOLUME: "milliliter",
    Dimension.WEIGHT: "gram",
    Dimension.LENGTH: "micrometer",
    Dimension.AREA: "micrometer**2",
}
_CALLED = {"tsp": "teaspoon", "tbsp": "tablespoon", "fl oz": "fluid_ounce", "l": "liter"}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


def test_the_usual_units_are_those_of_the_library(registry: pint.UnitRegistry) -> None:
    # pint's definitions are those of NIST Handbook 44, Appendix C
    found = 0
    for unit, dimension, size in usual_units():
        if dimension not in _BASE:
            continue
        name = _CALLED.get(unit, unit.replace("2", "**2"))
        one = registry.Quantity(Fraction(1), name).to(_BASE[dimension])
        assert one.magnitude == size, unit
        found += 1
    assert found == 20


@pytest.mark.parametrize(
    ("text", "dimension", "size"),
    [
        # NIST Handbook 44, Appendix C: exact values in bold there
        ("1 gal", Dimension.VOLUME, Fraction("3785.411784")),
        ("1 quart", Dimension.VOLUME, Fraction("946.352946")),
        ("1 fl oz", Dimension.VOLUME, Fraction("29.5735295625")),
        ("1 lb", Dimension.WEIGHT, Fraction("453.59237")),
        ("1 oz", Dimension.WEIGHT, Fraction("28.349523125")),
        ("3 tsp", Dimension.VOLUME, Fraction("14.78676478125")),  # a tablespoon
        ("2 Tablespoons", Dimension.VOLUME, Fraction("29.5735295625")),
        ("1.5 L", Dimension.VOLUME, Fraction(1500)),
        ("250 mls", Dimension.VOLUME, Fraction(250)),
        ("2 inches", Dimension.LENGTH, Fraction(50_800)),
        ("100 sq. ft", Dimension.AREA, Fraction(9_290_304_000_000)),
        ("8 m²", Dimension.AREA, Fraction(8 * 10**12)),
        # not in the table: the library knows them
        ("3 dl", Dimension.VOLUME, Fraction(300)),
        ("1 imperial gallon", Dimension.VOLUME, Fraction("4546.09")),
        ("2 yards", Dimension.LENGTH, Fraction(1_828_800)),
        ("1 stone", Dimension.WEIGHT, Fraction("6350.29318")),
    ],
)
def test_an_amount_is_read_exactly(text: str, dimension: Dimension, size: Fraction) -> None:
    found = measured(text)
    assert (found.dimension, found.size) == (dimension, size)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("4", "amount-unit"),
        ("tbsp", "amount"),
        ("2 T", "amount-unit"),
        ("4 smidgeons", "amount-unit"),
        ("3 volts", "amount-kind"),
        ("4 __import__('os')", "amount-unit"),
        ("-4 tbsp", "amount"),
        ("1e3 ml", "amount-unit"),
        ("2 gal*gal", "amount-unit"),
    ],
)
def test_what_is_no_amount_is_refused(text: str, code: str) -> None:
    with pytest.raises(Refused) as refused:
        measured(text)
    assert refused.value.code == code


@pytest.mark.parametrize(
    ("size", "unit", "shown"),
    [
        (4.5 * 3785.411784, "gal", "4.5 gal"),
        (36 * 28.349523125, "oz", "2 lb 4 oz"),
        (5 * 4.92892159375, "tsp", "1 tbsp 2 tsp"),
        (0.5 * 3785.411784, "gal", "2 quarts"),
        (16 * 14.78676478125, "tbsp", "1 cup"),
        (2500, "ml", "2.5 l"),
        (60, "g", "60 g"),
        (0.25 * 4.92892159375, "tsp", "0.25 tsp"),
        (31.999 * 28.349523125, "oz", "2 lb"),
        (3 * 473.176473, "pint", "1.5 quarts"),
        (16 * 29.5735295625, "fl oz", "2 cups"),
        (1500, "g", "1.5 kg"),
    ],
)
def test_an_amount_is_shown_in_the_largest_sensible_unit(
    size: float, unit: str, shown: str
) -> None:
    assert said(*in_largest(size, ladder_of(unit))) == shown


@pytest.mark.parametrize(
    ("number", "shown"),
    [
        (0.254, "0.25"),
        (9.96, "9.96"),
        (10.26, "10.3"),
        (99.94, "99.9"),
        (100.4, "100"),
        (12.0, "12"),
    ],
)
def test_three_figures_are_enough(number: float, shown: str) -> None:
    # Two decimals up to ten, one up to a hundred, none beyond.
    assert said(number, "kg") == f"{shown} kg"
