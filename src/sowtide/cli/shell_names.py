"""Names that a shell completes: of the garden's waves, beds and crops."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

import click

from sowtide.days import week_start
from sowtide.diagnostics import Unreadable
from sowtide.garden.model import Garden

if TYPE_CHECKING:  # loaded where a garden is planned
    from sowtide.schedule.season import Season
    from sowtide.season import Loaded

_MOST_PLANNED = 60
"""Entries of a garden that is planned while a key is held down; of more only series are named."""


def _garden(ctx: click.Context) -> tuple[Loaded, Garden] | None:
    """Return the garden that the options before it name; None where it cannot be read."""
    from sowtide.cli.options import load_garden

    try:
        with ctx:  # no command is run, which would have made it current
            loaded = load_garden(garden=ctx.params.get("garden"), demo=bool(ctx.params.get("demo")))
    except (Unreadable, click.UsageError):
        return None
    return None if loaded.garden is None else (loaded, loaded.garden)


def _beginning(names: Iterable[str], begun: str) -> list[str]:
    found = [name for name in dict.fromkeys(names) if name.startswith(begun)]
    if os.environ.get("_SOWTIDE_COMPLETE", "").startswith("bash"):
        return [name.replace(" ", r"\\ ") for name in found]  # bash reads it, and puts it down
    return found


def waves(ctx: click.Context, _: click.Parameter, begun: str) -> list[str]:
    """Name the waves; of a large garden the series, which are had without planning it."""
    found = _garden(ctx)
    if found is None:
        return []
    loaded, garden = found
    bare = replace(garden, care=())  # what is done to waves does not name them
    return _beginning(_waves_of(garden, _planned(ctx, replace(loaded, garden=bare))), begun)


def _waves_of(garden: Garden, season: Season | None) -> Iterator[str]:
    if season is None:
        yield from (f"{entry.name}-" for entry in garden.entries)
    else:
        yield from (wave.id for wave in season.waves)


def _planned(ctx: click.Context, loaded: Loaded) -> Season | None:
    """Return the season of a garden, nothing of it checked; None of a large one."""
    if loaded.garden is None or len(loaded.garden.entries) > _MOST_PLANNED:
        return None
    from sowtide.cli.options import season_from, the_day

    day = the_day(today=ctx.params.get("today"), demo=bool(ctx.params.get("demo")))
    return season_from(loaded, day, checked=False)


def happened(ctx: click.Context, _: click.Parameter, begun: str) -> list[str]:
    """Name waves, beds and the codes of this week's sheet, and stages behind them."""
    if ctx.params.get("words"):
        from sowtide.garden.journal import Did

        return _beginning((each.value for each in Did), begun)
    found = _garden(ctx)
    if found is None:
        return []
    season = _planned(ctx, found[0])
    names = [*_waves_of(found[1], season), *(bed.name for bed in found[1].beds), "rain", "soil"]
    if season is not None:
        names += _codes(season)
    return _beginning(names, begun)


def _codes(season: Season) -> Iterator[str]:
    """Yield the codes of this week's sheet, what is overdue and what cannot slip first."""
    first = week_start(season.today, starts=season.garden.site.week_starts)
    for sheet in season.sheets(first):
        for task in (*sheet.overdue, *sheet.cannot_slip, *sheet.tasks):
            yield task.code
        for picking in sheet.pickings:
            yield picking.task.code


def beds(ctx: click.Context, _: click.Parameter, begun: str) -> list[str]:
    """Name the beds."""
    found = _garden(ctx)
    return [] if found is None else _beginning((bed.name for bed in found[1].beds), begun)


def crops(ctx: click.Context, _: click.Parameter, begun: str) -> list[str]:
    """Name the crops: the garden's first, then those built in."""
    from sowtide.garden.library import names

    found = _garden(ctx)
    own = () if found is None else tuple(entry.crop.name for entry in found[1].entries)
    return _beginning((*own, *names()), begun)


def grown(ctx: click.Context, _: click.Parameter, begun: str) -> list[str]:
    """Name the crops that the garden grows."""
    found = _garden(ctx)
    return [] if found is None else _beginning((e.crop.name for e in found[1].entries), begun)
