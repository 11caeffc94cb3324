"""Everything that is wrong with a file and its plan, as text."""

from __future__ import annotations

from collections.abc import Iterable

from sowtide.diagnostics import Problem, Severity
from sowtide.report.blocks import EMPTY, Line, Style, styled
from sowtide.report.formats.terminal.problem_lines import lines as lines_of
from sowtide.report.kit import words

_THINGS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "note"}


def check_text(problems: Iterable[Problem], *, width: int) -> tuple[Line, ...]:
    """Lay out all problems, in the order given, and a line that counts them.

    Parameters
    ----------
    problems
        What was found.
    width
        Of the screen. [cells]
    """
    found = tuple(problems)
    lines: list[Line] = []
    for problem in found:
        lines += (*lines_of(problem, width), EMPTY)
    return (*lines, summary(found))


def summary(problems: tuple[Problem, ...]) -> Line:
    """Count problems by how much they matter, such as ``2 errors and 1 warning``."""
    counts = {
        severity: sum(problem.severity is severity for problem in problems) for severity in Severity
    }
    said = [words.count(number, _THINGS[each]) for each, number in counts.items() if number]
    if not said:
        return styled("Nothing wrong.", Style.GOOD)
    style = Style.BAD if counts[Severity.ERROR] else Style.WARN
    return styled(words.sentence(words.listed(said)), style)
