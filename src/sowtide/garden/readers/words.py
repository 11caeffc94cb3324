"""Readers of single values that are neither plain numbers nor days."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from fractions import Fraction
from functools import cache
from typing import TypeVar

from sowtide.days import DayRange
from sowtide.garden.readers.dates import Written, day
from sowtide.garden.readers.numbers import (
    decimal,
    exact,
    number_range,
    number_within,
    percent,
    percentage_meant,
    plain,
    written_as,
)
from sowtide.garden.site import ALL_YEARS, YearsWanted
from sowtide.garden.text import Refused, did_you_mean, quoted

_OFTEN = {"day": 1, "week": 7}
LONGEST_TEXT = 200
_JOINERS = "\u200c\u200d"  # part of the spelling of some scripts, and of some emoji
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_SURE_DAYS = 99
_WIDEST = 10_000
_MOST_YEARS = 300

_TRAYS = ("transplant", "transplants", "transplanted", "seedlings", "indoors", "pots", "modules")
_DIRECT = ("sown direct", "direct sown", "direct seeded", "outdoors", "sown", "seed")
_ALSO_CALLED = dict.fromkeys(_TRAYS, "trays") | dict.fromkeys(_DIRECT, "direct")
"""What growers may call how a crop is raised, and the word here."""

Choice = TypeVar("Choice", bound=Enum)


def text(value: str) -> str:
    """Read a text on one line; runs of white space of any kind count as one space."""
    if len(value) > LONGEST_TEXT:
        raise Refused(
            "text",
            f"{quoted(value)} has {len(value)} characters",
            f"write no more than {LONGEST_TEXT}",
        )
    if "  " in value or not value.isprintable():  # every other white space is as good as a space
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
    """Return a reader of one word out of a few; of other words that growers have, say which."""
    known = {option.value: option for option in options}

    @written_as("choice", *known)
    def read(value: str) -> Choice:
        found = known.get(value) or known.get(value.lower())
        if found is None:
            refused = not_among(value, tuple(known))
            meant = _ALSO_CALLED.get(value.lower().replace("-", " "))
            hint = f"write {meant}" if meant in known else refused.hint
            raise Refused(refused.code, refused.message, hint)
        return found

    return read


def years_wanted(value: str) -> YearsWanted:
    """Read ``last 30``, ``all``, or the first and the last year, such as ``1991-2020``."""
    if value.strip().lower() == "all":
        return ALL_YEARS
    word, _, number = value.partition(" ")
    if word.lower() == "last" and _is_number(number.strip(), 3) and 1 <= int(number) <= _MOST_YEARS:
        return YearsWanted(last=int(number))
    first, _, to = value.replace("–", "-").replace("..", "-").partition("-")
    first, to = first.strip(), to.strip()
    if not (_is_number(first, 4) and _is_number(to, 4) and len(first) == len(to) == len("1991")):
        raise Refused(
            "years", f"{quoted(value)} is no choice of years", "write last 30, 1991-2020, or all"
        )
    if int(first) > int(to):
        raise Refused("years", f"{first} comes after {to}", f"write {to}-{first}")
    return YearsWanted(first=int(first), to=int(to))


def _is_number(text: str, longest: int) -> bool:
    """Say whether a text is a number in plain digits, and not too long for any that is meant."""
    return text.isascii() and text.isdigit() and len(text) <= longest


def record_unit(value: str) -> str:
    """Read what the numbers of a record count."""
    known = {"f": "°F", "c": "°C", "tenths": "tenths of °C"}
    found = known.get(value.lower().removeprefix("°"))
    if found is None:
        raise not_among(value, ("°F", "°C", "tenths"))
    return found


def word(*known: str) -> Callable[[str], str]:
    """Return a reader of one word out of a few, for words that need no type of their own."""

    @written_as("choice", *known)
    def read(value: str) -> str:
        if value.lower() not in known:
            raise not_among(value, known)
        return value.lower()

    return read


def not_among(value: str, known: tuple[str, ...]) -> Refused:
    """Return the refusal of a word that is none of those possible."""
    listed = " or ".join((*filter(None, [", ".join(known[:-1])]), known[-1]))
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


def how_often(value: str) -> int:
    """Read how often something is wanted: ``day``, ``week``, or a number of days. [days]"""
    word = value.lower()
    if word in _OFTEN:
        return _OFTEN[word]
    if any(letter.isalpha() for letter in value):
        raise not_among(value, (*_OFTEN, "a number of days"))
    return number_within(value, 1, 366)


def weekday(value: str) -> int:
    """Read a day of the week: 0 for Monday … 6 for Sunday."""
    if value.lower() not in _WEEKDAYS:
        raise not_among(value, _WEEKDAYS)
    return _WEEKDAYS.index(value.lower())


def working_day(value: str) -> int:
    """Read a day of the week, whole or by its first three letters: 0 for Monday … 6 for Sunday."""
    short = [name[:3] for name in _WEEKDAYS]
    return short.index(value.lower()) if value.lower() in short else weekday(value)


def latitude(value: str) -> Fraction:
    """Read a latitude, -90 to 90; south of the equator it is negative. [°]"""
    try:
        return decimal(-90, 90)(value)
    except Refused as refused:
        given = (refused.hint or "").removeprefix("write ")
        if refused.code != "number" or _is_number(given.replace(".", "", 1), len(given)):
            raise
        hint = "write degrees with decimals, such as 44.5, south of the equator -44.5"
        low = value.lower()
        number = low.rstrip(" °nsorthu.")
        unit = low[len(number) :].strip(" °.")
        is_side = unit in ("", "n", "s", "north", "south")
        if is_side and _is_number(number.replace(".", "", 1), 15) and Fraction(number) <= 90:
            degrees = plain(Fraction(number))
            south = f"write -{degrees}"
            hint = south if unit[:1] == "s" else f"write {degrees}, south of the equator -{degrees}"
        raise Refused(refused.code, refused.message, hint) from None


@cache  # many beds are of one size
def size(value: str) -> tuple[Fraction, Fraction]:
    """Read ``WIDTH x LENGTH``, in the file's long unit."""
    parts = value.lower().replace("×", "x").split("x")
    if len(parts) != 2:
        raise Refused("size", f"{quoted(value)} is not a size", _size_meant(value))
    width, length = (_side(value, part.strip()) for part in parts)
    return width, length


def _side(whole: str, part: str) -> Fraction:
    try:
        number = exact(part)
    except Refused:
        raise Refused("size", f"{quoted(whole)} is not a size", _size_meant(whole)) from None
    if number == 0:
        raise Refused(
            "size", f"a bed of {quoted(whole)[1:-1]} has no area", "write both sides, as 4 x 20"
        )
    if not 0 < number <= _WIDEST:
        hint = f"write sides above 0, at most {_WIDEST}"
        raise Refused("size", f"{quoted(whole)} is out of range", hint)
    return number


def _size_meant(value: str) -> str:
    """Say how to write a size in which only the sign or the units are wrong."""
    import re

    found = re.fullmatch(
        r"([0-9]{1,9}(?:\.[0-9]{1,9})?) *(?:ft|feet|foot|m|'|′)? *(?:x|×|by|\*) *"
        r"([0-9]{1,9}(?:\.[0-9]{1,9})?) *(?:ft|feet|foot|m|'|′)?",
        value.lower(),
    )
    if found is None:
        return "write width x length in numbers without units, as 4 x 20"
    return f"write {' x '.join(plain(Fraction(side)) for side in found.groups())}"


def sure(value: str) -> tuple[float | None, int | None]:
    """Read how sure to be: ``80%`` as a share of years, or ``14 days`` before the frost."""
    if value.endswith("%"):
        return percent(1, 99)(value), None
    number, space, unit = value.partition(" ")
    if space and unit in ("days", "day"):
        return None, number_within(number, 0, _SURE_DAYS)
    hint = "write a share of years, such as 80%, or days before the frost, such as 14 days"
    if value.isascii() and value.isdigit() and 1 <= int(value[:9]) <= _SURE_DAYS:
        days = int(value)
        hint = f"write {days}% for a share of years, or {days} days for days before the frost"
    elif value.startswith("0.") and value[2:].isdigit() and value.isascii():
        hint = percentage_meant(value, 1, 99)
    raise Refused("percent", f"{quoted(value)} is no share of years and no number of days", hint)


def allowance(value: str) -> tuple[int, bool]:
    """Read the fall allowance: days, and whether every wave gets them (``14 always``)."""
    number, space, always = value.partition(" ")
    if space and always.strip() != "always":
        raise Refused(
            "number", f"{quoted(value)} is not a number of days", "write 14, or 14 always"
        )
    return number_within(number, 0, _SURE_DAYS), bool(space)


def warm_cool(value: str) -> DayRange:
    """Read days in warm and in cool weather, ``5-14``; one number holds for both."""
    try:
        return number_range(value, low=1, high=365)
    except Refused as refused:
        if refused.code == "range" and "backwards" in refused.message:
            raise Refused(
                "range",
                f"{quoted(value)} holds longer in warm weather than in cool",
                f"write the days in warm weather first: {'-'.join(_turned(value))}",
            ) from None
        raise


def _turned(value: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in reversed(value.replace("–", "-").split("-")))


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
