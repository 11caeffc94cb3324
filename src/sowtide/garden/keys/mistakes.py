"""Mistakes with keys: unknown or missing ones, and what was meant by them.

A key of a section may be left empty: it is as if it were not there. A key that belongs to no
section is a mistake even so, most often the rest of a value that the comma before it cut off, or a
key and its value without a space between.
"""

from __future__ import annotations

from typing import Any

from sowtide.garden.keys.schema import (
    BedKeys,
    CropKeys,
    FileKeys,
    FrostKeys,
    SiteKeys,
    WaveKeys,
)
from sowtide.garden.keys.section import keys_of, known_keys
from sowtide.garden.text import Branch, Findings, Path, Tree, did_you_mean, in_quotes, quoted

# What growers may call a key, and its name here.
_ALSO_CALLED = {
    "start": "from",
    "sow": "from",
    "end": "until",
    "interval": "every",
    "quantity": "plants",
    "number": "plants",
    "spacing": "in_row",
    "row_spacing": "between_rows",
    "days": "days_to_harvest",
    "maturity": "days_to_harvest",
    "year": "season",
    "lat": "latitude",
    "title": "name",
    "garden": "site",
    "plantings": "waves",
}
_SECTIONS: dict[type, str] = {
    SiteKeys: "under site:",
    BedKeys: "in an entry of beds:",
    CropKeys: "in a crop of crops:",
    WaveKeys: "in an entry of waves:",
    FileKeys: "at the left margin",
}
_FROST_DATES = ("last_frost", "first_frost")
_LONG = 40
_IN_BRACES = frozenset(",:{}[]#'\"")
"""Signs that mean something to YAML inside braces, so that a text with one is not shown in them."""
_LISTS: dict[type, tuple[str, ...]] = {WaveKeys: ("beds",), BedKeys: ("taken",)}
_TEXTS = ("name", "variety", "help", "pick_when", "family", "crop", "bed", "like", "sown_as")


def unknown_key(
    section: type, key: str, path: Path, absent: set[str], findings: Findings
) -> set[str]:
    """Report an unknown key of a section; return the missing keys that it explains."""
    place = (*path, key)
    if findings.many:
        findings.at_key(place, "unknown-key", f"unknown key {quoted(key)}", None)
        return set()
    empty = getattr(findings.tree.at(place), "value", None) == ""
    parts = _without_space(key) if empty else None
    if parts is not None:
        name, rest = parts
        span = findings.tree.key_span(place)
        column = span.text.find(":", span.column - 1)
        findings.add(
            "colon",
            "a space is missing after this colon",
            f"write {name}: {rest}",
            findings.tree.source.span(span.line - 1, column),
        )
        return {name}
    remedy = _cut_off(findings.tree, place, section) if empty else None
    if remedy is not None:
        if remedy:
            findings.at_key(place, "unknown-key", f"unknown key {quoted(key)}", remedy)
        return set()
    lacking = tuple(name for name in keys_of(section) if name in absent)
    if section is SiteKeys and key in _FROST_DATES:
        last, first = (_shown(findings, (*path, name)) for name in _FROST_DATES)
        hint = f"both dates go under frost:, as in frost: {{last: {last}, first: {first}}}"
        findings.at_key(place, "unknown-key", f"unknown key {quoted(key)}", hint)
        return {"frost"}
    if section is SiteKeys and key in keys_of(FrostKeys) and not did_you_mean(key, lacking):
        hint = f"it belongs under frost:, as in frost: {{{key}: {_shown(findings, place)}}}"
        findings.at_key(place, "unknown-key", f"unknown key {quoted(key)}", hint)
        return {"frost"}
    meant = _meant(key, lacking, section)
    hint = _hint(key, meant, section)
    findings.at_key(place, "unknown-key", f"unknown key {quoted(key)}", hint)
    return {meant} if meant else set()


def _shown(findings: Findings, place: Path) -> str:
    """Return what stands at a place, as a hint may show it inside braces."""
    said = getattr(findings.tree.at(place), "value", "")
    plain = said.isprintable() and len(said) < _LONG and not _IN_BRACES.intersection(said)
    return said if plain and said else "..."


def missing_key(section: type, key: str, path: Path, findings: Findings) -> None:
    """Report a key that a section lacks, or after which nothing is written."""
    example = keys_of(section)[key].example
    place = (*path, key)
    if findings.tree.at(place) is not None:
        hint = "write its value after the colon"
        if section is FileKeys and key != "season":
            hint = f"indent what belongs to it; on one line it looks like {example}"
        findings.at_key(place, "missing", f"nothing is written after {quoted(key)}", hint)
        return
    findings.at_key(
        path, "missing", f"{quoted(key)} is missing{_owner(path)}", f"add it, such as {example}"
    )


def wrong_shape(path: Path, findings: Findings) -> None:
    """Report something else where keys and values belong."""
    name = next((str(part) for part in reversed(path) if isinstance(part, str)), "the file")
    if path and isinstance(path[-1], int):
        name = f"this entry of {name}"
    findings.at_value(
        path,
        "not-a-mapping",
        f"{name} must be made of keys and values",
        "write each as a key, a colon, a space and its value",
    )


def _meant(key: str, absent: tuple[str, ...], section: type) -> str | None:
    """Return the key of a section that an unknown one stands for; one that is absent first."""
    known = known_keys(section)
    meant = _ALSO_CALLED.get(key.lower())
    if meant in known:
        return meant
    if section is FileKeys and any(key in known_keys(other) for other in _SECTIONS):
        return None  # not misspelt but in the wrong column
    near = did_you_mean(key, absent) or did_you_mean(key, known)
    if near is None and absent:
        import difflib

        near = next(iter(difflib.get_close_matches(key.lower(), absent, 1, 0.65)), None)
    if near is None and len(key) > 3:
        called = did_you_mean(key, tuple(n for n, meant in _ALSO_CALLED.items() if meant in known))
        near = _ALSO_CALLED[called] if called else None
    return near


def _hint(key: str, meant: str | None, section: type) -> str:
    if meant is not None:
        return f"did you mean '{meant}'?"
    for other, where in _SECTIONS.items():
        if key in known_keys(other):
            return f"'{key}' belongs {where}; is it indented as far as it should be?"
    return "the keys here are: " + ", ".join(known_keys(section))


def _owner(path: Path) -> str:
    named = next((str(part) for part in reversed(path) if isinstance(part, str)), None)
    if named is None:
        return ""
    if isinstance(path[-1], int):
        return f" from this entry of {named}"
    return f" under {quoted(named)}"


def _without_space(key: str) -> tuple[str, str] | None:
    """Take ``plants:16`` apart, or return None for a key that is none of that kind."""
    name, colon, rest = key.partition(":")
    if not colon or not rest or rest[0] in ":/ " or not name.replace("_", "").isalpha():
        return None
    return name, rest


def _cut_off(tree: Tree, path: Path, section: type) -> str | None:
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
    owner: str, before: list[str], rest: list[str], section: type, beds: tuple[str, ...]
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
    if (
        value.isascii()
        and value.lstrip("-").isdigit()
        and len(before) == len(rest) == 1
        and rest[0].isdigit()
    ):
        joined = f"{value}{rest[0]}" if len(rest[0]) == 3 else f"{value}.{rest[0]}"
        return f"write the number without a comma: {owner}: {joined}"
    if owner in _TEXTS and len(before) == 1:
        whole = in_quotes(", ".join([value, *rest]))
        return f"put a text with a comma in it in quotes: {owner}: {whole}"
    return None


def _bed_names(tree: Tree) -> tuple[str, ...]:
    file = tree.value
    beds = file.get("beds") if isinstance(file, dict) else None
    listed = beds if isinstance(beds, list) else []
    return tuple(str(bed.get("bed")) for bed in listed if isinstance(bed, dict))
