"""Every mistake a record can hold: its case, its code, its page."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from errors import record_page
from sowtide.diagnostics import Severity, has_errors

CASES = record_page.cases()
ROOT = Path(__file__).parents[3]
NOT_STOPPING = {"record-wild", "record-gap"}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_mistake_in_a_record_gets_its_place_and_its_remedy(
    case: record_page.Case, tmp_path: Path
) -> None:
    loaded = case.loaded(tmp_path)
    assert record_page.said(loaded) == case.expected
    assert (loaded.garden is None) == has_errors(loaded.problems)
    of_code = [problem for problem in loaded.problems if problem.code == case.code]
    assert of_code
    if case.code not in NOT_STOPPING:
        assert {problem.severity for problem in of_code} == {Severity.ERROR}
    if case.code != "record-more":
        assert all(problem.span and problem.hint for problem in of_code)


def _raised() -> set[str]:
    """The codes of the modules that read records."""
    folders = [ROOT / "src/sowtide/climate" / room for room in ("record", "frost_record")]
    sources = [path for folder in folders for path in folder.glob("*.py")]
    texts = [source.read_text(encoding="utf-8") for source in sources]
    return {code for text in texts for code in re.findall(r'"(record-[a-z]+)"', text)}


def test_every_code_of_a_record_has_a_case_and_a_meaning() -> None:
    used = _raised() | {"record"}
    assert len(used) > 15
    assert {case.code for case in CASES} == used
    assert set(record_page.MEANING) == used


def test_every_code_of_a_record_stands_in_the_table_of_records_and_no_other() -> None:
    page = (ROOT / "docs" / "records.md").read_text(encoding="utf-8")
    assert _raised() == set(re.findall(r"^\| `(record-[a-z]+)` \|", page, flags=re.MULTILINE))


def test_the_page_of_what_is_wrong_with_records_is_made_from_the_cases() -> None:
    made = (ROOT / "docs" / "record-errors.md").read_text(encoding="utf-8")
    assert made == record_page.record_page(), "run: python tests/errors/update.py"
