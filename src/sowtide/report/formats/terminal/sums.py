"""Sums of days in a terminal: what each step adds, the day it reaches, and where it is from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sowtide.report.blocks import Counted, Line, Style, Sum, line, together
from sowtide.report.formats.terminal.cells import cells, pad, width_of, wrap

_TITLE, _DAYS, _REACHED = 30, 5, 12


def sum_lines(of: Sum, width: int) -> Iterator[Line]:
    """Yield the day with its title, and each of its steps."""
    space = " " * max(_TITLE - cells(of.title), 2)
    yield line((of.title, Style.STRONG), space, of.total)
    for step in of.steps:
        yield from _step(step, width)


def _step(step: Counted, width: int) -> Iterator[Line]:
    equals = "= " if step.days else "  "
    first = f"  {pad(step.days, _DAYS, right=True)}  {equals}{pad(step.reached, _REACHED)}"
    text = wrap(step.words, width, first=first)
    yield from with_origin(text, step.origin, indent=cells(first), width=width)


def with_origin(text: Iterable[Line], named: str, *, indent: int, width: int) -> Iterator[Line]:
    """Yield lines with the name of where they come from at the right end of the last.

    Parameters
    ----------
    text
        At least one line.
    named
        Where they come from.
    indent
        Where the name may begin at the earliest if it needs lines of its own. [cells]
    width
        Of the screen. [cells]
    """
    *lines, last = text
    yield from lines
    room = width - width_of(last)
    if room >= cells(named) + 2:
        yield line(last, " " * (room - cells(named)), (named, Style.DIM))
        return
    yield last
    indent = max(width - cells(named), indent)
    yield from wrap((together(named), Style.DIM), width, first=" " * indent)
