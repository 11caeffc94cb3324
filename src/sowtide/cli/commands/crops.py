"""``sowtide crops [NAME]``."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import click

from sowtide.cli.options import (
    DEFAULT_GARDEN,
    format_option,
    garden_options,
    load_garden,
    the_day,
)
from sowtide.cli.output import complain, show, show_text, width
from sowtide.garden import library
from sowtide.garden.crop import Crop
from sowtide.garden.model import Garden
from sowtide.garden.text import named
from sowtide.garden.varieties import built_in_crop, close_names, crops_called
from sowtide.season import place_of
from sowtide.units import Units


@click.command()
@click.argument("name", metavar="[NAME]", nargs=-1)
@format_option("text", "json", "csv")
@garden_options
def command(
    garden: Path | None, demo: bool, today: date | None, name: tuple[str, ...], format_: str
) -> None:
    """The built-in crops, each number with its source.

    Lists them, with what the garden's file says of crops first; with a NAME, shows every figure of
    that crop, its unit, where it comes from, and what the file changes. No garden is needed.
    """
    read, taught = _garden(garden=garden, demo=demo, today=today)
    if not name:
        _list(read, format_)
        return
    called = " ".join(" ".join(name).split())
    crops = _crops(called, read)
    cover = None if crops else library.cover_named(called)
    if crops:
        _card(crops, read, format_)
        if taught is not None and format_ == "text":
            from sowtide.report.crops.learned import learned_text

            show(learned_text(crops_called(called, taught), width=width()))
    elif cover is not None:
        _cover(cover, read.site.units if read else None, format_)
    else:
        raise click.UsageError(f"There is no crop '{called}'.{_near(called, read)}")


def _garden(
    *, garden: Path | None, demo: bool, today: date | None
) -> tuple[Garden | None, Garden | None]:
    """Read the garden that the options name, or the one that lies here, if any.

    Beside it stands the same with what its journal teaches of its crops; None without a journal.

    Errors of reading are printed, and the command is left.
    """
    if garden is None and not demo and not Path(DEFAULT_GARDEN).exists():
        return None, None
    loaded = load_garden(garden=garden, demo=demo)
    complain(loaded.problems)
    if loaded.garden is None:
        click.get_current_context().exit(1)
    if loaded.journal is None:
        return loaded.garden, None
    day = the_day(today=today, demo=demo)
    return loaded.garden, place_of(loaded.garden, day, loaded.record, loaded.journal).garden


def _crops(name: str, garden: Garden | None) -> tuple[Crop, ...]:
    """Return the crops of a name; those that differ by nothing but a variety's name once."""
    if garden is None:
        found = library.find(name)
        return () if found is None else (built_in_crop(found),)
    crops: list[Crop] = []
    for crop in crops_called(name, garden):
        if all(replace(other, variety=crop.variety) != crop for other in crops):
            crops.append(crop)
    return tuple(crops)


def _near(name: str, garden: Garden | None) -> str:
    """Say what a misspelt name may have been meant for."""
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


def _list(garden: Garden | None, format_: str) -> None:
    if format_ == "text":
        from sowtide.report.crops.page import crops_text

        show(crops_text(garden, width=width()))
    else:
        from sowtide.report.crops import data as machine_crops

        write = machine_crops.list_json if format_ == "json" else machine_crops.list_csv
        show_text(write(garden))


def _card(crops: tuple[Crop, ...], garden: Garden | None, format_: str) -> None:
    if format_ == "text":
        from sowtide.report.crops.card import cards_text

        show(cards_text(crops, garden, width=width()))
    else:
        from sowtide.report.crops import data as machine_crops

        write = machine_crops.card_json if format_ == "json" else machine_crops.card_csv
        show_text(write(crops, garden.site.units if garden else None))


def _cover(name: str, units: Units | None, format_: str) -> None:
    if format_ == "text":
        from sowtide.report.crops.card import cover_text

        show(cover_text(name, units, width=width()))
    else:
        from sowtide.report.crops import data as machine_crops

        write = machine_crops.cover_json if format_ == "json" else machine_crops.cover_csv
        show_text(write(name))
