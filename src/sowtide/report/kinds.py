"""Kinds of fields of a view: how a number is rounded for programs, and what is left to the page.

A field that is a float says its kind, so that every form rounds it alike.
"""

from __future__ import annotations

from datetime import date
from typing import Annotated, TypeAlias, TypeVar

from sowtide.days import DateSpan
from sowtide.values import value


@value
class Digits:
    """How a number is written."""

    after: int
    """Decimals. [1]"""
    whole: bool = False
    """Whether a whole number is written without any."""


@value
class PageOnly:
    """Marks what a page needs in order to say the rest, and no program is told."""


@value
class Flat:
    """Marks a value whose fields stand beside those of the view that holds it."""


Share: TypeAlias = Annotated[float, Digits(3)]
"""A share of years. [0–1]"""
Celsius: TypeAlias = Annotated[float, Digits(1)]
"""A temperature, a difference of temperatures, or a sum of degree-days. [°C, °C·d]"""
Tenth: TypeAlias = Annotated[float, Digits(1)]
"""A number to one decimal."""
Mean: TypeAlias = Annotated[float, Digits(1, whole=True)]
"""A mean number of days. [days]"""
SquareMetres: TypeAlias = Annotated[float, Digits(2)]
"""An area. [m²]"""
Quantity: TypeAlias = Annotated[float, Digits(3, whole=True)]
"""An amount of something, in the unit that stands beside it."""

_Of = TypeVar("_Of")
Unsaid: TypeAlias = Annotated[_Of, PageOnly()]
Beside: TypeAlias = Annotated[_Of, Flat()]


@value
class AmountView:
    """How much, and of what."""

    value: Quantity
    unit: str


@value
class FromTo:
    """Days from the first to the last, both included."""

    from_: date
    to: date

    @classmethod
    def of(cls, span: DateSpan) -> FromTo:
        """Return a span of days as programs are told it."""
        return cls(span.first, span.last)
