"""Topics of help, the man page that is made of them, and what a shell completes."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.shell_completion import BashComplete, FishComplete, ZshComplete
from click.testing import CliRunner, Result

import man_page
from sowtide.cli import cli
from sowtide.cli.topics import TOPICS
from sowtide.garden.described import garden_schema, journal_schema

ROOT = Path(__file__).parents[2]
ALLOTMENT = ("--garden", str(ROOT / "examples/allotment/garden.yaml"), "--today", "2026-11-20")
MARKET = ("--garden", str(ROOT / "examples/market-garden/garden.yaml"), "--today", "2026-07-16")


def ran(*arguments: str) -> Result:
    return CliRunner().invoke(cli, arguments)


def test_help_lists_every_topic() -> None:
    listed = [line.split()[0] for line in ran("help").output.splitlines()]
    assert listed == [topic.name for topic in TOPICS]


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.name)
@pytest.mark.parametrize("columns", [60, 80, 120])
def test_a_topic_says_all_of_it(
    topic: object, columns: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    name, paragraphs = topic.name, topic.paragraphs  # type: ignore[attr-defined]
    found = ran("help", name)
    assert found.exit_code == 0
    flat = " ".join(found.output.split())
    for text in paragraphs:
        assert " ".join(text.split()) in flat
    prose = [line for line in found.output.splitlines() if not line.startswith("  ")]
    assert max(map(len, prose)) <= columns


def test_commands_that_a_topic_shows_are_commands() -> None:
    shown = [t for topic in TOPICS for t in topic.paragraphs if t.startswith("  sowtide ")]
    assert len(shown) > 8
    for text in shown:
        name, *more = text.split()[1:]
        command = cli.get_command(None, name)  # type: ignore[arg-type]
        assert command is not None, text
        options = {option for param in command.params for option in param.opts}
        assert {word for word in more if word.startswith("--")} <= options


def test_a_topic_that_there_is_not() -> None:
    found = ran("help", "papper")
    assert found.exit_code == 2
    assert "Did you mean 'paper'?" in found.output


def test_the_exit_codes_are_those_of_the_document() -> None:
    (topic,) = (each for each in TOPICS if each.name == "exit")
    told = set(re.findall(r"(\d+):", " ".join(topic.paragraphs)))
    section = (ROOT / "docs/commands.md").read_text(encoding="utf-8").partition("## Exit codes")[2]
    assert told == set(re.findall(r"(?m)^\| (\d+) \|", section.partition("\n## ")[0]))


def test_the_man_page_is_made_of_the_commands_and_topics() -> None:
    kept = man_page.PAGE.read_text(encoding="utf-8")
    assert kept == man_page.man_page(), "python tests/man_page.py makes it anew"
    # What a macro would swallow: a line may begin with a dot only where it is one.
    known = {".TH", ".SH", ".SS", ".PP", ".TP", ".B", ".EX", ".EE"}
    assert {line.split()[0] for line in kept.splitlines() if line.startswith(".")} <= known


@pytest.mark.parametrize(
    ("asked", "schema"),
    [((), garden_schema), (("garden",), garden_schema), (("journal",), journal_schema)],
)
def test_the_schema_of_a_file_is_the_one_asked_for(
    asked: tuple[str, ...], schema: Callable[[], dict[str, Any]]
) -> None:
    assert json.loads(ran("schema", *asked).output) == schema()
    assert schema()["title"]


def test_the_schema_of_what_is_printed_is_named_after_its_command() -> None:
    for name in ("plan", "plan --repack", "week"):
        found = json.loads(ran("schema", name).output)
        assert found["title"] == f"What sowtide {name} prints as JSON"


def completed(*words: str, begun: str = "", shell: type = ZshComplete) -> list[str]:
    complete = shell(cli, {}, "sowtide", "_SOWTIDE_COMPLETE")
    return [item.value for item in complete.get_completions(list(words), begun)]


@pytest.mark.parametrize("shell", [BashComplete, ZshComplete, FishComplete])
def test_names_of_the_garden_are_completed(shell: type) -> None:
    waves = completed("why", "--demo", begun="bush", shell=shell)
    assert waves == [f"bush-bean-{n}" for n in range(1, 6)]
    assert "kale-1" in completed("fits", "beet", "--demo", "--instead-of", shell=shell)
    assert completed("week", "--demo", "--bed", shell=shell)[:2] == ["Hoops", "South"]
    assert completed("calendar", "--demo", "--crop", begun="let", shell=shell) == ["lettuce"]
    assert completed("did", "--demo", begun="kal", shell=shell) == ["kale-1"]
    assert completed("did", "--demo", begun="qx", shell=shell) == ["qxzz"]
    assert completed("did", "--demo", "kale-1", begun="plan", shell=shell) == ["planted out"]
    assert "broad bean" in completed("crops", begun="broad", shell=shell)
    assert "plan --repack" in completed("schema", begun="plan", shell=shell)
    assert completed("help", begun="ph", shell=shell) == ["phone"]


def test_of_a_large_garden_series_are_named_without_planning_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("sowtide.cli.options.season_of", None)
    found = completed("why", *MARKET, begun="box-b")
    assert "box-beet-" in found
    assert completed("plan", *MARKET, "--bed", begun="Hill 1") != []


def test_where_no_garden_can_be_read_there_is_nothing_to_complete(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert completed("why") == []
    assert completed("week", "--bed") == []
    assert completed("why", "--demo", "--garden", "garden.yaml") == []
    Path("garden.yaml").write_text("beds: 1\n", encoding="utf-8")
    assert completed("why") == []


def test_bash_puts_down_a_name_with_its_spaces_escaped(tmp_path: Path) -> None:
    program, script = tmp_path / "sowtide", tmp_path / "complete.sh"
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m sowtide "$@"\n', encoding="utf-8")
    program.chmod(0o755)
    script.write_text(
        'eval "$(_SOWTIDE_COMPLETE=bash_source sowtide)"\n'
        "COMP_WORDS=(sowtide crops broad); COMP_CWORD=2\n"
        "_sowtide_completion sowtide\n"
        'printf "%s\\n" "${COMPREPLY[@]}"\n',
        encoding="utf-8",
    )
    kept = {k: v for k, v in os.environ.items() if not k.startswith("SOWTIDE")}
    kept["PATH"] = f"{tmp_path}{os.pathsep}{kept['PATH']}"
    run = subprocess.run(
        ["bash", str(script)], capture_output=True, text=True, check=True, cwd=tmp_path, env=kept
    )
    assert run.stdout.splitlines() == [r"broad\ bean"]
