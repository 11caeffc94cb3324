"""Figures of seed measured at several soil temperatures, as one small table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sowtide.report.blocks import Line, Style, line
from sowtide.report.crops.figures import Figure
from sowtide.report.crops.values import converted_unit, degree_of, is_converted, temperatures
from sowtide.report.crops.words import named, unparted
from sowtide.report.formats.terminal.cells import pad, wrap
from sowtide.report.formats.terminal.sums import with_origin
from sowtide.report.kit.sources import Sources
from sowtide.units import Units

_NARROW_NAME = 15
_COLUMN, _NARROW_COLUMN = 6, 5
_ROOM = 6
"""Kept free for the number of a source. [cells]"""


def measured_table(
    figures: Sequence[Figure],
    units: Units | None,
    sources: Sources,
    *,
    column: int,
    width: int,
) -> Iterator[Line]:
    """Yield the figures of a crop's seed beside each other, a column for each temperature.

    Parameters
    ----------
    figures
        Figures of one crop, measured at several temperatures of one unit.
    units
        The garden's units, or None.
    sources
        The sources met so far.
    column
        Where the values of the card begin, and these too if there is room. [cells]
    width
        Of the screen. [cells]
    """
    degree = degree_of(figures[0].unit or "")
    by_figure = [
        {at: (here, figure) for here, at, figure in temperatures(each.value, each.unit, units)}
        for each in figures
        if each.value is not None and each.unit is not None
    ]
    ats = sorted({at for points in by_figure for at in points}, key=float)
    here = {at: points[at][0] for points in by_figure for at in points}
    name, each_wide = _layout(len(ats), column, width)
    heads = [("soil at, " + converted_unit(degree, units), [here[at] for at in ats])]
    if is_converted(degree, units):
        heads.append((f"published, {degree}", ats))
    for title, texts in heads:
        yield _row(pad(title, name), texts, each_wide, Style.DIM)
    for figure, points in zip(figures, by_figure, strict=True):
        texts = [points[at][1] if at in points else "" for at in ats]
        row = _row(pad(figure.label, name), texts, each_wide, Style.PLAIN)
        yield from with_origin((row,), named(figure, sources), indent=0, width=width)
        if figure.note:
            yield from wrap((unparted(figure.note), Style.DIM), width, first=" " * (name + 2))


def _layout(columns: int, name: int, width: int) -> tuple[int, int]:
    """Return how wide the names and the columns are. [cells]"""
    for names, each in ((name, _COLUMN), (name, _NARROW_COLUMN)):
        if names + each * columns + _ROOM <= width:
            return names, each
    return _NARROW_NAME, _NARROW_COLUMN


def _row(name: str, texts: Sequence[str], column: int, style: Style) -> Line:
    figures = "".join(pad(text, column, right=True) for text in texts)
    return line(((name + figures).rstrip(), style))
