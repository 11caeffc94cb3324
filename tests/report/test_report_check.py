"""The list of everything wrong, and the line that counts it."""

from __future__ import annotations

import factory
from printed import page
from sowtide.diagnostics import Severity
from sowtide.report.blocks import Style, Text
from sowtide.report.check import REPORT, view
from sowtide.report.check.page import page as blocks

ERROR = factory.problem()
WARNING = factory.problem("rotation", severity=Severity.WARNING, hint=None)
NOTE = factory.problem("gap", severity=Severity.NOTE, span=None, hint=None)


def test_each_problem_is_shown_and_a_line_counts_them() -> None:
    lines = page(REPORT, view((ERROR, WARNING, NOTE)))
    assert lines[0].startswith("garden.yaml:20:3: error: ")
    assert any("plant fewer, or name another bed" in each for each in lines)
    assert any(each.startswith("garden.yaml:20:3: warning: ") for each in lines)
    assert any(each.startswith("note: ") for each in lines)
    assert lines[-1] == "1 error, 1 warning and 1 note."
    assert lines.count("") == 3


def test_the_summary_counts_by_kind() -> None:
    for problem, said in (
        (ERROR, ("2 errors.", Style.BAD)),
        (WARNING, ("2 warnings.", Style.WARN)),
    ):
        assert list(blocks(view((problem, problem))))[-1] == Text(said)


def test_nothing_wrong_is_said_too() -> None:
    assert page(REPORT, view(())) == ("Nothing wrong.",)
