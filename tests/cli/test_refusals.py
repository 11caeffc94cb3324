"""What the command line refuses: one line, code 2, nothing printed, and what to write instead."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

import gardens
from planned_once import planned_once
from sowtide.cli import cli
from sowtide.cli.options import Temperature

SMALL = gardens.text(
    gardens.wave(plants="2", start="06-01", every="14", count="2"),
    gardens.wave("bush bean", start="06-01", beds="Low", plants="2"),
    gardens.wave("bush bean", start="06-02", beds="Low", plants="10", name="late"),
    beds=(gardens.BED, "{bed: Low, size: 1 x 1}", "{bed: Lower, size: 1 x 10}"),
    crops=(gardens.crop(), "bush bean: {in_row: 30, between_rows: 30}"),
)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "garden.yaml").write_text(SMALL, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "400")
    monkeypatch.delenv("SOWTIDE_GARDEN", raising=False)
    monkeypatch.setattr("sowtide.cli.options.season_of", planned_once)
    return tmp_path


def ran(words: str, *more: str, today: bool = True) -> Result:
    arguments = [*words.split(), *more]
    return CliRunner().invoke(cli, [*arguments, "--today", "2026-06-10"] if today else arguments)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("fits --plants 4", "--plants, --sort, --cover and --instead-of go with a crop."),
        ("fits --sort late", "--plants, --sort, --cover and --instead-of go with a crop."),
        ("fits --cover 2", "--plants, --sort, --cover and --instead-of go with a crop."),
        ("fits --instead-of late-1", "--plants, --sort, --cover and --instead-of go with a crop."),
        ("fits --seedlings", "--seedlings goes with a crop, or with one bed."),
        ("fits --seedlings --bed L*", "--seedlings goes with a crop, or with one bed."),
        ("fits --seedlings --bed Low --weeks 3", "--seedlings goes with a crop, or with one bed."),
        ("fits fruit --weeks 3", "--weeks goes without a crop."),
        ("fits --bed Lowe", "There is no bed 'Lowe'. Did you mean 'Low"),
        ("fits --bed X*", "There is no bed like 'X*'."),
        ("fits --bed Xerxes --weeks 3", "There is no bed 'Xerxes'."),
        ("fits fruit --bed Lowe", "There is no bed 'Lowe'. Did you mean 'Low"),
        ("fits friut", "There is no crop 'friut' in the file or built in."),
        ("fits fruit --seedlings", "'fruit' is sown direct, it has no seedlings to plant out."),
        (
            "fits fruit --sort late",
            "The days to harvest of fruit are those of one sort: leave --sort out.",
        ),
        (
            "fits fruit --on 02-29",
            "The growing year 2026 has no day '02-29'; ask about 02-28 or 03-01.",
        ),
        (
            "fits fruit --on 2027-01-01",
            "2027-01-01 lies outside the growing year 2026 that the file plans; "
            "set season: 2027 there to ask about it.",
        ),
        ("fits fruit --on 06-31", "there is no day '06-31'."),
        ("fits fruit --on 31-06", "there is no day '31-06'."),
        ("fits fruit --on 6-30", "'6-30' is not a day in the years"),
        (
            "fits fruit --instead-of bush-bean --bed Low",
            "--instead-of looks at the wave's own bed: leave --bed out.",
        ),
        (
            "fits fruit --instead-of bush-bean --cover 2",
            "--instead-of weighs what can be picked: leave --cover out.",
        ),
        ("fits fruit --instead-of late", "'late-1' has no room that it could give up."),
        ("fits fruit --instead-of fruit", "'fruit' has 2 waves: fruit-1 … fruit-2."),
        ("fits fruit --instead-of fruit-3", "There is no wave 'fruit-3'. Did you mean 'fruit-"),
        ("fits fruit --instead-of xyz", "There is no wave 'xyz'. 'sowtide plan' names them all."),
        (
            "fits beet --instead-of fruit-1 --on 2026-12-30",
            "'fruit-1' is pulled out on 2026-08-04 anyway.",
        ),
        ("plan --labels --repack", "--labels goes without --repack."),
        ("plan --weeks 3", "--weeks is for --labels."),
        ("plan --repack --by bed", "--repack groups no waves: leave --by out."),
        ("plan --repack --bed Low", "--repack places the whole garden: leave --bed and --crop"),
        ("plan --repack --crop fruit", "--repack places the whole garden: leave --bed and --crop"),
        (
            "plan --crop friut",
            "The file has no waves of a crop like 'friut'. Did you mean 'fruit'?",
        ),
        ("plan --crop xyz", "The file has no waves of a crop like 'xyz'. It has "),
        ("plan --bed xyz", "There is no bed like 'xyz'."),
        ("plan --crop fruit --bed Low", "No fruit in Low; look in 'Long'."),
        ("frost --clear", "--clear, --cloudy and --cover go with --tonight."),
        ("frost --cloudy", "--clear, --cloudy and --cover go with --tonight."),
        ("frost --cover 2", "--clear, --cloudy and --cover go with --tonight."),
        ("frost --tonight 1C --clear --cloudy", "Choose one of --clear and --cloudy."),
        ("frost --tonight 34", "'34' has no unit; write 34F or 34C."),
        ("frost --tonight cold", "'cold' is no temperature; write it as 34F or 1C."),
        ("needs --until 2026-06-09", "--until 2026-06-09 lies before today, 2026-06-10."),
        ("needs --until 02-29", "2026 has no 29 February."),
        ("week --week W54", "The growing year 2026 has no week 'W54'."),
        ("week --week 31", "'31' is not a week in the years 1900 to 2200; write it as W31"),
        (
            "supply fruit --fill all",
            "Write --fill before or behind the crop alone: --fill 'fruit'.",
        ),
        ("supply xyz", "The garden neither wants nor grows 'xyz'."),
        ("supply --fill --output garden.yaml", "The lines are pasted by you: --output never is"),
        ("crops friut --demo", "There is no crop 'friut'."),
        ("did --list --undo", "--list and --undo stand alone."),
        ("did --list fruit-1", "--list and --undo stand alone."),
        ("did --undo --note x", "--list and --undo stand alone."),
        ("did --undo --sick", "--list and --undo stand alone."),
        ("did fruit-1 sown --demo", "The demo garden keeps no journal; name a file with --garden."),
        ("did fruit-1 sown --format csv", "What is written is not printed as csv."),
        ("new --demo --latitude 50", "With --demo and --from the place is that of their file."),
        ("new --from garden.yaml --latitude 50", "With --demo and --from the place is that of"),
        ("new --from garden.yaml --demo", "Choose one of --demo and --from."),
        ("week --demo --garden garden.yaml", "Choose one of --demo and --garden."),
    ],
)
def test_what_goes_not_together_or_is_not_there(folder: Path, words: str, said: str) -> None:
    result = ran(words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert said in result.stderr
    assert sorted(path.name for path in folder.iterdir()) == ["garden.yaml"]
    assert (folder / "garden.yaml").read_text(encoding="utf-8") == SMALL


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("schema gardn", "There is no schema of 'gardn': did you mean 'garden'?"),
        ("schema xyz", "There is no schema of 'xyz': there are garden, journal, week"),
        ("help oods", "There is no topic 'oods'. Did you mean 'odds'?"),
        ("help xyz", "There is no topic 'xyz'. 'sowtide help' lists what there is."),
        ("wek", "There is no command 'wek'. Did you mean 'week'?"),
        ("xyz", "There is no command 'xyz'."),
    ],
)
def test_a_word_that_is_none_of_those_there_are(words: str, said: str) -> None:
    result = ran(words, today=False)
    assert (result.exit_code, result.stdout) == (2, "")
    assert said in result.stderr


@pytest.mark.parametrize(
    ("words", "weeks"), [("fits", 8), ("fits --weeks 1", 1), ("fits --weeks 9 --bed Low", 9)]
)
def test_what_comes_free_is_looked_for_in_eight_weeks_unless_told(
    folder: Path, words: str, weeks: int
) -> None:
    found = json.loads(ran(words, "--format", "json").stdout)
    first, last = date.fromisoformat(found["from"]), date.fromisoformat(found["to"])
    assert (last - first).days + 1 == 7 * weeks
    assert first == date(2026, 6, 10)


@pytest.mark.parametrize(
    "words", ["fits --seedlings --bed Low", "fits fruit --on 12-31", "frost --tonight 1C --clear"]
)
def test_what_goes_together_is_answered(folder: Path, words: str) -> None:
    assert ran(words).exit_code == 0


BOUNDS = {
    "week --weeks": (1, 53),
    "week --high": ("-20C", "60C"),
    "week --revision": (0, 2_147_483_647),  # of a calendar's revisions the most that a phone takes
    "fits --plants": (1, 1_000_000),
    "fits --weeks": (1, 53),
    "fits --cover": (0.1, 30),
    "plan --weeks": (1, 53),
    "plan --revision": (0, 2_147_483_647),
    "did --plants": (0, 1_000_000),
    "frost --tonight": ("-60C", "40C"),
    "frost --cover": (0.1, 30),
    "new --latitude": (-90, 90),
    "new --warmest-month": (-90, 130),
    "new --coldest-month": (-90, 130),
    "new --beds": (1, 500),
}
"""The least and the most of each option that is a number."""


def parameters() -> dict[str, click.Parameter]:
    found = {}
    for name, command in COMMANDS.items():
        for each in command.params:
            found[f"{name} {each.opts[0]}"] = each
    return found


COMMANDS = {
    name: command
    for name in cli.list_commands(click.Context(cli))
    if (command := cli.get_command(click.Context(cli), name)) is not None
}


def takes(each: click.Parameter, value: float | str) -> bool:
    try:
        each.type.convert(str(value), each, None)
    except click.UsageError:
        return False
    return True


def test_every_number_has_its_bounds_here() -> None:
    number = (click.IntRange, click.FloatRange, Temperature)
    assert {name for name, each in parameters().items() if isinstance(each.type, number)} == {
        *BOUNDS
    }


@pytest.mark.parametrize("name", BOUNDS)
def test_an_option_takes_its_bounds_and_nothing_beyond(name: str) -> None:
    each, (low, high) = parameters()[name], BOUNDS[name]
    below, above = "-20.1C", "60.1C"
    if isinstance(low, str) or isinstance(high, str):
        low, high = str(low), str(high)
        below, above = (f"{float(end[:-1]) + by:.1f}C" for end, by in ((low, -0.1), (high, 0.1)))
    else:
        below, above = (
            (0, 30.1) if name.endswith("--cover") else (low - 1, high + 1)  # type: ignore[assignment]
        )
    assert (takes(each, low), takes(each, high)) == (True, True)
    assert (takes(each, below), takes(each, above)) == (False, False)


def test_a_degree_fahrenheit_is_told_apart() -> None:
    high = parameters()["week --high"]
    assert takes(high, "140F")  # 60 °C
    assert not takes(high, "140.1F")
    assert high.type.convert("50f", high, None) == 10


def test_defaults_of_options() -> None:
    found = {name: each.default for name, each in parameters().items()}
    assert found["week --weeks"] == 1
