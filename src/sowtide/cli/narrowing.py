"""Options that narrow a page to some beds or crops, and what they stand for."""

from __future__ import annotations

import click

from sowtide.cli import shell_names
from sowtide.cli.options import stacked
from sowtide.garden.bed_names import beds_like, close_beds
from sowtide.garden.text import named
from sowtide.report.kit import words
from sowtide.schedule.only import Only
from sowtide.schedule.season import Season

narrowing_options = stacked(
    click.option(
        "--crop",
        "crops",
        multiple=True,
        metavar="CROP",
        shell_complete=shell_names.grown,
        help="Only this crop or, as in '*lettuce', several; may be repeated.",
    ),
    click.option(
        "--bed",
        "beds",
        multiple=True,
        metavar="BED",
        shell_complete=shell_names.beds,
        help="Only this bed or, as in 'Hill*', several; may be repeated.",
    ),
)
"""Adds --bed and --crop to a command."""

quiet_option = click.option(
    "--quiet",
    is_flag=True,
    help="Leave out what every page says: keys, cautions but those of sprays, what it rests on.",
)
"""Adds --quiet to a command."""


def only_of(season: Season, *, beds: tuple[str, ...], crops: tuple[str, ...]) -> Only | None:
    """Return the part of a garden that is asked for; None for all of it.

    CSV has no place for it, so it is said beside.

    Raises
    ------
    click.UsageError
        If there is no such bed or crop, or no such crop in these beds.
    """
    if not beds and not crops:
        return None
    only = Only(_beds(season, beds) if beds else None, _crops(season, crops) if crops else None)
    if only.crops is not None and not any(only.has(wave) for wave in season.waves):
        _refuse_elsewhere(season, only)
    if click.get_current_context().params.get("format_") == "csv":
        from sowtide.cli.output import say

        say(words.only(only))
    return only


def _beds(season: Season, patterns: tuple[str, ...]) -> tuple[str, ...]:
    found = set()
    for pattern in patterns:
        like = beds_like(pattern, season.garden)
        if not like:
            near = _suggested(close_beds(pattern, season.garden))
            raise click.UsageError(f"There is no bed like '{pattern}'. {near}")
        found |= {bed.name for bed in like}
    return tuple(bed.name for bed in season.garden.beds if bed.name in found)


def _suggested(names: tuple[str, ...]) -> str:
    if not names:
        return "'sowtide plan --by bed' names them all."
    return f"Did you mean {words.listed(map(named, names), last='or')}?"


def _crops(season: Season, patterns: tuple[str, ...]) -> tuple[str, ...]:
    """Return the names of the crops of the file's waves that patterns stand for."""
    from fnmatch import fnmatchcase

    from sowtide.garden.varieties import crops_called

    calls: dict[str, set[str]] = {}
    for entry in season.garden.entries:
        crop = entry.crop
        called = (crop.name, crop.title, crop.variety or "", entry.name)
        calls.setdefault(crop.name, set()).update(each.casefold() for each in called if each)
    found = set()
    for pattern in patterns:
        wanted = pattern.casefold()
        like = {crop.name for crop in crops_called(pattern, season.garden)} & calls.keys()
        like = like or {name for name, called in calls.items() if wanted in called}
        like = like or {
            name
            for name, called in calls.items()
            if any(fnmatchcase(each, wanted) for each in called)
        }
        if not like:
            raise click.UsageError(_no_crop(pattern, tuple(calls)))
        found |= like
    return tuple(name for name in calls if name in found)


def _no_crop(pattern: str, names: tuple[str, ...]) -> str:
    from difflib import get_close_matches

    text = f"The file has no waves of a crop like '{pattern}'."
    if not names:
        return text
    near = get_close_matches(pattern.casefold(), names, n=3)
    shown = near or names[:5]
    begins = "Did you mean" if near else "It has" if len(names) <= len(shown) else "It has, say,"
    return f"{text} {begins} {words.listed(map(named, shown), last='or' if near else 'and')}" + (
        "?" if near else "."
    )


def _refuse_elsewhere(season: Season, only: Only) -> None:
    """Say in which beds some crops stand, where they stand in none of those asked for."""
    assert only.crops is not None
    crops = words.listed(only.crops)
    stood_in = {
        stand.bed.name
        for wave in season.waves
        if wave.crop.name in only.crops
        for stand in wave.stands
    }
    if only.beds is None or not stood_in:
        raise click.UsageError(f"The plan has no wave of {crops} with room.")
    beds = [bed.name for bed in season.garden.beds if bed.name in stood_in][:5]
    raise click.UsageError(
        f"No {crops} in {words.some_beds(only.beds)}; look in {words.listed(map(named, beds))}."
    )
