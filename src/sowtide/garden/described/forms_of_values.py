"""How each reader's values are written, as JSON Schema.

An editor takes ``60`` for a number and ``05-08`` for a text, as YAML 1.2 has it; a number in quotes
is the same to the reader, so both may stand. What hangs on several values, or on the order of two
numbers in one, no schema says: the reader does.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

from sowtide.garden import readers

Schema: TypeAlias = dict[str, Any]

_DAY = r"(?:0[13578]|1[02])-(?:0[1-9]|[12]\d|3[01])|(?:0[469]|11)-(?:0[1-9]|[12]\d|30)|02-[012]\d"
_YEAR = r"(?:19|20|21)\d\d|2200"
_WEEK = r"W(?:0[1-9]|[1-4]\d|5[0-3])"
_ANY_DAY = rf"(?:\d{{4}}-)?(?:{_DAY}|{_WEEK})"
_SPAN = rf"(?:{_ANY_DAY}) *\.\. *(?:{_ANY_DAY})[. ]*"
_NUMBER = r"-?\d+(?:\.\d+)?"
_NAMES = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_WORDS = r"\S(?:.*\S)?"

Reader: TypeAlias = Callable[[str], Any]


def _whole(low: int, high: int) -> Schema:
    sign = "-?" if low < 0 else ""
    return _either({"type": "integer", "minimum": low, "maximum": high}, rf"{sign}\d+")


def _decimal(low: float, high: float) -> Schema:
    return _either({"type": "number", "minimum": low, "maximum": high}, _NUMBER)


def _above_zero(high: int) -> Schema:
    return _either({"type": "number", "exclusiveMinimum": 0, "maximum": high}, _NUMBER)


def _range(low: int, high: int) -> Schema:
    number = {"type": "integer", "minimum": low, "maximum": high}
    return _either(number, r"\d+(?: *[-–] *\d+)?", examples=("50", "50-60"))


def _percent(low: int, high: int) -> Schema:
    return _text(r"\d+(?:\.\d+)? *%", examples=(f"{max(low, 10)}%",))


def one_of(*known: str) -> Schema:
    """Return one word out of a few; capitals do not matter, but small letters are offered."""
    return {"anyOf": [{"enum": list(known)}, _text("|".join(map(_any_case, known)))]}


_BOUNDED: Mapping[str, Callable[..., Schema]] = {
    "whole": _whole,
    "decimal": _decimal,
    "above zero": _above_zero,
    "range": _range,
    "percent": _percent,
    "choice": one_of,
}
"""What is written so within bounds that the reader was made for."""


def _text(pattern: str, *, examples: tuple[str, ...] = ()) -> Schema:
    made: Schema = {"type": "string", "pattern": f"^(?:{pattern})$"}
    return made | ({"examples": list(examples)} if examples else {})


def _either(number: Schema, pattern: str, *, examples: tuple[str, ...] = ()) -> Schema:
    """Return a number, or a text that is one in quotes or needs none to be a text."""
    return {"anyOf": [number, _text(pattern, examples=examples)]}


def _any_case(text: str) -> str:
    return "".join(f"[{c.lower()}{c.upper()}]" if c.isalpha() else c for c in text)


_NAME: Schema = {"type": ["string", "number", "boolean"], "maxLength": 5000}
"""A name: whatever stands there is taken as it stands, and runs of spaces count as one."""

_PLAIN: Mapping[Reader, Schema] = {
    readers.text: _NAME,
    readers.lower_text: _NAME,
    readers.series_name: {"type": ["string", "number", "boolean"], "pattern": "^[^:]*$"},
    readers.year_of: _either({"type": "integer", "minimum": 1900, "maximum": 2200}, _YEAR),
    readers.latitude: _decimal(-90, 90),
    readers.day: _text(_ANY_DAY, examples=("07-30", "2026-07-30", "W31")),
    readers.days: _text(_SPAN, examples=("07-01..08-20",)),
    readers.days_or_all_year: _text(f"{_SPAN}|{_any_case('all year')}", examples=("all year",)),
    readers.days_or_none: _text(f"{_SPAN}|{_any_case('none')}", examples=("07-01..08-20", "none")),
    readers.month_days: _text(rf"(?:{_DAY}) *\.\. *(?:{_DAY})", examples=("06-25..07-20",)),
    readers.start: _text(f"{_ANY_DAY}|{_any_case('earliest')}", examples=("earliest", "07-15")),
    readers.until: _text(f"{_ANY_DAY}|{_any_case('last safe')}", examples=("last safe", "08-20")),
    readers.size: _text(r"\d+(?:\.\d+)? *[xX×] *\d+(?:\.\d+)?", examples=("4 x 20",)),
    readers.sure: _text(r"\d+(?:\.\d+)? *%|\d+ days?", examples=("80%", "14 days")),
    readers.allowance: _either(
        {"type": "integer", "minimum": 0, "maximum": 99}, r"\d+(?: +always *)?"
    ),
    readers.warm_cool: _range(1, 365),
    readers.weekday: one_of(*_NAMES),
    readers.working_day: one_of(*_NAMES, *(name[:3] for name in _NAMES)),
    readers.yes_no: one_of("yes", "no"),
    readers.how_often: _either(
        {"type": "integer", "minimum": 1, "maximum": 366},
        rf"\d+|{_any_case('day')}|{_any_case('week')}",
        examples=("week", "day"),
    ),
    readers.record_unit: _text(
        "°?[fFcC]|°?" + _any_case("tenths"), examples=("°F", "°C", "tenths")
    ),
    readers.years_wanted: _text(
        rf" *{_any_case('all')} *|{_any_case('last')} +\d+ *|\d{{4}} *(?:-|–|\.\.) *\d{{4}}",
        examples=("last 30", "1991-2020", "all"),
    ),
    readers.amount: _either({"type": "number", "exclusiveMinimum": 0}, r"\d.*"),
    readers.yield_of_plant: _either({"type": "number", "exclusiveMinimum": 0}, r"\d.*"),
}
"""What a reader of its own reads; examples are offered by editors."""

LOOSE: Schema = {"type": ["string", "number", "boolean"]}
"""One value, of which only the reader knows more."""


def form_of(read: Reader) -> Schema | None:
    """Return how what a reader reads is written; None where only the reader knows."""
    read = read if read in _PLAIN else getattr(read, "__wrapped__", read)
    if read in _PLAIN:
        return _PLAIN[read]
    bounded = getattr(read, "form", None)
    if bounded is None:
        return None
    name, *bounds = bounded
    return _BOUNDED[name](*bounds)
