"""``sowtide why WAVE``."""

from __future__ import annotations

import click

from sowtide.cli.options import format_option, with_season
from sowtide.cli.output import show, show_text, width
from sowtide.cli.waves import find_wave
from sowtide.schedule.season import Season


@click.command()
@click.argument("wave", metavar="WAVE")
@click.option("--years", is_flag=True, help="Tell what each recorded year would do to the wave.")
@format_option("text", "json")
@with_season
def command(season: Season, *, wave: str, years: bool, format_: str) -> None:
    """How each date of a wave was counted: rule, numbers, and where each comes from.

    WAVE is a name from the plan, such as bush-bean-2.
    """
    found = find_wave(season, wave)
    if format_ == "text":
        from sowtide.report.why.page import why_text

        show(why_text(found, season, width=width(), years=years))
    else:
        from sowtide.report.why.data import why_json

        show_text(why_json(found, season))
