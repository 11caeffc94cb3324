"""``sowtide calendar``."""

from __future__ import annotations

import click

from sowtide.cli.options import with_season
from sowtide.cli.printing import prints
from sowtide.report.calendar import REPORT, CalendarView, view
from sowtide.schedule.season import Season


@click.command()
@prints(REPORT)
@with_season
def command(season: Season) -> CalendarView:
    """The season at a glance: what stands in each bed, and when it is picked."""
    return view(season)
