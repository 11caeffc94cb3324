"""Checklists in a terminal: lines to tick off, and boxes by weekday."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from sowtide.report.blocks import (
    Checklist,
    ChecklistGroup,
    ChecklistItem,
    Grid,
    GridRow,
    Line,
    Span,
    Style,
    line,
    together,
)
from sowtide.report.formats.terminal.cells import cells, pad, shortened, told_apart, width_of, wrap
from sowtide.values import value

_BOX = "[ ]"
_TODAY = " today"
_AROUND = 43
"""Room for seven boxes, the last day and the gaps between. [cells]"""
_LEAST_TEXT = 26
"""How wide the last column must be for text to hang under it. [cells]"""
_MANY_GROUPS = 15
"""Of more groups those of one block stand under one title: ours. [1]"""


@value
class _Widths:
    """Widths of the columns, the same on the whole sheet. [cells]"""

    code: int
    place: int
    verb: int
    name: int
    whole: int


def checklist(of: Checklist, width: int) -> Iterator[Line]:
    """Yield every part of a checklist."""
    widths = _widths(of, width)
    for part in _by_block(of.parts):
        if isinstance(part, Grid):
            yield from grid(part, width)
            continue
        yield from wrap((part.title, Style.HEADING), width)
        if part.note is not None:
            yield from wrap(part.note, width, first=" ", hang=6)
        short = replace(widths, place=max((cells(each.place) for each in part.items), default=0))
        for item in part.items:
            yield from _item(item, part, short if part.block else widths)


def _by_block(parts: Sequence[ChecklistGroup | Grid]) -> Iterator[ChecklistGroup | Grid]:
    """Yield the parts; where there are many, those of one block that follow each other as one.

    What is left of the name of its place stands beside each item then.
    """
    many = len(parts) > _MANY_GROUPS
    for block, found in groupby(parts, key=lambda part: getattr(part, "block", "")):
        run = list(found)
        if not block or not many or len(run) == 1:
            yield from (replace(p, block="") if isinstance(p, ChecklistGroup) else p for p in run)
            continue
        items = [item for part in run if isinstance(part, ChecklistGroup) for item in part.items]
        yield ChecklistGroup(
            block.upper(),
            tuple(replace(each, place=each.place.removeprefix(block).strip()) for each in items),
            block=block,
        )


def _widths(of: Checklist, width: int) -> _Widths:
    """Measure the items; a name longer than its column only moves its own line."""
    groups = [part for part in of.parts if isinstance(part, ChecklistGroup)]
    items = [item for group in groups for item in group.items]
    most = 14 + max(width - 80, 0) // 4
    return _Widths(
        code=max((len(each.code) for each in items), default=0),
        place=min(max((cells(each.place) for each in items), default=0), most),
        verb=max((len(each.verb) for each in items), default=0),
        name=min(max((cells(each.name) for each in items), default=0), most + 2),
        whole=width,
    )


def _item(item: ChecklistItem, group: ChecklistGroup, widths: _Widths) -> tuple[Line, ...]:
    first = f" {pad(item.code, widths.code)} {_BOX} "
    if group.day:
        first += f"{item.day}  "
    columns: list[Span] = []
    if group.place:
        columns.append((_column(item.place, widths.place), Style.PLAIN))
    if group.verb:
        columns.append((_column(item.verb, widths.verb), Style.PLAIN))
    name, below = _in_two(item.name, widths.name)
    columns.append((_column(name, widths.name), Style.STRONG))
    hang = cells(first) + sum(cells(text) + 1 for text, _ in columns)
    if widths.whole - hang < _LEAST_TEXT:
        hang = min(cells(first), widths.whole - _LEAST_TEXT)
        columns[-1] = (_column(f"{item.name}:", 0), Style.STRONG)  # nothing stands under it
        below = ""
    # Each column is a word to the wrapping, so that a long one breaks the line and not the sheet.
    words_of = [part for column in columns for part in (column, (" ", Style.PLAIN))]
    lines = wrap(line(*words_of, item.words), widths.whole, first=first, hang=hang)
    return _with_below(lines, below, widths.name, hang) if below else lines


def _in_two(name: str, width: int) -> tuple[str, str]:
    """Part a list of names that is wider than its column, so that its end stands on a second line.

    Examples
    --------
    >>> _in_two("summer-squash-1, -2", 16)
    ('summer-squash-1,', '-2')
    """
    parts = name.split(", ")
    for many in reversed(range(1, len(parts))):
        first, rest = ", ".join(parts[:many]) + ",", ", ".join(parts[many:])
        if cells(name) > width and cells(first) <= width and cells(rest) <= width:
            return first, rest
    return name, ""


def _with_below(lines: tuple[Line, ...], below: str, width: int, hang: int) -> tuple[Line, ...]:
    """Put the end of a name under its beginning, in the column left of the second line's text."""
    indent = " " * (hang - width - 2)
    if len(lines) == 1:
        return (*lines, line(indent, (below, Style.STRONG)))
    left = line(indent, (pad(below, width), Style.STRONG), " ")
    (indented, style), *others = lines[1].spans
    second = line(left, " ", (indented[hang:], style), *others)
    return (lines[0], second, *lines[2:])


def _column(text: str, width: int) -> str:
    """Return the text and a space behind it, filled up to a width and never cut, as one word."""
    return together(text + " " * (width - cells(text) + 1))


def grid(of: Grid, width: int) -> Iterator[Line]:
    """Yield the rows of a grid, its days over the boxes; places below where they would be alike."""
    code = max(len(row.code) for row in of.rows)
    names = max(cells(row.name) for row in of.rows)
    places = max(cells(row.place) for row in of.rows)
    room = width - code - _AROUND
    name = min(names, max(room - places, room * 3 // 5))
    place = max(min(places, room - name), 1)
    apart = told_apart((row.place for row in of.rows), place)
    below = len(set(apart.values())) < len(apart)
    if below:
        name, place = min(names, room - 2), 1
    left = code + 1 + name + 1 + place
    head = "".join(f" {day}" for day in of.days)
    space = " " * (left + 1 - len(of.title))
    yield line((of.title, Style.HEADING), space, (head, Style.STRONG))
    if of.today is not None:
        mark = " " * (left + 1 - len(_TODAY)) + "    " * of.today + "  v"
        yield line(_TODAY, mark)
    for row in of.rows:
        shown = line(
            f" {pad(row.code, code)} ",
            (pad(shortened(row.name, name), name), Style.STRONG),
            f" {' ' if below else pad(apart[row.place], place)}",
            *(f" {_square(row, day)}" for day in range(len(row.boxes))),
            f"  {row.until}",
        )
        yield from _with_amount(shown, row, width)
        if below:
            yield from wrap(row.place, width, first=" " * (code + 2))
        if row.note is not None:
            yield from wrap(row.note, width, first=" " * (code + 2), hang=6)


def _square(row: GridRow, day: int) -> str:
    """Return what stands under a day: a box to tick, a cross where it is closed, or space."""
    if row.boxes[day]:
        return _BOX
    return " x " if row.closed and row.closed[day] else "   "


def _with_amount(shown: Line, row: GridRow, width: int) -> Iterator[Line]:
    """Yield the row with its amount behind it, or below it where it has no room there."""
    if row.amount is None:
        yield shown
    elif width_of(shown) + 2 + cells(row.amount) <= width:
        yield line(shown, f"  {row.amount}")
    else:
        yield shown
        yield from wrap(row.amount, width, first="      ")
