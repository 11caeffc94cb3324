"""Readers of days as growers write them: ``07-30``, ``2026-07-30``, ``W31``, ``07-01..08-20``.

No format is guessed: ``04/05`` is 4 May to one reader and 5 April to another.
"""

from __future__ import annotations

from datetime import date
from typing import Literal

from sowtide.days import DateSpan, GrowingYear, MonthDay
from sowtide.garden.text import Refused, quoted
from sowtide.values import value

_FORM = "write a date as MM-DD, such as 07-30, or with its year, 2026-07-30"
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_LAST_YEAR = 2200
_FIRST_YEAR = 1900


@value
class WeekWritten:
    """An ISO week, with its year or without."""

    number: int
    year: int | None = None


Written = MonthDay | date | WeekWritten
"""A day as it stands in the file, before the growing year gives it a year."""


@value
class DaysWritten:
    """Two days as they stand in the file, both included; None and None is the whole year."""

    first: Written | None
    last: Written | None


def day(text: str) -> Written:
    """Read a day.

    Examples
    --------
    >>> day("07-30")
    MonthDay(month=7, day=30)
    """
    if len(text) == 5 and text[2] == "-" and text.isascii():
        month, number = text[:2], text[3:]
        if month.isdigit() and number.isdigit():
            return _month_day(text, int(month), int(number))
    if len(text) == 10 and text[4] == "-" and text[7] == "-" and text.isascii():
        year, month, number = text[:4], text[5:7], text[8:]
        if year.isdigit() and month.isdigit() and number.isdigit():
            return _full_day(text, int(year), int(month), int(number))
    return _week(text)


def month_day(text: str) -> MonthDay:
    """Read a day written without a year."""
    written = day(text)
    if not isinstance(written, MonthDay):
        raise Refused("date", f"{quoted(text)} is not written MM-DD", "write it as 07-30")
    return written


def days(text: str) -> DaysWritten:
    """Read two days, ``07-01..08-20``."""
    first, dots, last = text.partition("..")
    if not dots:
        raise Refused("date-range", f"{quoted(text)} is no span of days", _span_meant(text))
    return DaysWritten(day(first.strip()), day(last.strip(". ")))


def _span_meant(text: str) -> str:
    """Say how to write a span whose two days are only joined by another sign."""
    for sign in (" to ", " - ", "–", "/", " until "):
        first, found, last = (part.strip() for part in text.partition(sign))
        if not found:
            continue
        try:
            day(first), day(last)
        except Refused:
            continue
        return f"write it as {first}..{last}"
    try:
        day(text)
    except Refused:
        return "write its first and its last day, as in 07-01..08-20"
    return f"write its first and its last day; one day alone is {text}..{text}"


def days_or_all_year(text: str) -> DaysWritten:
    """Read two days or the words ``all year``."""
    if text.lower() == "all year":
        return DaysWritten(None, None)
    return days(text)


def days_or_none(text: str) -> DaysWritten | Literal["none"]:
    """Read two days or the word ``none``."""
    if text.lower() == "none":
        return "none"
    return days(text)


def month_days(text: str) -> tuple[MonthDay, MonthDay]:
    """Read two days without a year, less than half a year apart."""
    first, dots, last = text.partition("..")
    if not dots:
        raise Refused(
            "date-range", f"{quoted(text)} is no span of days", "write it as 06-25..07-20"
        )
    pair = month_day(first.strip()), month_day(last.strip())
    if pair[1] < pair[0] and not (pair[0].month > 9 and pair[1].month < 4):
        raise _backwards(text)
    return pair


def year_of(text: str) -> int:
    """Read a year, 1900 to 2200."""
    if not (len(text) == 4 and text.isascii() and text.isdigit()):
        raise Refused("year", f"{quoted(text)} is not a year", "write four digits, such as 2026")
    year = int(text)
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        raise Refused(
            "year", f"the year {text} is out of range", f"write {_FIRST_YEAR} to {_LAST_YEAR}"
        )
    return year


def resolve(written: Written, year: GrowingYear, *, end: bool) -> date:
    """Return the day that is meant, in the growing year unless it has a year of its own.

    Parameters
    ----------
    written
        As it stands in the file.
    year
        The growing year.
    end
        Whether a week means its Sunday rather than its Monday.

    Raises
    ------
    Refused
        If there is no such day, or it is years away from the growing year.
    """
    if isinstance(written, MonthDay):
        try:
            return year.day(written)
        except ValueError:
            raise no_leap_day(year.season + 1 if year.south else year.season) from None
    found = _day_of_week(written, year, end=end) if isinstance(written, WeekWritten) else written
    if abs(found.year - year.season) > 2:
        raise Refused(
            "date",
            f"{found} is years away from season {year.season}",
            "check the year, or leave it out",
        )
    return found


def resolve_span(written: DaysWritten, year: GrowingYear) -> DateSpan:
    """Return the days that are meant, first and last included.

    Raises
    ------
    Refused
        If one is no day, or they run backwards.
    """
    if written.first is None or written.last is None:
        return DateSpan(year.first, year.last)
    first = resolve(written.first, year, end=False)
    last = resolve(written.last, year, end=True)
    if last < first:
        raise _backwards(f"{first}..{last}")
    return DateSpan(first, last)


def no_leap_day(year: int) -> Refused:
    """Return the refusal of 29 February in a year that has none."""
    return Refused("no-such-day", f"{year} has no 29 February", "write 02-28 or 03-01")


def _backwards(text: str) -> Refused:
    return Refused(
        "date-range",
        f"{quoted(text)} runs backwards",
        "write the earlier day first, with its year if it lies in another one",
    )


def _month_day(text: str, month: int, number: int) -> MonthDay:
    try:
        return MonthDay.of(month=month, day=number)
    except ValueError:
        raise _no_such_day(text, month, number) from None


def _full_day(text: str, year: int, month: int, number: int) -> date:
    try:
        return date(year, month, number)
    except ValueError:
        if (month, number) == (2, 29):
            raise no_leap_day(year) from None
        raise _no_such_day(text, month, number) from None


def _no_such_day(text: str, month: int, number: int) -> Refused:
    hint = "write the month first, then the day: MM-DD"
    if 1 <= month <= 12:
        hint = _end_of(month)
    elif 1 <= number <= 12 and 1 <= month <= _last_of(number):
        hint = f"the month stands first: {text[:-5]}{number:02}-{month:02}"
    return Refused("no-such-day", f"no year has a day {quoted(text)}", hint)


def _last_of(month: int) -> int:
    return 29 if month == 2 else 30 if month in (4, 6, 9, 11) else 31


def _end_of(month: int) -> str:
    """Say on which day a month ends."""
    if month == 2:
        return "February ends on 02-28, in leap years on 02-29"
    return f"month {month:02} ends on {month:02}-{_last_of(month)}"


def _week(text: str) -> WeekWritten:
    year, w, number = text.partition("W")
    year_fits = year == "" or (len(year) == 5 and year[:4].isdigit() and year[4] == "-")
    if w and year_fits and len(number) == 2 and number.isdigit() and text.isascii():
        if not 1 <= int(number) <= 53:
            raise Refused("no-such-day", f"no year has a week {number}", "weeks run W01 to W53")
        return WeekWritten(int(number), int(year[:4]) if year else None)
    raise Refused("date", f"{quoted(text)} is not a date as it is written here", _form(text))


def _form(text: str) -> str:
    """Say how to write a date that is written in another way."""
    parts = text.replace(" ", "").split("-")
    if all(part.isascii() and part.isdigit() for part in parts):
        if len(parts) == 2 and all(len(part) < 3 for part in parts):
            return f"write two digits each: {int(parts[0]):02}-{int(parts[1]):02}"
        if len(parts) == 3 and len(parts[0]) == 4 and len(parts[1]) < 3 and len(parts[2]) < 3:
            return f"write two digits each: {parts[0]}-{int(parts[1]):02}-{int(parts[2]):02}"
    low = text.lower()
    number = "".join(c for c in text if c.isdigit() and c.isascii())
    for index, month in enumerate(_MONTHS, 1):
        if month in low and 1 <= len(number) <= 2:
            there_is = 1 <= int(number) <= _last_of(index)
            return f"write it as {index:02}-{int(number):02}" if there_is else _end_of(index)
    if low.startswith(("w", "week")) and 1 <= len(number) <= 2:
        return f"write a week as W{int(number):02}"
    if "/" in text or "." in text:
        return "write the month first, then the day, with a hyphen between: MM-DD"
    return _FORM


def _day_of_week(week: WeekWritten, year: GrowingYear, *, end: bool) -> date:
    if week.year is None:
        number = year.season + 1 if year.south and week.number < 27 else year.season
    else:
        number = week.year
    try:
        return date.fromisocalendar(number, week.number, 7 if end else 1)
    except ValueError:
        raise Refused(
            "no-such-day", f"{number} has no week {week.number}", "its last week is W52"
        ) from None
