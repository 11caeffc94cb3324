"""A function does one step: it is short and shallow, and what it takes cannot be mixed up."""

from __future__ import annotations

import ast

import pytest

from structure.code import PACKAGES, functions, inside

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
