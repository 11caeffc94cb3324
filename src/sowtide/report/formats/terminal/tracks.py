"""Tracks in a terminal: one character a day or a few days."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.days import MONTHS
from sowtide.report.blocks import Line, Style, Track, Tracks, line, styled

_INDENT = 6


def tracks(of: Tracks, width: int) -> Iterator[Line]:
    """Yield the names of the months, and a line for each track."""
    cells = width - _INDENT
    yield styled(" " * _INDENT + _months(of, cells), Style.DIM)
    for each in of.tracks:
        yield line(f"{each.label}  ", _drawn(each, of.days, cells))


def _cell(day: date, start: date, days: int, cells: int) -> int:
    """Return the cell of a day; one after the track lies beyond the last."""
    return (day - start).days * cells // days


def _drawn(track: Track, days: int, cells: int) -> str:
    row = [" "] * cells
    for mark in track.marks:
        first = max(_cell(mark.first, track.start, days, cells), 0)
        beyond = first + 1
        if mark.beyond is not None:
            beyond = _cell(mark.beyond, track.start, days, cells)
        row[first:beyond] = mark.sign * (min(beyond, cells) - first)
    return "".join(row).rstrip()


def _months(of: Tracks, cells: int) -> str:
    """Return the names of the months over their first days, as far as they have room."""
    names = [" "] * cells
    day = of.head
    while day < of.head + timedelta(days=of.days):
        name = MONTHS[day.month - 1]
        at = _cell(day, of.head, of.days, cells)
        if at + len(name) <= cells:
            names[at : at + len(name)] = name
        day = date(day.year + day.month // 12, day.month % 12 + 1, 1)
    return "".join(names).rstrip()
