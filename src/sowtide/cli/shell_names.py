"""Names that a shell completes: of the garden's waves, beds and crops."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from typing import Any

import click

from sowtide.diagnostics import Unreadable
from sowtide.garden import Garden

_MOST_PLANNED = 60
"""Entries of a garden that is planned while a key is held down; of more only series are named."""

Completer = Callable[[click.Context, click.Parameter, str], list[str]]


def _garden(ctx: click.Context) -> tuple[Any, Garden] | None:
    """Return the garden that the options before it name; None where it cannot be read."""
    from sowtide.cli.options import load_garden

    try:
        with ctx.scope(cleanup=False):  # no command is run, which would have made it current
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
    if len(garden.entries) > _MOST_PLANNED:
        return _beginning((f"{entry.name}-" for entry in garden.entries), begun)
    from sowtide.cli.options import season_from, the_day

    day = the_day(today=ctx.params.get("today"), demo=bool(ctx.params.get("demo")))
    return _beginning((wave.id for wave in season_from(loaded, day).waves), begun)


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
