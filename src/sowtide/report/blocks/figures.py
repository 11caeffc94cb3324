"""Figures of one thing: each with its value, where it is from, and what else there is to say."""

from __future__ import annotations

from sowtide.report.blocks.styled import Span
from sowtide.values import value


@value
class FigureRow:
    """A figure."""

    label: str
    """What it is called."""
    key: str
    """What a file calls it; empty where none does."""
    said: Span
    """Its value in words."""
    origin: str
    """Where it is from; empty where that is said above, or nobody knows it."""
    below: tuple[str, ...]
    """What else there is to say of it."""


@value
class FigureList:
    """Figures that belong together."""

    title: str
    """What stands over them; empty for nothing."""
    origin: str
    """Where all of them are from; empty where each says it for itself."""
    rows: tuple[FigureRow, ...]
    """The figures."""


@value
class MeasuredRow:
    """A figure that was measured at several points: a text for each, where it is from, a note."""

    label: str
    texts: tuple[str, ...]
    origin: str
    note: str | None


@value
class MeasuredTable:
    """Figures measured at the same points."""

    heads: tuple[tuple[str, tuple[str, ...]], ...]
    """What the points are, in one unit or in two: a title and a text for each point."""
    rows: tuple[MeasuredRow, ...]
    """At least one."""


@value
class ListingRow:
    """A name, a text for each column, and what is said behind them where there is room."""

    name: str
    texts: tuple[str, ...]
    more: str = ""


@value
class Listing:
    """A long table whose rows stand in groups."""

    columns: tuple[tuple[str, bool], ...]
    """What stands over each column, and whether its texts stand at its right edge."""
    groups: tuple[tuple[str, tuple[ListingRow, ...]], ...]
    """What stands over each group, empty for nothing, and its rows."""
