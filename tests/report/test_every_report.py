"""Every report in every form that it is offered in, of the demo garden and of the examples."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Callable, Iterator
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import html5lib
import pytest
from jsonschema import Draft202012Validator, FormatChecker

import gardens
import kept_fields
from planned_once import planned_once
from printed import form, page
from sowtide.cli import cli
from sowtide.cli.printing import offered as offered_by_name
from sowtide.days import week_start
from sowtide.diagnostics import Span
from sowtide.garden.journal import Did, Happening, Journal
from sowtide.garden.varieties import crops_called
from sowtide.report import (
    REPORTS,
    calendar,
    card,
    check,
    crops,
    fill,
    fits,
    frost,
    instead_of,
    into_bed,
    labels,
    needs,
    openings,
    plan,
    repack,
    supply,
    tonight,
    week,
    why,
)
from sowtide.report.did import view as did
from sowtide.report.did import year_view
from sowtide.report.formats.forms import FORMS, TEXT, offered
from sowtide.report.formats.schema import field_paths, view_schema
from sowtide.report.formats.terminal.cells import cells
from sowtide.schedule.filling import filled
from sowtide.schedule.fits import (
    BedQuestion,
    Question,
    answer,
    weigh,
    what_fits,
)
from sowtide.schedule.noting import moved
from sowtide.schedule.openings import OpeningsQuestion, coming_free
from sowtide.schedule.packing import repacked
from sowtide.schedule.season import Season
from sowtide.schedule.supply import supply_of
from sowtide.schedule.tonight import Forecast
from sowtide.season import DEMO_TODAY, load, load_demo, place_of, season_of

EXAMPLES = Path(__file__).parents[2] / "examples"
GARDENS = {
    "demo": (None, DEMO_TODAY),
    "allotment": (EXAMPLES / "allotment/garden.yaml", date(2026, 11, 20)),
    "market garden": (EXAMPLES / "market-garden/garden.yaml", date(2026, 7, 16)),
}
WIDTHS = (60, 80, 140)
EVERY = [(command, garden) for command in REPORTS for garden in GARDENS]


@cache
def season(garden: str) -> Season:
    path, today = GARDENS[garden]
    loaded = load_demo() if path is None else load(path)
    assert loaded.garden is not None
    return season_of(loaded.garden, today, loaded.record, loaded.journal)


def _weeks(of: Season) -> Any:
    first = week_start(of.today, starts=of.garden.site.week_starts)
    sheets = gardens.sheets(of, first, 3)
    return week.view(sheets, of)


def _fits(of: Season) -> Any:
    found = [answer(of, Question(each, None, None, None, False, 3)) for each in _beans(of)]
    return fits.view(tuple(found), of, asked="bush bean")


def _beans(of: Season) -> Any:
    return crops_called("bush bean", of.garden)


def _instead(of: Season) -> Any:
    ahead = [each for each in of.waves if each.stands and each.stages.plant.day > of.today]
    (lettuce, *_) = crops_called("lettuce", of.garden)
    asked = Question(lettuce, None, None, None, False)
    return instead_of.view(weigh(of, ahead[0], asked), of)


def _journal(of: Season) -> Journal:
    """Return a journal of the first waves: sown, picked, and pulled as sick."""
    waves = [each for each in of.waves if each.stands and each.stages.plant.day < of.today][:9]
    said = [(wave, Did.PICKED, "pods, and more") for wave in waves[1:]]
    said += [(wave, Did.PULLED, None) for wave in waves[:1]]
    noted = [
        Happening(
            of.today, stage, Span("journal.yaml", line), wave=wave.id, note=note, sick=not note
        )
        for line, (wave, stage, note) in enumerate(said, 1)
    ]
    return Journal("journal.yaml", tuple(noted))


def _with_journal(of: Season) -> Season:
    return planned_once(of.garden, of.today, None, _journal(of))


def _written(of: Season) -> Any:
    after = _with_journal(of)
    noted = _journal(of).happenings
    return did.did(tuple(moved(each, of, after) for each in noted), of, after)


def _filled(of: Season) -> Any:
    return fill.view(of, filled(of, supply_of(of)))


VIEWS: dict[str, Callable[[Season], Any]] = {
    "week": _weeks,
    "calendar": calendar.view,
    "fits": _fits,
    "fits without a crop": lambda of: openings.view(
        coming_free(of, OpeningsQuestion(of.garden.beds[:20])), of
    ),
    "fits --bed": lambda of: into_bed.view(
        what_fits(of, BedQuestion(of.garden.beds[0], None, False)), of
    ),
    "fits --instead-of": _instead,
    "plan": plan.view,
    "plan --repack": lambda of: repack.view(of, repacked(of)),
    "plan --labels": labels.view,
    "why": lambda of: why.view(of.waves[-1], of, by_year=True),
    "supply": supply.view,
    "supply --fill": _filled,
    "needs": needs.view,
    "did": did.due,
    "did WAVE STAGE": _written,
    "did --list": lambda of: did.entries(_journal(of), of),
    "did season": lambda of: year_view.view(_with_journal(of), of),
    "frost": lambda of: frost.view(place_of(of.garden, of.today, None)),
    "frost --tonight": lambda of: tonight.view(of, Forecast(-1.5)),
    "check": lambda of: check.view(of.problems),
    "crops": lambda of: crops.view(of.garden),
    "crops NAME": lambda of: card.view(_beans(of), of.garden),
}
"""How each view is made that has a report."""


@cache
def view(command: str, garden: str) -> Any:
    return VIEWS[command](season(garden))


@cache
def written(command: str, garden: str, name: str) -> str:
    """Write a report in a form, once for all that is looked for in it."""
    return form(REPORTS[command], view(command, garden), name)


@pytest.fixture(scope="module", params=EVERY, ids="-".join)
def each(request: pytest.FixtureRequest) -> tuple[str, str]:
    """A command and a garden: of a module's grain, so that all tests of a view come in a row."""
    asked: tuple[str, str] = request.param
    return asked


def test_every_report_has_a_view_to_be_tested() -> None:
    assert list(VIEWS) == list(REPORTS)


def test_a_page_keeps_to_its_width(each: tuple[str, str]) -> None:
    command, _ = each
    assert type(view(*each)) is REPORTS[command].of
    # A place stands on one line, for other programs, and a word behind it.
    place_alone = re.compile(r".+:\d+:\d+: (error|warning|note): \S+")
    for width in WIDTHS:
        lines = page(REPORTS[command], view(*each), width)
        assert any(lines)
        wide = [line for line in lines if cells(line.rstrip()) > width]
        assert [line for line in wide if not place_alone.fullmatch(line)] == [], width


def test_a_form_gives_the_same_characters_each_time(each: tuple[str, str]) -> None:
    command, _ = each
    for name in offered(REPORTS[command])[1:]:
        text = written(*each, name)
        assert text.endswith("\n")
        assert text == form(REPORTS[command], view(*each), name)


def test_html_is_to_the_letter(each: tuple[str, str]) -> None:
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    tree = parser.parse(written(*each, "html"))
    (title,) = (one for one in tree.find("body/main").iter() if one.tag == "h1")
    assert next(one for one in tree.find("body/main").iter() if (one.text or "").strip()) == title
    assert title.get("class") != "unseen"
    # Each table has heads, and no head is empty, for those who hear it read.
    for table in tree.iter("table"):
        heads = ["".join(head.itertext()).strip() for head in table.iter("th")]
        assert heads
        assert all(heads)


def test_a_page_of_markdown_has_one_title_and_begins_with_it(each: tuple[str, str]) -> None:
    (mark, blank, title, *lines) = written(*each, "markdown").splitlines()
    assert (mark, blank) == ("<!-- sowtide -->", "")
    assert title.startswith("# ")
    assert not [line for line in lines if line.startswith("# ")]


def test_json_has_every_field_of_its_view_and_no_other(each: tuple[str, str]) -> None:
    command, _ = each
    document = json.loads(written(*each, "json"))
    assert document.pop("version") == 1
    validator(command).validate({"version": 1} | document)
    paths = set(field_paths(REPORTS[command].of))
    assert {re.split(r"[.\[]", path)[0] for path in paths} == set(document)
    for path in _fields(document):  # what is null or empty has no fields of its own
        assert any(one == path or one.startswith((f"{path}.", f"{path}[")) for one in paths)


@cache
def validator(command: str) -> Draft202012Validator:
    schema = view_schema(REPORTS[command].of, command)
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema, format_checker=FormatChecker())


def test_no_field_is_ever_lost() -> None:
    kept = kept_fields.kept()
    assert len(kept) > 500
    assert sorted(kept - kept_fields.fields()) == []


def _fields(of: Any, path: str = "") -> Iterator[str]:
    if isinstance(of, dict):
        for key, inner in of.items():
            yield from _fields(inner, f"{path}.{key}" if path else key)
    elif isinstance(of, list):
        for inner in of or [None]:
            yield from _fields(inner, f"{path}[]")
    else:
        yield path


def test_csv_is_a_whole_table(each: tuple[str, str]) -> None:
    command, _ = each
    report = REPORTS[command]
    if report.rows is None:
        assert "csv" not in offered(report)
        return
    head, *rows = csv.reader(io.StringIO(written(*each, "csv")))
    assert tuple(head) == report.rows.columns
    assert len(set(head)) == len(head)
    assert {len(row) for row in rows} <= {len(head)}
    # No one may have noted anything, or want anything.
    assert rows or command in {"did --list", "supply --fill"}


@pytest.mark.parametrize("command", REPORTS)
def test_the_forms_of_a_report_are_known_before_it_is_loaded(command: str) -> None:
    assert offered_by_name(command) == offered(REPORTS[command])


@pytest.mark.parametrize("command", sorted({each.split()[0] for each in REPORTS}))
def test_a_command_offers_the_forms_of_its_reports(command: str) -> None:
    found = cli.get_command(None, command)  # type: ignore[arg-type]
    assert found is not None
    (option,) = (each for each in found.params if each.name == "format_")
    reports = [report for name, report in REPORTS.items() if name.split()[0] == command]
    wanted = {form for report in reports for form in offered(report)}
    assert set(option.type.choices) == wanted <= {TEXT, *FORMS}  # type: ignore[attr-defined]
    assert option.default == TEXT
