"""What ``did`` says: what was written and what it moved, what is due, and the entries so far."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import Any

from sowtide.days import GrowingYear, week_start
from sowtide.garden.journal import Did, Happening, Journal
from sowtide.report.kinds import Quantity, Unsaid
from sowtide.report.week.tasks_view import TaskView
from sowtide.report.week.view import WeekView
from sowtide.report.week.view import view as week_view
from sowtide.schedule.happened import is_of
from sowtide.schedule.noting import Moved
from sowtide.schedule.season import Season
from sowtide.schedule.work import week_sheets
from sowtide.values import value


@value
class DidView:
    """What was written down.

    Parameters
    ----------
    season
        The season with it.
    moved
        Each entry, and what it moved.
    taken_back
        Whether the entry was taken back instead.
    """

    season: Season
    moved: tuple[Moved, ...]
    taken_back: bool = False


@value
class DueView:
    """What is due and not noted yet, in the order in which it presses.

    Parameters
    ----------
    week
        The sheet of this week.
    tasks
        What is overdue, then what is due up to today, and what is to be picked today.
    """

    week: WeekView
    tasks: tuple[TaskView, ...]


@value
class EntryRow:
    """An entry of the journal.

    Parameters
    ----------
    on, did, wave, bed, plants, amount, unit, found, with_, skips, sick, note, season
        As they are written; None where they are not.
    file, line
        Where it stands.
    """

    on: date
    did: Did
    wave: str | None
    bed: str | None
    plants: int | None
    amount: Quantity | None
    unit: str | None
    found: str | None
    with_: str | None
    skips: str | None
    sick: bool
    note: str | None
    season: int | None
    file: str
    line: int


@value
class EntriesView:
    """What ``did --list`` says: the entries of a season, in order of day.

    Parameters
    ----------
    year
        Its growing year.
    entries
        The entries.
    """

    year: Unsaid[GrowingYear]
    entries: tuple[EntryRow, ...]


COLUMNS = tuple(name.strip("_") for name in EntryRow.__match_args__)


def rows(of: EntriesView) -> Iterator[Mapping[str, Any]]:
    """Yield the entries as rows."""
    for each in of.entries:
        row = {name.strip("_"): getattr(each, name) for name in EntryRow.__match_args__}
        sick = "yes" if each.sick else "no"
        yield row | {"on": each.on.isoformat(), "did": each.did.value, "sick": sick}


def due(season: Season) -> DueView:
    """Return what is due and not noted yet."""
    today = season.today
    (sheet,) = week_sheets(
        season.garden,
        season.waves,
        week_start(today, starts=season.garden.site.week_starts),
        weeks=1,
        accounts=season.accounts,
        conditions=season.conditions,
    )
    week = week_view((sheet,), season)
    shown = week.first
    urgent = [task for task in (*shown.urgent, *shown.others) if task.due <= today]
    picks = [each.of for each in shown.pickings if today in each.days]
    return DueView(week, (*shown.overdue_of, *urgent, *picks))


def entries(journal: Journal | None, season: Season) -> EntriesView:
    """Return the entries of a season, in order of day."""
    year = season.garden.year
    mine = [] if journal is None else [e for e in journal.happenings if is_of(e, year)]
    mine.sort(key=lambda each: (each.on, each.span.line))
    return EntriesView(year, tuple(_rows(mine)))


def _rows(happenings: Iterable[Happening]) -> Iterator[EntryRow]:
    for each in happenings:
        amount = each.amount
        yield EntryRow(
            on=each.on,
            did=each.did,
            wave=each.wave,
            bed=each.bed,
            plants=each.plants,
            amount=None if amount is None else float(amount.number),
            unit=None if amount is None else amount.unit or None,
            found=None if each.found is None else each.found.value,
            with_=each.using,
            skips=None if each.skips is None else each.skips.value,
            sick=each.sick,
            note=each.note,
            season=each.season,
            file=each.span.file,
            line=each.span.line,
        )
