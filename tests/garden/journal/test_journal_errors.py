"""Every mistake a journal can hold: its case, its code, its page."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from errors import journal_page
from sowtide.diagnostics import Severity

CASES = journal_page.cases()
ROOT = Path(__file__).parents[3]
NOT_STOPPING = {"journal-broken", "journal-crowded", "journal-day", "journal-sick"}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_mistake_in_a_journal_gets_its_place_and_its_remedy(case: journal_page.Case) -> None:
    assert journal_page.said(case) == case.expected
    codes = {problem.code for problem in case.problems}
    assert codes == {case.code} if case.code else len(case.problems) > 0
    severe = Severity.WARNING if case.code in NOT_STOPPING else Severity.ERROR
    severe = Severity.NOTE if case.code == "journal-over" else severe
    assert {problem.severity for problem in case.problems} == {severe}
    assert all(problem.span and problem.hint for problem in case.problems)


_LINE = re.compile(r"\b(lines?|and) (\d+)")


def _moved(case: journal_page.Case, to: Callable[[int], int]) -> list[tuple[object, ...]]:
    """Return what is said to a journal, and where, with every line moved."""

    def said(text: str | None) -> str | None:
        return text and _LINE.sub(lambda found: f"{found[1]} {to(int(found[2]))}", text)

    return [
        (each.code, said(each.message), said(each.hint), each.span and to(each.span.line))
        for each in case.problems
    ]


@pytest.mark.parametrize("case", [each for each in CASES if each.saved_as is None])
def test_remarks_and_blank_lines_move_a_mistake_and_change_nothing(case: journal_page.Case) -> None:
    apart = replace(case, text="# this year\n" + case.text.replace("\n", "\n\n#\n"))
    assert _moved(apart, lambda line: line) == _moved(case, lambda line: 3 * (line - 1) + 2)


def test_every_code_of_a_journal_has_a_case_and_a_meaning() -> None:
    folders = [ROOT / "src/sowtide" / room for room in ("garden/journal", "schedule/happened")]
    texts = [path.read_text(encoding="utf-8") for each in folders for path in each.glob("*.py")]
    used = {code for text in texts for code in re.findall(r'"(journal-[a-z]+)"', text)}
    assert len(used) > 8
    assert {case.code for case in CASES} - {""} == used == set(journal_page.MEANING)


def test_the_page_of_what_is_wrong_with_journals_is_made_from_the_cases() -> None:
    made = (ROOT / "docs" / "journal-errors.md").read_text(encoding="utf-8")
    assert made == journal_page.journal_page(), "run: python tests/errors/update.py"
