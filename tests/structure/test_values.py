"""Values behave as frozen, slotted dataclasses do."""

from __future__ import annotations

import ast
import pickle
from collections.abc import Iterator
from copy import copy
from dataclasses import MISSING, FrozenInstanceError, field, fields, is_dataclass, replace
from functools import cache

import pytest

from sowtide.days import DateSpan, DayRange
from sowtide.diagnostics import Span
from sowtide.values import value
from structure.code import FILES, PACKAGES, inside, nodes, tree


@value
class Seedlings:
    """Something to try it on."""

    crop: str
    plants: int = 6


@value
class Bulbs:
    """Another with the same fields."""

    crop: str
    plants: int = 6


@value
class Shelf:
    """One whose default a factory makes."""

    name: str
    holds: tuple[Seedlings, ...] = field(default_factory=tuple)


def test_equal_are_two_of_one_class_with_equal_fields() -> None:
    assert Seedlings("kale") == Seedlings("kale", plants=6)
    assert Seedlings("kale") != Seedlings("kale", 7)
    assert Seedlings("kale") != Seedlings("leek")
    assert Seedlings("kale") != Bulbs("kale")
    assert Seedlings("kale") != ("kale", 6)
    assert DayRange(1, 2) != DateSpan(1, 2)  # type: ignore[arg-type]


def test_equal_values_are_one_in_a_set() -> None:
    assert len({Seedlings("kale"), Seedlings("kale"), Seedlings("leek")}) == 2


def test_nothing_can_be_changed_or_added() -> None:
    kale = Seedlings("kale")
    with pytest.raises(FrozenInstanceError):
        kale.plants = 7  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError):
        del kale.crop
    assert not hasattr(kale, "__dict__")


def test_the_text_could_be_typed_in_again() -> None:
    assert repr(Seedlings("kale", 3)) == "Seedlings(crop='kale', plants=3)"
    first = "Span(file='garden.yaml', line=3, column=1, length=1, text='')"
    assert repr(Span("garden.yaml", 3)) == first  # the first sign of the line
    assert eval(first) == Span("garden.yaml", 3)


def test_a_value_is_a_dataclass_to_the_standard_library() -> None:
    assert is_dataclass(Seedlings)
    assert replace(Seedlings("kale"), plants=9) == Seedlings("kale", 9)
    days = DayRange(50, 60)
    assert pickle.loads(pickle.dumps(days)) == days
    assert copy(days) == days


def test_what_a_value_would_ignore_is_refused() -> None:
    class Sown:
        day: int

        def __post_init__(self) -> None: ...

    class More(Bulbs):
        rows: int

    for each in (Sown, More):
        with pytest.raises(TypeError, match="no plain value"):
            value(each)


def test_its_arguments_are_checked_from_the_first_one_made() -> None:
    @value
    class Cut:
        crop: str
        bunches: int = 1

    with pytest.raises(TypeError, match="crop"):
        Cut()  # type: ignore[call-arg]
    with pytest.raises(TypeError, match="bundles"):
        Cut("chard", bundles=2)  # type: ignore[call-arg]
    assert [(each.name, each.type, each.default) for each in fields(Cut)] == [
        ("crop", "str", MISSING),
        ("bunches", "int", 1),
    ]


def test_a_default_may_come_from_a_factory() -> None:
    assert Shelf("attic").holds == Shelf("attic", ()).holds == ()


DRAWINGS = "sowtide.report.formats.html."
"""Where lines and boxes are made of the points that they go through, in their usual order."""
MANY = 5


def values() -> Iterator[tuple[str, ast.ClassDef]]:
    """Yield every value with the module that it stands in."""
    for name in FILES:
        for node in tree(name).body:
            marks = node.decorator_list if isinstance(node, ast.ClassDef) else []
            if isinstance(node, ast.ClassDef) and "value" in map(ast.unparse, marks):
                yield name, node


@cache
def field_counts() -> dict[str, int]:
    """Count the fields of each value."""
    return {
        node.name: sum(isinstance(each, ast.AnnAssign) for each in node.body)
        for _, node in values()
    }


@pytest.mark.parametrize("package", [each for each in PACKAGES if DRAWINGS not in f"{each}."])
def test_a_value_of_many_fields_is_made_with_keywords(package: str) -> None:
    unnamed = [
        (name, node.func.id, node.lineno)
        for name in inside(package)
        for node in nodes(name)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
        if field_counts().get(node.func.id, 0) >= MANY and len(node.args) >= MANY
    ]
    assert unnamed == []


def test_a_field_of_a_value_is_documented_beside_it() -> None:
    apart = [
        f"{name}.{node.name}"
        for name, node in values()
        if "----------" in (ast.get_docstring(node) or "")
    ]
    assert apart == []
