"""``sowtide why WAVE``."""

from __future__ import annotations

import click

from sowtide.cli.options import format_option, with_season
from sowtide.cli.output import show, show_text, width
from sowtide.schedule.wave import Wave
from sowtide.season import Season


@click.command()
@click.argument("wave", metavar="WAVE")
@click.option("--years", is_flag=True, help="Tell what each recorded year would do to the wave.")
@format_option("text", "json")
@with_season
def command(season: Season, *, wave: str, years: bool, format_: str) -> None:
    """How each date of a wave was counted: rule, numbers, and where each comes from.

    WAVE is a name from the plan, such as bush-bean-2.
    """
    found = _find(season, wave)
    if format_ == "text":
        from sowtide.report.why import why_text

        show(why_text(found, season, width=width(), years=years))
    else:
        from sowtide.report.machine_why import why_json

        show_text(why_json(found, season))


def _find(season: Season, name: str) -> Wave:
    """Return the wave of a name, or of a series that has only one."""
    for wave in season.waves:
        if wave.id == name:
            return wave
    of_series = [wave for wave in season.waves if wave.entry.name == name]
    if len(of_series) == 1:
        return of_series[0]
    if of_series:
        raise click.UsageError(
            f"'{name}' has {len(of_series)} waves: {of_series[0].id} … {of_series[-1].id}."
        )
    from difflib import get_close_matches

    near = get_close_matches(name, [wave.id for wave in season.waves], n=1)
    hint = f" Did you mean '{near[0]}'?" if near else " 'sowtide plan' names them all."
    raise click.UsageError(f"There is no wave '{name}'.{hint}")
