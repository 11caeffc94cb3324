"""The weather at the door: ``frost --tonight`` and ``week --high``, each with its unit."""

from __future__ import annotations

import json
import sys

import pytest

from planned_once import planned_once
from sowtide.cli import main


@pytest.fixture(autouse=True)
def _planned_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sowtide.cli.options.season_of", planned_once)


def run(
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    *words: str,
    command: str = "frost",
    width: str = "80",
) -> tuple[int, str, str]:
    monkeypatch.setenv("COLUMNS", width)
    monkeypatch.setattr("gc.disable", lambda: None)
    monkeypatch.setattr("gc.freeze", lambda: None)
    monkeypatch.setattr(sys, "argv", ["sowtide", command, "--demo", *words])
    with pytest.raises(SystemExit) as left:
        main()
    out, err = capsys.readouterr()
    return int(left.value.code or 0), out, err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--tonight", "34"), "'34' has no unit; write 34F or 34C."),
        (("--tonight", "cold"), "'cold' is no temperature; write it as 34F or 1C."),
        (("--tonight", "34K"), "'34K' is no temperature"),
        (("--tonight", "134F"), "'134F' is not between -76 °F and 104 °F."),
        (("--clear",), "--clear, --cloudy and --cover go with --tonight."),
        (("--tonight", "34F", "--clear", "--cloudy"), "Choose one of --clear and --cloudy."),
    ],
)
def test_wrong_usage_gets_one_line(
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    words: tuple[str, ...],
    said: str,
) -> None:
    code, out, err = run(capsys, monkeypatch, *words)
    assert (code, out) == (2, "")
    assert said in err


@pytest.mark.parametrize(
    ("written", "celsius"),
    [("34F", 1.1), ("34f", 1.1), ("34 °F", 1.1), ("1C", 1.0), ("-2.5c", -2.5), ("1°C", 1.0)],
)
def test_a_low_is_read_with_its_unit(
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    written: str,
    celsius: float,
) -> None:
    _, out, _ = run(capsys, monkeypatch, "--tonight", written, "--format", "json")
    assert json.loads(out)["low_c"] == celsius


def test_the_demos_september_evening(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    words = ("--today", "2026-09-19", "--tonight", "34F", "--clear")
    _, out, _ = run(capsys, monkeypatch, *words)
    assert "At the plants down to 30 °F, clear and calm." in out
    heads = ("PICK FIRST", "COVERS ON", "COVER\n", "WATER EARLY", "LEAVE:")
    assert [out.index(head) for head in heads] == sorted(out.index(head) for head in heads)
    hoops = out[out.index("COVERS ON") :].splitlines()[1]
    assert hoops.split()[:2] == ["[", "]"]
    assert "Hoops  its cover" in hoops
    assert "tomato-1" in out[out.index("COVER\n") : out.index("LEAVE:")]
    words = (*words, "--cover", "1.5", "--format", "json")
    _, out, _ = run(capsys, monkeypatch, *words)
    waves = [wave for bed in json.loads(out)["beds"] for wave in bed["waves"]]
    (tomato,) = [wave for wave in waves if wave["wave"] == "tomato-1"]
    # 30 °F is 2 °F below what ends it, and such a sheet keeps off 1.5 °F.
    assert (tomato["action"], tomato["beyond_cover"]) == ("pick first", True)


READ, DONE = 200, 40
"""Words read in a minute, and seconds for a box: to walk there and do it. Both our own."""


def minutes_of(sheet: str) -> float:
    """Return how long it takes to read a sheet and to do what has a box on it."""
    return len(sheet.split()) / READ + sheet.count("[ ]") * DONE / 60


@pytest.mark.parametrize("day", ["2026-09-10", "2026-09-19", "2026-09-24", "2026-10-01"])
@pytest.mark.parametrize("low", ["36F", "34F", "32F", "28F"])
@pytest.mark.parametrize("width", ["60", "80"])
def test_the_sheets_of_september_are_acted_upon_in_ten_minutes(
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    day: str,
    low: str,
    width: str,
) -> None:
    words = ("--today", day, "--tonight", low)
    _, out, _ = run(capsys, monkeypatch, *words, width=width)
    assert "[ ]" in out
    assert minutes_of(out) < 10
    assert max(map(len, out.splitlines())) <= int(width)
    # Of one kind of work each bed is gone to once, in the order in which they stand.
    _, out, _ = run(capsys, monkeypatch, *words, "--format", "json")
    beds = [bed["bed"] for bed in json.loads(out)["beds"]]
    walk = ["Hoops", "South", "Fence", "Well", "Shed"]
    assert beds == [bed for bed in walk if bed in beds]


@pytest.mark.parametrize("high", ["90F", "96F", "102F"])
def test_the_sheet_of_the_heat_of_july_is_acted_upon_in_ten_minutes(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, high: str
) -> None:
    _, out, _ = run(capsys, monkeypatch, "--high", high, command="week")
    door = out[: out.index("\nPUMP HOUSE GARDEN")]  # before the sheet of the week itself
    assert door.count("[ ]") > 5
    assert minutes_of(door) < 10


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("96", "'96' has no unit; write 96F or 96C."),
        ("hot", "'hot' is no temperature"),
        ("96C", "'96C' is not between -20 °C and 60 °C."),
    ],
)
def test_how_hot_a_week_gets_is_read_with_its_unit(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, written: str, said: str
) -> None:
    code, out, err = run(capsys, monkeypatch, "--high", written, command="week")
    assert (code, out) == (2, "")
    assert said in err
    _, out, _ = run(capsys, monkeypatch, "--high", "96F", "--format", "json", command="week")
    assert json.loads(out)["heat"]["high_c"] == 35.6


def test_the_demos_july_heat(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    _, out, _ = run(capsys, monkeypatch, "--high", "96F", command="week")
    door = out[: out.index("CANNOT SLIP")]
    heads = ("SHADE AND WATER FIRST", "THEN WATER", "SOW IN THE COOL", "NOT IN THIS HEAT", "EXPECT")
    places = [door.index(head) for head in heads]
    assert places == sorted(places)
    assert len(door.splitlines()) < 50  # a page to hang at the door
    _, out, _ = run(capsys, monkeypatch, "--today", "2026-06-25", "--high", "99F", command="week")
    picked = out[out.index("PICK NOW") : out.index("THEN WATER")]
    assert "lettuce-3, -4, -5" in picked
    assert "pea-1" in picked
