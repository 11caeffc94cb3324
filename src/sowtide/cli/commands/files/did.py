"""``sowtide did``."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import click

from sowtide.cli import shell_names
from sowtide.cli.options import (
    DEFAULT_GARDEN,
    garden_options,
    readable_garden,
    season_from,
    the_day,
)
from sowtide.cli.output import complain
from sowtide.cli.printing import forms_of, say
from sowtide.days import week_start
from sowtide.garden.journal import Happening, Journal, held
from sowtide.report.did import DUE, ENTRIES, REPORT, YEAR, view, year_view
from sowtide.report.formats.forms import TEXT, offered
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
from sowtide.season import Loaded, journal_path

_SHEETS_KEPT = 4
"""Of how many weeks the codes are known that the plan has moved on from. [1]"""


@click.command()
@click.argument(
    "words", nargs=-1, metavar="[WAVE STAGE | CODE...]", shell_complete=shell_names.happened
)
@click.option("--on", "on", metavar="DAY", help="The day: wed, yesterday, 07-16 or 2026-07-16.")
@click.option("--bed", help="The bed it happened in.")
@click.option("--plants", type=click.IntRange(0, 1_000_000), help="How many plants.")
@click.option("--with", "using", metavar="TEXT", help="What it was fed, sprayed or covered with.")
@click.option("--note", help="A note, in your words.")
@click.option("--sick", is_flag=True, help="It was pulled as sick.")
@click.option("--list", "list_", is_flag=True, help="List what is noted of the season.")
@click.option("--undo", is_flag=True, help="Take the last entry back.")
@forms_of(ENTRIES)
@garden_options
def command(
    garden: Path | None,
    demo: bool,
    today: date | None,
    *,
    words: tuple[str, ...],
    on: str | None,
    bed: str | None,
    plants: int | None,
    using: str | None,
    note: str | None,
    sick: bool,
    list_: bool,
    undo: bool,
    format_: str,
) -> None:
    """Note down what happened; the rest of the plan moves with it.

    WAVE and STAGE may be shortened: 'did bean-4 sown', 'did bean-1 picked=1.4lb', 'did rain 0.6in'.
    Or type the codes of the week's sheet: 'did jqtn qsgf=1.4lb ycvy@wed'. Without any, it
    shows what is due; 'did season' prints the year's page.
    """
    said = (on, bed, plants, using, note, sick or None)
    if (list_ or undo) and (words or any(each is not None for each in said) or (list_ and undo)):
        raise click.UsageError("--list and --undo stand alone.")
    loaded, read = readable_garden(garden=garden, demo=demo)
    season = season_from(loaded, the_day(today=today, demo=demo))
    if list_:
        say(ENTRIES, view.entries(loaded.journal, season), format_)
        return
    if words == ("season",):
        plan = season_from(replace(loaded, journal=None), season.today)
        say(YEAR, year_view.view(season, plan), format_)
        return
    if not words and not undo:
        words = _due(season, format_)
        if not words:
            return
    _refuse_to_write(demo=demo, format_=format_)
    path = journal_path(garden or Path(DEFAULT_GARDEN), read)
    if undo:
        _undo(path, loaded, season, format_)
        return
    details = Details(on=season.today, bed=bed, plants=plants, note=note, using=using, sick=sick)
    asked = _asked(words, details, loaded, season, on=on)
    _write(path, asked, loaded, season, shared=shared_codes(words, season), format_=format_)


def _refuse_to_write(*, demo: bool, format_: str) -> None:
    """Refuse to write where there is no journal, or no form to say what was written.

    Raises
    ------
    click.UsageError
        Always where it refuses.
    """
    if format_ not in offered(REPORT):
        raise click.UsageError(f"What is written is not printed as {format_}.")
    if demo:
        raise click.UsageError("The demo garden keeps no journal; name a file with --garden.")


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


def _due(season: Season, format_: str) -> tuple[str, ...]:
    """Show what is due; in a terminal ask which of it is done, and return that as codes."""
    due = view.due(season)
    say(DUE, due, format_)
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
            yield season_from(loaded, day)


def _code(word: str, codes: Sequence[str]) -> str:
    number = word.partition("@")[0].partition("=")[0]
    if not (number.isascii() and number.isdigit()):
        return word
    if len(number) > len(codes) or not 1 <= int(number) <= len(codes):
        raise click.UsageError(f"There is no {number} on the list: write 1 to {len(codes)}.")
    return codes[int(number) - 1] + word.removeprefix(number)


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
            complain(read.problems)
            click.get_current_context().exit(1)
        written = file.placed(asked)
        known = read.journal.happenings
        mine = [each for each in (*known, *written) if is_of(each, year)]
        wrong = contradictions(loaded.garden, mine)
        if wrong:
            complain(wrong)
            click.get_current_context().exit(1)
        file.append(written)
    journal = Journal(read.journal.label, (*known, *written))
    after = season_from(replace(loaded, journal=journal), season.today)
    told = {each.message for each in season.problems}
    complain(
        each
        for each in after.problems
        if each.code.startswith("journal-") and each.code != SICK and each.message not in told
    )
    found = all_moved(written, season, after)
    say(REPORT, view.did(found, season, after, shared=shared), format_)


def _undo(path: Path, loaded: Loaded, season: Season, format_: str) -> None:
    with held(path) as file:
        read = file.read()
        if read.journal is None:
            complain(read.problems)
            click.get_current_context().exit(1)
        if not read.journal.happenings:
            raise click.UsageError("Nothing is noted that could be taken back.")
        *left, last = read.journal.happenings
        file.append([replace(last, undone=True)])
    journal = Journal(read.journal.label, tuple(left))
    after = season_from(replace(loaded, journal=journal), season.today)
    taken = view.did((moved(last, season, after),), season, after, taken_back=True)
    say(REPORT, taken, format_)
