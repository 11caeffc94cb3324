"""sowtide as a library: the same answers as the commands, lazily, without a word printed."""

from __future__ import annotations

import doctest
import json
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

import sowtide
from sowtide.cli import cli
from sowtide.report.supply import view as supply_view
from sowtide.season import demo_text

TODAY = date(2026, 7, 16)


def printed(*arguments: str) -> str:
    return CliRunner().invoke(cli, arguments).output


@pytest.mark.parametrize("form", ["json", "csv", "markdown", "ics"])
def test_a_view_is_written_as_the_command_prints_it(form: str) -> None:
    season = sowtide.season_from(sowtide.load_demo(), TODAY)
    # Newlines of a calendar are its own, so bytes are compared without what a terminal shows.
    assert (
        sowtide.written(sowtide.plan(season), form).encode()
        == CliRunner().invoke(cli, ["plan", "--demo", "--format", form]).stdout_bytes
    )
    assert (
        sowtide.written(sowtide.week(season), form).encode()
        == CliRunner().invoke(cli, ["week", "--demo", "--format", form]).stdout_bytes
    )


def test_a_form_takes_its_choices_as_its_command_does() -> None:
    season = sowtide.season_from(sowtide.load_demo(), TODAY)
    on_letter = sowtide.written(sowtide.week(season), "html", paper="letter")
    assert on_letter == printed("week", "--demo", "--format", "html", "--paper", "letter")
    tasks = sowtide.written(sowtide.plan(season), "ics", todos=True, revision=7)
    said = CliRunner().invoke(
        cli, ["plan", "--demo", "--format", "ics", "--todos", "--revision", "7"]
    )
    assert tasks.encode() == said.stdout_bytes
    with pytest.raises(ValueError, match="a5"):
        sowtide.written(sowtide.week(season), "html", paper="a5")


def test_what_a_journal_tells_of_yields_counts_in_the_library_too(tmp_path: Path) -> None:
    garden = tmp_path / "garden.yaml"
    garden.write_text(demo_text(), encoding="utf-8")
    # Three waves of lettuce over and done: enough to tell, and far more than tables say.
    over = [
        f"- {{on: {day}, wave: {wave}, did: {did}}}\n"
        for wave, last in (("lettuce-1", 10), ("lettuce-2", 16), ("lettuce-3", 23))
        for day, did in (
            (f"2026-06-{last:02}", "picked, amount: 60 lb"),
            (f"2026-06-{last + 1}", "pulled"),
        )
    ]
    (tmp_path / "journal.yaml").write_text("".join(over), encoding="utf-8")
    loaded = sowtide.load(garden)
    view = sowtide.supply(loaded, TODAY)
    call = ("supply", "--garden", str(garden), "--today", str(TODAY), "--format", "json")
    assert json.loads(sowtide.written(view)) == json.loads(printed(*call))
    season = sowtide.season_from(loaded, TODAY)
    assert view != supply_view(season)
    calendar = sowtide.calendar(season, loaded)
    assert json.loads(sowtide.written(calendar)) == json.loads(printed("calendar", *call[1:]))
    assert calendar.wanted != sowtide.calendar(season).wanted


def test_every_question_has_the_answer_of_its_command() -> None:
    loaded = sowtide.load_demo()
    season = sowtide.season_from(loaded, TODAY)
    answers = {
        ("calendar",): sowtide.calendar(season),
        ("week", "--high", "35C"): sowtide.week(season, high=35.0),
        ("week", "--week", "W33"): sowtide.week(season, date(2026, 8, 12)),
        ("week", "--week", "W33", "--weeks", "2"): sowtide.week(season, date(2026, 8, 10), weeks=2),
        ("why", "beet-2"): sowtide.why(season, "beet-2"),
        ("frost",): sowtide.frost(loaded, TODAY),
        ("frost", "--tonight", "-2C", "--clear"): sowtide.tonight(loaded, TODAY, -2.0, sky="clear"),
        ("supply",): sowtide.supply(loaded, TODAY),
        ("needs", "--until", "2026-08-10"): sowtide.needs(season, date(2026, 8, 10)),
        ("fits", "--weeks", "4"): sowtide.openings(season, weeks=4),
        ("fits", "bush bean", "--plants", "20"): sowtide.fits(season, "bush bean", plants=20),
    }
    for call, view in answers.items():
        said = json.loads(printed(*call, "--demo", "--format", "json"))
        assert json.loads(sowtide.written(view)) == said


def test_what_cannot_be_read_is_said_all_at_once(tmp_path: Path) -> None:
    path = tmp_path / "garden.yaml"
    path.write_text("season: 26\nsite: {nam: x}\n", encoding="utf-8")
    with pytest.raises(sowtide.NotReadable) as found:
        sowtide.season_from(sowtide.load(path), TODAY)
    assert len(found.value.problems) > 3
    assert "unknown key 'nam'" in str(found.value)


def test_what_there_is_not_is_an_error_of_its_own() -> None:
    season = sowtide.season_from(sowtide.load_demo(), TODAY)
    for ask in (
        lambda: sowtide.why(season, "beet-99"),
        lambda: sowtide.fits(season, "no such crop"),
        lambda: sowtide.fits(season, "beet", bed="nowhere"),
    ):
        with pytest.raises(KeyError):
            ask()
    with pytest.raises(ValueError, match="cannot be had"):
        sowtide.written(sowtide.calendar(season), "ics")
    with pytest.raises(AttributeError):
        sowtide.nothing  # noqa: B018


def test_what_the_document_shows_is_so() -> None:
    page = Path(__file__).parents[2] / "docs" / "library.md"
    failed, tried = doctest.testfile(str(page), module_relative=False, encoding="utf-8")
    assert tried > 5
    assert failed == 0


def test_importing_it_loads_nothing_yet() -> None:
    code = "import sys, sowtide; print(*[m for m in sys.modules if m.startswith('sowtide')])"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.split() == ["sowtide"]


def test_what_it_hands_out_is_what_the_library_has() -> None:
    from sowtide import library

    assert sowtide.__all__ == library.__all__
    for name in sowtide.__all__:
        assert getattr(sowtide, name) is getattr(library, name)
        assert getattr(library, name).__doc__
