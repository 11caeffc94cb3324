"""``sowtide needs``."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from sowtide.cli.options import SeasonDay, with_season
from sowtide.cli.output import complain
from sowtide.cli.printing import prints
from sowtide.days import MonthDay
from sowtide.report.needs import NeedsView, view
from sowtide.schedule.season import Season


@click.command()
@click.option(
    "--until", type=SeasonDay(), help="What is sown up to this day (08-31); without it, all of it."
)
@click.option(
    "--have",
    type=click.Path(path_type=Path),
    help="A file of what is in the seed drawer, a crop on each line.",
)
@prints("needs")
@with_season
def command(season: Season, *, until: date | MonthDay | None, have: Path | None) -> NeedsView:
    """Seed, trays, seedlings and materials that are still to be got, and by when.

    In the file of --have each line is a crop and how much of it there is:
    'bush bean: 200', 'carrot: 5 g'.
    """
    last = _day(until, season) if isinstance(until, MonthDay) else until
    if last is not None and last < season.today:
        raise click.UsageError(f"--until {last} lies before today, {season.today}.")
    if have is None:
        return view(season, last)
    from sowtide.garden.drawer import read_drawer

    found = read_drawer(have, season.garden)
    complain(found.problems)
    if found.drawer is None:
        click.get_current_context().exit(1)
    return view(season, last, found.drawer)


def _day(of: MonthDay, season: Season) -> date:
    try:
        return season.garden.year.day(of)
    except ValueError:
        raise click.UsageError(f"{season.garden.year.season} has no 29 February.") from None
