"""Titles, paragraphs, problems and sums of days."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sowtide.report.blocks.styled import Inline
from sowtide.values import value

if TYPE_CHECKING:
    from sowtide.diagnostics import Problem


@value
class Space:
    """Some space between what stands above and below."""


@value
class Rule:
    """A line drawn across the page."""


@value
class Banner:
    """The head of a sheet: whose it is at the left, which one at the right."""

    left: str
    right: str


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
class Pasted:
    """A key with its value, to be pasted into a file as it stands.

    Parameters
    ----------
    opened
        What stands before the parts.
    parts
        Each is kept on one line.
    closed
        What stands behind the last.
    """

    opened: str
    parts: tuple[str, ...]
    closed: str
