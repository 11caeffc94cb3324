"""A season that has begun: its own temperatures so far, and each recorded year from there on."""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from math import nan

from sowtide.climate.basis import SoFar
from sowtide.climate.medians import median
from sowtide.climate.record import Record
from sowtide.climate.warmth import Years, accumulated
from sowtide.days import GrowingYear
from sowtide.garden.crop import HeatMethod
from sowtide.units import celsius
from sowtide.values import value

BASE = celsius(50)
"""Warmth above this tells how far a season is: the base of beans and corn. [°C]"""

BEFORE = 20
"""Days before a growing year that running means reach back to. [days]"""

AFTER = 366 + 2 * BEFORE
"""Days after its midsummer that a wave may still stand, and running means reach over. [days]"""

_LEAST = 30.0  # °C·d: under it, a season has hardly begun
_A_DAY = 3.0  # °C·d: where days bring less, as in autumn, one more or less of them says nothing
_WEEK = 7


@value
class Laid:
    """Temperatures of the years that are replayed, one after another. [°C]"""

    tmin: array[float]
    tmax: array[float]
    years: Years


def known_until(record: Record, year: GrowingYear, today: date | None) -> date | None:
    """Return the last day before today of the planned year that a record knows, or None."""
    until = min(record.last, year.last)
    if today is not None:
        until = min(until, today - timedelta(days=1))
    return until if until >= year.first else None


def lay_out(record: Record, seasons: tuple[int, ...], year: GrowingYear, until: date) -> Laid:
    """Lay out each of the years behind the days of the planned one that are known.

    Parameters
    ----------
    record
        The record, with maxima.
    seasons
        The growing years to replay.
    year
        The growing year planned.
    until
        The last of its days that is known.
    """
    assert record.tmax is not None
    years = Years(record.first, seasons, year)
    own = (year.first - record.first).days
    known = (until - year.first).days + 1
    to_midsummer = (year.midsummer - year.first).days
    tmin, tmax = array("d"), array("d")
    bases = []
    for number in range(len(seasons)):
        days = [
            *range(own - BEFORE, own + known),
            *_from(years, number, known, to_midsummer + AFTER),
        ]
        bases.append(len(tmin) + BEFORE)
        tmin.extend(_taken(record.tmin, days))
        tmax.extend(_taken(record.tmax, days))
    return Laid(tmin, tmax, Years.laid_out(tuple(bases), seasons, year))


def cut_out(record: Record, seasons: tuple[int, ...], year: GrowingYear) -> Laid:
    """Return the part of a record that holds the years to replay."""
    assert record.tmax is not None
    years = Years(record.first, seasons, year)
    if not years.bases:
        return Laid(record.tmin, record.tmax, years)
    first = max(years.bases[0] - BEFORE, 0)
    stop = years.midsummers[-1] + AFTER
    moved = record.first + timedelta(days=first)
    return Laid(record.tmin[first:stop], record.tmax[first:stop], Years(moved, seasons, year))


def so_far(
    record: Record, seasons: tuple[int, ...], year: GrowingYear, until: date
) -> SoFar | None:
    """Say how many days the season is ahead of the middle of the years, by its warmth.

    None while there was hardly any, when there is hardly any left to come, and where the record
    misses days of the season.
    """
    assert record.tmax is not None
    own = (year.first - record.first).days
    days = (until - year.first).days + 1
    lows, highs = record.tmin[own : own + days], record.tmax[own : own + days]
    if any(low != low or high != high for low, high in zip(lows, highs, strict=True)):
        return None
    warmth = _gathered(lows, highs)[-1]
    if warmth < _LEAST:
        return None
    years = Years(record.first, seasons, year)
    reached, of_week = [], []
    for base in years.bases:
        if base < 0:
            continue
        heat = _gathered(record.tmin[base : base + 366], record.tmax[base : base + 366])
        reached.append(sum(total < warmth for total in heat))
        of_week.append(heat[days] - heat[max(days - _WEEK, 0)])
    if reached and sum(of_week) / len(of_week) < _A_DAY * min(_WEEK, days):
        return None
    return SoFar(until, median(reached) - days) if reached else None


def _gathered(lows: Sequence[float], highs: Sequence[float]) -> list[float]:
    return accumulated(lows, highs, base=BASE, upper=None, method=HeatMethod.CLIP)


def _from(years: Years, number: int, first: int, stop: int) -> Iterable[int]:
    """Where the days of one year lie from a day of the growing year on, beyond its end."""
    inside = min(stop, years.days)
    places = [years.indices(day)[number] for day in range(first, inside)]
    after = years.indices(years.days - 1)[number] + 1
    return [*places, *range(after + max(first - years.days, 0), after + stop - inside)]


def _taken(readings: Sequence[float], days: Iterable[int]) -> Iterable[float]:
    length = len(readings)
    return (readings[day] if 0 <= day < length else nan for day in days)
