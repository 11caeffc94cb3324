"""``sowtide supply``."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from sowtide.cli.options import with_yields
from sowtide.cli.printing import prints
from sowtide.report.supply import REPORT, SupplyView, view
from sowtide.schedule.season import Season

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.learning import OwnYields


@click.command()
@click.argument("crop", required=False)
@prints(REPORT)
@with_yields
def command(found: tuple[Season, OwnYields | None], *, crop: str | None) -> SupplyView:
    """What is picked week by week, against what is wanted: gaps and gluts.

    With CROP every week of it in numbers.
    """
    season, own = found
    return view(season, own, None if crop is None else _named(crop, season))


def _named(name: str, season: Season) -> str:
    """Return how the garden calls a crop that is wanted or grown.

    Raises
    ------
    click.UsageError
        If it neither wants nor grows it.
    """
    from sowtide.garden import library

    garden = season.garden
    known = {crop.name: crop for crop in (*(w.crop for w in garden.wants), *garden.crops)}
    found = library.find(name)
    for crop in known.values():
        same = crop.name.casefold() == name.casefold()
        if same or (found is not None and crop.kind == found.name):
            return crop.name
    raise click.UsageError(f"The garden neither wants nor grows '{name}'.")
