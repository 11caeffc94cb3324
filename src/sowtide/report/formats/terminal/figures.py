"""Figures in a terminal: labels at the left, values in one column, origins at the right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sowtide.report.blocks import EMPTY, FigureList, FigureRow, Line, MeasuredTable, Style, line
from sowtide.report.blocks import styled as in_style
from sowtide.report.formats.terminal.cells import pad, wrap
from sowtide.report.formats.terminal.sums import with_origin

_LABEL, _KEY = 26, 18
_WITH_KEYS = 110
"""Width from which on a column has room that names the keys of the file. [cells]"""
_NARROW_NAME = 15
_COLUMN, _NARROW_COLUMN = 6, 5
_ROOM = 6
"""Kept free for the number of a source. [cells]"""


def figure_list(of: FigureList, width: int) -> Iterator[Line]:
    """Yield figures under their title."""
    if of.title:
        yield EMPTY
        heading = (in_style(of.title, Style.STRONG),)
        yield from _with(of.origin, heading, indent=0, width=width)
    for each in of.rows:
        yield from _figure(each, width)


def _with(origin: str, text: Sequence[Line], *, indent: int, width: int) -> Iterator[Line]:
    if origin:
        return with_origin(text, origin, indent=indent, width=width)
    return iter(text)


def _figure(of: FigureRow, width: int) -> Iterator[Line]:
    column = _column(width)
    label = line(pad(of.label, _LABEL))
    if column > _LABEL:
        label = line(label, (pad(of.key, _KEY), Style.DIM))
    head, *rest = wrap(of.said, width - column)
    text = (line(label, head), *(line(" " * column, each) for each in rest))
    yield from _with(of.origin, text, indent=column, width=width)
    for each in of.below:
        yield from wrap((each, Style.DIM), width, first=" " * (column + 2))


def _column(width: int) -> int:
    """Return where values begin. [cells]"""
    return _LABEL + (_KEY if width >= _WITH_KEYS else 0)


def measured_table(of: MeasuredTable, width: int) -> Iterator[Line]:
    """Yield figures beside each other, a column for each point."""
    name, column = _layout(len(of.heads[0][1]), width)
    for title, texts in of.heads:
        yield _row(pad(title, name), texts, column, Style.DIM)
    for each in of.rows:
        row = _row(pad(each.label, name), each.texts, column, Style.PLAIN)
        yield from with_origin((row,), each.origin, indent=0, width=width)
        if each.note:
            yield from wrap((each.note, Style.DIM), width, first=" " * (name + 2))


def _layout(columns: int, width: int) -> tuple[int, int]:
    """Return how wide the names and the columns are. [cells]"""
    name = _column(width)
    for each in (_COLUMN, _NARROW_COLUMN):
        if name + each * columns + _ROOM <= width:
            return name, each
    return _NARROW_NAME, _NARROW_COLUMN


def _row(name: str, texts: Sequence[str], column: int, style: Style) -> Line:
    figures = "".join(pad(text, column, right=True) for text in texts)
    return line(((name + figures).rstrip(), style))
