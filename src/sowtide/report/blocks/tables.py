"""Tables."""

from __future__ import annotations

from sowtide.report.blocks.styled import Line, Span
from sowtide.values import value


@value
class Cells:
    """One column of a table."""

    title: str
    """What stands over it."""
    least: int = 0
    """How wide it is at the least. [cells]"""
    right: bool = False
    """Whether its texts stand at its right edge."""


@value
class Table:
    """A table whose rows have names."""

    name: str
    """What stands over the names."""
    columns: tuple[Cells, ...]
    """The other columns."""
    rows: tuple[tuple[str, tuple[str | Span, ...]], ...]
    """A name, and a text for each column."""


@value
class Group:
    """Columns of a table that belong together."""

    title: str
    """What stands over all of them."""
    columns: tuple[Cells, ...]


@value
class GroupedTable:
    """A table whose columns stand in groups, which may come one below the other."""

    name: Cells
    """Over the names, and how wide they are."""
    groups: tuple[Group, ...]
    """The groups of columns."""
    rows: tuple[tuple[str, tuple[str, ...]], ...]
    """A name, and a text for each column of all groups."""


@value
class TrailingTable:
    """A table with a long last column, which stands below where it has no room beside."""

    titles: tuple[str, ...]
    """Of the names, the columns, and the last one."""
    rows: tuple[tuple[str, tuple[str, ...], Span], ...]
    """A name, a text for each column, and the last one's."""


@value
class DatedRow:
    """A row of a table of dates."""

    name: str
    """Whose dates they are."""
    days: tuple[Span, ...]
    """A day for each title, empty where there is none."""
    judged: tuple[str | Span, ...]
    """What is thought of it, in a few cells."""
    place: Line
    """Where it stands, behind those."""
    said: Line
    """All that in a line of its own, where the cells have no room."""


@value
class DatedTable:
    """A table of dates: as one row each where there is room, else with a line below each."""

    titles: tuple[str, ...]
    judged_titles: tuple[str, ...]
    """Over the days, and over what is thought of each row."""
    of_years: bool
    """Whether odds are shares of recorded years, which takes more room."""
    longest: int
    """The longest name of all tables of the page."""
    rows: tuple[DatedRow, ...]
    """At least one."""
