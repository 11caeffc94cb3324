"""A share of the mutated and drawn gardens that `mutate.py` makes by the thousand."""

from __future__ import annotations

from pathlib import Path

import pytest

from mutations.drawn_cases import drawn
from mutations.mutate import COLUMNS, DEMO, Case, Outcome, cases, faults, run
from planned_once import planned_once

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*/garden.yaml"))


@pytest.mark.parametrize("seed", range(4))
def test_whatever_stands_in_the_file_a_command_leaves_with_its_word(
    tmp_path: Path, seed: int
) -> None:
    codes = set()
    for case in cases(40, seed):
        found = run(case, tmp_path)
        assert faults(case, found) == [], case
        codes.add(found.code)
    assert codes == {0, 1, 2}


@pytest.mark.parametrize("seed", range(4))
def test_no_screen_of_a_drawn_garden_is_wider_than_its_page(tmp_path: Path, seed: int) -> None:
    codes = []
    for case in drawn(10, seed, screens=4):
        found = run(case, tmp_path)
        assert faults(case, found) == [], case
        codes.append(found.code)
    assert codes.count(0) > 12


@pytest.mark.parametrize("path", [DEMO, *EXAMPLES[:1]], ids=lambda path: path.parent.name)
@pytest.mark.parametrize("columns", COLUMNS)
def test_no_screen_of_ours_is_wider_than_its_page(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, path: Path, columns: int
) -> None:
    monkeypatch.setattr("sowtide.cli.options.season_of", planned_once)
    text = path.read_text(encoding="utf-8")
    commands = [
        ("week",),
        ("week", "--by", "work"),
        ("calendar",),
        ("plan",),
        ("plan", "--by", "bed"),
    ]
    commands += [("frost",), ("check",), ("crops",), ("crops", "carrot"), ("fits", "radish")]
    for command in commands:
        case = Case(text, None, (*command, "--today", "2026-07-16"), columns)
        assert faults(case, run(case, tmp_path)) == [], command


def test_what_is_looked_for_is_seen() -> None:
    case = Case("", None, ("plan", "--format", "json"), 60)
    text = Case("", None, ("plan",), 60)
    assert faults(text, Outcome(3, "", "sorry")) == ["left with 3: sorry"]
    assert faults(text, Outcome(2, "something", "no")) == ["printed and left with 2"]
    assert faults(text, Outcome(1, "", "")) == ["left with 1 without a word"]
    assert faults(text, Outcome(0, "a\x1b[1mb", "")) == ["printed U+001B"]
    assert faults(text, Outcome(0, "ab " * 21, "")) == [f"too wide: {'ab ' * 21!r}"]
    assert faults(text, Outcome(0, "x" * 90, "")) == []
    assert faults(case, Outcome(0, "{", ""))[0].startswith("no json")
    assert faults(case, Outcome(0, "{}", "")) == []
