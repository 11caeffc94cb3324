"""Collecting the problems of a file, each at its place in it."""

from __future__ import annotations

from sowtide.diagnostics import MOST_SHOWN, Problem, Severity, Span
from sowtide.garden.text.positions import ENOUGH, EnoughError, Path, Tree
from sowtide.garden.text.refused import Refused, quoted
from sowtide.reasons import Origin

_LONGEST_HINT = 1_000
"""A longer one repeats what nobody reads. [characters]"""


class Findings:
    """The problems found in a tree so far."""

    __slots__ = ("label", "problems", "tree")

    def __init__(self, tree: Tree) -> None:
        self.tree = tree
        self.label = tree.source.label
        self.problems: list[Problem] = list(tree.problems)

    @property
    def many(self) -> bool:
        """Whether there are so many that not all are shown: what was meant need not be found."""
        return len(self.problems) >= MOST_SHOWN

    def at_value(self, path: Path, code: str, message: str, hint: str | None) -> None:
        """Add a problem of a value."""
        if not self.tree.is_settled(path):
            self.add(code, message, hint, self.tree.value_span(path))

    def at_key(self, path: Path, code: str, message: str, hint: str | None) -> None:
        """Add a problem of a key, or of a whole section or entry."""
        if not self.tree.is_settled(path):
            self.add(code, message, hint, self.tree.key_span(path))

    def refused(self, path: Path, refused: Refused) -> None:
        """Add the problem of a value that was refused."""
        message = refused.message
        named = self.tree.key_of(path)
        if named is not None:
            message = f"{quoted(named)[1:-1]}: {message}"
        self.at_value(path, refused.code, message, refused.hint)

    def origin(self, path: Path) -> Origin:
        """Return the place of a value as the origin of a number."""
        return Origin(self.label, self.tree.value_span(path).line)

    def add(
        self,
        code: str,
        message: str,
        hint: str | None,
        span: Span,
        severity: Severity = Severity.ERROR,
    ) -> None:
        """Add a problem at a place.

        Raises
        ------
        EnoughError
            If there are more of them than is worth reading.
        """
        if hint is not None and len(hint) > _LONGEST_HINT:
            hint = hint[: _LONGEST_HINT - 3] + "..."
        self.problems.append(
            Problem(severity=severity, code=code, message=message, hint=hint, span=span)
        )
        if len(self.problems) >= ENOUGH:
            raise EnoughError
