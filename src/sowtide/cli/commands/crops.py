"""``sowtide crops [NAME]``."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sowtide.cli import shell_names
from sowtide.cli.options import DEFAULT_GARDEN, garden_options, readable_garden, the_day
from sowtide.cli.printing import forms_of, say
from sowtide.garden import library
from sowtide.garden.crop import Crop
from sowtide.garden.model import Garden
from sowtide.garden.text import named
from sowtide.garden.varieties import built_in_crop, close_names, crops_called
from sowtide.report import card, crops
from sowtide.report.kit import words
from sowtide.season import place_of

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.learning import OwnYields


@click.command()
@click.argument("name", metavar="[NAME]", nargs=-1, shell_complete=shell_names.crops)
@forms_of("crops", "crops NAME")
@garden_options
def command(
    garden: Path | None, demo: bool, today: date | None, name: tuple[str, ...], format_: str
) -> None:
    """The built-in crops, each number with its source.

    Lists them, with what the garden's file says of crops first; with a NAME, shows every figure of
    that crop, its unit, where it comes from, and what the file changes. No garden is needed.
    """
    read, taught, own = _garden(garden=garden, demo=demo, today=today)
    if not name:
        say("crops", crops.view(read), format_)
        return
    called = " ".join(" ".join(name).split())
    found = _crops(called, read)
    cover = None if found else library.cover_named(called)
    if found:
        learned = () if taught is None else crops_called(called, taught)
        say("crops NAME", card.view(found, read, learned, own), format_)
    elif cover is not None:
        units = None if read is None else read.site.units
        say("crops NAME", card.cover_view(cover, units), format_)
    else:
        raise click.UsageError(f"There is no crop '{called}'.{_near(called, read)}")


def _garden(
    *, garden: Path | None, demo: bool, today: date | None
) -> tuple[Garden | None, Garden | None, OwnYields | None]:
    """Read the garden that the options name, or the one that lies here, if any.

    Beside it stands the same with what its journal teaches of its crops, and what their plants
    bear; None without a journal.

    Errors of reading are printed, and the command is left.
    """
    if garden is None and not demo and not Path(DEFAULT_GARDEN).exists():
        return None, None, None
    loaded, read = readable_garden(garden=garden, demo=demo)
    if loaded.journal is None:
        return read, None, None
    from sowtide.schedule.learning import OwnYields

    day = the_day(today=today, demo=demo)
    taught = place_of(read, day, loaded.record, loaded.journal).garden
    return read, taught, OwnYields(read, loaded.journal, day)


def _crops(name: str, garden: Garden | None) -> tuple[Crop, ...]:
    """Return the crops of a name; those that differ by nothing but a variety's name once."""
    if garden is None:
        found = library.find(name)
        return () if found is None else (built_in_crop(found),)
    different: list[Crop] = []
    for crop in crops_called(name, garden):
        if all(replace(other, variety=crop.variety) != crop for other in different):
            different.append(crop)
    return tuple(different)


def _near(name: str, garden: Garden | None) -> str:
    """Say what a misspelt name may have been meant for, or why there is none of that name."""
    unplanned = library.why_unplanned(name)
    if unplanned is not None:
        return f" {words.sentence(unplanned)}"
    near = dict.fromkeys(close_names(name, garden) if garden else ())
    near |= dict.fromkeys(library.near(name, covers=True))
    if not near:
        word = name.casefold()
        known = (*library.names(), *library.cover_names())
        near = dict.fromkeys(each for each in known if word in each.casefold().split())
    if not near:
        return " 'sowtide crops' lists them all."
    meant = " or ".join(map(named, tuple(near)[:3]))
    return f" Did you mean {meant}?"
