"""``sowtide did``."""

from __future__ import annotations

from datetime import date
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
    options = sick or any(each is not None for each in (on, bed, plants, using, note))
    if (list_ or undo) and (words or options or (list_ and undo)):
        raise click.UsageError("--list and --undo stand alone.")
    # A shell that completes a line asks for the options alone.
    from sowtide.cli import entering
    from sowtide.schedule.noting import Details

    loaded, read = readable_garden(garden=garden, demo=demo)
    season = season_from(loaded, the_day(today=today, demo=demo))
    if list_:
        return entering.show_entries(loaded, season, format_)
    if words == ("season",):
        return entering.show_year(loaded, season, format_)
    if not words and not undo:
        words = entering.ask_what_is_done(season, format_)
        if not words:
            return None
    _refuse_to_write(demo=demo, format_=format_)
    path = journal_path(garden or Path(DEFAULT_GARDEN), read)
    if undo:
        return entering.take_back(path, loaded, season, format_)
    said = Details(on=season.today, bed=bed, plants=plants, note=note, using=using, sick=sick)
    return entering.note_down(path, words, loaded, season, said, on=on, format_=format_)


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
