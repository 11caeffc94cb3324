"""``sowtide did``."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import click

from sowtide.cli import shell_names
from sowtide.cli.options import (
    DEFAULT_GARDEN,
    garden_options,
    readable_garden,
    season_from,
    the_day,
)
from sowtide.cli.printing import forms_of, offered
from sowtide.season import journal_path


@click.command()
@click.argument(
    "words", nargs=-1, metavar="[WAVE STAGE | CODE...]", shell_complete=shell_names.happened
)
@click.option("--on", "on", metavar="DAY", help="The day: wed, yesterday, 07-16 or 2026-07-16.")
@click.option("--bed", shell_complete=shell_names.beds, help="The bed it happened in.")
@click.option("--plants", type=click.IntRange(0, 1_000_000), help="How many plants.")
@click.option("--with", "using", metavar="TEXT", help="What it was fed, sprayed or covered with.")
@click.option("--note", help="A note, in your words.")
@click.option("--sick", is_flag=True, help="It was pulled as sick.")
@click.option("--list", "list_", is_flag=True, help="List what is noted of the season.")
@click.option("--undo", is_flag=True, help="Take the last entry back.")
@forms_of("did --list")
@garden_options
def command(
    garden: Path | None,
    demo: bool,
    today: date | None,
    *,
    words: tuple[str, ...],
    on: str | None,
    list_: bool,
    undo: bool,
    format_: str,
    **details: Any,
) -> None:
    """Note down what happened; the rest of the plan moves with it.

    WAVE and STAGE may be shortened: 'did bean-4 sown', 'did bean-1 picked=1.4lb', 'did rain 0.6in'.
    Or type the codes of the week's sheet: 'did jqtn qsgf=1.4lb ycvy@wed'. Without any, it
    shows what is due; 'did season' prints the year's page.
    """
    said = (on, *details.values())
    options = any(each is not None and each is not False for each in said)
    if (list_ or undo) and (words or options or (list_ and undo)):
        raise click.UsageError("--list and --undo stand alone.")
    # A shell that completes a line asks for the options alone.
    from sowtide.cli import entering

    loaded, read = readable_garden(garden=garden, demo=demo)
    season = season_from(loaded, the_day(today=today, demo=demo))
    if list_:
        entering.show_entries(loaded, season, format_)
        return
    if words == ("season",):
        entering.show_year(loaded, season, format_)
        return
    if not words and not undo:
        words = entering.ask_what_is_done(season, format_)
        if not words:
            return
    _refuse_to_write(demo=demo, format_=format_)
    path = journal_path(garden or Path(DEFAULT_GARDEN), read)
    if undo:
        entering.take_back(path, loaded, season, format_)
        return
    entering.note_down(path, words, loaded, season, on=on, format_=format_, **details)


def _refuse_to_write(*, demo: bool, format_: str) -> None:
    """Refuse to write where there is no journal, or no form to say what was written.

    Raises
    ------
    click.UsageError
        Always where it refuses.
    """
    if format_ not in offered("did WAVE STAGE"):
        raise click.UsageError(f"What is written is not printed as {format_}.")
    if demo:
        raise click.UsageError("The demo garden keeps no journal; name a file with --garden.")
