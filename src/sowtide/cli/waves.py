"""Finding the wave that the grower names."""

from __future__ import annotations

import click

from sowtide.garden.text import named
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave


def find_wave(season: Season, name: str) -> Wave:
    """Return the wave of a name, or of a series that has only one.

    Raises
    ------
    click.UsageError
        If there is none, or the series has several.
    """
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
    hint = f" Did you mean {named(near[0])}?" if near else " 'sowtide plan' names them all."
    raise click.UsageError(f"There is no wave '{name}'.{hint}")
