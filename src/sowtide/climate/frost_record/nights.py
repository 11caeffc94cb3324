"""Nights after the first frost of an autumn: how long until the next, and until a colder one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isnan
from statistics import fmean

from sowtide.climate.record import Record
from sowtide.days import GrowingYear
from sowtide.values import value


@value
class NextNight:
    """How long after the first night at a temperature another one comes."""

    days: float
    """From the first such night to the next that is as cold as asked, on average. [days]"""
    years: int
    """Autumns that tell of it. [years]"""


def next_night(
    record: Record, seasons: Sequence[int], *, south: bool, at: float, then: float
) -> NextNight | None:
    """Return how long it is from the first night at or below a temperature to one at another.

    Autumns in which no second night comes before midsummer are left out, and those in which a day
    without a reading lies before it. None where no autumn tells of it.

    Parameters
    ----------
    record
        The place's daily minima.
    seasons
        The growing years to use.
    south
        Whether the place lies south of the equator.
    at, then
        The first night's temperature, and that of the one after it. [°C]
    """
    found = list(_found(record, seasons, south=south, at=at, then=then))
    return NextNight(fmean(found), len(found)) if found else None


def _found(
    record: Record, seasons: Sequence[int], *, south: bool, at: float, then: float
) -> Iterator[int]:
    for season in seasons:
        begin = (GrowingYear(season, south=south).midsummer - record.first).days
        end = (GrowingYear(season + 1, south=south).midsummer - record.first).days
        first = None
        for index in range(max(begin, 0), min(end, len(record.tmin))):
            low = record.tmin[index]
            if isnan(low):
                break
            if first is not None and low <= then:
                yield index - first
                break
            if first is None and low <= at:
                first = index
