"""A place's frosts at the temperatures that end crops, as one table."""

from __future__ import annotations

from datetime import date

from sowtide.climate.frost.place_frosts import PlaceFrosts
from sowtide.days import Half
from sowtide.garden.crop import Hardiness
from sowtide.values import value

SHARES = (0.1, 0.5, 0.9)
"""Shares of years that the table has dates for."""


@value
class FrostRow:
    """The frosts at one temperature."""

    hardiness: Hardiness
    """The crops that it ends."""
    at: float
    """The temperature. [°C]"""
    spring: tuple[date | None, ...]
    """Days with 10, 50 and 90 % of years with such a frost later; None where fewer have one or no
    recorded year tells."""
    autumn: tuple[date | None, ...]
    """Days with 10, 50 and 90 % of years with one earlier; None as in spring."""
    frost_free: tuple[int | None, ...]
    """Length of the frost-free season that 10, 50 and 90 % of years do not pass; None where it has
    no end or is not known. [days]"""
    without: tuple[float, float] | None
    """Share of springs and of autumns without such a frost; None where nobody counted. [0–1]"""


def frost_table(frosts: PlaceFrosts) -> tuple[FrostRow, ...]:
    """Return a row for each class of hardiness, the tenderest first."""
    return tuple(_row(frosts, hardiness) for hardiness in Hardiness)


def _row(frosts: PlaceFrosts, hardiness: Hardiness) -> FrostRow:
    at = hardiness.killed_at
    known = frosts.years(at)
    spring, autumn = (
        tuple(
            None if known and not known.of(half).years else _day(frosts, half, at, share)
            for share in SHARES
        )
        for half in (Half.SPRING, Half.AUTUMN)
    )
    if known is None:
        last, first = spring[1], autumn[1]
        middle = None if last is None or first is None else (first - last).days
        return FrostRow(
            hardiness=hardiness,
            at=at,
            spring=spring,
            autumn=autumn,
            frost_free=(None, middle, None),
            without=None,
        )
    lengths: tuple[int | None, ...] = (None, None, None)
    if known.lengths:
        lengths = tuple(_whole(known.length_quantile(share)) for share in SHARES)
    without = None
    if known.spring.years and known.autumn.years:
        without = (
            known.spring.without_frost / len(known.spring.years),
            known.autumn.without_frost / len(known.autumn.years),
        )
    return FrostRow(
        hardiness=hardiness,
        at=at,
        spring=spring,
        autumn=autumn,
        frost_free=lengths,
        without=without,
    )


def _day(frosts: PlaceFrosts, half: Half, at: float, share: float) -> date | None:
    found = frosts.day(half, at=at, share=share)
    return None if found is None else found.day


def _whole(days: float) -> int | None:
    return None if days == float("inf") else int(days + 0.5)
