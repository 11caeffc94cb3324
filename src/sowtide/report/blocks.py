"""What a page is made of: blocks that any format can lay out, and the styled words in them.

A block says what it is, never how wide. A style only repeats what the words say already.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from enum import Enum
from typing import TYPE_CHECKING, TypeAlias

from sowtide.values import value

if TYPE_CHECKING:
    from sowtide.diagnostics import Problem

KEPT = "\N{NO-BREAK SPACE}"
"""A space at which no line is broken."""


class Style(Enum):
    """How a span is meant; colour never says more than its words."""

    PLAIN = "plain"
    STRONG = "strong"
    DIM = "dim"
    GOOD = "good"
    WARN = "warn"
    BAD = "bad"
    HEADING = "heading"


Span: TypeAlias = tuple[str, Style]
"""A piece of text and its style."""


@value
class Line:
    """Styled words in a row.

    Parameters
    ----------
    spans
        Its pieces from left to right.
    """

    spans: tuple[Span, ...] = ()

    @property
    def plain(self) -> str:
        """Its text without styles."""
        return "".join([text for text, _ in self.spans])


Inline: TypeAlias = str | Span | Line
"""What a line may be put together from."""

EMPTY = Line()


def line(*parts: Inline) -> Line:
    """Put a line together from strings, spans and other lines.

    Examples
    --------
    >>> line("sow ", ("16 plants", Style.STRONG)).plain
    'sow 16 plants'
    """
    spans: list[Span] = []
    for part in parts:
        if isinstance(part, str):
            spans.append((part, Style.PLAIN))
        elif isinstance(part, Line):
            spans += part.spans
        else:
            spans.append(part)
    return Line(tuple(spans))


def styled(text: str, style: Style) -> Line:
    """Return a line of one style."""
    return Line(((text, style),))


def plain(lines: Iterable[Line]) -> tuple[str, ...]:
    """Return the lines as strings, without styles."""
    return tuple(each.plain for each in lines)


def together(text: str) -> str:
    """Return the text so that no line is broken at a space of it.

    Examples
    --------
    >>> together("16 Jul") == "16\N{NO-BREAK SPACE}Jul"
    True
    """
    return text.replace(" ", KEPT)


@value
class Space:
    """Some space between what stands above and below."""


@value
class Rule:
    """A line drawn across the page."""


@value
class Heading:
    """A title that stands on a line of its own.

    Parameters
    ----------
    title
        The title.
    beside
        What is said on the same line; None for nothing.
    """

    title: str
    beside: str | None = None


@value
class Text:
    """A paragraph.

    Parameters
    ----------
    words
        What it says.
    first
        What its first line begins with, such as ``"- "``.
    hang
        Indent of its other lines; as wide as `first` if left out. [cells]
    """

    words: Inline
    first: str = ""
    hang: int | None = None


@value
class Term:
    """A term and what it stands for, on one line.

    Parameters
    ----------
    term
        What it is.
    words
        What it says.
    """

    term: str
    words: Inline


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
class Fault:
    """A problem with its place, the grower's own line, and what to do.

    Parameters
    ----------
    problem
        The problem.
    """

    problem: Problem


@value
class Counted:
    """One step of a sum of days.

    Parameters
    ----------
    days
        What it adds, such as ``+52``; empty for the day counting starts from.
    reached
        The day reached.
    words
        What the step is.
    origin
        Where its number is from.
    """

    days: str
    reached: str
    words: str
    origin: str


@value
class Sum:
    """A day, and the steps that it is the sum of.

    Parameters
    ----------
    title
        Which day it is.
    total
        The day.
    steps
        Its steps in order.
    """

    title: str
    total: str
    steps: tuple[Counted, ...]


@value
class Mark:
    """Days of a track with one sign.

    Parameters
    ----------
    sign
        One character, drawn over what comes before it in the track.
    first
        The first of the days.
    beyond
        The day after the last of them; None for the first day alone.
    """

    sign: str
    first: date
    beyond: date | None = None


@value
class Track:
    """Days from left to right, with what is known of them.

    Parameters
    ----------
    label
        What it is of.
    start
        Its first day.
    marks
        What is drawn.
    """

    label: str
    start: date
    marks: tuple[Mark, ...]


@value
class Tracks:
    """Tracks of as many days each, one below the other, the months over them.

    Parameters
    ----------
    days
        Days in each track. [days]
    head
        The first of the days that the names of the months stand for.
    tracks
        At least one.
    """

    days: int
    head: date
    tracks: tuple[Track, ...]


@value
class Banner:
    """The head of a sheet: whose it is at the left, which one at the right."""

    left: str
    right: str


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
        At least one.
    place, verb
        Whether each item says where, and what kind of work.
    """

    title: str
    items: tuple[ChecklistItem, ...]
    place: bool = True
    verb: bool = True


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
    """

    code: str
    name: str
    place: str
    boxes: tuple[bool, ...]
    until: str
    amount: str | None
    note: Line | None


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
    """

    title: str
    days: tuple[str, ...]
    rows: tuple[GridRow, ...]


@value
class Checklist:
    """All that is to be done, in parts whose columns stand under one another."""

    parts: tuple[ChecklistGroup | Grid, ...]


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


Block: TypeAlias = (
    Space
    | Rule
    | Banner
    | Heading
    | Text
    | Term
    | Table
    | GroupedTable
    | TrailingTable
    | Checklist
    | Fault
    | Sum
    | Tracks
)
"""What a page is made of."""
