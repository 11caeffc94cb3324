"""Every rule of the plan: its case, its place on the page of problems, and its one file."""

from __future__ import annotations

import re
from collections import Counter
from datetime import date
from importlib import import_module
from pathlib import Path

import pytest

import gardens
import replayed
from checks import problems_page
from sowtide.garden.journal import journal_of
from sowtide.schedule import checks
from sowtide.schedule.checks import rules
from sowtide.schedule.supply import supply_of
from sowtide.season import season_of

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


@pytest.mark.parametrize(
    ("wave", "latitude", "warned"),
    [
        # Fruit is picked from the 50th day for 14 days: gone on the 64th. 28 October + 64 days is
        # 31 December, 29 October + 64 is 1 January: pulled out in this year.
        (gardens.wave(start="2025-10-28"), 45, ["fruit-1"]),
        (gardens.wave(start="2025-10-29"), 45, []),
        (gardens.wave(start="2026-12-31"), 45, []),
        (gardens.wave(start="2027-01-01"), 45, ["fruit-1"]),
        # A series that began too early is warned of where it is over, one that runs on is not.
        (gardens.wave(start="2025-10-14", every="14", count="3"), 45, ["fruit-1 and fruit-2"]),
        (gardens.wave(start="2026-12-20", every="14", count="3"), 45, []),
        # South of the equator the season of 2026 begins on 1 July: 10 May is that of 2027.
        (gardens.wave(start="2026-04-10"), -45, ["fruit-1"]),
        (gardens.wave(start="2027-04-10"), -45, []),
        (gardens.wave(start="2027-07-01"), -45, ["fruit-1"]),
    ],
)
def test_a_wave_wholly_in_another_growing_year(
    wave: str, latitude: float, warned: list[str]
) -> None:
    found = gardens.season(gardens.text(wave, frost="none", latitude=latitude))
    said = [each.message for each in found.problems if each.code == "other-year"]
    assert [text.partition(" would ")[0] for text in said] == warned


def test_seedlings_raised_in_this_year_for_the_next_belong_to_it() -> None:
    # Out on 10 January 2027, sown 21 days before: on 20 December 2026.
    raised = gardens.crop(raised="trays", nursery_days="21-40", counted_from="planting out")
    file = gardens.text(gardens.wave(start="2027-01-10"), crops=(raised,), frost="none")
    assert "other-year" not in {code for code, _ in gardens.codes(gardens.season(file))}


def test_a_day_of_another_year_is_told_as_one_of_this() -> None:
    file = gardens.text(gardens.wave(start="2026-04-10"), frost="none", latitude=-45)
    (said,) = [each for each in gardens.season(file).problems if each.code == "other-year"]
    assert said.hint == "write `from: 04-10` for 10 Apr 2027; `season: 2025` plans that year"
    assert said.span is not None


def test_what_the_journal_still_tells_of_in_this_year_is_not_warned_of() -> None:
    # By the plan it would be gone on 4 December; it was pulled on 3 January.
    read = journal_of(b"- {on: 2026-01-03, wave: fruit-1, did: pulled}\n", "journal.yaml")
    garden = gardens.read(gardens.text(gardens.wave(start="2025-10-01"), frost="none"))
    told = season_of(garden, date(2026, 1, 4), None, read.journal)
    untold = season_of(garden, date(2026, 1, 4))
    assert "other-year" not in {code for code, _ in gardens.codes(told)}
    assert "other-year" in {code for code, _ in gardens.codes(untold)}


BULB = "bulb: {like: garlic, ready: 07-10..07-20}"


@pytest.mark.parametrize(
    ("want", "written"),
    [
        ("", "from: 07-10, until: 12-31"),
        ("from: 07-15", "until: 12-31"),
        ("until: 08-31", "from: 07-10"),
        ("until: 03-31", "from: 01-01"),  # of last year's, before any is lifted
    ],
)
def test_days_that_are_to_be_written_for_a_want_are_counted(want: str, written: str) -> None:
    file = gardens.text(crops=[BULB]) + "want:\n  - {crop: bulb, amount: 4 bulbs, KEYS}\n"
    found = gardens.season(file.replace("KEYS", want))
    (problem,) = [each for each in found.problems if each.code == "want-no-days"]
    assert problem.hint == f"write {written}, or days of your own"
    assert problem.span is not None
    assert (problem.span.line, problem.span.column) == (12, 12)
    assert not any(each.want for each in supply_of(found)[0].weeks)
    mended = gardens.season(file.replace("KEYS", ", ".join(filter(None, (want, written)))))
    assert "want-no-days" not in {each.code for each in mended.problems}
    assert any(each.want for each in supply_of(mended)[0].weeks)


def test_what_stands_already_tells_from_when_on_it_can_be_wanted() -> None:
    wave = gardens.wave("bulb", start="2025-10-10")
    file = (
        gardens.text(wave, crops=["bulb: {like: garlic}"])
        + "want:\n  - {crop: bulb, amount: 4 bulbs}\n"
    )
    found = gardens.season(file)
    first = found.waves[0].stages.first_pick
    (problem,) = [each for each in found.problems if each.code == "want-no-days"]
    assert first is not None
    assert f"write from: {first[0].day:%m-%d}, until" in (problem.hint or "")


def test_what_is_late_is_told_of_the_years_that_are_on_record_else_of_a_hundred() -> None:
    late = "{crop: bush bean, plants: 5, from: 08-05}"
    recorded = replayed.season(replayed.record("wageningen"), late, latitude=52)
    years = recorded.waves[0].judged.years
    assert years not in (None, 100)
    normal = gardens.season(gardens.text(gardens.wave(start="2026-08-02")))
    for season, many in ((recorded, years), (normal, 100)):
        (said,) = [each for each in season.problems if "worth growing in" in each.message]
        assert re.search(rf"worth growing in (under )?\d+ years? of {many}\b", said.message)
