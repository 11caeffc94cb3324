"""``sowtide supply``."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from sowtide.cli.options import DEFAULT_GARDEN, with_yields
from sowtide.cli.printing import forms_of, refuse_other_forms, say
from sowtide.cli.waiting import working
from sowtide.report.supply import view
from sowtide.schedule.season import Season

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.learning import OwnYields

_ALL = ""


@click.command()
@click.argument("crop", required=False)
@click.option(
    "--fill",
    is_flag=False,
    flag_value=_ALL,
    metavar="[CROP]",
    help="Find plantings for what is wanted and not met, and print the lines to paste.",
)
@forms_of("supply")
@with_yields
def command(
    found: tuple[Season, OwnYields | None], *, crop: str | None, fill: str | None, format_: str
) -> None:
    """What is picked week by week, against what is wanted: gaps and gluts.

    With CROP every week of it in numbers. With --fill what to plant where for all
    that is wanted, or for one crop; --output then writes the lines into a file of
    their own.
    """
    season, own = found
    if fill is None:
        said = view(season, own, None if crop is None else _named(crop, season))
        say("supply", said, format_)
        return
    if crop is not None:
        raise click.UsageError(f"Write --fill before or behind the crop alone: --fill '{crop}'.")
    _fill(season, own, None if fill == _ALL else _named(fill, season), format_)


def _fill(season: Season, own: OwnYields | None, crops: set[str] | None, format_: str) -> None:
    from sowtide.report.fill import view as gained
    from sowtide.schedule.filling import filled
    from sowtide.schedule.supply import supply_of

    refuse_other_forms("supply --fill", form=format_, what="--fill")
    _keep_the_garden()
    with working("filling the beds for what is wanted") as progress:
        found = filled(season, supply_of(season, own), crops=crops, progress=progress)
    say("supply --fill", gained(season, found, own, crops), format_)


def _keep_the_garden() -> None:
    """Check that the lines are not to be written over the garden's own file.

    Raises
    ------
    click.UsageError
        If they are.
    """
    context = click.get_current_context()
    garden = context.params.get("garden") or Path(DEFAULT_GARDEN)
    for asked in context.meta.values():
        output = asked.get("output") if isinstance(asked, dict) else None
        if output is not None and Path(output).resolve() == Path(garden).resolve():
            raise click.UsageError("The lines are pasted by you: --output never is the garden.")


def _named(name: str, season: Season) -> set[str]:
    """Return what the garden calls the crops of a name that it wants or grows.

    Raises
    ------
    click.UsageError
        If it has none.
    """
    from sowtide.garden.varieties import crops_called

    garden = season.garden
    known = {entry.crop.name for entry in garden.entries} | {
        each.crop.name for each in garden.wants
    }
    found = {each.name for each in crops_called(name, garden)} & known
    if not found:
        raise click.UsageError(f"The garden neither wants nor grows '{name}'.")
    return found
