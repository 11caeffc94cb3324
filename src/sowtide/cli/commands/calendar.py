"""``sowtide calendar``."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from sowtide.cli.narrowing import narrowing_options, only_of, quiet_option
from sowtide.cli.options import with_yields
from sowtide.cli.printing import prints
from sowtide.report.calendar import CalendarView, view
from sowtide.schedule.narrowed import narrowed
from sowtide.schedule.season import Season

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.learning import OwnYields


@click.command()
@narrowing_options
@quiet_option
@prints("calendar")
@with_yields
def command(
    found: tuple[Season, OwnYields | None],
    *,
    beds: tuple[str, ...],
    crops: tuple[str, ...],
    quiet: bool,
) -> CalendarView:
    """The season at a glance: what stands in each bed, and when it is picked."""
    season, own = found
    only = only_of(season, beds=beds, crops=crops)
    return view(season if only is None else narrowed(season, only), own, quiet=quiet)
