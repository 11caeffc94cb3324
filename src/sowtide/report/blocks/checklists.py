"""What is to be done, to tick off."""

from __future__ import annotations

from sowtide.report.blocks.styled import Line
from sowtide.values import value


@value
class ChecklistItem:
    """Something to do and to tick off."""

    code: str
    """What it is ticked off by."""
    day: str
    place: str
    verb: str
    name: str
    """When, where, what kind of work, and on what."""
    words: Line
    """How."""


@value
class ChecklistGroup:
    """Items under one title; what the title says already they need not say again."""

    title: str
    items: tuple[ChecklistItem, ...]
    """What is to be done; none where the note says all."""
    place: bool = True
    verb: bool = True
    day: bool = True
    """Whether each item says where, what kind of work, and on which day."""
    note: Line | None = None
    """What stands below the title; None for nothing."""
    block: str = ""
    """What the place of all its items begins with, where others do so as well: ``Hill`` of
    ``Hill 12``; empty where there is no such block."""


@value
class GridRow:
    """Something to do on some days of a week."""

    code: str
    """What it is ticked off by."""
    name: str
    place: str
    """On what, and where."""
    boxes: tuple[bool, ...]
    """Whether there is a box to tick on each day."""
    until: str
    """How long it goes on."""
    amount: str | None
    """How much; None where that is not known."""
    note: Line | None
    """What stands below it; None for nothing."""
    closed: tuple[bool, ...]
    """Whether it must not be done on each day; none is closed where this is empty."""


@value
class Grid:
    """Rows of boxes under the days of a week."""

    title: str
    days: tuple[str, ...]
    """What each day is called."""
    rows: tuple[GridRow, ...]
    """At least one."""
    today: int | None
    """Which of the days is today; None where none is. [0-based]"""


@value
class Checklist:
    """All that is to be done, in parts whose columns stand under one another."""

    parts: tuple[ChecklistGroup | Grid, ...]


@value
class ToFillIn:
    """Lines to write on by hand; a screen has none."""

    title: str
    """What is written there."""
    columns: tuple[str, ...]
    """What stands over the blanks of a row; none where the rows are whole lines."""
    rows: tuple[str, ...]
    """What stands before each; empty for a line without a word."""


@value
class CutOut:
    """A label to cut out: its title and its lines."""

    title: str
    lines: tuple[str, ...]


@value
class CutOuts:
    """Labels beside and below each other, at least one."""

    labels: tuple[CutOut, ...]
