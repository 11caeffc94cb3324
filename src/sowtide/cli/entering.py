"""What ``did`` shows of the journal, and what it writes into it."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import NoReturn

import click

from sowtide.cli.options import season_from
from sowtide.cli.output import complain
from sowtide.cli.printing import say
from sowtide.days import week_start
from sowtide.diagnostics import Problem
from sowtide.garden.journal import Happening, Journal, held
from sowtide.report.did import view, year_view
from sowtide.report.formats.forms import TEXT
from sowtide.schedule.happened import SICK, contradictions, is_of
from sowtide.schedule.noting import (
    Details,
    Shared,
    Unclear,
    all_moved,
    day,
    happenings_of,
    moved,
    shared_codes,
)
from sowtide.schedule.season import Season
from sowtide.season import Loaded

_SHEETS_KEPT = 4
"""Of how many weeks the codes are known that the plan has moved on from. [1]"""


def show_entries(loaded: Loaded, season: Season, format_: str) -> None:
    """List what is noted of the season."""
    say("did --list", view.entries(loaded.journal, season), format_)


def show_year(loaded: Loaded, season: Season, format_: str) -> None:
    """Print the year's page: what came of the plan."""
    plan = season_from(replace(loaded, journal=None), season.today, like=season)
    say("did season", year_view.view(season, plan), format_)


def ask_what_is_done(season: Season, format_: str) -> tuple[str, ...]:
    """Show what is due; in a terminal ask which of it is done, and return that as codes."""
    due = view.due(season)
    say("did", due, format_)
    if not due.tasks or format_ != TEXT or not sys.stdin.isatty():
        return ()
    answer = click.prompt(
        "Done (numbers, as 1 3=1.4lb 4@wed; Enter for none)", default="", show_default=False
    )
    codes = [task.code for task in due.tasks]
    return tuple(_code(word, codes) for word in answer.split())


def _earlier(loaded: Loaded, season: Season) -> Iterator[Season]:
    """Yield the season as the sheets of this week and of some before it were made from it."""
    assert loaded.garden is not None
    first = week_start(season.today, starts=loaded.garden.site.week_starts)
    for weeks in range(_SHEETS_KEPT):
        day = first - timedelta(weeks=weeks)
        if day < season.today:
            yield season_from(loaded, day, like=season)


def _code(word: str, codes: Sequence[str]) -> str:
    number = word.partition("@")[0].partition("=")[0]
    if not (number.isascii() and number.isdigit()):
        return word
    if len(number) > len(codes) or not 1 <= int(number) <= len(codes):
        raise click.UsageError(f"There is no {number} on the list: write 1 to {len(codes)}.")
    return codes[int(number) - 1] + word.removeprefix(number)


def note_down(
    path: Path,
    words: tuple[str, ...],
    loaded: Loaded,
    season: Season,
    details: Details,
    *,
    on: str | None,
    format_: str,
) -> None:
    """Write into the journal what some words and options say, and print what it moves.

    Parameters
    ----------
    path
        The journal.
    words
        What stands on the command line: a wave and a stage, or codes.
    loaded, season
        The garden and its season before.
    details
        What the options say, noted today.
    on
        Another day, as it was written.
    format_
        The form in which it is printed.

    Raises
    ------
    click.UsageError
        If they name nothing, or more than one thing.
    """
    asked = _asked(words, details, loaded, season, on=on)
    _write(path, asked, loaded, season, shared=shared_codes(words, season), format_=format_)


def _asked(
    words: tuple[str, ...], details: Details, loaded: Loaded, season: Season, *, on: str | None
) -> tuple[Happening, ...]:
    """Return the entries that some words ask for, on the day that is said."""
    try:
        if on is not None:
            details = replace(details, on=day(on, season.today, season.garden.year))
        return happenings_of(words, details, season, _earlier(loaded, season))
    except Unclear as unclear:
        raise click.UsageError(str(unclear)) from None


def _write(
    path: Path,
    asked: Sequence[Happening],
    loaded: Loaded,
    season: Season,
    *,
    shared: Sequence[Shared],
    format_: str,
) -> None:
    assert loaded.garden is not None
    year = loaded.garden.year
    with held(path) as file:
        read = file.read()
        if read.journal is None:
            _refuse(read.problems)
        written = file.placed(asked)
        known = read.journal.happenings
        mine = [each for each in (*known, *written) if is_of(each, year)]
        wrong = contradictions(loaded.garden, mine)
        if wrong:
            _refuse(wrong)
        file.append(written)
    journal = Journal(read.journal.label, (*known, *written))
    after = season_from(replace(loaded, journal=journal), season.today, like=season)
    told = {each.message for each in season.problems}
    complain(
        each
        for each in after.problems
        if each.code.startswith("journal-") and each.code != SICK and each.message not in told
    )
    found = all_moved(written, season, after)
    say("did WAVE STAGE", view.did(found, season, after, shared=shared), format_)


def _refuse(problems: Iterable[Problem]) -> NoReturn:
    complain(problems)
    click.get_current_context().exit(1)


def take_back(path: Path, loaded: Loaded, season: Season, format_: str) -> None:
    """Take back the last entry of the journal, and print what that moves.

    Raises
    ------
    click.UsageError
        If there is none.
    """
    with held(path) as file:
        read = file.read()
        if read.journal is None:
            _refuse(read.problems)
        if not read.journal.happenings:
            raise click.UsageError("Nothing is noted that could be taken back.")
        *left, last = read.journal.happenings
        file.append([replace(last, undone=True)])
    journal = Journal(read.journal.label, tuple(left))
    after = season_from(replace(loaded, journal=journal), season.today, like=season)
    taken = view.did((moved(last, season, after),), season, after, taken_back=True)
    say("did WAVE STAGE", taken, format_)
