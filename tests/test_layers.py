"""The package's layers: what a module may import, open, read and print."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

import sowtide

ROOT = Path(sowtide.__file__).parent
LAYERS = (
    "values",
    "diagnostics",
    "days",
    "units",
    "reasons",
    "garden",
    "climate",
    "schedule",
    "season",
    "report",
    "cli",
)
AT_THE_EDGES = ("sowtide", "sowtide.__main__")
VAGUE = {"utils", "util", "helpers", "helper", "common", "misc", "manager", "base", "core"}
LONGEST = 400

FILES = {
    ".".join(("sowtide", *path.relative_to(ROOT).with_suffix("").parts)).removesuffix(
        ".__init__"
    ): path
    for path in sorted(ROOT.rglob("*.py"))
}
TREES = {name: ast.parse(path.read_text(encoding="utf-8")) for name, path in FILES.items()}
EVERY = pytest.mark.parametrize("name", FILES)


def imports(name: str) -> Iterator[str]:
    """Yield every module that a module imports, at its top or inside a function."""
    for node in ast.walk(TREES[name]):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            module = node.module or ""
            if node.level:
                inside = name.split(".")
                if FILES[name].name != "__init__.py":
                    inside = inside[:-1]
                inside = inside[: len(inside) - node.level + 1]
                module = ".".join(filter(None, (*inside, node.module)))
            for alias in node.names:
                whole = f"{module}.{alias.name}"
                yield whole if whole in FILES else module


def layer(name: str) -> str:
    """Return the layer a module of the package stands in."""
    return name.split(".")[1]


def calls(name: str) -> Iterator[tuple[str, int]]:
    """Yield what a module calls, as written, such as ``path.open``, with its line."""
    for node in ast.walk(TREES[name]):
        if isinstance(node, ast.Call):
            yield ast.unparse(node.func), node.lineno


def test_every_module_stands_in_a_layer() -> None:
    assert {layer(name) for name in FILES if name not in AT_THE_EDGES} == set(LAYERS)


@EVERY
def test_a_module_imports_only_what_stands_before_it(name: str) -> None:
    if name in AT_THE_EDGES:
        return
    allowed = LAYERS[: LAYERS.index(layer(name)) + 1]
    inner = [module for module in imports(name) if module.startswith("sowtide")]
    assert [module for module in inner if module == "sowtide" or layer(module) not in allowed] == []


def test_no_imports_run_in_a_circle() -> None:
    graph = {name: {other for other in imports(name) if other in FILES} for name in FILES}
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        pytest.fail(" imports ".join(error.args[1]))


@pytest.mark.parametrize(
    ("library", "only_in"),
    [
        ("yaml", ("sowtide.garden.tree",)),
        ("pydantic", ("sowtide.garden",)),
        ("pydantic_core", ("sowtide.garden",)),
        ("click", ("sowtide.cli",)),
        ("rich", ("sowtide.report",)),
    ],
)
def test_a_library_is_imported_in_one_place(library: str, only_in: tuple[str, ...]) -> None:
    users = [
        name for name in FILES if any(module.split(".")[0] == library for module in imports(name))
    ]
    assert users, f"nothing imports {library} any more"
    assert [
        name for name in users if not f"{name}.".startswith(tuple(f"{p}." for p in only_in))
    ] == []


@EVERY
def test_files_are_opened_only_where_they_are_read_or_written(name: str) -> None:
    if name.startswith(("sowtide.garden", "sowtide.climate", "sowtide.season", "sowtide.cli")):
        return
    opening = {"open", "read_text", "read_bytes", "write_text", "write_bytes"}
    assert [call for call in calls(name) if call[0].rsplit(".", 1)[-1] in opening] == []


@EVERY
def test_the_clock_is_read_only_where_today_gets_its_default(name: str) -> None:
    if name == "sowtide.cli.options":
        return
    clocks = {"today", "now", "utcnow", "time", "localtime", "gmtime", "monotonic"}
    assert [call for call in calls(name) if call[0].rsplit(".", 1)[-1] in clocks] == []


@EVERY
def test_nothing_below_the_command_line_prints_or_exits(name: str) -> None:
    if name.startswith("sowtide.cli") or name == "sowtide.__main__":
        return
    loud = {"print", "exit", "quit", "sys.exit", "os._exit", "input"}
    assert [call for call in calls(name) if call[0] in loud] == []
    raised = [node.id for node in ast.walk(TREES[name]) if isinstance(node, ast.Name)]
    assert "SystemExit" not in raised
    streams = [ast.unparse(n) for n in ast.walk(TREES[name]) if isinstance(n, ast.Attribute)]
    assert {"sys.stdout", "sys.stderr"}.isdisjoint(streams)


@EVERY
def test_a_module_can_be_read_in_one_sitting(name: str) -> None:
    lines = FILES[name].read_text(encoding="utf-8").count("\n")
    assert lines <= LONGEST


@EVERY
def test_a_modules_name_says_what_it_does(name: str) -> None:
    assert VAGUE.isdisjoint(name.split("."))


@EVERY
def test_a_module_says_what_it_is_for(name: str) -> None:
    if FILES[name].stat().st_size:
        assert ast.get_docstring(TREES[name])
