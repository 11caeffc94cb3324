"""Tables in a terminal: laid out beside their names where there is room, else below."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from sowtide.report.blocks import (
    Cells,
    GroupedTable,
    Line,
    Span,
    Style,
    Table,
    TrailingTable,
    styled,
    together,
)
from sowtide.report.formats.terminal.cells import Column, cells, fit, row, shortened, wrap

_GAP, _NARROW_GAP = 2, 1
_INDENT = 2
_TITLES_APART, _PUSHED_APART = 2, 3
"""Least space between the titles of two groups, and the space where one is pushed aside. [cells]"""
_LEAST_LAST = 20
"""Room kept behind the names for a trailing column, gaps included. [cells]"""


def table(of: Table, width: int) -> Iterator[Line]:
    """Yield a table; nothing in it is cut."""
    titles = (of.name, *(column.title for column in of.columns))
    return _named_table([_column(each) for each in of.columns], titles, of.rows, width=width)


def _named_table(
    columns: Sequence[Column],
    titles: Sequence[str],
    rows: Iterable[tuple[str, Sequence[str | Span]]],
    *,
    width: int,
) -> Iterator[Line]:
    """Yield a table; nothing in it is cut.

    Where a name and the columns have no room beside each other, every name has a line of its own;
    where even the columns alone have none, their texts follow one another.

    Parameters
    ----------
    columns
        The columns behind the name; they grow with their texts.
    titles
        What stands over the name and over each column.
    rows
        A name, and a text for each column.
    width
        Of the screen. [cells]
    """
    listed = tuple(rows)
    least = _grown([Column(0, each.right) for each in columns], titles, listed)
    wide = _grown(columns, titles, listed)
    name = max(cells(text) for text in (titles[0], *(name for name, _ in listed)))
    for grown, gap, own_line in (
        (wide, _GAP, False),
        (least, _GAP, False),
        (least, _NARROW_GAP, False),
        (least, _GAP, True),
        (least, _NARROW_GAP, True),
    ):
        first = Column(_INDENT - gap if own_line else name)
        if first.width + sum(column.width + gap for column in grown) <= width:
            layout = (first, *grown)
            yield row(layout, [(text, Style.DIM) for text in _head(titles, own_line)], gap=gap)
            for text, texts in listed:
                if own_line and text:
                    yield from wrap((text, Style.STRONG), width)
                beside: Span = ("" if own_line else text, Style.STRONG)
                if not own_line or any(map(_plain, texts)):
                    yield row(layout, (beside, *texts), gap=gap)
            return
    yield from _running(titles[1:], listed, width)


def _head(titles: Sequence[str], own_line: bool) -> tuple[str, ...]:
    return ("" if own_line else titles[0], *titles[1:])


def _grown(
    columns: Sequence[Column],
    titles: Sequence[str],
    rows: Iterable[tuple[str, Sequence[str | Span]]],
) -> tuple[Column, ...]:
    """Return the columns wide enough for their titles and texts."""
    by_column = zip(titles[1:], *(texts for _, texts in rows), strict=True)
    return tuple(
        Column(max(column.width, *(cells(_plain(text)) for text in of_column)), column.right)
        for column, of_column in zip(columns, by_column, strict=True)
    )


def _plain(text: str | Span) -> str:
    return text if isinstance(text, str) else text[0]


def _running(
    titles: Sequence[str], rows: Iterable[tuple[str, Sequence[str | Span]]], width: int
) -> Iterator[Line]:
    """Yield each row as its name and, below, its texts with their titles, one after another."""
    for name, texts in rows:
        if name:
            yield from wrap((name, Style.STRONG), width)
        said = [
            together(f"{title} {_plain(text)}".strip())
            for title, text in zip(titles, texts, strict=True)
            if _plain(text)
        ]
        if said:
            yield from wrap(", ".join(said), width, first="  ")


def grouped_table(of: GroupedTable, width: int) -> Iterator[Line]:
    """Yield a table of groups beside each other, or where they have no room one below the other."""
    sizes = [column.least + 1 for group in of.groups for column in group.columns]
    heads = [_label_at(of, number) for number in range(len(of.groups))]
    placed = _apart(heads, [group.title for group in of.groups])
    if max(of.name.least + sum(sizes), _end(placed)) <= width:
        yield styled("".join(f"{' ' * space}{title}" for space, title in placed), Style.DIM)
        yield from _part(of, range(len(of.groups)))
        return
    for number, group in enumerate(of.groups):
        yield styled(" " * (of.name.least + 1) + group.title, Style.DIM)
        yield from _part(of, (number,))


def _label_at(of: GroupedTable, number: int) -> int:
    """Return the cell at which the first label of a group begins."""
    before = sum(column.least + 1 for group in of.groups[:number] for column in group.columns)
    first = of.groups[number].columns[0]
    return of.name.least + before + 1 + first.least - len(first.title)


def _apart(heads: Sequence[int], titles: Sequence[str]) -> list[tuple[int, str]]:
    """Return the titles with the space before each; one that would touch is pushed aside."""
    placed, used = [], 0
    for head, title in zip(heads, titles, strict=True):
        space = head - used
        if space < _TITLES_APART:
            space = _PUSHED_APART
        placed.append((space, title))
        used += space + len(title)
    return placed


def _end(placed: Sequence[tuple[int, str]]) -> int:
    return sum(space + len(title) for space, title in placed)


def _part(of: GroupedTable, numbers: Sequence[int]) -> Iterator[Line]:
    """Yield the table with some of its groups alone."""
    groups = [of.groups[number] for number in numbers]
    columns = [_column(of.name), *(_column(each) for group in groups for each in group.columns)]
    heads = [column.title for group in groups for column in group.columns]
    yield row(columns, [(head, Style.DIM) for head in [of.name.title, *heads]], gap=1)
    starts = [sum(len(group.columns) for group in of.groups[:number]) for number in numbers]
    for name, texts in of.rows:
        shown = [
            text
            for start, group in zip(starts, groups, strict=True)
            for text in texts[start : start + len(group.columns)]
        ]
        yield row(columns, [name, *shown], gap=1)


def _column(of: Cells) -> Column:
    return Column(of.least, of.right)


def trailing_table(of: TrailingTable, width: int) -> Iterator[Line]:
    """Yield a table whose last column goes below the others where it has no room beside them."""
    columns_of = zip(of.titles[1:-1], *(texts for _, texts, _ in of.rows), strict=True)
    widths = [max(cells(text) for text in column) for column in columns_of]
    size = max(cells(name) for name, _, _ in of.rows)
    size = max(min(size, width - sum(widths) - _LEAST_LAST), len(of.titles[0]))
    columns = (Column(size), *(Column(each, right=True) for each in widths))
    last = Column(max(width - sum(column.width + 2 for column in columns), 0))
    yield fit(row((*columns, last), [(text, Style.HEADING) for text in of.titles]), width)
    for name, texts, trailing in of.rows:
        shown = (shortened(name, size), Style.STRONG)
        if cells(trailing[0]) <= last.width:
            yield row((*columns, last), (shown, *texts, trailing))
        else:
            yield row(columns, (shown, *texts))
            yield from wrap(trailing, width, first="  ")
