"""The shape of the JSON of a view, from the types of its fields."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import is_dataclass
from types import NoneType, UnionType
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

from sowtide.report.formats.json import json_fields


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
