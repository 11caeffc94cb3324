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
    """A title that stands on a line of its own."""

    title: str
    beside: str | None = None
    """What is said on the same line; None for nothing."""


@value
class FileTitle:
    """A title over a page that is a file of its own; on a screen the command says it already."""

    title: str
    beside: str | None = None
    """What is said on the same line; None for nothing."""


@value
class Text:
    """A paragraph."""

    words: Inline
    """What it says."""
    first: str = ""
    """What its first line begins with, such as ``"- "``."""
    hang: int | None = None
    """Indent of its other lines; as wide as `first` if left out. [cells]"""


@value
class Term:
    """A term and what it stands for, on one line."""

    term: str
    """What it is."""
    words: Inline
    """What it says."""


@value
class Fault:
    """A problem with its place, the grower's own line, and what to do."""

    problem: Problem
    also: tuple[str, ...]
    """What else the same is to be said of."""


@value
class Counted:
    """One step of a sum of days."""

    days: str
    """What it adds, such as ``+52``; empty for the day counting starts from."""
    reached: str
    """The day reached."""
    words: str
    """What the step is."""
    origin: str
    """Where its number is from."""


@value
class Sum:
    """A day, and the steps that it is the sum of."""

    title: str
    """Which day it is."""
    total: str
    """The day."""
    steps: tuple[Counted, ...]
    """Its steps in order."""


@value
class Pasted:
    """A key with its value, to be pasted into a file as it stands."""

    opened: str
    """What stands before the parts."""
    parts: tuple[str, ...]
    """Each is kept on one line."""
    closed: str
    """What stands behind the last."""
    indent: int = 4
    """How far in it stands where files are written as `new` writes them. [cells]"""
