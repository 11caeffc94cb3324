"""``sowtide why WAVE``."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from sowtide.cli import shell_names
from sowtide.cli.options import with_season
from sowtide.cli.printing import prints
from sowtide.cli.waves import find_wave
from sowtide.schedule.season import Season

if TYPE_CHECKING:  # not while a shell completes a line
    from sowtide.report.why import WhyView


@click.command()
@click.argument("wave", metavar="WAVE", shell_complete=shell_names.waves)
@click.option("--years", is_flag=True, help="Tell what each recorded year would do to the wave.")
@prints("why")
@with_season
def command(season: Season, *, wave: str, years: bool) -> WhyView:
    """How each date of a wave was counted: rule, numbers, and where each comes from.

    WAVE is a name from the plan, such as bush-bean-2.
    """
    from sowtide.report.why import view

    return view(find_wave(season, wave), season, by_year=years)
