"""``sowtide why WAVE``."""

from __future__ import annotations

import click

from sowtide.cli import shell_names
from sowtide.cli.options import with_season
from sowtide.cli.printing import prints
from sowtide.cli.waves import find_wave
from sowtide.report.why import REPORT, WhyView, view
from sowtide.schedule.season import Season


@click.command()
@click.argument("wave", metavar="WAVE", shell_complete=shell_names.waves)
@click.option("--years", is_flag=True, help="Tell what each recorded year would do to the wave.")
@prints(REPORT)
@with_season
def command(season: Season, *, wave: str, years: bool) -> WhyView:
    """How each date of a wave was counted: rule, numbers, and where each comes from.

    WAVE is a name from the plan, such as bush-bean-2.
    """
    return view(find_wave(season, wave), season, by_year=years)
