"""The sheet of paper that a page is made for."""

from __future__ import annotations

from sowtide.report.choices import Paper
from sowtide.values import value

MARGIN = 9.0
"""Left free at every edge, which most printers cannot reach. [mm]"""


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
