"""What is to be done, to tick off."""

from __future__ import annotations

from sowtide.report.blocks.styled import Line
from sowtide.values import value


@value
class ChecklistItem:
    """Something to do and to tick off.

    Parameters
    ----------
    code
        What it is ticked off by.
    day, place, verb, name
        When, where, what kind of work, and on what.
    words
        How.
    """

    code: str
    day: str
    place: str
    verb: str
    name: str
    words: Line


@value
class ChecklistGroup:
    """Items under one title; what the title says already they need not say again.

    Parameters
    ----------
    title
        The title.
    items
        What is to be done; none where the note says all.
    place, verb, day
        Whether each item says where, what kind of work, and on which day.
    note
        What stands below the title; None for nothing.
    """

    title: str
    items: tuple[ChecklistItem, ...]
    place: bool = True
    verb: bool = True
    day: bool = True
    note: Line | None = None


@value
class GridRow:
    """Something to do on some days of a week.

    Parameters
    ----------
    code
        What it is ticked off by.
    name, place
        On what, and where.
    boxes
        Whether there is a box to tick on each day.
    until
        How long it goes on.
    amount
        How much; None where that is not known.
    note
        What stands below it; None for nothing.
    closed
        Whether it must not be done on each day; none is closed where this is empty.
    """

    code: str
    name: str
    place: str
    boxes: tuple[bool, ...]
    until: str
    amount: str | None
    note: Line | None
    closed: tuple[bool, ...] = ()


@value
class Grid:
    """Rows of boxes under the days of a week.

    Parameters
    ----------
    title
        The title.
    days
        What each day is called.
    rows
        At least one.
    today
        Which of the days is today; None where none is. [0-based]
    """

    title: str
    days: tuple[str, ...]
    rows: tuple[GridRow, ...]
    today: int | None = None


@value
class Checklist:
    """All that is to be done, in parts whose columns stand under one another."""

    parts: tuple[ChecklistGroup | Grid, ...]


@value
class ToFillIn:
    """Lines to write on by hand; a screen has none.

    Parameters
    ----------
    title
        What is written there.
    columns
        What stands over the blanks of a row; none where the rows are whole lines.
    rows
        What stands before each; empty for a line without a word.
    """

    title: str
    columns: tuple[str, ...]
    rows: tuple[str, ...]


@value
class CutOut:
    """A label to cut out: its title and its lines."""

    title: str
    lines: tuple[str, ...]


@value
class CutOuts:
    """Labels beside and below each other, at least one."""

    labels: tuple[CutOut, ...]
