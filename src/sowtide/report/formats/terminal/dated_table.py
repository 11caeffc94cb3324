"""Tables of dates in a terminal: a row each from about 120 cells on, else a line below each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sowtide.report.blocks import DatedRow, DatedTable, Line, Span, Style, styled, together
from sowtide.report.formats.terminal.cells import Column, cells, row, width_of, wrap

_DATE, _PAIR = 6, 15
"""How wide a day is, and a pair of days. [cells]"""
_JUDGED = (Column(4, right=True), Column(4, right=True), Column(5, right=True), Column(11))
_JUDGED_OF_YEARS = (Column(8, right=True), *_JUDGED[1:])
_LEAST_FOR_PLACE = 10
_MOST_FOR_NAMES = 24
_INDENT = 2
_NAME = "wave"


def dated_table(of: DatedTable, width: int) -> Iterator[Line]:
    """Yield a table of dates."""
    judged = _JUDGED_OF_YEARS if of.of_years else _JUDGED
    name = max(min(of.longest, _MOST_FOR_NAMES), len(_NAME))
    kept, date_columns = _dates(of)
    dates = sum(_least(title) + 2 for title in of.titles)
    left = width - (name + 2 + dates + sum(column.width + 2 for column in judged))
    wide = left >= _LEAST_FOR_PLACE
    columns = (Column(name), *date_columns)
    if wide:
        columns += judged
        columns += (Column(width - sum(column.width + 2 for column in columns)),)
    # Where the dates leave no room, the names go on lines of their own.
    own_line = max(cells(each.name) for each in of.rows) > name or _width(columns) > width
    if own_line:
        columns = (Column(_INDENT), *columns[1:])
    titles = tuple(of.titles[n] for n in kept)
    if _width(columns) > width:
        for each in of.rows:
            yield from _running(each, titles, [each.days[n] for n in kept], width)
        return
    heads: tuple[str, ...] = ("" if own_line else _NAME, *titles)
    if wide:
        heads += (*of.judged_titles, "bed")
    yield row(columns, [(title, Style.DIM) for title in heads])
    for each in of.rows:
        if own_line:
            yield styled(each.name, Style.STRONG)
        beside: Span = ("" if own_line else each.name, Style.STRONG)
        texts = (beside, *(each.days[n] for n in kept))
        yield from _row(each, texts, columns, wide=wide, width=width)


def _width(columns: Iterable[Column]) -> int:
    return sum(column.width + 2 for column in columns) - 2


def _dates(of: DatedTable) -> tuple[list[int], tuple[Column, ...]]:
    """Return which dates are shown, and their columns.

    Where a day needs its year, the columns in which nothing stands leave their room to it.
    """
    by_title = zip(*(each.days for each in of.rows), strict=True)
    widths = [
        max(_least(title), *[len(text) for text, _ in column])
        for title, column in zip(of.titles, by_title, strict=True)
    ]
    kept = list(range(len(widths)))
    if any(width not in (_DATE, _PAIR) for width in widths):
        kept = [n for n in kept if any(each.days[n][0] for each in of.rows)]
    return kept, tuple(Column(widths[n], right=True) for n in kept)


def _least(title: str) -> int:
    """Return how wide a column is at the least: a day, or a pair of days under a longer title."""
    return _DATE if len(title) <= _DATE else _PAIR


def _row(
    of: DatedRow,
    texts: tuple[Span, ...],
    columns: tuple[Column, ...],
    *,
    wide: bool,
    width: int,
) -> Iterator[Line]:
    if not wide:
        yield row(columns, texts)
        yield from wrap(of.said, width, first="  ")
        return
    shown = (*texts, *of.judged)
    if width_of(of.place) <= columns[-1].width:
        (_, style), *others = of.place.spans
        yield row(columns, (*shown, (of.place.plain, Style.PLAIN if others else style)))
        return
    yield row(columns, (*shown, ""))
    yield from wrap(of.place, width, first=" " * (columns[0].width + 2))


def _running(of: DatedRow, titles: tuple[str, ...], days: list[Span], width: int) -> Iterator[Line]:
    """Yield a row whose dates have no room beside each other, one after another."""
    yield styled(of.name, Style.STRONG)
    said = [
        together(f"{title} {text}") for title, (text, _) in zip(titles, days, strict=True) if text
    ]
    yield from wrap(", ".join(said), width, first="  ")
    yield from wrap(of.said, width, first="  ")
