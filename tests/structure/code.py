"""The package's modules as text and syntax, for the tests of its structure."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import sowtide

ROOT = Path(sowtide.__file__).parent
FLOORS = (
    "values",
    "diagnostics",
    "days",
    "units",
    "reasons",
    "progress",
    "grouping",
    "garden",
    "climate",
    "schedule",
    "season",
    "next_season",
    "first_season",
    "report",
    "library",
    "cli",
)
"""What stands on what, from the ground up."""
AT_THE_EDGES = ("sowtide", "sowtide.__main__")

FILES = {
    ".".join(("sowtide", *path.relative_to(ROOT).with_suffix("").parts)).removesuffix(
        ".__init__"
    ): path
    for path in sorted(ROOT.rglob("*.py"))
}
PACKAGES = sorted(name for name, path in FILES.items() if path.name == "__init__.py")
ROOMS = [name for name in PACKAGES if name.count(".") >= 2]
"""The packages inside the floors."""


@cache
def tree(name: str) -> ast.Module:
    """Return a module as syntax."""
    return ast.parse(FILES[name].read_text(encoding="utf-8"))


@cache
def nodes(name: str) -> tuple[ast.AST, ...]:
    """Return all that a module's syntax consists of."""
    return tuple(ast.walk(tree(name)))


@cache
def handed_out_by(door: str) -> frozenset[str]:
    """Return what a package's door hands out; nothing for a module that is none."""
    if door not in PACKAGES:
        return frozenset()
    aliases = (each for node in tree(door).body for each in getattr(node, "names", ()))
    return frozenset(alias.asname or alias.name for alias in aliases)


@cache
def imports(name: str) -> tuple[str, ...]:
    """Return every module that a module imports, at its top or inside a function."""
    return tuple(_imports(name))


def _imports(name: str) -> Iterator[str]:
    for node in nodes(name):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert not node.level, "imports are absolute"
            module = node.module or ""
            for alias in node.names:
                whole = f"{module}.{alias.name}"
                is_handed_out = alias.name in handed_out_by(module)
                yield whole if whole in FILES and not is_handed_out else module


def floor(name: str) -> str:
    """Return the floor a module of the package stands on."""
    return name.split(".")[1]


@cache
def room(name: str) -> str:
    """Return the package that a module stands in: a room, a floor, or the whole."""
    return name if name in PACKAGES else name.rpartition(".")[0]


def inside(package: str) -> list[str]:
    """Name a package's door and the modules that stand in it itself, not in rooms of its own."""
    return [name for name in FILES if room(name) == package]


def lines(name: str) -> int:
    """Count the lines of a module."""
    return FILES[name].read_text(encoding="utf-8").count("\n")


@cache
def calls(name: str) -> tuple[str, ...]:
    """Return what a module calls, as written, such as ``path.open``."""
    return tuple(ast.unparse(node.func) for node in nodes(name) if isinstance(node, ast.Call))


def handed_out(name: str) -> Iterator[ast.FunctionDef]:
    """Yield the functions and methods of a module that others may call."""
    for node in tree(name).body:
        for each in node.body if isinstance(node, ast.ClassDef) else [node]:
            if isinstance(each, ast.FunctionDef) and (
                not each.name.startswith("_") or each.name == "__init__"
            ):
                yield each


def functions(name: str) -> Iterator[ast.FunctionDef]:
    """Yield the functions of a module, those in classes and in functions among them."""
    for node in nodes(name):
        if isinstance(node, ast.FunctionDef):
            yield node
