"""Readers of numbers: text as the grower wrote it → a number, or what to write instead.

Only plain digits are numbers. What other programs would take for one (``010``, ``1e3``,
``1_000``, ``12:30``, ``nan``) is refused with the spelling that is meant.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any, TypeVar

from sowtide.days import DayRange
from sowtide.garden.text import Refused, quoted

_Reader = TypeVar("_Reader", bound=Callable[[str], Any])

LONGEST = 1000
"""No range of days is longer. [days]"""

_SIGNS = ("°", "'", '"', "′", "″", "%")
_SWITCHES = ("yes", "no", "on", "off", "true", "false", "y", "n")


def written_as(form: str, *bounds: Any) -> Callable[[_Reader], _Reader]:
    """Note on a reader that was made for some bounds how its values are written, and for which."""

    def note(read: _Reader) -> _Reader:
        vars(read)["form"] = (form, *bounds)
        return read

    return note


def whole(low: int, high: int) -> Callable[[str], int]:
    """Return a reader of whole numbers from `low` to `high`, both included.

    Examples
    --------
    >>> whole(1, 99)("14")
    14
    """

    @written_as("whole", low, high)
    def read(text: str) -> int:
        return number_within(text, low, high)

    return read


def number_within(text: str, low: int, high: int) -> int:
    """Read a whole number from `low` to `high`, both included."""
    return within(digits(text, low, high), low, high)


def decimal(low: float, high: float) -> Callable[[str], Fraction]:
    """Return a reader of numbers with or without decimals, from `low` to `high`."""

    @written_as("decimal", low, high)
    def read(text: str) -> Fraction:
        value = exact(text, low, high)
        if not low <= value <= high:
            raise _outside(text, low, high)
        return value

    return read


def above_zero(high: int) -> Callable[[str], Fraction]:
    """Return a reader of numbers with or without decimals, more than 0 and at most `high`."""

    @written_as("above zero", high)
    def read(text: str) -> Fraction:
        value = exact(text, None, high)
        if not 0 < value <= high:
            raise Refused("out-of-range", f"{quoted(text)} is out of range", _wanted(None, high))
        return value

    return read


def day_range(low: int) -> Callable[[str], DayRange]:
    """Return a reader of days, one number or two such as ``50-60``, none below `low`.

    Examples
    --------
    >>> day_range(1)("50-60")
    DayRange(low=50, high=60)
    """

    @written_as("range", low, LONGEST)
    def read(text: str) -> DayRange:
        if text.isdigit():
            number = number_within(text, low, LONGEST)
            return DayRange(number, number)
        return number_range(text, low=low, high=LONGEST)

    return read


def range_within(low: int, high: int) -> Callable[[str], DayRange]:
    """Return a reader of one whole number or two with a hyphen between, from `low` to `high`."""

    @written_as("range", low, high)
    def read(text: str) -> DayRange:
        return number_range(text, low=low, high=high)

    return read


def number_range(text: str, *, low: int, high: int) -> DayRange:
    """Read one whole number or two with a hyphen between, each from `low` to `high`."""
    days = _as_days(text)
    if days is not None:
        hint = _wanted_in_days(days, low, high)
        raise Refused("range", f"{quoted(text)} is no number of days", hint)
    parts = [part.strip() for part in text.replace("–", "-").split("-")]
    if len(parts) == 1 or (len(parts) == 2 and not parts[0]):
        number = within(_alone(text, low, high), low, high)
        return DayRange(number, number)
    if len(parts) != 2 or not parts[1]:
        raise Refused("range", f"{quoted(text)} is no number or range", "write it as 50-60")
    bare = [_bare(part) for part in parts]
    if bare != parts and all(map(_is_short, bare)):
        pair = sorted(int(part) for part in bare)
        raise Refused("range", f"{quoted(text)} holds a unit", f"write {pair[0]}-{pair[1]}")
    first, second = (number_within(part, low, high) for part in parts)
    if first > second:
        raise Refused(
            "range",
            f"{quoted(text)} runs backwards: {first} is more than {second}",
            f"write the smaller number first: {second}-{first}",
        )
    return DayRange(first, second)


def _is_short(text: str) -> bool:
    """Say whether a text is a whole number of digits that a range may have."""
    return text.isascii() and text.isdigit() and len(text) < 10


def _alone(text: str, low: int, high: int) -> int:
    """Read a number where a range might stand, so that one in other words is understood."""
    for sign in (" to ", "..", "/", " or "):
        first, found, second = text.partition(sign)
        numbers = [_bare(first), _bare(second)]
        if found and all(map(_is_short, numbers)):
            pair = sorted(int(number) for number in numbers)
            raise Refused(
                "range",
                f"{quoted(text)} is not how a range is written here",
                f"write {pair[0]}-{pair[1]}",
            )
    return digits(text, low, high)


def percent(low: int, high: int) -> Callable[[str], float]:
    """Return a reader of a share written as a percentage, ``80%``; the share is 0–1."""

    @written_as("percent", low, high)
    def read(text: str) -> float:
        if not text.endswith("%"):
            hint = percentage_meant(text, low, high)
            raise Refused("percent", f"{quoted(text)} is not a percentage", hint)
        value = exact(text[:-1].rstrip(), low, high)
        if not low <= value <= high:
            raise Refused(
                "percent",
                f"{quoted(text)} is out of range",
                f"write a percentage from {low}% to {high}%",
            )
        return float(value / 100)

    return read


def percentage_meant(text: str, low: int, high: int) -> str:
    """Say how to write a share that lacks its percent sign."""
    try:
        value = exact(text)
    except Refused:
        return f"write a percentage from {low}% to {high}%"
    share = value * 100 if 0 < value < 1 else value
    if not low <= share <= high:
        return f"write a percentage from {low}% to {high}%"
    return f"write {plain(share)}%"


def plain(number: Fraction | float) -> str:
    """Show a number the way the readers want it, with no more than six decimals."""
    return f"{float(number):.6f}".rstrip("0").rstrip(".")


def within(number: int, low: int, high: int) -> int:
    """Return the number, or refuse it because it lies outside of `low` … `high`."""
    if not low <= number <= high:
        raise _outside(str(number), low, high)
    return number


def digits(text: str, low: int, high: int | None) -> int:
    """Read a whole number written in plain digits; the bounds are for what to write instead."""
    if text.isdigit() and text.isascii() and len(text) < 10 and (text[0] != "0" or text == "0"):
        return int(text)
    raise _not_a_number(text, low, high, whole_number=True)


def exact(text: str, low: float | None = None, high: float | None = None) -> Fraction:
    """Read a number written in plain digits, with decimals or without, negative or not.

    The bounds are for what to write instead.
    """
    body = text[1:] if text.startswith("-") else text
    before, dot, after = body.partition(".")
    plain = (before + after).isdigit() and body.isascii() and len(body) < 16
    leading = before[:1] == "0" and before != "0"
    if plain and before and not leading and (after or not dot):
        return Fraction(text)
    raise _not_a_number(text, low, high, whole_number=False)


def _outside(text: str, low: float, high: float) -> Refused:
    shown = text if len(text) < 20 else text[:17] + "..."
    return Refused("out-of-range", f"{shown} is out of range", _wanted(low, high))


def _wanted(low: float | None, high: float | None) -> str:
    """Say between which numbers to choose, in digits that the readers take."""
    if high is None:
        return "write digits only, such as 14"
    if low is None:
        return f"write a number above 0, at most {plain(high)}"
    return f"write a number from {plain(low)} to {plain(high)}"


def _as_days(text: str) -> str | None:
    """Return in days what is written in weeks: of ``2 weeks`` the ``14``, of ``2-3 weeks`` both."""
    import re

    text = text.lower().replace("–", "-")
    found = re.fullmatch(r"([0-9]{1,3})(?: *(?:-|to) *([0-9]{1,3}))? *(w(?:ee)?k|month)s?", text)
    if found is None:
        return {"weekly": "7", "fortnight": "14", "fortnightly": "14", "monthly": "30"}.get(text)
    *numbers, unit = found.groups()
    each = 30 if unit == "month" else 7
    return "-".join(str(each * int(number)) for number in numbers if number)


def _wanted_in_days(days: str, low: float | None, high: float | None) -> str:
    """Say what to write in place of weeks: so many days, if they can be written."""
    fit = all(_inside(each, low, high) for each in days.split("-"))
    return f"write it in days: {days}" if fit else _wanted(low, high)


def _not_a_number(
    text: str, low: float | None, high: float | None, *, whole_number: bool
) -> Refused:
    kind = "a whole number" if whole_number else "a number"
    said = f"{quoted(text)} is not {kind}"
    days = _as_days(text)
    if days is not None:
        return Refused("number", said, _wanted_in_days(days, low, high))
    if text.lower() in _SWITCHES:
        none = low is not None and low == 0 and text.lower() in ("no", "off", "false", "n")
        return Refused("number", said, "write 0 for none" if none else _wanted(low, high))
    if ":" in text:
        return Refused("number", f"{said} but a time of day", _wanted(low, high))
    if text.lower().lstrip("+-.") in ("nan", "inf", "infinity"):
        return Refused("number", said, _wanted(low, high))
    meant = _meant(text, whole_number=whole_number)
    if meant is not None:
        hint = f"write {meant}" if _inside(meant, low, high) else _wanted(low, high)
        return Refused("number", f"{quoted(text)} is not how a number is written here", hint)
    bare = _bare(text)
    if bare != text and _is_plain(bare, whole_number=whole_number) and _inside(bare, low, high):
        return Refused("number", said, f"write the number alone, without a unit: {bare}")
    if whole_number:
        return _not_whole(text, said, low, high)
    return Refused("number", said, _wanted(low, high))


def _inside(number: str, low: float | None, high: float | None) -> bool:
    value = Fraction(number)
    return (value > 0 if low is None else value >= low) and (high is None or value <= high)


def _is_plain(text: str, *, whole_number: bool) -> bool:
    try:
        return exact(text).denominator == 1 if whole_number else bool(exact(text) is not None)
    except Refused:
        return False


def _bare(text: str) -> str:
    """Return a number without the unit behind it: of ``54 days`` the ``54``."""
    rest = text.lstrip("-.0123456789")
    number = text[: len(text) - len(rest)].strip()
    return number if rest.strip(" .°'\"′″²").isalpha() or rest.strip() in _SIGNS else text.strip()


def _meant(text: str, *, whole_number: bool) -> str | None:
    """Return the number that is only spelt in another way, as it is to be written."""
    if text.lower()[:2] in ("0x", "0o", "0b") and len(text) < 12:
        try:
            return str(int(text, 0))
        except ValueError:
            return None
    body = text.lstrip("+").replace("_", "").replace(" ", "")
    if body.isascii() and body.isdigit() and len(body) < 10:
        return str(int(body))
    if body.isdigit():
        return None
    parts = body.split(",")
    if all(part.isascii() and part.isdigit() for part in parts) and len(body) < 12:
        if whole_number and all(len(part) == 3 for part in parts[1:]):
            return str(int("".join(parts)))
        return f"{int(parts[0])}.{parts[1]}" if len(parts) == 2 and not whole_number else None
    mantissa, e, exponent = body.lower().partition("e")
    if (
        e
        and body.isascii()
        and exponent.lstrip("+").isdigit()
        and len(exponent) < 3
        and int(exponent) < 8
    ):
        try:
            value = Fraction(mantissa) * 10 ** int(exponent)
        except ValueError:
            return None
        return str(value.numerator) if value.denominator == 1 else None
    before, dot, after = body.partition(".")
    plain = body.isascii() and (before + after).isdigit()
    if dot and not whole_number and plain and len(body) < 16:
        return f"{int(before or 0)}.{after}" if after else str(int(before))
    return None


def _not_whole(text: str, said: str, low: float | None, high: float | None) -> Refused:
    try:
        value = exact(text)
    except Refused:
        value = None
    if value is not None and value < 0:
        return Refused("out-of-range", f"{text} is below zero", _wanted(low, high))
    if value is not None and value.denominator == 1 and _inside(str(value), low, high):
        return Refused("number", said, f"write {value}")
    if (value is not None and value.denominator == 1 and "." not in text) or (
        text.isdigit() and text.isascii()
    ):
        return Refused("out-of-range", f"{quoted(text, 20)} is far too large", _wanted(low, high))
    if value is not None and _inside(str(int(value) + 1), low, high):
        return Refused("number", said, f"write it without decimals: {_rounded(value, low)}")
    return Refused("number", said, _wanted(low, high))


def _rounded(value: Fraction, low: float | None) -> str:
    below = int(value)
    return f"{below} or {below + 1}" if _inside(str(below), low, None) else str(below + 1)
