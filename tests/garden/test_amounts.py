"""How amounts of a harvest are read, unit by unit."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sowtide.garden.readers.amounts import (
    COUNTED,
    amount,
    amount_of,
    kind_of,
    with_unit,
    yield_of_plant,
)
from sowtide.garden.text import Refused

POUND = Fraction("0.45359237")  # the international pound of 1959, exact


@pytest.mark.parametrize(
    ("text", "low", "high", "unit"),
    [
        ("6", 6, 6, None),
        ("6 heads", 6, 6, "heads"),
        ("1 head", 1, 1, "heads"),
        ("2.5 Bunches", Fraction(5, 2), Fraction(5, 2), "bunches"),
        ("1 bunch", 1, 1, "bunches"),
        ("2-5 ears", 2, 5, "ears"),
        ("2–5ears", 2, 5, "ears"),
        ("0-3 fruits", 0, 3, "fruits"),
        ("300 g", Fraction(3, 10), Fraction(3, 10), "kg"),
        ("5 lb", 5 * POUND, 5 * POUND, "kg"),
        ("8 oz", POUND / 2, POUND / 2, "kg"),
        ("1000000 kg", 10**6, 10**6, "kg"),
    ],
)
def test_an_amount_is_so_many_of_its_unit(
    text: str, low: Fraction, high: Fraction, unit: str | None
) -> None:
    found = yield_of_plant(text)
    assert (found.low, found.high, found.unit) == (low, high, unit)
    if low == high:
        assert amount(text) == found


@pytest.mark.parametrize("word", COUNTED)
def test_one_of_what_is_counted_is_told_in_the_singular(word: str) -> None:
    one = with_unit("1", word)
    assert one != f"1 {word}"
    assert amount(one) == amount(f"1 {word}")
    assert with_unit("2", word) == f"2 {word}"
    assert kind_of(word) == ("bunches" if word == "bunches" else "pieces")


def test_what_is_in_a_drawer_is_counted_in_whatever_it_says() -> None:
    assert amount_of("0.5 g") == (Fraction(1, 2), "g")
    assert amount_of("40 Cloves") == (40, "cloves")
    assert amount_of("0") == (0, "")
    with pytest.raises(Refused, match="is out of range"):
        amount_of("-0.5 g")
