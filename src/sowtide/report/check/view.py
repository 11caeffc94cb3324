"""Everything that is wrong with a file and its plan."""

from __future__ import annotations

from collections.abc import Iterable

from sowtide.diagnostics import Problem
from sowtide.report.kit.faults import ProblemView, problem_views
from sowtide.values import value


@value
class CheckView:
    """What ``check`` says: all problems, in the order of the file."""

    problems: tuple[ProblemView, ...]


def view(problems: Iterable[Problem]) -> CheckView:
    """Return what is wrong."""
    return CheckView(problem_views(problems))
