"""How a section of a file is declared: a frozen value whose fields know how they are written.

A section is a class of values. Each of its fields is one key, with what reads it, what stands for
it where it is left out, and whether it must be there; reading a file walks these declarations.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field, fields
from functools import cache
from types import MappingProxyType
from typing import Any

from sowtide.garden.text import Refused
from sowtide.values import value


@value
class Leaf:
    """A key with one value, of which a reader makes something."""

    read: Callable[[str], Any]


@value
class Each:
    """A key with one value or a list of them; they become a tuple."""

    read: Callable[[str], Any]


@value
class Keyed:
    """A key with keys of the grower's own; they become a mapping."""

    read_key: Callable[[str], Any]
    """Reads such a key."""
    of: Leaf | Each
    """What stands behind each."""
    alone: Callable[[str], Any] | None = None
    """Reads a single value in place of them, or None where they must be there."""
    empty: Refused | None = None
    """The refusal of empty braces, or None where they are no mistake."""


@value
class Within:
    """A key with a section of its own."""

    section: type
    listed: bool = False
    """Whether there may be a list of them; then even one becomes a tuple."""
    alone: Callable[[str], Any] | None = None
    """Reads a single value in place of it, or None where it must be a section."""
    empty: Refused | None = None
    """The refusal of an empty list, or None where it is no mistake."""


Kind = Leaf | Each | Keyed | Within | None
"""How a key's value is written; None where it is looked into afterwards, by itself."""


@value
class Key:
    """A key of a section."""

    field: str
    """The field of the section that it fills."""
    kind: Kind
    """How its value is written."""
    needed: Callable[[dict[str, Any]], bool]
    """Whether it must be there, from what stands in the section."""
    example: str | None
    """What it might say, for those who left it out."""
    is_one_of_several: bool = False
    """Whether the field is a mapping that holds its value by the key."""


def must(
    kind: Kind | Callable[[str], Any],
    example: str,
    *,
    key: str | None = None,
    unless: Callable[[dict[str, Any]], bool] | None = None,
) -> Any:
    """Declare a key that must be there.

    Parameters
    ----------
    kind
        How its value is written; a reader alone is that of one value.
    example
        What the key and its value might say.
    key
        How it is spelt, where the field is called otherwise.
    unless
        Says of a section whether the key may be left out after all.
    """
    needed = (lambda section: not unless(section)) if unless else _always
    return field(default=None, metadata={"key": (key, _kind(kind), needed, example)})


def may(
    kind: Kind | Callable[[str], Any], default: object = None, *, key: str | None = None
) -> Any:
    """Declare a key that may be left out, and what then stands for it."""
    return field(default=default, metadata={"key": (key, _kind(kind), _never, None)})


def several(kinds: Mapping[str, Kind]) -> Any:
    """Declare keys that may be left out; the field is a mapping of those that are there."""
    return field(default_factory=lambda: MappingProxyType({}), metadata={"keys": kinds})


@cache
def keys_of(section: type) -> dict[str, Key]:
    """Return the keys of a section by their spelling, in order."""
    found = {}
    for each in fields(section):
        for key, kind in each.metadata.get("keys", {}).items():
            found[key] = Key(each.name, kind, _never, None, is_one_of_several=True)
        if "key" in each.metadata:
            key, kind, needed, example = each.metadata["key"]
            found[key or each.name] = Key(each.name, kind, needed, example)
    return found


def known_keys(section: type) -> tuple[str, ...]:
    """Return the keys of a section as they are written."""
    return tuple(keys_of(section))


def not_text(value: Any) -> Refused:
    """Return the refusal of a list, a mapping or nothing where a text belongs."""
    if value is None:
        return Refused("missing", "nothing is written here", "write it, or leave it out")
    if isinstance(value, dict):
        hint = "write its value on the same line; quotes around it if it has a colon in it"
        return Refused("not-text", "keys and values stand where a single value belongs", hint)
    hint = "write a single value, without brackets or dashes"
    return Refused("not-text", "a list stands where a single value belongs", hint)


def _kind(kind: Kind | Callable[[str], Any]) -> Kind:
    return Leaf(kind) if callable(kind) else kind


def _always(_: dict[str, Any]) -> bool:
    return True


def _never(_: dict[str, Any]) -> bool:
    return False
