"""Dates as records write them: the year first, or day and month with points between.

What could be a day of one month or of another is never guessed.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from enum import Enum

_MIDNIGHT = ("t00:00", " 00:00", " 0:00")


class Form(Enum):
    """A way to write a date."""

    HYPHENS = "2012-04-03"
    SLASHES = "2012/04/03"
    DIGITS = "20120403"
    POINTS = "03.04.2012"

    def reader(self) -> Callable[[str], int]:
        """Return what turns such a text into a proleptic ordinal, or raises ValueError."""
        return _READERS[self]


def form_of(text: str) -> Form | None:
    """Return the way a date is written, or None where it is none that is certain.

    Examples
    --------
    >>> form_of("2012/4/3"), form_of("03/04/2012")
    (<Form.SLASHES: '2012/04/03'>, None)
    """
    text = day_part(text)
    if not text.isascii():
        return None
    if text.isdigit():
        return Form.DIGITS if len(text) == 8 else None
    for form, sign in ((Form.HYPHENS, "-"), (Form.SLASHES, "/"), (Form.POINTS, ".")):
        parts = text.split(sign)
        if len(parts) == 3 and all(map(str.isdecimal, parts)):
            year, other = (parts[2], parts[0]) if form is Form.POINTS else (parts[0], parts[2])
            return form if len(year) == 4 and len(other) <= 2 and len(parts[1]) <= 2 else None
    return None


def day_part(text: str) -> str:
    """Return a date without the midnight that some programs write behind it."""
    text = text.strip()
    for midnight in _MIDNIGHT:
        at = text.casefold().find(midnight)
        if at > 0 and not set(text[at + len(midnight) :]) - set(":.0Z+"):
            return text[:at]
    return text


def _hyphens(text: str) -> int:
    if len(text) == 10 and text[4] == "-" == text[7]:
        return date.fromisoformat(text).toordinal()
    return _parts(text, "-")


def _slashes(text: str) -> int:
    if len(text) == 10 and text[4] == "/" == text[7]:
        return date.fromisoformat(text.replace("/", "-")).toordinal()
    return _parts(text, "/")


def _digits(text: str) -> int:
    text = day_part(text)
    if form_of(text) is not Form.DIGITS:
        raise ValueError(text)
    return date(int(text[:4]), int(text[4:6]), int(text[6:])).toordinal()


def _points(text: str) -> int:
    if form_of(text) is not Form.POINTS:
        raise ValueError(text)
    day, month, year = day_part(text).split(".")
    return date(int(year), int(month), int(day)).toordinal()


def _parts(text: str, sign: str) -> int:
    form = form_of(text)
    if form is None or sign not in form.value:
        raise ValueError(text)
    year, month, day = day_part(text).split(sign)
    return date(int(year), int(month), int(day)).toordinal()


_READERS = {
    Form.HYPHENS: _hyphens,
    Form.SLASHES: _slashes,
    Form.DIGITS: _digits,
    Form.POINTS: _points,
}
