"""Problems as programs are told them; a page shows them with the grower's own line."""

from __future__ import annotations

from collections.abc import Iterable

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
