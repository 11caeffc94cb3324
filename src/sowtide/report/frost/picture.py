"""Recorded years as lines: frosty until the last frost, free of it, frosty from the first on."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.climate.frost_record import FrostYears
from sowtide.days import GrowingYear
from sowtide.report.kit.sheet import Line, Style, line, styled, wrap
from sowtide.report.kit.words import MONTHS

MOST_YEARS = 30
FROSTY, FREE, ENDS, UNKNOWN = "-", " ", "|", "?"
_INDENT = 6


def picture(known: FrostYears, *, width: int) -> Iterator[Line]:
    """Yield a line for each of the latest years, from midwinter to midwinter.

    Parameters
    ----------
    known
        The frosts of the years.
    width
        Of the screen. [cells]
    """
    south = known.spring.south
    lasts = {year.season: year.day for year in known.spring.years}
    firsts = {year.season: year.day for year in known.autumn.years}
    seasons = sorted(set(lasts) | set(firsts))
    days = width - _INDENT
    if not seasons:
        yield from wrap("no year is complete enough", width)
        return
    yield styled(" " * _INDENT + _months(GrowingYear(seasons[-1], south), days), Style.DIM)
    for season in seasons[-MOST_YEARS:]:
        year = GrowingYear(season, south)
        spring = _spring(lasts.get(season), season in lasts, year, days)
        autumn = _autumn(firsts.get(season), season in firsts, year, days)
        drawn = "".join(
            early if early != FREE else late for early, late in zip(spring, autumn, strict=True)
        )
        yield line(f"{season}  ", drawn.rstrip())
    more = len(seasons) - MOST_YEARS
    if more > 0:
        yield from wrap(f"and {more} earlier years", width)
    yield from wrap("- may freeze  | last and first frost  ? not known", width)


def _place(day: date, year: GrowingYear, cells: int) -> int:
    """The cell of a day; one of the winter after the growing year lies beyond the last."""
    return (day - year.first).days * cells // 366


def _spring(last: date | None, known: bool, year: GrowingYear, cells: int) -> str:
    half = _place(year.midsummer, year, cells)
    if not known:
        return UNKNOWN * half + FREE * (cells - half)
    if last is None or last < year.first:
        return FREE * cells
    at = _place(last, year, cells)
    return FROSTY * at + ENDS + FREE * (cells - at - 1)


def _autumn(first: date | None, known: bool, year: GrowingYear, cells: int) -> str:
    half = _place(year.midsummer, year, cells)
    if not known:
        return FREE * half + UNKNOWN * (cells - half)
    if first is None or first > year.last:
        return FREE * cells
    at = _place(first, year, cells)
    return FREE * at + ENDS + FROSTY * (cells - at - 1)


def _months(year: GrowingYear, cells: int) -> str:
    """The names of the months over their first days, as far as they have room."""
    names = [" "] * cells
    day = year.first
    while day <= year.last:
        name = MONTHS[day.month - 1]
        at = _place(day, year, cells)
        if at + len(name) <= cells:
            names[at : at + len(name)] = name
        day = date(day.year + day.month // 12, day.month % 12 + 1, 1)
    return "".join(names).rstrip()
