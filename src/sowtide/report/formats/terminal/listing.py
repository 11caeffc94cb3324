"""Long tables in groups: names beside the columns where there is room, else above them."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.report.blocks import Line, Listing, ListingRow, Style, line, styled
from sowtide.report.formats.terminal.cells import Column, cells, cut, row, width_of

_GAP, _NARROW_GAP = 2, 1
_LEAST_NAME = 16
"""Room that names must have to stand beside the columns. [cells]"""
_LEAST_MORE = 24
"""Room that what is said behind a row is worth showing in. [cells]"""


def listing(of: Listing, width: int) -> Iterator[Line]:
    """Yield rows under their groups' names; what is said behind a row, if there is room.

    A name too long to stand beside the columns has a line of its own; where room is short, every
    name has.
    """
    rows = [each for _, of_group in of.groups for each in of_group]
    columns = tuple(
        Column(max(cells(title), *(cells(each.texts[number]) for each in rows)), right)
        for number, (title, right) in enumerate(of.columns)
    )
    indent = 2 if any(title for title, _ in of.groups) else 0
    longest = indent + max(cells(each.name) for each in rows)
    gap = _GAP
    room = width - sum(column.width + gap for column in columns)
    if room < min(longest, _LEAST_NAME):
        gap = _GAP if room >= indent else _NARROW_GAP
        room = indent
    layout = (Column(min(longest, room)), *columns)
    heads = [(title, Style.DIM) for title in ("", *(title for title, _ in of.columns))]
    yield row(layout, heads, gap=gap)
    for title, of_group in of.groups:
        if title:
            yield styled(title, Style.STRONG)
        for each in of_group:
            yield from _row(each, layout, indent=indent, gap=gap, width=width)


def _row(
    of: ListingRow, layout: tuple[Column, ...], *, indent: int, gap: int, width: int
) -> Iterator[Line]:
    shown = " " * indent + of.name
    if cells(shown) > layout[0].width:
        yield line(shown)
        shown = ""
    whole = row(layout, (shown, *of.texts), gap=gap)
    behind = sum(column.width + gap for column in layout)
    if of.more and width - behind >= _LEAST_MORE:
        space = " " * (behind - width_of(whole))
        yield line(whole, space, (_as_many(of.more, width - behind), Style.DIM))
    else:
        yield whole


def _as_many(names: str, room: int) -> str:
    """Return as many whole names as there is room for, with … where some are left out."""
    if cells(names) <= room:
        return names
    kept = cut(names, room - 1)
    return kept[: kept.rfind(",") + 1] + " …" if "," in kept else cut(names, room)
