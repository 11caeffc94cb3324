"""The commands from the outside: every form of output, every exit code, wrong usage and bad files.

What reports say is tested elsewhere; here it is that each command prints something of its form on
stdout, its problems on stderr, and leaves with the right code.
"""

from __future__ import annotations

import csv
import io
import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from planned_once import planned_once
from sowtide.cli import main
from sowtide.cli.group import COMMANDS
from sowtide.report import REPORTS
from sowtide.report.formats.forms import offered
from sowtide.season import demo_text

ROOT = Path(__file__).parents[2]
ALLOTMENT = ROOT / "examples" / "allotment" / "garden.yaml"
MARKET = ROOT / "examples" / "market-garden" / "garden.yaml"
GARDENS = {
    "demo": ["--demo"],
    "allotment": ["--garden", str(ALLOTMENT), "--today", "2026-11-20"],
    "market garden": ["--garden", str(MARKET), "--today", "2026-07-16"],
}
FORMS = {name: list(offered(report)) for name, report in REPORTS.items() if " " not in name}
RUNS = [(command, form) for command, forms in FORMS.items() for form in forms]
PLACES = [(*run, place) for run in RUNS for place in GARDENS if place == "demo" or "text" in run]
"""Of the examples the text alone: `test_every_report` writes their other forms."""

SMALL = """\
site:
  name: Test garden
  latitude: 42
  units: us
  frost: {last: 05-06, first: 10-01}
season: 2026
beds:
  - {bed: North, size: 4 x 10}
  - {bed: South, size: 4 x 10}
waves:
"""
"""Followed by the waves of a test."""


@dataclass(frozen=True)
class Run:
    """What came of a command."""

    code: int
    out: str
    err: str


Runner = Callable[..., Run]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Runner:
    """Run the program in this process, as its console script does, with 80 columns."""
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.delenv("SOWTIDE_GARDEN", raising=False)
    # The program runs its collector no more because it ends soon; the tests go on.
    monkeypatch.setattr("gc.disable", lambda: None)
    monkeypatch.setattr("gc.freeze", lambda: None)

    def run(*arguments: str) -> Run:
        monkeypatch.setattr(sys, "argv", ["sowtide", *arguments])
        capsys.readouterr()
        with pytest.raises(SystemExit) as left:
            main()
        out, err = capsys.readouterr()
        code = left.value.code
        assert code is None or isinstance(code, int)
        return Run(code or 0, out, err)

    return run


@pytest.fixture
def garden(tmp_path: Path) -> Callable[[str], str]:
    """Write a garden file with these waves, or a text as it stands, and return its path."""

    def write(waves: str, *, whole: bool = False) -> str:
        path = tmp_path / "garden.yaml"
        path.write_text(waves if whole else SMALL + waves, encoding="utf-8")
        return str(path)

    return write


def process(
    *arguments: str, cwd: Path | None = None, **environment: str
) -> subprocess.CompletedProcess[bytes]:
    """Run the program in a process of its own."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("SOWTIDE", "COLUMNS", "LC_"))}
    return subprocess.run(
        [sys.executable, "-m", "sowtide", *arguments],
        capture_output=True,
        cwd=cwd,
        env={**kept, **environment},
        check=False,
    )


def call(command: str, form: str, place: list[str]) -> list[str]:
    forms = [] if len(FORMS[command]) == 1 else ["--format", form]
    asked = {
        "fits": ["lettuce"],
        "why": ["box-beet-1" if str(MARKET) in place else "beet-1"],
    }
    return [command, *asked.get(command, []), *forms, *place]


def one_line(text: str) -> str:
    """Return the one line that a text has."""
    assert text.count("\n") == 1, text
    assert text.endswith("\n"), text
    assert text.startswith("sowtide: ")
    return text


# Every command in every form


@pytest.mark.parametrize(("command", "form", "place"), PLACES)
def test_every_form_is_printed(
    run: Runner,
    monkeypatch: pytest.MonkeyPatch,
    *,
    command: str,
    form: str,
    place: str,
) -> None:
    whole = place == "demo" and form == FORMS[command][-1]
    if not whole:
        monkeypatch.setattr("sowtide.cli.options.season_of", planned_once)
    found = run(*call(command, form, GARDENS[place]))
    assert found.code in ({0, 1} if command == "check" else {0})
    assert found.err == ""
    assert found.out.strip()
    assert found.out.endswith("\n")
    assert "\x1b" not in found.out
    if form == "text":
        assert [line for line in found.out.splitlines() if line != line.rstrip()] == []
    if whole:  # the same input gives the same bytes
        assert run(*call(command, form, GARDENS[place])).out == found.out


def test_the_steps_of_why_add_up(run: Runner) -> None:
    for counted in json.loads(run("why", "beet-1", "--demo", "--format", "json").out)["dates"]:
        first, *others = counted["steps"]
        day = date.fromisoformat(first["date"]).toordinal()
        for step in others:
            day += step["days"]
            assert date.fromisoformat(step["date"]).toordinal() == day


# Weeks


def test_a_week_by_its_number(run: Runner) -> None:
    week = json.loads(run("week", "--demo", "--week", "2026-W31", "--format", "json").out)
    assert (week["week"], week["from"], week["to"]) == ("2026-W31", "2026-07-27", "2026-08-02")


def test_several_weeks_follow_each_other(run: Runner) -> None:
    found = json.loads(run("week", "--demo", "--weeks", "3", "--format", "json").out)
    assert [week["week"] for week in found["weeks"]] == ["2026-W29", "2026-W30", "2026-W31"]
    weeks = csv.DictReader(
        io.StringIO(run("week", "--demo", "--weeks", "3", "--format", "csv").out)
    )
    assert {row["week"] for row in weeks} == {"2026-W29", "2026-W30", "2026-W31"}
    text = run("week", "--demo", "--weeks", "3").out
    assert re.findall(r"WEEK (\d+)", text) == ["29", "30", "31"]


def test_work_is_grouped_by_bed_or_by_kind(run: Runner) -> None:
    by_bed = run("week", "--demo", "--by", "bed").out.splitlines()
    by_work = run("week", "--demo", "--by", "work").out.splitlines()
    assert "SHED" in by_bed
    assert "SHED" not in by_work
    assert any(line.startswith("PREPARE") for line in by_work)


@pytest.mark.parametrize("week", ["2026-W54", "31", "2026-31", "2026-W3", "w31"])
def test_a_week_that_is_none(run: Runner, week: str) -> None:
    found = run("week", "--demo", "--week", week)
    assert (found.code, found.out) == (2, "")
    assert week in one_line(found.err)


# Exit codes


@pytest.mark.parametrize(("command", "form"), RUNS)
def test_what_cannot_be_read_stops_every_command(
    run: Runner, garden: Callable[..., str], command: str, form: str
) -> None:
    path = garden("  - {crop: beet, plantz: 60}\n  - {crop: bet, plants: no, from: 05-20}\n")
    found = run(*call(command, form, ["--garden", path]))
    assert found.code == 1
    if command == "check" and form != "text":
        assert found.out.count("plantz") >= 1
        assert form != "json" or len(json.loads(found.out)["problems"]) >= 3
        return
    marks = {"html": '<div class="fault">', "markdown": "- **error:**"}
    if command == "check" and form in marks:
        assert found.out.count(marks[form]) >= 3
        return
    assert found.out == ""
    flat = " ".join(found.err.split())  # a long path leaves little room on the first line
    assert f"{path}:11:18: error: unknown key 'plantz' [unknown-key]" in flat
    assert flat.count(": error: ") >= 3
    assert "did you mean" in found.err


@pytest.mark.parametrize("command", FORMS)
@pytest.mark.parametrize(
    "path", ["missing.yaml", "."], ids=["a file that is not there", "a folder"]
)
def test_a_file_that_cannot_be_opened(run: Runner, tmp_path: Path, command: str, path: str) -> None:
    found = run(*call(command, "text", ["--garden", str(tmp_path / path)]))
    assert (found.code, found.out) == (2, "")
    assert str(tmp_path) in one_line(found.err)


NEVER = "  - {crop: tomato, plants: 4, from: 09-20, beds: [North]}\n"
NO_ROOM = """\
  - {crop: kale, plants: 10, from: 05-20, beds: [South]}
  - {name: late, crop: kale, plants: 10, from: 05-25, beds: [South]}
"""


@pytest.mark.parametrize("waves", [NEVER, NO_ROOM], ids=["never finishes", "no room"])
def test_a_problem_of_the_plan_stops_none_but_check(
    run: Runner, garden: Callable[..., str], waves: str
) -> None:
    place = ["--garden", garden(waves), "--today", "2026-05-26"]
    for command in ("plan", "week", "calendar"):
        found = run(command, *place)
        assert (found.code, found.err) == (0, ""), command
        assert found.out
    assert "error:" in run("plan", *place).out
    found = run("check", *place)
    assert found.code == 1
    assert "error:" in found.out
    assert run("check", "--format", "json", *place).code == 1


def test_a_warning_leaves_check_with_nothing_but_its_words(
    run: Runner, garden: Callable[..., str]
) -> None:
    place = ["--garden", garden("  - {crop: bush bean, plants: 20, from: 04-20, beds: [North]}\n")]
    found = run("check", *place)
    assert found.code == 0
    assert "warning:" in found.out


def test_a_garden_without_a_fault(run: Runner, garden: Callable[..., str]) -> None:
    path = garden("  - {crop: bush bean, plants: 20, from: 05-20, beds: [North]}\n")
    found = run("check", "--garden", path)
    assert (found.code, found.err) == (0, "")
    assert found.out.strip()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["wek"], "Did you mean 'week'?"),
        (["sow"], "There is no command 'sow'."),
        (["plan", "--demo", "--garden", "garden.yaml"], "Choose one of --demo and --garden."),
        (["plan", "--demo", "--today", "16 July"], "'16 July' is not a day"),
        (["plan", "--demo", "--today", "2026-02-30"], "'2026-02-30' is not a day"),
        (["plan", "--demo", "--today", "2026-W29-4"], "'2026-W29-4' is not a day"),
        (["plan", "--demo", "--today", "9999-12-31"], "in the years 1900 to 2200"),
        (["new", "--today", "0005-01-01"], "in the years 1900 to 2200"),
        (["week", "--demo", "--week", "9999-W52"], "in the years 1900 to 2200"),
        (["week", "--demo", "--week", "W٣١"], "'W٣١' is not a week"),
        (["week", "--demo", "--weeks", "٢"], "plain digits"),
        (["plan", "--demo", "--format", "xml"], "xml"),
        (["week", "--demo", "--weeks", "0"], "0"),
        (["fits", "--demo", "--plants", "4"], "go with a crop"),
        (["fits", "--demo", "--seedlings"], "goes with a crop, or with one bed"),
        (["fits", "--demo", "--bed", "X*"], "There is no bed like 'X*'."),
        (["fits", "--demo", "--bed", "Soth", "--weeks", "2"], "Did you mean 'South'?"),
        (["fits", "lettuce", "--demo", "--weeks", "2"], "--weeks goes without a crop."),
        (
            ["fits", "kale", "--instead-of", "beet-2", "--demo", "--format", "csv"],
            "--instead-of prints",
        ),
        (["fits", "--demo", "--bed", "South", "--plants", "4"], "go with a crop"),
        (["fits", "--demo", "--bed", "South", "--cover", "4"], "go with a crop"),
        (["fits", "letuce", "--demo"], "Did you mean 'lettuce'?"),
        (["fits", "lettuce", "--demo", "--bed", "Shead"], "Did you mean 'Shed'?"),
        (["fits", "lettuce", "--demo", "--plants", "0"], "0"),
        (["fits", "lettuce", "--demo", "--plants", "1_000"], "plain digits"),
        (["fits", "lettuce", "--demo", "--cover", "nan"], "'nan' is not a number"),
        (["fits", "lettuce", "--demo", "--on", "02-29"], "2026 has no day '02-29'"),
        (["fits", "lettuce", "--demo", "--on", "+7-30"], "'+7-30' is not a day"),
        (["fits", "lettuce", "--demo", "--on", "0٧-30"], "'0٧-30' is not a day"),
        (["fits", "", "--demo"], "There is no crop ''"),
        (["crops", "", "--demo"], "There is no crop ''"),
        (["fits", "asparagus", "--demo"], "It stands for years, and this plans one"),
        (["fits", "rye", "--demo"], "It is a cover crop: close its bed for that time"),
        (["crops", "rhubarb"], "It stands for years, and this plans one"),
        (["fits", "carrot", "--demo", "--seedlings"], "sown direct"),
        (["fits", "carrot", "--demo", "--sort", "early"], "are those of one sort"),
        (["fits", "--demo", "--sort", "early"], "--plants, --sort, --cover and"),
        (["why"], "WAVE"),
        (["why", "beat-1", "--demo"], "Did you mean 'beet-1'?"),
        (["why", "lettuce", "--demo"], "lettuce-1"),
        (["plan", "--demo", "--colour"], "--colour"),
        (["week", "home.yaml"], "(home.yaml). The garden's file goes behind its option: --garden"),
        (["week", "home"], "(home). See 'sowtide week --help'."),
        (["week", "home", "--garden", "home.yaml"], "(home). See 'sowtide week --help'."),
        (["week", "home", "--garden=home.yaml"], "(home). See 'sowtide week --help'."),
        (["week", "home", "--garden", "./home.yaml"], "(home). See 'sowtide week --help'."),
        (["week", "home.yaml", "--garden", "a.yaml"], "(home.yaml). The garden's file goes behind"),
        (["home.yaml"], "There is no command 'home.yaml'. See"),
        (["week", "--output", "home.yaml", "--weeks", "x"], "in plain digits. See 'sowtide week"),
        (["plan", "--demo", "--repack", "--by", "bed"], "leave --by out"),
        (["fits", "beet", "--demo", "--instead-of", "lettuce-1", "--cover", "4"], "--cover out"),
        (["needs", "--demo", "--until", "07-15"], "lies before today, 2026-07-16"),
    ],
)
def test_wrong_usage_gets_one_line(run: Runner, arguments: list[str], words: str) -> None:
    found = run(*arguments)
    assert (found.code, found.out) == (2, "")
    assert words in one_line(found.err)


# What a terminal obeys, or turns about, is written out wherever it comes from

ODD = "\x1b[31m\u202e\u2066\x07\x9b"
WRITTEN_OUT = "\\u001b[31m\\u202e\\u2066\\u0007\\u009b"


def one_line_of(text: str) -> str:
    """A text whose lines are broken anywhere, as one without spaces."""
    return "".join(text.split())


@pytest.mark.parametrize(
    "arguments",
    [
        [f"we{ODD}ek"],
        ["plan", "--garden", f"gar{ODD}den.yaml"],
        ["plan", "--demo", "--today", f"20{ODD}26"],
        ["fits", f"bean{ODD}", "--demo"],
        ["fits", "bush bean", "--demo", "--bed", f"South{ODD}"],
        ["why", f"beet{ODD}", "--demo"],
        ["crops", f"beet{ODD}"],
        ["new", "--garden", f"no{ODD}where/garden.yaml"],
    ],
)
def test_what_the_shell_gives_is_written_out(
    run: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, arguments: list[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    found = run(*arguments)
    assert found.code == 2
    assert found.err.replace("\n", "").isprintable()
    assert WRITTEN_OUT in one_line_of(found.err)


@pytest.mark.parametrize("format_", ["text", "json"])
def test_a_path_is_written_out(
    run: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, format_: str
) -> None:
    monkeypatch.chdir(tmp_path)
    name = f"gar{ODD}den.yaml"
    made = run("new", "--garden", name)
    assert WRITTEN_OUT in made.out
    for command in (("plan",), ("why", "lettuce-1"), ("check",), ("fits", "lettuce")):
        found = run(*command, "--garden", name, "--today", "2026-06-01")
        assert found.code == 0, found.err
        assert (found.out + found.err).replace("\n", "").isprintable(), command
    Path(name).write_text("season: 1999, x", "utf-8")
    found = run("plan", "--garden", name)
    assert found.code == 1
    assert (found.out + found.err).replace("\n", "").isprintable()
    assert WRITTEN_OUT in one_line_of(found.err)


def test_names_of_the_file_are_written_out_in_messages_and_hints(
    run: Runner, garden: Callable[..., str]
) -> None:
    wave = "  - {crop: bush bean, plants: 20, from: 05-20, beds: [Xyz]}\n"
    bed = '  - {bed: "No\\u202erth\\e[1m", size: 4 x 20}\n'
    text = (SMALL + wave).replace("beds:\n", f"beds:\n{bed}", 1)
    found = run("plan", "--garden", garden(text, whole=True))
    assert found.code == 1
    assert "the beds are: No\\u202erth" in found.err
    assert found.err.replace("\n", "").isprintable()


def test_a_series_of_one_wave_needs_no_number(run: Runner) -> None:
    assert run("why", "garlic", "--demo").out == run("why", "garlic-1", "--demo").out


def test_fits_in_one_bed_on_one_day(run: Runner) -> None:
    asked = ["fits", "radish", "--demo", "--plants", "30", "--on", "2026-08-20", "--bed", "well"]
    fits = json.loads(run(*asked, "--format", "json").out)
    assert fits["plants"] == 30
    assert {place["bed"] for place in fits["places"]} <= {"Well"}


def _break(*_: Any, **__: Any) -> None:
    raise ZeroDivisionError("a slip")


def test_a_fault_of_ours_is_one_line_and_code_3(
    run: Runner, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sowtide.cli.options.season_of", _break)
    found = run("plan", "--demo")
    assert (found.code, found.out) == (3, "")
    assert "fault of sowtide's own" in one_line(found.err)
    assert "ZeroDivisionError" not in found.err


def test_debug_shows_where_the_fault_happened(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sowtide.cli.options.season_of", _break)
    monkeypatch.setattr("gc.disable", lambda: None)
    monkeypatch.setattr(sys, "argv", ["sowtide", "--debug", "plan", "--demo"])
    with pytest.raises(ZeroDivisionError, match="a slip"):
        main()


def test_breaking_off_at_the_keyboard(run: Runner, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(*_: Any, **__: Any) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("sowtide.cli.options.season_of", interrupt)
    found = run("plan", "--demo")
    assert found.code == 130
    assert "Traceback" not in found.err


# Where the garden comes from


def test_the_garden_of_the_environment(run: Runner, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOWTIDE_GARDEN", str(ALLOTMENT))
    assert "TUSSOCK FLAT" in run("week", "--today", "2026-11-20").out
    assert "PUMP HOUSE" in run("week", "--demo").out, "--demo wins over the environment"


def test_without_a_word_the_garden_lies_in_this_folder(
    run: Runner, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, garden: Callable[..., str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert "garden.yaml" in one_line(run("plan").err)
    garden("  - {crop: bush bean, plants: 20, from: 05-20}\n")
    assert "bush-bean-1" in run("plan").out


def test_today_moves_no_date(run: Runner) -> None:
    plans = [
        json.loads(run("plan", "--demo", "--format", "json", "--today", today).out)["waves"]
        for today in ("2026-03-01", "2026-11-30")
    ]
    assert {wave.pop("status") for wave in plans[0]} == {"planned", "past"}  # last autumn's garlic
    assert {wave.pop("status") for wave in plans[1]} == {"past"}
    assert plans[0] == plans[1]


# A file to start from


def test_new_writes_a_garden_that_works(
    run: Runner, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    written = run("new", "--today", "2026-05-20")
    assert (written.code, written.err) == (0, "")
    assert "garden.yaml" in written.out
    week = run("week", "--today", "2026-05-20")
    assert (week.code, week.err) == (0, "")
    assert run("check").code == 0
    before = (tmp_path / "garden.yaml").read_bytes()
    again = run("new")
    assert (again.code, again.out) == (2, "")
    assert "garden.yaml" in one_line(again.err)
    assert (tmp_path / "garden.yaml").read_bytes() == before


def test_new_elsewhere_and_of_the_demo(run: Runner, tmp_path: Path) -> None:
    path = tmp_path / "copy.yaml"
    assert run("new", "--demo", "--garden", str(path)).code == 0
    assert path.read_text(encoding="utf-8") == demo_text()
    place = ["--garden", str(path), "--today", "2026-07-16"]
    assert run("week", *place).out == run("week", "--demo").out


def test_new_where_nothing_can_be_written(run: Runner, tmp_path: Path) -> None:
    found = run("new", "--garden", str(tmp_path / "no" / "garden.yaml"))
    assert found.code == 2
    one_line(found.err)


# Help


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_explains_itself(run: Runner, command: str) -> None:
    found = run(command, "--help")
    assert (found.code, found.err) == (0, "")
    bare = {"--format", "--garden", "--demo", "--today"}
    without = {"new": {"--format"}, "help": bare, "schema": bare}
    for option in ("--garden", "--demo", "--today", "--help", "--format"):
        assert (option in found.out) is (option not in without.get(command, ()))


def test_help_names_every_command(run: Runner) -> None:
    out = run("--help").out
    assert [
        line.split()[0] for line in out.partition("Commands:\n")[2].splitlines()[: len(COMMANDS)]
    ] == [*COMMANDS]


def test_version(run: Runner) -> None:
    out = run("--version").out
    assert re.fullmatch(r"sowtide \d+\.\d+\.\d+\n", out)
    assert process("--version").stdout.decode() == out


# In a process of its own


def test_as_a_module_and_into_a_pipe() -> None:
    found = process("week", "--demo", TERM="xterm-256color")
    assert (found.returncode, found.stderr) == (0, b"")
    assert b"\x1b" not in found.stdout
    assert found.stdout.decode("utf-8").startswith("PUMP HOUSE GARDEN")


@pytest.mark.parametrize("command", ["week", "calendar"])
def test_a_terminal_that_knows_no_more_than_ascii(command: str) -> None:
    found = process(command, "--demo", PYTHONIOENCODING="ascii")
    assert (found.returncode, found.stderr) == (0, b"")
    text = found.stdout.decode("ascii")
    assert "?" not in text.replace("is it up?", "").replace("up?", "")


def test_problems_on_a_terminal_that_knows_no_more_than_ascii(
    garden: Callable[..., str],
) -> None:
    path = garden("  - {crop: 'Möhre', plants: 60, from: 05-20}\n")
    found = process("plan", "--garden", path, PYTHONIOENCODING="ascii")
    assert (found.returncode, found.stdout) == (1, b"")
    assert b"error:" in found.stderr
    assert b"Traceback" not in found.stderr


def painted(**environment: str) -> bytes:
    """Return what the demo's week shows on a terminal."""
    pty = pytest.importorskip("pty", reason="no terminals to be had here")
    ours, theirs = pty.openpty()
    kept = {k: v for k, v in os.environ.items() if k not in ("NO_COLOR", "TERM")}
    with subprocess.Popen(
        [sys.executable, "-m", "sowtide", "week", "--demo"],
        stdout=theirs,
        env={**kept, "COLUMNS": "80", "TERM": "xterm", **environment},
    ):
        os.close(theirs)
        shown = b""
        while True:
            try:
                more = os.read(ours, 65536)
            except OSError:  # the other end is closed
                break
            if not more:
                break
            shown += more
    os.close(ours)
    return shown.replace(b"\r\n", b"\n")


def test_problems_are_as_wide_as_the_terminal_that_shows_them(tmp_path: Path) -> None:
    pty = pytest.importorskip("pty", reason="no terminals to be had here")
    from fcntl import ioctl
    from struct import pack
    from termios import TIOCSWINSZ

    path = tmp_path / "garden.yaml"
    path.write_text(SMALL + "  - {crop: beet, plants: 60, from: 05-20, until: 05-10}\n", "utf-8")
    longest = {}
    for columns in (60, 120):
        ours, theirs = pty.openpty()
        ioctl(theirs, TIOCSWINSZ, pack("HHHH", 24, columns, 0, 0))
        kept = {k: v for k, v in os.environ.items() if k != "COLUMNS"}
        subprocess.run(
            [sys.executable, "-m", "sowtide", "plan", "--garden", path.name],
            cwd=tmp_path,
            stdout=subprocess.DEVNULL,
            stderr=theirs,
            env=kept,
            check=False,
        )
        os.close(theirs)
        lines = os.read(ours, 65536).decode().splitlines()
        os.close(ours)
        longest[columns] = max(map(len, lines))
    assert longest[60] <= 60 < longest[120] <= 120


def test_colour_repeats_what_words_say() -> None:
    colour, plain = painted(), painted(NO_COLOR="1")
    assert b"\x1b[" in colour
    assert b"\x1b[" not in plain
    bare = re.sub(rb"\x1b\[[0-9;]*m", b"", colour)
    assert [line.rstrip() for line in bare.splitlines()] == plain.splitlines()
    assert painted(TERM="dumb") == plain
