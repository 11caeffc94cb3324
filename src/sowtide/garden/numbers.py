"""Readers of numbers: text as the grower wrote it → a number, or what to write instead.

Only plain digits are numbers. What other programs would take for one (``010``, ``1e3``,
``1_000``, ``12:30``, ``nan``) is refused with the spelling that is meant.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from sowtide.days import DayRange
from sowtide.garden.refused import Refused, quoted

LONGEST = 1000
"""No range of days is longer. [days]"""

_SWITCHES = ("yes", "no", "on", "off", "true", "false", "y", "n")


def whole(low: int, high: int) -> Callable[[str], int]:
    """Return a reader of whole numbers from `low` to `high`, both included.

    Examples
    --------
    >>> whole(1, 99)("14")
    14
    """

    def read(text: str) -> int:
        return within(digits(text), low, high)

    return read


def decimal(low: float, high: float) -> Callable[[str], Fraction]:
    """Return a reader of numbers with or without decimals, from `low` to `high`."""

    def read(text: str) -> Fraction:
        value = exact(text)
        if not low <= value <= high:
            raise _outside(text, low, high)
        return value

    return read


def above_zero(high: int) -> Callable[[str], Fraction]:
    """Return a reader of numbers with or without decimals, more than 0 and at most `high`."""

    def read(text: str) -> Fraction:
        value = exact(text)
        if not 0 < value <= high:
            raise Refused(
                "out-of-range",
                f"{quoted(text)} is out of range",
                f"write a number above 0, at most {high}",
            )
        return value

    return read


def day_range(low: int) -> Callable[[str], DayRange]:
    """Return a reader of days, one number or two such as ``50-60``, none below `low`.

    Examples
    --------
    >>> day_range(1)("50-60")
    DayRange(low=50, high=60)
    """

    def read(text: str) -> DayRange:
        if text.isdigit():
            number = within(digits(text), low, LONGEST)
            return DayRange(number, number)
        return number_range(text, low=low, high=LONGEST)

    return read


def number_range(text: str, *, low: int, high: int) -> DayRange:
    """Read one whole number or two with a hyphen between, each from `low` to `high`."""
    parts = [part.strip() for part in text.replace("–", "-").split("-")]
    if len(parts) == 1 or (len(parts) == 2 and not parts[0]):
        number = within(_alone(text), low, high)
        return DayRange(number, number)
    if len(parts) != 2 or not parts[1]:
        raise Refused("range", f"{quoted(text)} is no number or range", "write it as 50-60")
    first, second = (within(digits(part), low, high) for part in parts)
    if first > second:
        raise Refused(
            "range",
            f"{quoted(text)} runs backwards: {first} is more than {second}",
            f"write the smaller number first: {second}-{first}",
        )
    return DayRange(first, second)


def _alone(text: str) -> int:
    """Read a number where a range might stand, so that one in other words is understood."""
    for sign in (" to ", "..", "/", " or "):
        first, found, second = text.partition(sign)
        if found and first.strip().isdigit() and second.strip().isdigit():
            raise Refused(
                "range",
                f"{quoted(text)} is not how a range is written here",
                f"write {first.strip()}-{second.strip()}",
            )
    return digits(text)


def percent(low: int, high: int) -> Callable[[str], float]:
    """Return a reader of a share written as a percentage, ``80%``; the share is 0–1."""

    def read(text: str) -> float:
        if not text.endswith("%"):
            number = text.strip()
            hint = f"write {number}%" if number.isdigit() else "write a percentage such as 80%"
            raise Refused("percent", f"{quoted(text)} is not a percentage", hint)
        value = exact(text[:-1].rstrip())
        if not low <= value <= high:
            raise Refused(
                "percent",
                f"{quoted(text)} is out of range",
                f"write a percentage from {low}% to {high}%",
            )
        return float(value / 100)

    return read


def within(number: int, low: int, high: int) -> int:
    """Return the number, or refuse it because it lies outside of `low` … `high`."""
    if not low <= number <= high:
        raise _outside(str(number), low, high)
    return number


def digits(text: str) -> int:
    """Read a whole number written in plain digits."""
    if text.isdigit() and text.isascii() and len(text) < 10 and (text[0] != "0" or text == "0"):
        return int(text)
    raise _not_a_number(text, whole_number=True)


def exact(text: str) -> Fraction:
    """Read a number written in plain digits, with decimals or without, negative or not."""
    body = text[1:] if text.startswith("-") else text
    before, dot, after = body.partition(".")
    plain = (before + after).isdigit() and body.isascii() and len(body) < 16
    leading = before[:1] == "0" and before != "0"
    if plain and before and not leading and (after or not dot):
        return Fraction(text)
    raise _not_a_number(text, whole_number=False)


def _outside(text: str, low: float, high: float) -> Refused:
    shown = text if len(text) < 20 else text[:17] + "..."
    return Refused(
        "out-of-range", f"{shown} is out of range", f"write a number from {low:g} to {high:g}"
    )


def _not_a_number(text: str, *, whole_number: bool) -> Refused:
    kind = "a whole number" if whole_number else "a number"
    said = f"{quoted(text)} is not {kind}"
    if text.lower() in _SWITCHES:
        return Refused("number", said, "write digits: 0 for none, or leave the line out")
    if ":" in text:
        return Refused("number", f"{said} but a time of day", "write digits only, such as 14")
    if text.lower().lstrip("+-.") in ("nan", "inf", "infinity"):
        return Refused("number", said, "write digits, or leave the line out")
    if text.lower()[:2] in ("0x", "0o", "0b"):
        return Refused("number", said, "write it in everyday digits, such as 16")
    meant = _meant(text, whole_number=whole_number)
    if meant is not None:
        return Refused("number", f"{quoted(text)} is not how a number is written here", meant)
    if whole_number:
        return _not_whole(text, said)
    return Refused("number", said, "write digits, such as 14 or 2.5, without a unit")


def _meant(text: str, *, whole_number: bool) -> str | None:
    """Return what to write for a number that is only spelt in another way."""
    body = text.lstrip("+").replace("_", "").replace(" ", "")
    if body.isascii() and body.isdigit() and len(body) < 10:
        return f"write {int(body)}"
    if body.isdigit():
        return None
    parts = body.split(",")
    if all(part.isascii() and part.isdigit() for part in parts) and len(body) < 12:
        if whole_number and all(len(part) == 3 for part in parts[1:]):
            return f"write {int(''.join(parts))}"
        return f"write {int(parts[0])}.{parts[1]}" if len(parts) == 2 else None
    mantissa, e, exponent = body.lower().partition("e")
    if e and exponent.lstrip("+").isdigit() and len(exponent) < 3 and int(exponent) < 8:
        try:
            value = Fraction(mantissa) * 10 ** int(exponent)
        except ValueError:
            return None
        return f"write {value.numerator}" if value.denominator == 1 else None
    before, dot, after = body.partition(".")
    if dot and not whole_number and (before + after).isdigit() and len(body) < 16:
        return f"write {int(before or 0)}.{after}" if after else f"write {int(before)}"
    return None


def _not_whole(text: str, said: str) -> Refused:
    try:
        value = exact(text)
    except Refused:
        value = None
    if value is not None and value < 0:
        return Refused("out-of-range", f"{text} is below zero", "write a whole number, 0 or more")
    if value is not None and value.denominator == 1 and "." not in text:
        return Refused("out-of-range", f"{text} is far too large", "write a smaller number")
    if value is not None:
        return Refused("number", said, "write it without decimals")
    if text[:1].isdigit():
        number = text[: next((i for i, c in enumerate(text) if not c.isdigit()), len(text))]
        if number.isascii() and len(number) < 10 and text[len(number) :].strip().isalpha():
            return Refused("number", said, f"write the number alone, without a unit: {int(number)}")
    if text.isdigit() and text.isascii():
        return Refused(
            "out-of-range", f"{quoted(text, 20)} is far too large", "write a smaller number"
        )
    return Refused("number", said, "write digits only, such as 14")
