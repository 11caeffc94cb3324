"""Names of waves where there is little room for them."""

from __future__ import annotations

from sowtide.report.formats.terminal.cells import cells, cut


def shortened(name: str, width: int) -> str:
    """Return a wave's name cut in its middle, so that its number stays.

    Examples
    --------
    >>> shortened("summer-squash-12", 12)
    'summer-s…-12'
    """
    if cells(name) <= width:
        return name
    stem, hyphen, number = name.rpartition("-")
    tail = hyphen + number
    if not stem or len(tail) >= width:
        return cut(name, width)
    return cut(stem, width - len(tail)) + tail
