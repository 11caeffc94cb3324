"""Values: frozen, slotted dataclasses that cost a program less to start with and to make.

`dataclass` writes and compiles five methods for every class that is frozen and slotted, which takes
longer than all the planning of a small garden. Here a class gets its slots; its `__init__`, of code
that is shared, is made with the first value of it, and its fields as the standard library knows
them when they are asked for. That `__init__` fills the slots directly, in half the time.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field
from functools import cache
from operator import attrgetter
from types import CodeType, FunctionType
from typing import Any, TypeVar, dataclass_transform

_Class = TypeVar("_Class", bound=type)


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def value(cls: _Class) -> _Class:
    """Make a class a frozen, slotted dataclass; equal are two of one class with equal fields.

    A default that a factory makes is made once, for all values of the class.

    Raises
    ------
    TypeError
        If the class has a `__post_init__`, which would not be called, or extends another value.

    Examples
    --------
    >>> @value
    ... class Seedlings:
    ...     crop: str
    ...     plants: int
    >>> Seedlings("kale", 3) == Seedlings("kale", plants=3)
    True
    """
    if hasattr(cls, "__post_init__") or hasattr(cls, "__dataclass_fields__"):
        raise TypeError(f"{cls.__name__} is no plain value")
    body = dict(vars(cls))
    hints: dict[str, Any] = body.get("__annotations__", {})
    defaults = {name: body.pop(name) for name in hints if name in body}
    for name in ("__dict__", "__weakref__"):
        body.pop(name, None)
    body |= _SHARED
    body["__slots__"] = body["__match_args__"] = names = tuple(hints)
    body["__fields__"] = attrgetter(*names) if len(names) > 1 else staticmethod(_few(names))
    body["__dataclass_fields__"] = _FieldsOf(hints, defaults)

    def _first(self: Any, *given: Any, **named: Any) -> None:
        made.__init__ = _init_of(made, defaults)
        made.__init__(self, *given, **named)

    body["__init__"] = _first
    made: Any = type(cls)(cls.__name__, cls.__bases__, body)
    made.__qualname__ = cls.__qualname__
    return made  # type: ignore[no-any-return]


def _few(names: tuple[str, ...]) -> Callable[[Any], tuple[Any, ...]]:
    """Return what takes out one field or none, as `attrgetter` does several."""
    return lambda of: tuple([getattr(of, name) for name in names])


def _init_of(cls: Any, defaults: dict[str, Any]) -> FunctionType:
    """Return an `__init__` that fills the slots by their descriptors, past `__setattr__`.

    To compile one for each class would take longer than all the rest of it: classes of as many
    fields share one, under the names of their own.
    """
    names = cls.__match_args__
    code = _filling(len(names)).replace(co_varnames=("self", *names))
    setters = {f"_set{at}": getattr(cls, name).__set__ for at, name in enumerate(names)}
    found = [_default_of(defaults[name]) for name in names if name in defaults]
    return FunctionType(code, setters, "__init__", tuple(e for e in found if e is not MISSING))


@cache
def _filling(count: int) -> CodeType:
    """Compile what fills so many slots with as many arguments."""
    names: dict[str, Any] = {}
    taken = ", ".join(["self", *(f"_{at}" for at in range(count))])
    steps = [f" _set{at}(self, _{at})" for at in range(count)] or [" pass"]
    exec(f"def __init__({taken}):\n" + "\n".join(steps), names)
    code: CodeType = names["__init__"].__code__
    return code


def _default_of(of: Any) -> Any:
    if not isinstance(of, Field):
        return of
    return of.default if of.default_factory is MISSING else of.default_factory()


class _FieldsOf:
    """The fields of a class, as the standard library knows them, once it asks for them."""

    def __init__(self, hints: dict[str, Any], defaults: dict[str, Any]) -> None:
        # With a docstring of its own, no signature is worked out to make one; and a type that is
        # no text need not be searched for what would make its field none.
        untold = dict.fromkeys(hints, object)
        self._body = {"__doc__": "Fields.", "__annotations__": untold, **defaults}
        self._hints = hints

    def __get__(self, _: object, owner: Any) -> dict[str, Field[Any]]:
        like = type(owner.__name__, (), {"__module__": owner.__module__, **self._body})
        made: Any = dataclass(init=False, repr=False, eq=False, match_args=False)(like)
        found: dict[str, Field[Any]] = made.__dataclass_fields__
        for name, each in found.items():
            each.type = self._hints[name]
        owner.__dataclass_fields__ = found
        return found


def _refuse_to_set(self: Any, name: str, _: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_to_delete(self: Any, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _fields(self: Any) -> tuple[Any, ...]:
    return self.__fields__(self)  # type: ignore[no-any-return]


def _fill(self: Any, state: tuple[Any, ...]) -> None:
    """Fill an empty value, where one is copied or unpickled."""
    for name, each in zip(self.__match_args__, state, strict=True):
        object.__setattr__(self, name, each)


def _repr(self: Any) -> str:
    pairs = zip(self.__match_args__, self.__fields__(self), strict=True)
    return f"{type(self).__qualname__}({', '.join(f'{name}={each!r}' for name, each in pairs)})"


def _eq(self: Any, other: Any) -> bool:
    if self is other:
        return True
    fields = self.__fields__
    return type(self) is type(other) and fields(self) == fields(other)


def _hash(self: Any) -> int:
    return hash(self.__fields__(self))


_SHARED = {
    "__setattr__": _refuse_to_set,
    "__delattr__": _refuse_to_delete,
    "__getstate__": _fields,
    "__setstate__": _fill,
    "__repr__": _repr,
    "__eq__": _eq,
    "__hash__": _hash,
}
