"""Crops and varieties by what a grower calls them, the garden's own before the built-in ones."""

from __future__ import annotations

from dataclasses import fields
from types import MappingProxyType
from typing import Any

from sowtide.garden import library
from sowtide.garden.crop import AfterFrost, Crop
from sowtide.garden.model import Garden
from sowtide.reasons import Origin

ROTATION = 3
"""Years a crop waits where neither file nor library says. [years]"""

WORTHWHILE, WORTHWHILE_ONCE = 14, 7
"""Days a wave, and a crop cut once, must be picked for to be worth it, unless said. [days]"""


def worthwhile_of(picking_days: int) -> int:
    """Return the days that make a wave worth growing where nobody says. [days]"""
    return WORTHWHILE_ONCE if picking_days == 1 else min(WORTHWHILE, picking_days)


def base_values(name: str, like: library.LibraryCrop | Crop | None) -> dict[str, Any]:
    """Return what is known of a crop before the grower's own numbers, by field of the model.

    Parameters
    ----------
    name
        What the crop is called.
    like
        The built-in crop or the file's own that the rest is taken from, or None.
    """
    if isinstance(like, Crop):
        values = {field.name: getattr(like, field.name) for field in fields(like)}
        del values["origins"]
        if "worthwhile_days" not in like.origins:
            del values["worthwhile_days"]
        return values | {"name": name, "variety": None}
    built_in = like
    values = {
        "name": name,
        "kind": built_in.name if built_in else name,
        "after_frost": AfterFrost.ENDS,
        "rotation": ROTATION,
    }
    return values | dict(built_in.values) if built_in else values


def base_origins(like: library.LibraryCrop | Crop | None) -> dict[str, Origin]:
    """Return where those numbers come from."""
    if like is None:
        return {}
    if isinstance(like, Crop):
        return {name: origin for name, origin in like.origins.items() if name != "variety"}
    return {field: Origin(source=source) for field, source in like.sources.items()}


def built_in_crop(found: library.LibraryCrop) -> Crop:
    """Return a built-in crop as it stands, without a word from the grower."""
    values = base_values(found.name, found)
    values.setdefault("worthwhile_days", worthwhile_of(values["picking_days"]))
    return Crop(**values, origins=MappingProxyType(base_origins(found)))


def is_like(crop: Crop) -> bool:
    """Whether a crop is one of the file's own that takes its numbers from a built-in one."""
    called = library.find(crop.name)
    return crop.kind != crop.name and (called is None or called.name != crop.kind)


def built_in_name(crop: Crop) -> str | None:
    """Return the canonical name of the built-in crop that a crop is, or is like, or None."""
    found = library.find(crop.kind)
    return found.name if found is not None and found.name == crop.kind else None


def crops_of(garden: Garden) -> tuple[Crop, ...]:
    """Return the crops of a file, and the built-in ones of a kind that none of them is."""
    own = {crop.kind for crop in garden.crops}
    names = {crop.name.casefold() for crop in garden.crops}
    found = (
        library.find(name)
        for name in library.names()
        if name not in own and name.casefold() not in names
    )
    return (*garden.crops, *(built_in_crop(crop) for crop in found if crop is not None))


def crops_called(name: str, garden: Garden) -> tuple[Crop, ...]:
    """Return every crop and variety of a garden that goes by a name, or else the built-in crop.

    A built-in crop's name, or another name of it, stands for all its varieties; a name that
    the file gives to something else, or a variety that only the file knows, stands for itself.
    """
    called = name.casefold()
    found = library.find(name)
    own = tuple(crop for crop in garden.crops if crop.name.casefold() == called)
    if found is None or any(crop.kind != found.name for crop in own):
        return own or tuple(
            crop for crop in garden.crops if crop.variety and crop.variety.casefold() == called
        )
    return tuple(crop for crop in garden.crops if crop.kind == found.name) or (
        built_in_crop(found),
    )


def close_names(name: str, garden: Garden) -> tuple[str, ...]:
    """Return names of crops, the garden's own or built in, that a misspelt one may stand for."""
    from difflib import get_close_matches

    own = [crop.name for crop in garden.crops]
    return (*get_close_matches(name, own, n=1), *library.near(name))
