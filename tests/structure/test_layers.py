"""The package's floors and rooms: what a module may import, open, read and print, and its size."""

from __future__ import annotations

import ast
from collections import Counter, defaultdict
from graphlib import CycleError, TopologicalSorter

import pytest

from structure.code import (
    AT_THE_EDGES,
    FILES,
    FLOORS,
    PACKAGES,
    ROOMS,
    calls,
    floor,
    imports,
    inside,
    lines,
    nodes,
    room,
    tree,
)

VAGUE = {"utils", "util", "helpers", "helper", "common", "misc", "manager", "base", "core"}
LONGEST, FULLEST, LARGEST, SMALLEST = 400, 14, 2_200, 4
PER_PACKAGE = pytest.mark.parametrize("package", PACKAGES)

BEHIND_DOORS = ("sowtide.garden.", "sowtide.climate.", "sowtide.schedule.")
"""Floors whose rooms are entered by their doors; what stands on a floor itself is open."""

COMMANDS = ("sowtide.report.", "sowtide.cli.commands")
"""Rooms of one command each: alike in their files' names, and as small as the command is."""
SAYING_WHAT_IT_RESTS_ON = {"sowtide.report.frost.page"}
"""Pages that say of which frosts and of which record they are; sentences of it: report/kit."""

SAME_NAME = {"__init__", "__main__", "season"}
"""A season is a value of the engine, and above it what opens files for one."""


def test_every_module_stands_on_a_floor() -> None:
    assert {floor(name) for name in FILES if name not in AT_THE_EDGES} == set(FLOORS)


@PER_PACKAGE
def test_a_module_imports_only_what_stands_below_it(package: str) -> None:
    wrong = []
    for name in inside(package):
        if name in AT_THE_EDGES:
            continue
        allowed = FLOORS[: FLOORS.index(floor(name)) + 1]
        inner = [module for module in imports(name) if module.startswith("sowtide")]
        wrong += [(name, m) for m in inner if m == "sowtide" or floor(m) not in allowed]
    assert wrong == []


def _no_circle(graph: dict[str, set[str]]) -> None:
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        pytest.fail(" imports ".join(error.args[1]))


def test_no_imports_run_in_a_circle() -> None:
    _no_circle({name: {other for other in imports(name) if other in FILES} for name in FILES})


def _whole(name: str) -> str:
    """Return a room as a whole for what stands in one, else the module itself."""
    return room(name) if room(name) in ROOMS else name


def test_rooms_form_no_circle() -> None:
    graph: dict[str, set[str]] = defaultdict(set)
    for name in FILES:
        others = {_whole(other) for other in imports(name) if other in FILES}
        graph[_whole(name)] |= others - {_whole(name)}
    _no_circle(graph)


@pytest.mark.parametrize("package", [each for each in ROOMS if each.startswith(BEHIND_DOORS)])
def test_a_room_is_entered_by_its_door(package: str) -> None:
    past = [
        (name, module)
        for name in FILES
        if room(name) != package
        for module in imports(name)
        if module.startswith(f"{package}.") and room(module) == package
    ]
    assert past == []


@pytest.mark.parametrize(
    ("library", "only_in"),
    [
        ("yaml", ("sowtide.garden.text.tree",)),
        ("click", ("sowtide.cli",)),
        ("rich", ("sowtide.report.formats.terminal", "sowtide.cli.waiting")),
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


def _asked_of_basis(name: str) -> list[str]:
    """Return what a module takes out of a basis, as written."""
    return [
        ast.unparse(node)
        for node in nodes(name)
        if isinstance(node, ast.Attribute)
        and isinstance(node.value, ast.Attribute)
        and node.value.attr == "basis"
    ]


def test_what_a_climate_rests_on_is_asked_only_to_say_it() -> None:
    outside = [name for name in FILES if not name.startswith("sowtide.climate.")]
    asking = {name for name in outside if _asked_of_basis(name)}
    assert asking <= SAYING_WHAT_IT_RESTS_ON
    engine = [name for name in outside if not name.startswith("sowtide.report.")]
    taken = [node for name in engine for node in nodes(name)]
    assert not [each for each in taken if isinstance(each, ast.Attribute) and each.attr == "basis"]


@PER_PACKAGE
def test_files_are_opened_only_where_they_are_read_or_written(package: str) -> None:
    if package.startswith(("sowtide.garden", "sowtide.climate", "sowtide.cli")):
        return
    opening = {"open", "read_text", "read_bytes", "write_text", "write_bytes"}
    found = [
        (name, call)
        for name in inside(package)
        if name != "sowtide.season"
        for call in calls(name)
        if call.rsplit(".", 1)[-1] in opening
    ]
    assert found == []


@PER_PACKAGE
def test_the_clock_is_read_only_where_today_gets_its_default(package: str) -> None:
    clocks = {"today", "now", "utcnow", "time", "localtime", "gmtime", "monotonic"}
    found = [
        (name, call)
        for name in inside(package)
        if name != "sowtide.cli.options"
        for call in calls(name)
        if call.rsplit(".", 1)[-1] in clocks
    ]
    assert found == []


@PER_PACKAGE
def test_nothing_below_the_command_line_prints_or_exits(package: str) -> None:
    if package.startswith("sowtide.cli"):
        return
    loud = {"print", "exit", "quit", "sys.exit", "os._exit", "input"}
    for name in set(inside(package)) - {"sowtide.__main__"}:
        assert [call for call in calls(name) if call in loud] == [], name
        raised = [node.id for node in nodes(name) if isinstance(node, ast.Name)]
        assert "SystemExit" not in raised, name
        streams = [ast.unparse(n) for n in nodes(name) if isinstance(n, ast.Attribute)]
        assert {"sys.stdout", "sys.stderr"}.isdisjoint(streams), name


@PER_PACKAGE
def test_a_module_can_be_read_in_one_sitting(package: str) -> None:
    assert [(name, lines(name)) for name in inside(package) if lines(name) > LONGEST] == []


@PER_PACKAGE
def test_a_room_can_be_walked_through(package: str) -> None:
    modules = inside(package)
    assert len(modules) <= FULLEST
    assert sum(lines(name) for name in modules) <= LARGEST


@pytest.mark.parametrize("package", ROOMS)
def test_a_room_holds_enough_to_be_one(package: str) -> None:
    if not package.startswith(COMMANDS):
        assert len(inside(package)) >= SMALLEST


def test_no_two_files_have_one_name() -> None:
    named = [name for name in FILES if not name.startswith(COMMANDS) and name not in PACKAGES]
    count = Counter(name.rpartition(".")[2] for name in named)
    assert {name for name, times in count.items() if times > 1} - SAME_NAME == set()


def test_no_two_classes_have_one_name() -> None:
    found = Counter(
        node.name for name in FILES for node in nodes(name) if isinstance(node, ast.ClassDef)
    )
    assert {name for name, times in found.items() if times > 1} == set()


@PER_PACKAGE
def test_a_modules_name_says_what_it_does(package: str) -> None:
    assert [name for name in inside(package) if not VAGUE.isdisjoint(name.split("."))] == []


@PER_PACKAGE
def test_a_module_says_what_it_is_for(package: str) -> None:
    silent = [name for name in inside(package) if not ast.get_docstring(tree(name))]
    assert silent == []
