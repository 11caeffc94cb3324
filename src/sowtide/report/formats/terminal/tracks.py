"""Tracks in a terminal: one character a day or a few days."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.days import MONTHS
from sowtide.report.blocks import Line, Style, Track, Tracks, WeekStrips, line, styled
from sowtide.report.formats.terminal.cells import cells as cells_of
from sowtide.report.formats.terminal.cells import cut, wrap

_INDENT = 6


def tracks(of: Tracks, width: int) -> Iterator[Line]:
    """Yield the names of the months, a line for each track, and what its signs mean."""
    indent = max(_INDENT, *(cells_of(each.label) + 2 for each in of.tracks))
    cells = width - indent
    yield styled(" " * indent + _months(of, cells), Style.DIM)
    for each in of.tracks:
        label = each.label + " " * (indent - cells_of(each.label))
        yield line(label, _drawn(each, of.days, cells))
    yield from _key(of, width)


def _key(of: Tracks | WeekStrips, width: int) -> Iterator[Line]:
    said = "; ".join(f"{sign}\N{NO-BREAK SPACE}{means}" for sign, means in of.key)
    yield from wrap((said, Style.DIM), width)


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


def week_strips(of: WeekStrips, width: int) -> Iterator[Line]:
    """Yield the names of the months, and a row for each strip: two characters a week, or one.

    What has no room beside its names goes on below.
    """
    weeks = len(of.strips[0].signs)
    longest = max(cells_of(each.label) for each in of.strips)
    least = max(min(longest, max(width - weeks, width // 3) - 2), _INDENT)
    across = 2 if least + 2 + 2 * weeks <= width else 1
    room = (width - least - 2) // across
    for first in range(0, weeks, room):
        yield from _part(of, range(first, min(first + room, weeks)), least, across)
    yield from _key(of, width)


def _part(of: WeekStrips, weeks: range, least: int, across: int) -> Iterator[Line]:
    """Yield some weeks of all strips, their months over them and the week that it is below."""
    months = _month_names(of, weeks, across)
    yield styled(" " * (least + 2) + months, Style.DIM)
    for each in of.strips:
        label = cut(each.label, least)
        signs = "".join(sign * across for sign in each.signs[weeks.start : weeks.stop])
        yield line((label + " " * (least + 2 - cells_of(label)), Style.STRONG), signs.rstrip())
    now = -1 if of.today is None else (of.today - of.first).days // 7
    if now in weeks:
        mark = "^ this week" if (now - weeks.start) * across + 11 <= len(weeks) * across else "^"
        yield styled(" " * (least + 2 + (now - weeks.start) * across) + mark, Style.DIM)


def _month_names(of: WeekStrips, weeks: range, across: int) -> str:
    """Return the names of the months over the weeks that their first days lie in."""
    names = [" "] * (len(weeks) * across)
    for number, week in enumerate(weeks):
        sunday = of.first + timedelta(days=7 * week + 6)
        at = number * across
        if sunday.day <= 7 and at + 3 <= len(names):
            names[at : at + 3] = MONTHS[sunday.month - 1]
    return "".join(names).rstrip()
