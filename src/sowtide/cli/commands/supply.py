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
    if crop is None:
        return view(season, own)
    from sowtide.garden.varieties import crops_called

    seen = view(season, own, {each.name for each in crops_called(crop, season.garden)})
    if not seen.crops:
        raise click.UsageError(f"The garden neither wants nor grows '{crop}'.")
    return seen
