"""The entries of a journal that are of the season planned, up to the day it is looked at from."""

from __future__ import annotations

from datetime import date

from sowtide.days import GrowingYear, short_day
from sowtide.diagnostics import Problem, Severity
from sowtide.garden.journal import Happening, Journal
from sowtide.values import value


@value
class Happened:
    """What happened of a season."""

    happenings: tuple[Happening, ...]
    """Its entries up to today, in the order in which they are written."""
    to_come: tuple[Happening, ...]
    """Entries that are dated later, which count for nothing yet; a year may be a slip of the
    pen."""


def is_of(happening: Happening, year: GrowingYear) -> bool:
    """Say whether an entry is of a growing year: by its `season`, else by its day."""
    if happening.season is not None:
        return happening.season == year.season
    return happening.on in year


def happened_in(journal: Journal, year: GrowingYear, today: date) -> Happened:
    """Return the entries of a season, and apart those dated after today, of whatever season."""
    return Happened(
        tuple(each for each in journal.happenings if each.on <= today and is_of(each, year)),
        tuple(each for each in journal.happenings if each.on > today),
    )


def noted_before(journal: Journal, year: GrowingYear) -> tuple[Happening, ...]:
    """Return the entries with a note that are of earlier seasons than a growing year."""
    return tuple(
        each
        for each in journal.happenings
        if each.note is not None and (each.season or year.holding(each.on).season) < year.season
    )


def still_to_come(to_come: tuple[Happening, ...], today: date) -> tuple[Problem, ...]:
    """Say that entries are dated later than the day the season is looked at from, once for all."""
    if not to_come:
        return ()
    first = min(to_come, key=lambda each: (each.on, each.span.line))
    said = short_day(first.on) if first.on.year == today.year else first.on.isoformat()
    more = len(to_come) - 1
    also = "" if not more else ", as is one more entry" if more == 1 else f", as are {more} more"
    return (
        Problem(
            severity=Severity.WARNING,
            code="journal-day",
            message=f"{said} is still to come on {short_day(today)}{also}: not counted",
            hint="if its day is wrong, correct it here",
            span=first.span,
        ),
    )
