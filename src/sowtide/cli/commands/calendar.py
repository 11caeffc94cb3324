"""``sowtide calendar``."""

from __future__ import annotations

import click

from sowtide.cli.options import with_season
from sowtide.cli.output import show, width
from sowtide.report.calendar.page import calendar_text
from sowtide.schedule.season import Season


@click.command()
@with_season
def command(season: Season) -> None:
    """The season at a glance: what stands in each bed, and when it is picked."""
    show(calendar_text(season, width=width()))
