"""The shape of the JSON of a view, from the types of its fields: as paths, and as JSON Schema."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import is_dataclass
from datetime import date
from enum import Enum
from types import NoneType, UnionType
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

from sowtide.report.formats.json import VERSION, json_fields


def field_paths(of: type[Any], before: str = "") -> Iterator[str]:
    """Yield every field of a view's JSON that holds no other: ``years[].first_pick[]``.

    Parameters
    ----------
    of
        The class of the view.
    before
        What stands before the names of its fields.
    """
    hints = get_type_hints(of, include_extras=True)
    for each in json_fields(of):
        held = before.removesuffix(".") if each.flat else f"{before}{each.name}"
        yield from _paths(hints[each.attribute], held)


def _paths(hint: Any, path: str) -> Iterator[str]:
    origin = get_origin(hint)
    if origin is Annotated:
        yield from _paths(get_args(hint)[0], path)
    elif origin in (Union, UnionType):
        for part in get_args(hint):
            if part is not NoneType:
                yield from _paths(part, path)
    elif origin is tuple:
        for part in dict.fromkeys(get_args(hint)):
            if part is not ...:
                yield from _paths(part, f"{path}[]")
    elif is_dataclass(hint) and isinstance(hint, type):
        yield from field_paths(hint, path if path[-1:] in ("", ".") else f"{path}.")
    else:
        yield path


_PLAIN: dict[Any, dict[str, Any]] = {
    str: {"type": "string"},
    bool: {"type": "boolean"},
    int: {"type": "integer"},
    float: {"type": "number"},
    date: {"type": "string", "format": "date"},
    NoneType: {"type": "null"},
}


def view_schema(of: type[Any], title: str) -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of the JSON of a view.

    Every field is there, null where there is nothing to say. More may come to be there: fields are
    added and never removed, so a program does well to pass over those that it does not know.
    """
    shapes: dict[str, dict[str, Any]] = {}
    made = _object(of, shapes)
    made["properties"] = {"version": {"const": VERSION}} | made["properties"]
    made["required"] = ["version", *made["required"]]
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": title}
    return head | made | ({"$defs": shapes} if shapes else {})


def _object(of: type[Any], shapes: dict[str, dict[str, Any]]) -> dict[str, Any]:
    hints = get_type_hints(of, include_extras=True)
    properties: dict[str, Any] = {}
    for each in json_fields(of):
        if each.flat:
            properties |= _object(_bare(hints[each.attribute]), shapes)["properties"]
        else:
            properties[each.name] = _shape(hints[each.attribute], shapes)
    return {"type": "object", "properties": properties, "required": list(properties)}


def _bare(hint: Any) -> Any:
    return get_args(hint)[0] if get_origin(hint) is Annotated else hint


def _shape(hint: Any, shapes: dict[str, dict[str, Any]]) -> dict[str, Any]:
    """Return the schema of a field; that of a class of values stands once, under its name."""
    hint = _bare(hint)
    origin = get_origin(hint)
    if hint in _PLAIN:
        return dict(_PLAIN[hint])
    if origin in (Union, UnionType):
        return {"anyOf": [_shape(part, shapes) for part in get_args(hint)]}
    if origin is tuple:
        parts = get_args(hint)
        if parts[-1] is ...:
            return {"type": "array", "items": _shape(parts[0], shapes)}
        of_parts = [_shape(part, shapes) for part in parts]
        return {"type": "array", "prefixItems": of_parts, "items": False, "minItems": len(parts)}
    if isinstance(hint, type) and issubclass(hint, Enum):
        return {"enum": [each.value for each in hint]}
    if is_dataclass(hint) and isinstance(hint, type):
        if hint.__name__ not in shapes:
            shapes[hint.__name__] = {}  # so that one that holds itself comes to an end
            shapes[hint.__name__] |= _object(hint, shapes)
        return {"$ref": f"#/$defs/{hint.__name__}"}
    raise TypeError(f"{hint!r} has no form in JSON")
