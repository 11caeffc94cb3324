"""How each reader's values are written, as JSON Schema.

An editor takes ``60`` for a number and ``05-08`` for a text, as YAML 1.2 has it; a number in quotes
is the same to the reader, so both may stand. What hangs on several values, on the order of two
numbers in one, or on how a number is spelt that stands without quotes, no schema says: the reader
does.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

from sowtide.garden import readers
from sowtide.garden.described.number_patterns import between, decimal_between, positive, up_to

Schema: TypeAlias = dict[str, Any]

_LONG = r"(?:0[13578]|1[02])-(?:0[1-9]|[12]\d|3[01])|(?:0[469]|11)-(?:0[1-9]|[12]\d|30)"
_DAY = rf"{_LONG}|02-(?:0[1-9]|[12]\d)"
_LEAP = r"(?:\d\d(?:0[48]|[2468][048]|[13579][26])|(?:[02468][048]|[13579][26])00)"
_DATE = rf"(?!0000)(?:\d{{4}}-(?:{_LONG}|02-(?:0[1-9]|1\d|2[0-8]))|{_LEAP}-02-29)"
_WEEK = r"W(?:0[1-9]|[1-4]\d|5[0-3])"
_ANY_DAY = rf"(?:{_DAY}|{_DATE}|(?:\d{{4}}-)?{_WEEK})"
_SPAN = rf"{_ANY_DAY} *\.\.[. ]*{_ANY_DAY}[. ]*"
_NUMBER = rf"{up_to(1_000_000)}\s*"
_UNIT = r"(?:[^\W\d]|\"|\.(?!\d)).*"
_WHOLE_YEAR, _DAYS_AND_NIGHTS = 366, 24 * 30
_NAMES = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_WORDS = r"\S(?:.*\S)?"

Reader: TypeAlias = Callable[[str], Any]


def _whole(low: int, high: int) -> Schema:
    return _either({"type": "integer", "minimum": low, "maximum": high}, between(low, high))


def _decimal(low: int, high: int) -> Schema:
    number = {"type": "number", "minimum": low, "maximum": high}
    return _either(number, decimal_between(low, high))


def _above_zero(high: int) -> Schema:
    number = {"type": "number", "exclusiveMinimum": 0, "maximum": high}
    return _either(number, positive(high))


def _range(low: int, high: int) -> Schema:
    number = {"type": "integer", "minimum": low, "maximum": high}
    one = between(low, high)
    return _either(number, rf"{one}(?: *[-–] *{one})?", examples=("50", "50-60"))


def _percent(low: int, high: int) -> Schema:
    return _text(rf"{decimal_between(low, high)} *%", examples=(f"{max(low, 10)}%",))


def _moment(*stages: str) -> Schema:
    known = "|".join(_any_case(stage).replace(" ", r"\s+") for stage in stages)
    days = rf"\s*[+\-−]\s*{between(0, _WHOLE_YEAR)}(?: {_any_case('day')}[sS]?)?"
    return _text(
        rf"{_ANY_DAY}|{_any_case('on')}\s+{_any_case('demand')}|(?:{known})(?:{days})?",
        examples=("sowing", "flower + 7", "06-15", "on demand"),
    )


def _every() -> Schema:
    number = {"type": "integer", "minimum": 1, "maximum": _WHOLE_YEAR}
    days = rf"{between(1, _WHOLE_YEAR)}(?: *{_any_case('day')}[sS]?)?|{_any_case('day')}[sS]?"
    weeks = rf"(?:{between(1, _WHOLE_YEAR // 7)} *)?{_any_case('week')}[sS]?"
    rule = rf".*{_any_case('freq')}=(?:{'|'.join(map(_any_case, _FREQUENCIES))}).*"
    return _either(number, rf"{days}|{weeks}|{rule}", examples=("7", "2 weeks", "FREQ=WEEKLY"))


def _minutes(most: int) -> Schema:
    number = {"type": "number", "minimum": 0, "maximum": most}
    unit = "(?: min)?(?: minutes)?"
    return _either(number, rf"{decimal_between(0, most)} *{unit}(?: per .+)?")


def _analysis() -> Schema:
    one = rf"\s*{decimal_between(0, 100)}\s*"
    return _text(rf"{one}[-–]{one}[-–]{one}", examples=("3-2-3",))


def _drying() -> Schema:
    hours = rf"{between(0, _DAYS_AND_NIGHTS)}\s*(?:[hH]|{_any_case('hour')}[sS]?)"
    days = rf"{between(0, 30)}\s*{_any_case('day')}[sS]?"
    return _text(f"{hours}|{days}", examples=("24h", "2 days"))


def _degrees(most: int) -> Schema:
    number = {"type": "number", "minimum": 0, "maximum": most}
    return _either(number, rf"{decimal_between(0, most)}[FCfc° ]*", examples=("90F",))


def _ratio() -> Schema:
    return _text(f"{_NUMBER}{_UNIT} per .+", examples=("2 tsp per gal",))


def _rate(*no_depths: str) -> Schema:
    """Return an amount for something, or a depth of water, whose unit measures a length."""
    others = "|".join(map(_any_case, no_depths))
    return _text(
        f'{_NUMBER}(?:{_UNIT} per .+|(?!per |(?:{others})[sS]?$)[a-zA-Z"][a-zA-Z" .]*)',
        examples=("4 tbsp per plant", "1 in"),
    )


def _code(pattern: str) -> Schema:
    return {"anyOf": [{"type": "number", "minimum": 0}, {"type": "boolean"}, _text(pattern)]}


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
    "moment": _moment,
    "every": _every,
    "minutes": _minutes,
    "analysis": _analysis,
    "drying": _drying,
    "degrees": _degrees,
    "rate": _rate,
    "ratio": _ratio,
    "code": _code,
    "day or none": lambda: _text(f"{_ANY_DAY}|{_any_case('none')}", examples=("05-08", "none")),
    "none": lambda: _text(_any_case("none"), examples=("none",)),
    "day or days": lambda: _text(f"{_ANY_DAY}|{_SPAN}", examples=("08-20", "W34")),
    "file beside": lambda: _NAME | {"pattern": r"^[^/\\\x00-\x08\x0e-\x1b\x7f]*$"},
}
"""What is written so within bounds that the reader was made for."""


def _text(pattern: str, *, examples: tuple[str, ...] = ()) -> Schema:
    made: Schema = {"type": "string", "pattern": f"^(?:{pattern})$"}
    return made | ({"examples": list(examples)} if examples else {})


def _either(number: Schema, pattern: str, *, examples: tuple[str, ...] = ()) -> Schema:
    """Return a number, or a text that is one in quotes or needs none to be a text."""
    return {"anyOf": [number, _text(pattern, examples=examples)]}


_FREQUENCIES = ("daily", "weekly", "monthly", "yearly")


def _any_case(text: str) -> str:
    return "".join(f"[{c.lower()}{c.upper()}]" if c.isalpha() else c for c in text)


_HARVEST = f"(?:{'|'.join(map(_any_case, readers.HARVEST_WORDS))})?"
_MUCH: Schema = {"type": "number", "exclusiveMinimum": 0, "maximum": 1_000_000}

_NAME: Schema = {
    "type": ["string", "number", "boolean"],
    "maxLength": readers.LONGEST_TEXT,
    "pattern": r"^[^\x00-\x08\x0e-\x1b\x7f]*$",
}
"""A name: whatever stands there is taken as it stands, and runs of spaces count as one."""

_PLAIN: Mapping[Reader, Schema] = {
    readers.text: _NAME,
    readers.lower_text: _NAME,
    readers.series_name: _NAME | {"pattern": r"^[^:\x00-\x08\x0e-\x1b\x7f]*$"},
    readers.year_of: _whole(1900, 2200),
    readers.latitude: _decimal(-90, 90),
    readers.day: _text(_ANY_DAY, examples=("07-30", "2026-07-30", "W31")),
    readers.days: _text(_SPAN, examples=("07-01..08-20",)),
    readers.days_or_all_year: _text(f"{_SPAN}|{_any_case('all year')}", examples=("all year",)),
    readers.days_or_none: _text(f"{_SPAN}|{_any_case('none')}", examples=("07-01..08-20", "none")),
    readers.month_days: _text(rf"(?:{_DAY}) *\.\. *(?:{_DAY})", examples=("06-25..07-20",)),
    readers.start: _text(f"{_ANY_DAY}|{_any_case('earliest')}", examples=("earliest", "07-15")),
    readers.until: _text(f"{_ANY_DAY}|{_any_case('last safe')}", examples=("last safe", "08-20")),
    readers.size: _text(rf"{positive(10_000)} *[xX×] *{positive(10_000)}", examples=("4 x 20",)),
    readers.sure: _text(
        rf"{decimal_between(1, 99)} *%|{between(0, 99)} days?", examples=("80%", "14 days")
    ),
    readers.allowance: _either(
        {"type": "integer", "minimum": 0, "maximum": 99}, rf"{between(0, 99)}(?: +always *)?"
    ),
    readers.warm_cool: _range(1, 365),
    readers.weekday: one_of(*_NAMES),
    readers.working_day: one_of(*_NAMES, *(name[:3] for name in _NAMES)),
    readers.yes_no: one_of("yes", "no"),
    readers.how_often: _either(
        {"type": "integer", "minimum": 1, "maximum": _WHOLE_YEAR},
        rf"{between(1, _WHOLE_YEAR)}|{_any_case('day')}|{_any_case('week')}",
        examples=("week", "day"),
    ),
    readers.record_unit: _text(
        "°?[fFcC]|°?" + _any_case("tenths"), examples=("°F", "°C", "tenths")
    ),
    readers.years_wanted: _text(
        rf" *{_any_case('all')} *|{_any_case('last')} +0{{0,2}}{between(1, 300)} *|"
        r"\d{4} *(?:-|–|\.\.) *\d{4}",
        examples=("last 30", "1991-2020", "all"),
    ),
    readers.amount: _either(
        _MUCH, rf"{positive(1_000_000)} *{_HARVEST}", examples=("5 lb", "6 heads")
    ),
    readers.yield_of_plant: _either(
        _MUCH,
        rf"(?:{up_to(1_000_000)} *[-–] *)?{positive(1_000_000)} *{_HARVEST}",
        examples=("0.5 lb", "2-5 ears"),
    ),
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
