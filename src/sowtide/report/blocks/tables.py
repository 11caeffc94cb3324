"""Tables."""

from __future__ import annotations

from sowtide.report.blocks.styled import Line, Span
from sowtide.values import value


@value
class Cells:
    """One column of a table.

    Parameters
    ----------
    title
        What stands over it.
    least
        How wide it is at the least. [cells]
    right
        Whether its texts stand at its right edge.
    """

    title: str
    least: int = 0
    right: bool = False


@value
class Table:
    """A table whose rows have names.

    Parameters
    ----------
    name
        What stands over the names.
    columns
        The other columns.
    rows
        A name, and a text for each column.
    """

    name: str
    columns: tuple[Cells, ...]
    rows: tuple[tuple[str, tuple[str | Span, ...]], ...]


@value
class Group:
    """Columns of a table that belong together.

    Parameters
    ----------
    title
        What stands over all of them.
    columns
        The columns.
    """

    title: str
    columns: tuple[Cells, ...]


@value
class GroupedTable:
    """A table whose columns stand in groups, which may come one below the other.

    Parameters
    ----------
    name
        Over the names, and how wide they are.
    groups
        The groups of columns.
    rows
        A name, and a text for each column of all groups.
    """

    name: Cells
    groups: tuple[Group, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]


@value
class TrailingTable:
    """A table with a long last column, which stands below where it has no room beside.

    Parameters
    ----------
    titles
        Of the names, the columns, and the last one.
    rows
        A name, a text for each column, and the last one's.
    """

    titles: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...], Span], ...]


@value
class DatedRow:
    """A row of a table of dates.

    Parameters
    ----------
    name
        Whose dates they are.
    days
        A day for each title, empty where there is none.
    judged
        What is thought of it, in a few cells.
    place
        Where it stands, behind those.
    said
        All that in a line of its own, where the cells have no room.
    good
        Whether it stands anywhere.
    """

    name: str
    days: tuple[Span, ...]
    judged: tuple[str | Span, ...]
    place: Line
    said: Line
    good: bool


@value
class DatedTable:
    """A table of dates: as one row each where there is room, else with a line below each.

    Parameters
    ----------
    titles, judged_titles
        Over the days, and over what is thought of each row.
    of_years
        Whether odds are shares of recorded years, which takes more room.
    longest
        The longest name of all tables of the page.
    rows
        At least one.
    """

    titles: tuple[str, ...]
    judged_titles: tuple[str, ...]
    of_years: bool
    longest: int
    rows: tuple[DatedRow, ...]
