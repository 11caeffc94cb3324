"""The sheet of paper that a page is made for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeVar

from sowtide.report.choices import Paper
from sowtide.values import value

MARGIN = 9.0
"""Left free at every edge, which most printers cannot reach. [mm]"""
_MOST_STRIPS = 24
"""Strips in one drawing, which no page break may cut; most sheets take two such drawings. [1]"""
T = TypeVar("T")

_SHORT_AND_LONG = {Paper.A4: (210.0, 297.0), Paper.LETTER: (215.9, 279.4)}
"""The sides of a sheet. [mm]"""


@value
class PrintSheet:
    """A sheet as it lies: what it is called for a printer, and the room within its margins."""

    size: str
    """As a style sheet names it: ``a4 landscape``."""
    width: float
    height: float
    """Within the margins. [mm]"""


def sheet_of(paper: Paper, *, landscape: bool) -> PrintSheet:
    """Return a sheet of paper, upright or on its long side."""
    short, long = _SHORT_AND_LONG[paper]
    across, down = (long, short) if landscape else (short, long)
    way = "landscape" if landscape else "portrait"
    return PrintSheet(f"{paper.value} {way}", across - 2 * MARGIN, down - 2 * MARGIN)


def breakable(strips: Sequence[T]) -> Iterator[tuple[T, ...]]:
    """Yield strips in as few parts as may each be drawn on one page.

    Examples
    --------
    >>> [len(part) for part in breakable(range(50))]
    [17, 17, 16]
    """
    parts = -(-len(strips) // _MOST_STRIPS)
    each, more = divmod(len(strips), parts)
    at = 0
    for number in range(parts):
        beyond = at + each + (number < more)
        yield tuple(strips[at:beyond])
        at = beyond
