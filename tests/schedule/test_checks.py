"""Every rule of the plan: its case, its place on the page of problems, and its one file."""

from __future__ import annotations

import re
from collections import Counter
from importlib import import_module
from pathlib import Path

import pytest

import gardens
from checks import problems_page
from sowtide.schedule import checks
from sowtide.schedule.checks import rules

CASES = problems_page.cases()
ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.path.stem)
def test_a_problem_of_the_plan_gets_its_place_and_its_remedy(case: problems_page.Case) -> None:
    found = case.problems()
    assert problems_page.said(found) == case.expected
    levels = {rule.code: rule.level for rule in rules()}
    assert case.code in {problem.code for problem in found}
    assert all(problem.severity is levels[problem.code] for problem in found)


def test_every_rule_has_a_case_and_every_case_its_rule() -> None:
    assert {case.code for case in CASES} == {rule.code for rule in rules()}


def test_no_two_rules_have_one_code() -> None:
    assert [code for code, times in Counter(r.code for r in rules()).items() if times > 1] == []


def test_every_file_of_a_room_is_a_rule_or_serves_one() -> None:
    # A file that the registry does not find would be a rule that never speaks.
    folder = Path(checks.__file__).parent
    files = {file.relative_to(folder) for file in folder.glob("*/[!_]*.py")}
    found = {Path(str(import_module(r.check.__module__).__file__)) for r in rules()}
    assert files - {file.relative_to(folder) for file in found} == {Path("timing/late.py")}


def test_the_page_of_problems_is_made_from_the_rules_and_the_cases() -> None:
    made = (ROOT / "docs" / "problems.md").read_text(encoding="utf-8")
    assert made == problems_page.problems_page(), "run: python tests/errors/update.py"


SOUTH = "{last: 10-10, first: 04-20}"


@pytest.mark.parametrize(("latitude", "summer"), [(45, {6, 7, 8}), (-45, {12, 1, 2})])
def test_the_days_of_summer_in_a_hint_are_those_of_the_hemisphere(
    latitude: float, summer: set[int]
) -> None:
    frost = gardens.FROST if latitude > 0 else SOUTH
    crops = [
        gardens.leaf(days_to_harvest="50"),
        gardens.leaf("bulb", overwinters="yes", days_to_harvest="230", picking_days="1"),
    ]
    for name, code in (("leaf", "may-bolt"), ("bulb", "no-winter-date")):
        start = {("leaf", True): "05-25", ("leaf", False): "11-25"}.get((name, latitude > 0))
        wave = gardens.wave(name, start=start or ("10-20" if latitude > 0 else "2027-04-20"))
        found = gardens.season(gardens.text(wave, crops=crops, frost=frost, latitude=latitude))
        (problem,) = [each for each in found.problems if each.code == code]
        spans = re.findall(r"(\d\d)-\d\d\.\.(\d\d)-\d\d", problem.hint or "")
        assert spans
        assert {int(month) for span in spans for month in span} <= summer
