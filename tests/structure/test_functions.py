"""A function does one step: it is short and shallow, and what it takes cannot be mixed up."""

from __future__ import annotations

import ast
from itertools import pairwise

import pytest

from structure.code import PACKAGES, functions, handed_out, inside

LONGEST, DEEPEST = 40, 4
"""Lines of a function, its docstring not counted; blocks within blocks."""
DEEPER = {"_fill"}
"""Where plantings are chosen for what is wanted: the innermost loop of a search."""
PER_PACKAGE = pytest.mark.parametrize("package", PACKAGES)
BLOCKS = (ast.If, ast.For, ast.While, ast.With, ast.Try, ast.Match)


def _lines(of: ast.FunctionDef) -> int:
    assert of.end_lineno is not None
    whole = of.end_lineno - of.lineno + 1
    first = of.body[0]
    if ast.get_docstring(of) is None:
        return whole
    assert first.end_lineno is not None
    return whole - (first.end_lineno - first.lineno + 1)


def _depth(of: ast.stmt) -> int:
    """Return how many blocks stand within one another; an `elif` stands beside its `if`."""
    deepest = 0
    for name, under in ast.iter_fields(of):
        stmts = (
            [each for each in under if isinstance(each, ast.stmt | ast.ExceptHandler)]
            if isinstance(under, list)
            else []
        )
        is_elif = name == "orelse" and len(stmts) == 1 and isinstance(stmts[0], ast.If)
        for each in stmts:
            deepest = max(deepest, _depth(each) - is_elif)
    return deepest + isinstance(of, BLOCKS)


@PER_PACKAGE
def test_a_function_is_short(package: str) -> None:
    found = [
        (name, of.name, _lines(of))
        for name in inside(package)
        for of in functions(name)
        if _lines(of) > LONGEST
    ]
    assert found == []


@PER_PACKAGE
def test_a_function_is_shallow(package: str) -> None:
    found = [
        (name, of.name, _depth(of))
        for name in inside(package)
        for of in functions(name)
        if _depth(of) > DEEPEST and of.name not in DEEPER
    ]
    assert found == []


CONFUSED = {"int", "float", "str", "date", "bool"}
"""Types of which two could be swapped and nothing would say so."""
USUAL_ORDERS = (
    ("first", "begins", "last", "until", "stop", "end", "beyond"),
    *(("low", "high"), ("least", "most"), ("early", "late"), ("done", "total"), ("line", "column")),
    *(("code", "message", "hint"), ("rule", "text"), ("key", "value"), ("width", "size", "room")),
    ("number", "low", "high"),
    ("number", "text", "crop", "unit"),
    ("column", "index", "length"),
    ("number", "count"),
)
"""What comes before what, so that no one would think of it the other way round."""
COUNTED_IN_LOOPS = (
    *("sowtide.climate.", "sowtide.schedule.beds.", "sowtide.schedule.stays."),
    *("sowtide.schedule.packing.", "sowtide.schedule.filling."),
)
"""Rooms whose inner loops take numbers of days, beds and plants, where a keyword costs time."""


def _kind(of: ast.arg) -> str:
    kind = "" if of.annotation is None else ast.unparse(of.annotation).removesuffix(" | None")
    return kind if kind in CONFUSED else ""


def _in_order(one: str, other: str) -> bool:
    return any(
        one in order and other in order and order.index(one) < order.index(other)
        for order in USUAL_ORDERS
    )


def _alike(name: str, of: ast.FunctionDef) -> list[tuple[str, str]]:
    """Return neighbours of one type that may be given by position, and have no usual order."""
    taken = [*of.args.posonlyargs, *of.args.args]
    in_loops = f"{name}.".startswith(COUNTED_IN_LOOPS)
    return [
        (one.arg, other.arg)
        for one, other in pairwise(taken)
        if _kind(one) and _kind(one) == _kind(other)
        if not _in_order(one.arg, other.arg)
        if not (in_loops and _kind(one) in ("int", "float"))
    ]


@PER_PACKAGE
def test_what_could_be_swapped_unseen_is_given_by_name(package: str) -> None:
    found = [
        (name, of.name, _alike(name, of))
        for name in inside(package)
        for of in handed_out(name)
        if _alike(name, of)
    ]
    assert found == []
