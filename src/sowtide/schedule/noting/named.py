"""What a grower means by a shortened name: a wave, a bed, a stage or a day."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from sowtide.days import GrowingYear, MonthDay
from sowtide.garden.journal import Did

_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MOST_NAMED = 6


class Unclear(ValueError):  # noqa: N818 — it says what the words are
    """Words that name nothing, or more than one thing; carries one line for the grower."""


def one_of(word: str, names: Iterable[str], what: str) -> str:
    """Return the name that a word stands for: the whole, its beginning, or a part of it.

    Parameters
    ----------
    word
        What was written; capitals do not matter.
    names
        All that it may stand for.
    what
        What they are, such as ``wave``.

    Raises
    ------
    Unclear
        If it stands for none or for several.
    """
    known, asked = tuple(names), word.casefold()
    for fits in (_whole, str.startswith, str.__contains__):
        found = [name for name in known if fits(name.casefold(), asked)]
        if len(found) == 1:
            return found[0]
        if found:
            named = ", ".join(found[:_MOST_NAMED]) + (", …" if len(found) > _MOST_NAMED else "")
            raise Unclear(f"'{word}' may be {named}.")
    from difflib import get_close_matches

    near = get_close_matches(word, known, n=1)
    hint = f" Did you mean '{near[0]}'?" if near else ""
    raise Unclear(f"There is no {what} '{word}'.{hint}")


def _whole(name: str, asked: str) -> bool:
    return name == asked


def stage(word: str) -> Did:
    """Return the stage that a word stands for, such as ``sow`` or ``planted out``.

    Raises
    ------
    Unclear
        If it stands for none or for several.

    Examples
    --------
    >>> stage("plant")
    <Did.PLANTED_OUT: 'planted out'>
    """
    return Did(one_of(word, (did.value for did in Did), "stage"))


def day(word: str, today: date, year: GrowingYear) -> date:
    """Return the day that a word stands for: ``wed`` is the last Wednesday, today included.

    Parameters
    ----------
    word
        ``today``, ``yesterday``, a weekday, ``07-16`` or ``2026-07-16``.
    today
        The day it is said on.
    year
        The growing year that a day without a year lies in.

    Raises
    ------
    Unclear
        If there is no such day, or it is still to come.
    """
    found = _day(word.casefold(), today, year)
    if found is None:
        raise Unclear(f"'{word}' is no day; write wed, yesterday, 07-16 or 2026-07-16.")
    if found > today:
        raise Unclear(f"{found} is still to come; today is {today}.")
    return found


def _day(word: str, today: date, year: GrowingYear) -> date | None:
    if word in ("today", "yesterday"):
        return today - timedelta(days=word == "yesterday")
    weekday = next((n for n, name in enumerate(_WEEKDAYS) if name[:3] == word[:3]), None)
    if weekday is not None and len(word) > 2 and _WEEKDAYS[weekday].startswith(word):
        return today - timedelta(days=(today.weekday() - weekday) % 7)
    digits = word.replace("-", "")
    if not (digits.isascii() and digits.isdigit()):
        return None
    try:
        if len(word) == len("07-16") and word[2] == "-":
            return year.day(MonthDay.of(month=int(word[:2]), day=int(word[3:])))
        return date.fromisoformat(word) if len(word) == len("2026-07-16") else None
    except ValueError:
        return None
