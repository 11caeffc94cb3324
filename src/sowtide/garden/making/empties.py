"""Keys after which nothing is written, and what was meant where a comma or a space is to blame.

A key of a section may be left empty: it is as if it were not there. A key that belongs to no
section is a mistake even so, most often the rest of a value that the comma before it cut off, or a
key and its value without a space between.
"""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel

from sowtide.garden.keys import (
    NOT_YET,
    BedKeys,
    CropKeys,
    FrostKeys,
    HeatKeys,
    NormalsKeys,
    SiteKeys,
    WaveKeys,
    known_keys,
)
from sowtide.garden.text import Branch, Path, Tree, did_you_mean

# What stands in a section under a key: another section, or None for keys of the grower's own.
_WITHIN: dict[type[BaseModel], dict[str, type[BaseModel] | None]] = {
    SiteKeys: {"frost": FrostKeys},
    FrostKeys: {"last": None, "first": None, "normals": NormalsKeys},
    BedKeys: {"grew": None},
    CropKeys: {"heat": HeatKeys},
    WaveKeys: {"wave_beds": None},
}
_LISTS = {WaveKeys: ("beds",), BedKeys: ("taken",)}
_TEXTS = ("name", "variety", "help", "pick_when", "family", "crop", "bed", "like", "sown_as")


def with_empty_keys(raw: Any, place: Any, section: type[BaseModel] | None) -> Any:
    """Return what stands in a section with the empty keys that do not belong there.

    Parsing leaves all empty keys out; these are put back, so that they are refused.

    Parameters
    ----------
    raw
        What stands there.
    place
        Where it stands.
    section
        The section, or None for keys of the grower's own.
    """
    if type(place) is not Branch:
        return raw
    if isinstance(raw, list):
        pairs = zip(raw, place.values, strict=False)
        return [with_empty_keys(value, at, section) for value, at in pairs]
    if not isinstance(raw, dict) or place.keys is None:
        return raw
    known: tuple[str, ...] = ()
    within: dict[str, type[BaseModel] | None] = {}
    if section is not None:
        known = known_keys(section) + NOT_YET.get(section, ())
        within = _WITHIN.get(section, {})
    found = dict(raw)
    for key, at in place.values.items():
        if key not in raw:
            if key not in known:
                found[key] = None
        elif key in within:
            found[key] = with_empty_keys(raw[key], at, within[key])
    return found


def without_space(key: str) -> tuple[str, str] | None:
    """Take ``plants:16`` apart, or return None for a key that is none of that kind."""
    name, colon, rest = key.partition(":")
    if not colon or not rest or rest[0] in ":/ " or not name.replace("_", "").isalpha():
        return None
    return name, rest


def cut_off(tree: Tree, path: Path, section: type[BaseModel]) -> str | None:
    """Say what to write where an empty key is the rest of the value before it, or return None.

    The text is empty where the same was said of an empty key before it.
    """
    branch, key, _ = tree.walk(path)
    if branch is None or branch.keys is None or not branch.event.flow_style:
        return None
    known = known_keys(section)
    keys = list(branch.keys)
    stray = [key not in known and _text(branch.values[key]) == "" for key in keys]
    first = end = keys.index(str(key))
    while first > 0 and stray[first - 1]:
        first -= 1
    while end < len(keys) and stray[end]:
        end += 1
    if first == 0:
        return None
    owner, rest = keys[first - 1], keys[first:end]
    remedy = _remedy(owner, _items(branch.values[owner]), rest, section, _bed_names(tree))
    return remedy if remedy is None or rest[0] == key else ""


def _items(place: Any) -> list[str]:
    values = place.values if type(place) is Branch and place.keys is None else [place]
    return [_text(value) or "" for value in values]


def _text(place: Any) -> str | None:
    """Return the text that stands in a place; None where it holds a mapping or a list."""
    return getattr(place, "value", None)


def _remedy(
    owner: str, before: list[str], rest: list[str], section: type[BaseModel], beds: tuple[str, ...]
) -> str | None:
    if not all(before):
        return None
    if owner in _LISTS.get(section, ()):
        if rest[0] not in beds and did_you_mean(rest[0], known_keys(section)):
            return None
        several = "several beds" if owner == "beds" else "several spans"
        return f"put {several} in brackets: {owner}: [{', '.join(before + rest)}]"
    if did_you_mean(rest[0], known_keys(section)):
        return None
    (value,) = before[:1]
    if value.lstrip("-").isdigit() and len(before) == len(rest) == 1 and rest[0].isdigit():
        joined = f"{value}{rest[0]}" if len(rest[0]) == 3 else f"{value}.{rest[0]}"
        return f"write the number without a comma: {owner}: {joined}"
    if owner in _TEXTS and len(before) == 1:
        whole = ", ".join([value, *rest]).replace("'", "''")
        return f"put a text with a comma in it in quotes: {owner}: '{whole}'"
    return None


def _bed_names(tree: Tree) -> tuple[str, ...]:
    file = tree.value
    beds = file.get("beds") if isinstance(file, dict) else None
    listed = beds if isinstance(beds, list) else []
    return tuple(str(bed.get("bed")) for bed in listed if isinstance(bed, dict))
