"""The list of everything wrong, and the line that counts it."""

from __future__ import annotations

import json

import factory
import gardens
from printed import page
from sowtide.diagnostics import Severity
from sowtide.report.blocks import Style, Text
from sowtide.report.check import REPORT, view
from sowtide.report.check.page import page as blocks
from sowtide.report.formats.json import document

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


def test_what_is_the_same_for_several_is_said_once_and_each_is_told_to_programs() -> None:
    # Sown on 29 and 30 June and 1 July and ready 22 to 40 days after: hot are 20 July to 5 August.
    days = {"days_to_harvest": "22-40"}
    file = gardens.text(
        gardens.wave("leaf", name="old", start="06-29"),
        gardens.wave("leaf", name="new", start="06-30"),
        gardens.wave("root", name="big", start="07-01"),
        crops=[gardens.leaf(**days), gardens.leaf("root", **days)],
        too_hot="07-20..08-05",
    )
    found = gardens.season(file).problems
    assert [(each.code, each.about) for each in found] == [
        ("too-hot", "old-1"),
        ("too-hot", "new-1"),
        ("too-hot", "big-1"),
    ]
    place, *lines = page(REPORT, view(found))
    assert place.endswith(": warning: old-1 would be ready in the hot weeks [too-hot]")
    assert "    = also: new-1 (line 15); big-1 (line 16)" in lines
    assert not any("would be" in each for each in lines)
    assert lines[-1] == "3 warnings."
    assert len(json.loads(document(view(found)))["problems"]) == 3


def test_of_two_that_differ_in_a_word_both_are_said() -> None:
    one = factory.problem(message="a-1 is late", about="a-1", wave="a-1")
    other = factory.problem(message="b-1 is early", about="b-1", wave="b-1")
    lines = page(REPORT, view((one, other)))
    assert [each for each in lines if "also" in each] == []
    assert sum(" is " in each for each in lines) == 2
