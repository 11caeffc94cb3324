"""Problems as programs are told them; a page shows them with the grower's own line."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from sowtide.diagnostics import Problem, Severity
from sowtide.report.kinds import Unsaid
from sowtide.values import value


@value
class ProblemView:
    """A problem: how bad, what, what to do, and its place in the file."""

    severity: Severity
    code: str
    message: str
    hint: str | None
    file: str | None
    line: int | None
    column: int | None
    wave: str | None
    problem: Unsaid[Problem]


def problem_views(problems: Iterable[Problem]) -> tuple[ProblemView, ...]:
    """Return problems as views, in their order."""
    return tuple(_view(each) for each in problems)


def _view(problem: Problem) -> ProblemView:
    span = problem.span
    return ProblemView(
        severity=problem.severity,
        code=problem.code,
        message=problem.message,
        hint=problem.hint,
        file=span.file if span else None,
        line=span.line if span else None,
        column=span.column if span else None,
        wave=problem.wave,
        problem=problem,
    )


@value
class Alike:
    """A problem, and the others that say the same of something else."""

    first: ProblemView
    others: tuple[ProblemView, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """What the others are about."""
        return tuple((each.problem.about or "").rstrip(",") for each in self.others)

    @property
    def also(self) -> tuple[str, ...]:
        """The same, the last of each other line of the file with that line."""
        lines = [*(each.line for each in self.others), None]
        last = (line != after for line, after in pairwise(lines))
        return tuple(
            f"{name} (line {other.line})" if ends and other.line != self.first.line else name
            for name, other, ends in zip(self.names, self.others, last, strict=True)
        )


def alike(problems: Sequence[ProblemView]) -> tuple[Alike, ...]:
    """Return problems in their order, those that say the same with the first of them."""
    found: dict[object, list[ProblemView]] = {}
    for each in problems:
        found.setdefault(_says(each.problem), []).append(each)
    return tuple(Alike(first, tuple(others)) for first, *others in found.values())


def _says(problem: Problem) -> object:
    if problem.about is None:
        return problem
    said = problem.message.removeprefix(problem.about)
    return (problem.severity, problem.code, said, problem.hint)
