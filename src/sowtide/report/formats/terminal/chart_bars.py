"""Bars of the season calendar: one cell a column, several waves in a row where they do not touch.

A wave's name is written in its bar, behind its first column, where it has room, else beside it
between two spaces.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import timedelta
from itertools import groupby

from sowtide.garden.want import Met
from sowtide.report.blocks import ChartBar, Line, Span, Style
from sowtide.report.formats.terminal.cells import cells, shortened
from sowtide.report.formats.terminal.chart_scale import Scale
from sowtide.values import value

EMPTY, IN_BED, PICKING, IN_TRAYS, FROST_COLUMN = ".", "-", "#", "o", "|"
EARLIER, LATER = "<", ">"
MET = {Met.ENOUGH: "+", Met.SOME: "=", Met.LESS: "!"}
"""How much of what is wanted comes."""
_STYLES = {
    EMPTY: Style.DIM,
    FROST_COLUMN: Style.DIM,
    PICKING: Style.GOOD,
    IN_TRAYS: Style.STRONG,
    "*": Style.BAD,
    "~": Style.WARN,
    MET[Met.ENOUGH]: Style.GOOD,
    MET[Met.LESS]: Style.BAD,
}


@value
class Bar:
    """A stretch of columns with a name."""

    first: int
    """Its first column."""
    body: str
    """What is drawn, one character a column."""
    room: int
    """How many of its first columns the name may be written in. [columns]"""
    name: str
    lead: int = 1
    """How many of its first columns stay to be seen before the name. [columns]"""


def bed_bar(of: ChartBar, scale: Scale) -> Bar | None:
    """Return the bar of what stands in a bed, or None where it lies outside the scale."""
    found = scale.stretch(of.first, of.beyond)
    if found is None:
        return None
    first, beyond = found
    cells = [IN_BED] * (beyond - first)
    room = len(cells)
    picked = None if of.picked is None else scale.stretch(*of.picked)
    if picked is not None:
        start, stop = max(picked[0], first), min(picked[1], beyond)
        start = min(start, beyond - 1)
        stop = max(stop, start + 1)
        cells[start - first : stop - first] = PICKING * (stop - start)
        room = start - first
    if of.first < scale.first:
        cells[0] = EARLIER
    if of.beyond > scale.last + timedelta(days=1):
        cells[-1] = LATER
        room = min(room, len(cells) - 1)
    elif beyond < scale.columns:
        cells.append(of.ended)
    return Bar(first, "".join(cells), room, of.name)


def tray_bar(of: ChartBar, scale: Scale) -> Bar | None:
    """Return the bar of seedlings in trays, or None where it lies outside the scale."""
    found = scale.stretch(of.first, of.beyond)
    if found is None:
        return None
    length = found[1] - found[0]
    return Bar(found[0], IN_TRAYS * length, length - 1, of.name, lead=0)


def packed(bars: Iterable[Bar], columns: int, *, empty: str) -> list[list[str]]:
    """Draw bars into as few rows as they fit without touching each other's cells.

    Parameters
    ----------
    bars
        Bars within the columns.
    columns
        How wide the rows are. [columns]
    empty
        What an empty cell holds.

    Returns
    -------
    list of list of str
        Rows of cells; a cell is the text of one column, "" behind a wide character.
    """
    rows: list[list[str]] = []
    for bar in sorted(bars, key=lambda bar: (bar.first, -len(bar.body))):
        for row in rows:
            if _drawn(row, bar, empty, new=False):
                break
        else:
            row = [empty] * columns
            _drawn(row, bar, empty, new=True)
            rows.append(row)
    return rows


def _drawn(row: list[str], bar: Bar, empty: str, *, new: bool) -> bool:
    """Draw a bar into a row if it and its name have room there; into a new row in any case."""
    first, beyond = bar.first, bar.first + len(bar.body)
    if any(cell != empty for cell in row[first:beyond]):
        return False
    size, begin = cells(bar.name), first + bar.lead
    if bar.lead + size <= bar.room:
        row[first:beyond] = bar.body
        row[begin : begin + size] = _spelled(bar.name)
        return True
    start = first - size - 2
    if start == -1:  # at the edge the name needs no space before it
        text, start = f"{bar.name} ", 0
    else:
        text = f" {bar.name} "
    if start >= 0 and all(cell == empty for cell in row[start:first]):
        row[start:first] = _spelled(text)
    elif not new:
        return False
    elif first > len(row) - beyond:
        text = f"{shortened(bar.name, first - 1)} "
        row[first - cells(text) : first] = _spelled(text)
    else:
        text = f" {shortened(bar.name, len(row) - beyond - 1)}"
        if beyond + cells(text) < len(row):
            text += " "
        row[beyond : beyond + cells(text)] = _spelled(text)
    row[first:beyond] = bar.body
    return True


def _spelled(text: str) -> list[str]:
    """Return a text as one cell a column, "" behind a wide character."""
    if text.isascii():
        return list(text)
    spelled: list[str] = []
    for character in text:
        size = cells(character)
        if size == 0 and spelled:
            spelled[-1] += character
        else:
            spelled += [character, *[""] * (size - 1)]
    return spelled


def with_frosts(row: list[str], frosts: Sequence[int | None]) -> list[str]:
    """Return a row with the columns of the average frosts marked where nothing stands."""
    for column in frosts:
        if column is not None and row[column] == EMPTY:
            row[column] = FROST_COLUMN
    return row


def painted(row: Iterable[str]) -> Line:
    """Return a row of cells as a line, its characters styled."""
    spans: list[Span] = [
        ("".join(cells), style)
        for style, cells in groupby(row, key=lambda cell: _STYLES.get(cell, Style.PLAIN))
    ]
    return Line(tuple(spans))
