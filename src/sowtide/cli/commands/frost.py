"""``sowtide frost``."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from sowtide.cli.options import (
    Degrees,
    Temperature,
    garden_options,
    readable_garden,
    season_from,
    the_day,
)
from sowtide.cli.printing import forms_of, say
from sowtide.report import frost
from sowtide.season import place_of


@click.command()
@click.option(
    "--tonight",
    type=Temperature(-60, 40),
    metavar="LOW",
    help="What to do this evening: the low that is forecast, as 34F or 1C.",
)
@click.option("--clear", is_flag=True, help="With --tonight: the night is clear and calm.")
@click.option("--cloudy", is_flag=True, help="With --tonight: the night is cloudy or windy.")
@click.option(
    "--cover",
    type=Degrees(0, 30, min_open=True),
    metavar="DEGREES",
    help="With --tonight: what your sheets keep off, in the site's degrees.  [default: 4 °F]",
)
@forms_of("frost")
@garden_options
def command(
    garden: Path | None,
    demo: bool,
    today: date | None,
    *,
    tonight: float | None,
    clear: bool,
    cloudy: bool,
    cover: float | None,
    format_: str,
) -> None:
    """The site's frost odds, what they rest on, and the season's length.

    With --tonight it says what a night's forecast means for what stands where now: what to pick
    first, to cover, to water early, and what to leave.
    """
    if tonight is None and (clear or cloudy or cover is not None):
        raise click.UsageError("--clear, --cloudy and --cover go with --tonight.")
    if clear and cloudy:
        raise click.UsageError("Choose one of --clear and --cloudy.")
    loaded, read = readable_garden(garden=garden, demo=demo)
    day = the_day(today=today, demo=demo)
    if tonight is None:
        say("frost", frost.view(place_of(read, day, loaded.record)), format_)
        return
    from sowtide.report import tonight as evening
    from sowtide.schedule.tonight import HOLDS, Forecast, Sky

    sky = Sky.CLEAR if clear else Sky.CLOUDY if cloudy else Sky.NOT_SAID
    holds = HOLDS if cover is None else read.site.units.difference(cover)
    forecast = Forecast(tonight, sky, holds)
    shown = evening.view(season_from(loaded, day), forecast, loaded.record)
    say("frost --tonight", shown, format_)
