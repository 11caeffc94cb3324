"""Values: frozen, slotted dataclasses that cost a program less to start with.

`dataclass` writes and compiles a comparison, a hash and a text of its own for every class, which
takes longer than all the planning of a small garden. Values share one of each instead.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, TypeVar, dataclass_transform

_Class = TypeVar("_Class", bound=type)


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def value(cls: _Class) -> _Class:
    """Make a class a frozen, slotted dataclass; equal are two of one class with equal fields.

    Examples
    --------
    >>> @value
    ... class Seedlings:
    ...     crop: str
    ...     plants: int
    >>> Seedlings("kale", 3) == Seedlings("kale", plants=3)
    True
    """
    made: Any = dataclass(frozen=True, slots=True, repr=False, eq=False)(cls)
    made.__repr__, made.__eq__, made.__hash__ = _repr, _eq, _hash
    return made  # type: ignore[no-any-return]


def _fields(self: Any) -> tuple[Any, ...]:
    return tuple([getattr(self, name) for name in self.__match_args__])


def _repr(self: Any) -> str:
    pairs = zip(self.__match_args__, _fields(self), strict=True)
    return f"{type(self).__qualname__}({', '.join(f'{name}={each!r}' for name, each in pairs)})"


def _eq(self: Any, other: Any) -> bool:
    return type(self) is type(other) and _fields(self) == _fields(other)


def _hash(self: Any) -> int:
    return hash(_fields(self))
