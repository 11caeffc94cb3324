"""The documents are true: their examples run, their links lead somewhere, nothing is left out."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from docs_blocks import (
    ANY,
    ROOT,
    Command,
    agrees,
    blocks,
    commands,
    documents,
    folder_of_its_own,
    refreshed,
)
from sowtide.cli import cli
from sowtide.cli.group import COMMANDS
from sowtide.garden.care import CareKeys, LabelKeys
from sowtide.garden.keys import known_keys, schema
from sowtide.report import REPORTS
from sowtide.report.formats.schema import field_paths
from sowtide.schedule.checks import rules

README = ROOT / "README.md"
GARDEN_FILE = ROOT / "docs" / "garden-file.md"
COUNTING = ROOT / "docs" / "counting.md"
COMMANDS_PAGE = ROOT / "docs" / "commands.md"

_LINK = re.compile(r"\[[^\]]*\]\(([^)\s]+)\)")
_HEADING = re.compile(r"(?m)^(#{1,6}) (.+)$")
_CODE = re.compile(r"`([^`]+)`")
_RULE_ROW = re.compile(r"(?m)^\| (\S+) \| (\w+) \|")

_each_document = pytest.mark.parametrize(
    "path", documents(), ids=lambda path: str(path.relative_to(ROOT))
)


def _prose(text: str) -> str:
    """Return a document without what stands in its blocks."""
    return re.sub(r"(?ms)^(`{3,})\w*\n.*?^\1$", "", text)


def _anchors(text: str) -> list[str]:
    """Return the names that a document's headings can be linked by."""
    plain = (re.sub(r"[^\w\- ]", "", found[2].lower()) for found in _HEADING.finditer(_prose(text)))
    return [name.strip().replace(" ", "-") for name in plain]


def _section(text: str, heading: str) -> str:
    """Return what stands under a heading, up to the next one of its rank or above."""
    found = re.search(rf"(?m)^(#+) {re.escape(heading)}$", text)
    assert found is not None, f"there is no section {heading!r}"
    rest = text[found.end() :]
    after = re.search(rf"(?m)^#{{1,{len(found[1])}}} ", rest)
    return rest[: after.start()] if after else rest


def _rows(section: str) -> Iterator[str]:
    """Yield the first cells of a section's tables."""
    for line in section.split("\n"):
        if line.startswith("| `"):
            yield line.split(" | ")[0]


def _commands_of(path: Path) -> Iterator[Command]:
    for block in blocks(path.read_text(encoding="utf-8")):
        if block.language == "console":
            yield from commands(block)


# Examples


@_each_document
def test_examples_print_what_the_document_says(path: Path) -> None:
    said = []
    with folder_of_its_own() as folder:
        for block in blocks(path.read_text(encoding="utf-8")):
            if block.mark is not None:
                folder.write(block)
            if block.language != "console":
                continue
            for command in commands(block):
                printed = folder.run(command)
                if not agrees(command.expected, printed):
                    wanted = "\n".join(refreshed(command.expected, printed))
                    said.append(f"{path.name}:{command.number}: $ {command.line}\n{wanted}")
    assert not said, "now printed (python tests/docs_blocks.py --update):\n" + "\n".join(said)


def test_parts_of_the_reference_are_read_without_an_error() -> None:
    with folder_of_its_own() as folder:
        for block in blocks(GARDEN_FILE.read_text(encoding="utf-8")):
            if block.mark is not None:
                folder.write(block)
                assert folder.errors_of(block) == [], f"{GARDEN_FILE.name}:{block.start}"


@_each_document
def test_examples_do_not_depend_on_the_clock(path: Path) -> None:
    assert [c.line for c in _commands_of(path) if c.depends_on_the_clock] == []


@_each_document
def test_blocks_have_a_language_that_is_known(path: Path) -> None:
    known = {"console", "yaml", "sh", "python", "text", "tsv"}
    found = {block.language for block in blocks(path.read_text(encoding="utf-8"))}
    assert found <= known


def test_readme_and_garden_file_show_no_yaml_that_is_not_read() -> None:
    for path in (README, GARDEN_FILE):
        for block in blocks(path.read_text(encoding="utf-8")):
            assert block.language != "yaml" or block.mark is not None, f"{path}:{block.start}"


def test_readme_fits_80_columns() -> None:
    wide = [
        line
        for block in blocks(README.read_text(encoding="utf-8"))
        for line in block.lines
        if block.language == "console" and len(line) > 80
    ]
    assert wide == []


@pytest.mark.parametrize(
    ("expected", "printed", "same"),
    [
        ("a b", "a b", True),
        ("a b", "a b c", False),
        ("a ... c", "a b c", True),
        ("a ... c", "a c", True),
        ("a ... c", "a b", False),
        ("a ...", "a b c", True),
        ("... b ...", "a b c", True),
        ("... x ...", "a b c", False),
        ("a b ... b c", "a b c", False),
    ],
)
def test_dots_stand_for_any_lines(expected: str, printed: str, same: bool) -> None:
    assert agrees(tuple(expected.split()), tuple(printed.split())) is same


def test_refreshed_output_agrees_and_stays_cut() -> None:
    printed = ("a2", "b", "m2", "n2", "o", "z2")
    new = refreshed(("a1", ANY, "m1", "n1", ANY, "z1"), printed)
    assert new == ("a2", ANY, "m2", "n2", ANY, "z2")
    assert agrees(new, printed)


# README


def test_readme_has_two_commands_to_set_up_and_each_is_one_line() -> None:
    shell = [b for b in blocks(README.read_text(encoding="utf-8")) if b.language == "sh"]
    assert [len(block.lines) for block in shell] == [1, 1]
    demo, test = (block.lines[0] for block in shell)
    assert demo.startswith("python3 -m venv .venv && ")
    assert demo.endswith(" && .venv/bin/sowtide week --demo")
    assert test.startswith("python3 -m venv .venv && ")
    assert test.endswith(" && .venv/bin/pytest -n auto")


# Links


@_each_document
def test_links_lead_to_a_file_and_a_section(path: Path) -> None:
    lost = []
    for target in _LINK.findall(_prose(path.read_text(encoding="utf-8"))):
        if target.startswith(("http://", "https://", "mailto:")):
            continue
        name, _, anchor = target.partition("#")
        file = path.parent / name if name else path
        if not file.exists() or (anchor and anchor not in _anchors(file.read_text("utf-8"))):
            lost.append(target)
    assert lost == []


@_each_document
def test_sections_have_different_names_where_they_are_linked(path: Path) -> None:
    anchors = _anchors(path.read_text(encoding="utf-8"))
    assert sorted(set(anchors)) == sorted(anchors)


def test_every_document_is_reached_from_the_readme() -> None:
    linked = {(ROOT / t.partition("#")[0]).resolve() for t in _LINK.findall(README.read_text())}
    assert {path.resolve() for path in documents()} - {README.resolve()} <= linked


# Commands


@pytest.mark.parametrize("name", COMMANDS)
def test_options_of_a_command_are_in_its_section_and_no_others(name: str) -> None:
    command = cli.get_command(None, name)  # type: ignore[arg-type]
    assert command is not None
    section = _section(COMMANDS_PAGE.read_text(encoding="utf-8"), f"sowtide {name}")
    options = {opt for param in command.params for opt in param.opts if opt.startswith("--")}
    named = set(re.findall(r"--[a-z][a-z-]*[a-z]", section))
    assert options <= named
    assert named <= options | {"--help"}


def test_options_of_the_group_are_documented() -> None:
    text = COMMANDS_PAGE.read_text(encoding="utf-8")
    assert all(opt in text for param in cli.params for opt in param.opts)


def test_every_command_has_a_section_and_no_other_does() -> None:
    text = COMMANDS_PAGE.read_text(encoding="utf-8")
    assert re.findall(r"(?m)^## sowtide (\w+)$", text) == list(COMMANDS)
    # The table at the head leads to each of them.
    assert re.findall(r"(?m)^\| \[`sowtide (\w+).*?`\]\(#sowtide-\1\) \|", text) == list(COMMANDS)


def test_every_problem_of_the_plan_is_in_the_section_of_check() -> None:
    section = _section(COMMANDS_PAGE.read_text(encoding="utf-8"), "sowtide check")
    rows = [(_CODE.findall(cell)[0], level) for cell, level in _RULE_ROW.findall(section)]
    assert sorted(rows) == sorted((rule.code, rule.level.value) for rule in rules())


# JSON and CSV


@pytest.mark.parametrize("name", REPORTS)
def test_json_fields_are_documented_and_no_others(name: str) -> None:
    section = _section(COMMANDS_PAGE.read_text(encoding="utf-8"), name)
    documented = {field for cell in _rows(section) for field in _CODE.findall(cell)}
    found = {"version", *field_paths(REPORTS[name].of)}
    for field in documented:  # one whose own are told elsewhere stands for them
        found = {field if each.startswith(f"{field}.") else each for each in found}
    assert found == documented


def test_csv_columns_are_documented_in_order() -> None:
    section = _section(COMMANDS_PAGE.read_text(encoding="utf-8"), "CSV")
    for command, report in REPORTS.items():
        if report.rows is not None:
            columns = report.rows.columns
            named = _section_after(section, command)
            assert [word for word in named if word in columns] == list(columns)


def _section_after(section: str, command: str) -> list[str]:
    paragraph = section[section.index(f"[{command}](") :].split("\n\n")[0]
    return [" ".join(word.split()) for word in _CODE.findall(paragraph)]


# The file's keys


@pytest.mark.parametrize(
    ("heading", "section"),
    [
        ("The file", schema.FileKeys),
        ("site", schema.SiteKeys),
        ("frost", schema.FrostKeys),
        ("normals", schema.NormalsKeys),
        ("beds", schema.BedKeys),
        ("crops", schema.CropKeys),
        ("heat", schema.HeatKeys),
        ("waves", schema.WaveKeys),
        ("want", schema.WantKeys),
        ("watch", schema.WatchKeys),
        ("care", CareKeys),
        ("label", LabelKeys),
    ],
)
def test_keys_of_the_file_are_documented_and_no_others(heading: str, section: type) -> None:
    text = _section(GARDEN_FILE.read_text(encoding="utf-8"), heading)
    assert [_CODE.findall(cell)[0] for cell in _rows(text)] == list(known_keys(section))


# The rules


def _rules_in_source() -> dict[str, str]:
    """Return the rules that steps of dates follow, each with a place in the source."""
    found = {}
    for path in sorted((ROOT / "src").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)):
                continue
            owner = node.func.value
            begins = node.func.attr == "on" and isinstance(owner, ast.Name) and owner.id == "Dated"
            if begins or node.func.attr == "then":
                rule = node.args[1]
                place = f"{path.name}:{node.lineno}"
                assert isinstance(rule, ast.Constant), f"{place}: the rule is not written out"
                found[rule.value] = place
    return found


def test_every_rule_that_a_step_follows_has_a_section() -> None:
    rules = _rules_in_source()
    assert len(rules) > 10
    anchors = _anchors(COUNTING.read_text(encoding="utf-8"))
    assert {rule: place for rule, place in rules.items() if rule not in anchors} == {}


# Continuous checks


_CI = ROOT / ".ci" / "run"


@pytest.mark.skipif(not _CI.exists(), reason="a source archive comes without .ci")
def test_ci_runs_the_readmes_test_command() -> None:
    script = _CI.read_text(encoding="utf-8")
    test = [b for b in blocks(README.read_text(encoding="utf-8")) if b.language == "sh"][1]
    assert test.lines[0] in script or "README.md" in script
