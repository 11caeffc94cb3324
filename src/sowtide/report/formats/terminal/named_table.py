"""Tables whose first column is a name: laid out beside the name where there is room, else below."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from sowtide.report.blocks import Line, Span, Style, line, together
from sowtide.report.formats.terminal.cells import Column, cells, row, wrap

_GAP, _NARROW_GAP = 2, 1
_INDENT = 2


def named_table(
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
                if own_line:
                    yield from wrap((text, Style.STRONG), width)
                beside: Span = ("" if own_line else text, Style.STRONG)
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
        yield from wrap((name, Style.STRONG), width)
        said = (
            f"{title} {_plain(text)}".strip()
            for title, text in zip(titles, texts, strict=True)
            if _plain(text)
        )
        yield from wrap(line(", ".join(together(each) for each in said)), width, first="  ")
