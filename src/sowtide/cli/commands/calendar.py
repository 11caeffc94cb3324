"""``sowtide calendar``."""

from __future__ import annotations

import click

from sowtide.cli.narrowing import narrowing_options, only_of, quiet_option
from sowtide.cli.options import with_season
from sowtide.cli.printing import prints
from sowtide.report.calendar import CalendarView, view
from sowtide.schedule.narrowed import narrowed
from sowtide.schedule.season import Season


@click.command()
@narrowing_options
@quiet_option
@prints("calendar")
@with_season
def command(
    season: Season, *, beds: tuple[str, ...], crops: tuple[str, ...], quiet: bool
) -> CalendarView:
    """The season at a glance: what stands in each bed, and when it is picked."""
    only = only_of(season, beds=beds, crops=crops)
    return view(season if only is None else narrowed(season, only), quiet=quiet)
