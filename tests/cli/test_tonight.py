"""``sowtide frost --tonight``: a low with its unit, and nothing else."""

from __future__ import annotations

import json
import sys

import pytest

from sowtide.cli import main


def run(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, *words: str
) -> tuple[int, str, str]:
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setattr("gc.disable", lambda: None)
    monkeypatch.setattr("gc.freeze", lambda: None)
    monkeypatch.setattr(sys, "argv", ["sowtide", "frost", "--demo", *words])
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
    assert out.index("PICK FIRST") < out.index("COVER\n") < out.index("LEAVE:")
    assert "tomato-1" in out[out.index("COVER\n") : out.index("LEAVE:")]
    words = (*words, "--cover", "1.5", "--format", "json")
    _, out, _ = run(capsys, monkeypatch, *words)
    waves = [wave for bed in json.loads(out)["beds"] for wave in bed["waves"]]
    (tomato,) = [wave for wave in waves if wave["wave"] == "tomato-1"]
    # 30 °F is 2 °F below what ends it, and such a sheet keeps off 1.5 °F.
    assert (tomato["action"], tomato["beyond_cover"]) == ("pick first", True)
