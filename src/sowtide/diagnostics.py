"""Problems as values: what is wrong, where it stands in the file, and what to write instead.

Everything that checks something returns problems instead of raising: they are collected, sorted
by position and shown together. Only a file that cannot be opened at all is an exception.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum
from pathlib import Path
from stat import S_ISDIR, S_ISREG

from sowtide.values import value

MOST_SHOWN = 100
"""Problems of a file that are shown; the rest is counted. [1]"""


class Severity(Enum):
    """How much a problem matters."""

    ERROR = "error"
    """The file cannot be taken as written, or the thing planned cannot come true."""
    WARNING = "warning"
    """The plan goes on, but the grower should look at it."""
    NOTE = "note"
    """Worth knowing; nothing is wrong."""


@value
class Span:
    """A place in a file, with the line that stands there."""

    file: str
    """The file as the user named it."""
    line: int
    column: int = 1
    """Where the place begins, both counted from 1. [lines], [characters]"""
    length: int = 1
    """How far it reaches to the right, at least 1. [characters]"""
    text: str = ""
    """The whole line, without its line end."""


@value
class Problem:
    """One thing that is wrong or worth knowing."""

    severity: Severity
    """Error, warning or note."""
    code: str
    """Stable slug such as ``unknown-key``; each has a section in the documentation."""
    message: str
    """What is wrong, naming the thing and its value."""
    hint: str | None = None
    """What to do about it, or None where nothing sensible can be said."""
    span: Span | None = None
    """Where it stands, or None for a problem of the whole."""
    wave: str | None = None
    """Name of the wave that has the problem, or None."""
    about: str | None = None
    """What the message begins with, where the rest of it may be said of others as well."""


class Unreadable(Exception):  # noqa: N818 — it says what the file is
    """A file that cannot be opened or is not a file; carries one line for the user."""


def unreadable(name: str, error: OSError | ValueError) -> Unreadable:
    """Return what to raise for a file that could not be opened or read."""
    if isinstance(error, FileNotFoundError):
        return Unreadable(f"there is no file {name}")
    if isinstance(error, PermissionError):
        return Unreadable(f"{name} may not be read: no permission")
    return Unreadable(f"{name} cannot be read: {reason_of(error)}")


def reason_of(error: OSError | ValueError) -> str:
    """Return why the system would not open, read or write a file, in its own words."""
    return getattr(error, "strerror", None) or str(error)


def ordinary(path: Path, name: str) -> None:
    """Look that a path leads to an ordinary file: a pipe is not waited for.

    Raises
    ------
    Unreadable
        If it leads to a folder, a pipe or a device, or to nothing.
    """
    try:
        mode = path.stat().st_mode
    except (OSError, ValueError) as error:
        raise unreadable(name, error) from None
    if S_ISDIR(mode):
        raise Unreadable(f"{name} is a folder, not a file")
    if not S_ISREG(mode):
        raise Unreadable(f"{name} is a pipe or a device, not a file")


def in_file_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Return the problems sorted by file, line and column; those without a place come last."""

    def place(problem: Problem) -> tuple[bool, str, int, int]:
        span = problem.span
        if span is None:
            return (True, "", 0, 0)
        return (False, span.file, span.line, span.column)

    return tuple(sorted(problems, key=place))


def the_first(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Return the first hundred of the problems in file order, and one that counts the rest."""
    sorted_ = in_file_order(problems)
    shown, rest = sorted_[:MOST_SHOWN], sorted_[MOST_SHOWN:]
    if not rest:
        return shown
    worst = Severity.ERROR if has_errors(rest) else Severity.WARNING
    return (*shown, Problem(worst, "more", f"and {len(rest):,} more such problems"))


def has_errors(problems: Iterable[Problem]) -> bool:
    """Say whether any of the problems is an error."""
    return any(problem.severity is Severity.ERROR for problem in problems)
