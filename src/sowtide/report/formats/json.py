"""Views as JSON: one encoder for all of them, led by the kinds of their fields.

Every field is always there, null where there is nothing to say. Dates are ISO dates, enums their
values, numbers as their kind says; a field's name is its own, without underscores at its ends.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields
from datetime import date
from enum import Enum
from typing import Annotated, Any, TypeAlias, get_args, get_origin, get_type_hints

from sowtide.report.kinds import Digits, Flat, PageOnly
from sowtide.values import value

Value: TypeAlias = "str | int | float | bool | Sequence[Value] | Mapping[str, Value] | None"
Object: TypeAlias = dict[str, Value]

VERSION = 1
"""Of the form of the JSON; it changes only if a field ever has to go."""


@value
class JsonField:
    """A field of a view as JSON has it."""

    attribute: str
    """What the view calls it."""
    name: str
    """What JSON calls it."""
    digits: Digits | None
    """How its numbers are written; None where it holds none that are rounded."""
    flat: bool
    """Whether the fields of its value stand in its place."""


def document(view: Any) -> str:
    """Write a view as `written` does."""
    return written(encoded(view))


def written(fields: Object) -> str:
    """Write one object, a list's items each on a line of its own, so that files can be compared."""
    lines = [f'  "version": {VERSION}']
    for name, each in fields.items():
        if isinstance(each, list) and each and isinstance(each[0], dict):
            items = ",\n".join(f"    {json.dumps(item)}" for item in each)
            lines.append(f"  {json.dumps(name)}: [\n{items}\n  ]")
        else:
            lines.append(f"  {json.dumps(name)}: {json.dumps(each)}")
    return "{\n" + ",\n".join(lines) + "\n}\n"


def encoded(view: Any) -> Object:
    """Return a view as JSON has it.

    Raises
    ------
    TypeError
        If a field holds what has no form, such as a float of no kind.
    """
    found: Object = {}
    for each in json_fields(type(view)):
        held = getattr(view, each.attribute)
        if each.flat:
            found |= encoded(held)
        else:
            found[each.name] = _value(held, each.digits)
    return found


def _value(of: Any, digits: Digits | None) -> Value:
    if of is None or isinstance(of, str | bool | int):
        return of
    if isinstance(of, float):
        return _number(of, digits)
    if isinstance(of, date):
        return of.isoformat()
    if isinstance(of, Enum):
        return _value(of.value, None)
    if isinstance(of, tuple):
        return [_value(each, digits) for each in of]
    return encoded(of)


def _number(of: float, digits: Digits | None) -> float | int:
    if digits is None:
        raise TypeError(f"{of!r} is a number of no kind")
    rounded = round(of, digits.after)
    return int(rounded) if digits.whole and rounded == int(rounded) else rounded


_KNOWN: dict[type[Any], tuple[JsonField, ...]] = {}


def json_fields(of: type[Any]) -> tuple[JsonField, ...]:
    """Return the fields of a class of views, in order, without what only a page needs."""
    if of not in _KNOWN:
        _KNOWN[of] = tuple(_fields_of(of))
    return _KNOWN[of]


def _fields_of(of: type[Any]) -> Iterator[JsonField]:
    hints = get_type_hints(of, include_extras=True)
    yield from (
        JsonField(
            each.name, each.name.strip("_"), _one(marks, Digits), _one(marks, Flat) is not None
        )
        for each in fields(of)
        if _one(marks := tuple(_marks(hints[each.name])), PageOnly) is None
    )


def _marks(hint: Any) -> Iterator[Any]:
    """Yield the marks of a type, those of what it holds among them."""
    if get_origin(hint) is Annotated:
        yield from hint.__metadata__
    for part in get_args(hint):
        yield from _marks(part)


def _one(marks: tuple[Any, ...], kind: type[Any]) -> Any:
    return next((mark for mark in marks if isinstance(mark, kind)), None)
