"""Readers of single values that are neither plain numbers nor days."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from fractions import Fraction
from typing import TypeVar

from sowtide.days import DayRange
from sowtide.garden.dates import Written, day
from sowtide.garden.numbers import digits, exact, number_range, percent, within
from sowtide.garden.refused import Refused, did_you_mean, quoted

LONGEST_TEXT = 200
_JOINERS = "\u200c\u200d"  # part of the spelling of some scripts, and of some emoji
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_SURE_DAYS = 99
_WIDEST = 10_000

Choice = TypeVar("Choice", bound=Enum)


def text(value: str) -> str:
    """Read a text on one line; runs of spaces count as one."""
    if len(value) > LONGEST_TEXT:
        raise Refused(
            "text",
            f"{quoted(value)} has {len(value)} characters",
            f"write no more than {LONGEST_TEXT}",
        )
    if "  " in value or "\n" in value:
        value = " ".join(value.split())
    if not value.isprintable() and not all(c.isprintable() or c in _JOINERS for c in value):
        raise Refused(
            "text", f"{quoted(value)} holds characters that cannot be shown", "delete them"
        )
    return value


def lower_text(value: str) -> str:
    """Read a text whose capitals do not matter."""
    return text(value).lower()


def series_name(value: str) -> str:
    """Read the name of a series: its spaces become hyphens, as in the names made from crops."""
    name = text(value)
    if ":" in name:
        raise Refused(
            "series-name",
            f"{quoted(name)} holds a colon, and so would the names of its waves",
            f"write it as {name.replace(':', ' ').replace('  ', ' ').strip().replace(' ', '-')}",
        )
    return name.replace(" ", "-")


def choice(options: type[Choice]) -> Callable[[str], Choice]:
    """Return a reader of one word out of a few."""
    known = {option.value: option for option in options}

    def read(value: str) -> Choice:
        found = known.get(value) or known.get(value.lower())
        if found is None:
            raise not_among(value, tuple(known))
        return found

    return read


def word(*known: str) -> Callable[[str], str]:
    """Return a reader of one word out of a few, for words that need no type of their own."""

    def read(value: str) -> str:
        if value.lower() not in known:
            raise not_among(value, known)
        return value.lower()

    return read


def not_among(value: str, known: tuple[str, ...]) -> Refused:
    """Return the refusal of a word that is none of those possible."""
    listed = ", ".join(known[:-1]) + f" or {known[-1]}"
    near = did_you_mean(value, known)
    hint = f"did you mean '{near}'?" if near else f"write {listed}"
    return Refused("choice", f"{quoted(value)} is not {listed}", hint)


def yes_no(value: str) -> bool:
    """Read ``yes`` or ``no``."""
    low = value.lower()
    if low not in ("yes", "no"):
        meant = {"true": "yes", "on": "yes", "y": "yes", "false": "no", "off": "no", "n": "no"}
        hint = f"write {meant[low]}" if low in meant else "write yes or no"
        raise Refused("choice", f"{quoted(value)} is not yes or no", hint)
    return low == "yes"


def weekday(value: str) -> int:
    """Read a day of the week: 0 for Monday … 6 for Sunday."""
    if value.lower() not in _WEEKDAYS:
        raise not_among(value, _WEEKDAYS)
    return _WEEKDAYS.index(value.lower())


def size(value: str) -> tuple[Fraction, Fraction]:
    """Read ``WIDTH x LENGTH``, in the file's long unit."""
    parts = value.lower().replace("×", "x").split("x")
    if len(parts) != 2:
        raise Refused("size", f"{quoted(value)} is not a size", "write width x length, as 4 x 20")
    width, length = (_side(value, part.strip()) for part in parts)
    return width, length


def _side(whole: str, part: str) -> Fraction:
    try:
        number = exact(part)
    except Refused:
        hint = "write width x length in numbers without units, as 4 x 20"
        raise Refused("size", f"{quoted(whole)} is not a size", hint) from None
    if number == 0:
        raise Refused("size", f"a bed of {whole} has no area", "write both sides, as 4 x 20")
    if not 0 < number <= _WIDEST:
        hint = f"write sides above 0, at most {_WIDEST}"
        raise Refused("size", f"{quoted(whole)} is out of range", hint)
    return number


def sure(value: str) -> tuple[float | None, int | None]:
    """Read how sure to be: ``80%`` as a share of years, or ``14 days`` before the frost."""
    if value.endswith("%"):
        return percent(1, 99)(value), None
    number, space, unit = value.partition(" ")
    if space and unit in ("days", "day"):
        return None, within(digits(number), 0, _SURE_DAYS)
    hint = "write a share of years, 80%, or days before the frost, 14 days"
    if value.isascii() and value.isdigit():
        hint = f"write {value}% of years or {value} days before the frost"
    raise Refused("percent", f"{quoted(value)} is no share of years and no number of days", hint)


def allowance(value: str) -> tuple[int, bool]:
    """Read the fall allowance: days, and whether every wave gets them (``14 always``)."""
    number, space, always = value.partition(" ")
    if space and always.strip() != "always":
        raise Refused(
            "number", f"{quoted(value)} is not a number of days", "write 14, or 14 always"
        )
    return within(digits(number), 0, _SURE_DAYS), bool(space)


def warm_cool(value: str) -> DayRange:
    """Read days in warm and in cool weather, ``5-14``; one number holds for both."""
    try:
        return number_range(value, low=1, high=365)
    except Refused as refused:
        if refused.code == "range" and "backwards" in refused.message:
            raise Refused(
                "range",
                f"{quoted(value)} holds longer in warm weather than in cool",
                "write the days in warm weather first",
            ) from None
        raise


def start(value: str) -> Written | None:
    """Read the first planting day; None for ``earliest``."""
    return None if value.lower() == "earliest" else _day_or(value, "earliest")


def until(value: str) -> Written | None:
    """Read the last planting day; None for ``last safe``."""
    return None if value.lower() == "last safe" else _day_or(value, "last safe")


def _day_or(value: str, other: str) -> Written:
    try:
        return day(value)
    except Refused as refused:
        if refused.code != "date":
            raise
        hint = refused.hint
        if did_you_mean(value, (other,)):
            hint = f"did you mean '{other}'?"
        elif not any(c.isdigit() for c in value):
            hint = f"write a date as MM-DD, or {other}"
        raise Refused("date", refused.message, hint) from None
