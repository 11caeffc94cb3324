"""The JSON Schema of a garden's file, from the declarations of its sections."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from sowtide.garden.care import CareKeys, LabelKeys
from sowtide.garden.described.forms_of_values import LOOSE, Reader, Schema, form_of, one_of
from sowtide.garden.keys import (
    BedKeys,
    CropKeys,
    Each,
    FileKeys,
    FrostKeys,
    HeatKeys,
    Keyed,
    Leaf,
    NormalsKeys,
    SiteKeys,
    WantKeys,
    WatchKeys,
    WaveKeys,
    Within,
    keys_of,
)
from sowtide.garden.readers import text

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_WORDS = Path(__file__).with_name("key_words.tsv")

SECTIONS: Mapping[type, str] = {
    FileKeys: "the file",
    SiteKeys: "site",
    FrostKeys: "frost",
    NormalsKeys: "normals",
    BedKeys: "beds",
    CropKeys: "crops",
    HeatKeys: "heat",
    WaveKeys: "waves",
    WatchKeys: "watch",
    CareKeys: "care",
    LabelKeys: "label",
    WantKeys: "want",
}
"""Sections by their headings in the reference of the file."""

_AT_ODDS: Mapping[type, tuple[Schema, ...]] = {
    WaveKeys: (
        {"not": {"required": ["every", "pick_every"]}},
        {
            "anyOf": [
                {"required": ["every"]},
                {"required": ["pick_every"]},
                {"required": ["count"], "properties": {"count": {"enum": [1, "1"]}}},
                {"not": {"anyOf": [{"required": ["until"]}, {"required": ["count"]}]}},
            ]
        },
    ),
    WantKeys: tuple({"not": {"required": ["in", key]}} for key in ("every", "from", "until")),
    SiteKeys: (
        {"dependentRequired": {"warmest_month": ["coldest_month"]}},
        {"dependentRequired": {"coldest_month": ["warmest_month"]}},
    ),
    NormalsKeys: tuple(
        {"properties": {key: {"type": "array", "minItems": 12, "maxItems": 12}}}
        for key in ("max", "min")
    ),
}
"""What the keys of a section may not say together, and how many months there are."""

_NONE = one_of("none")
_FROSTS: tuple[Schema, ...] = (
    {"required": ["last", "first"]},
    {"required": ["record"], "properties": {"last": False, "first": False}},
    {"required": ["last"], "properties": {"last": _NONE}},
    {"required": ["first"], "properties": {"first": _NONE}},
)
"""Beside a record the dates may be left out, and one where the other is none."""

_LISTS: Mapping[str, type] = {
    "beds": BedKeys,
    "waves": WaveKeys,
    "watch": WatchKeys,
    "care": CareKeys,
    "want": WantKeys,
}


def garden_schema() -> Schema:
    """Return the schema of a garden's file: draft 2020-12, keys with what they mean and examples.

    It refuses no file that the reader takes. What hangs on two places of the file at once, such as
    a bed that a wave names, only the reader sees.
    """
    return {
        "$schema": DIALECT,
        "title": "A garden's file of sowtide",
        **_section(FileKeys),
        "$defs": {name: _section(of) for of, name in SECTIONS.items() if of is not FileKeys},
    }


@cache
def described() -> Mapping[tuple[str, str], str]:
    """Return what each key means, by its section and its name, as the reference says it."""
    lines = _WORDS.read_text(encoding="utf-8").splitlines()
    return {(section, key): said for section, key, said in (line.split("\t") for line in lines)}


def _section(of: type) -> Schema:
    keys = keys_of(of)
    name = SECTIONS[of]
    made: Schema = {
        "type": "object",
        "additionalProperties": False,
        "properties": {key: _key(name, key, each.kind, each.example) for key, each in keys.items()},
    }
    if of in _AT_ODDS:
        made["allOf"] = list(_AT_ODDS[of])
    always = [key for key, each in keys.items() if each.example and each.needed({})]
    if of is FrostKeys:
        return made | {"anyOf": list(_FROSTS)}
    return made | ({"required": always} if always else {})


def _key(section: str, key: str, kind: Any, example: str | None) -> Schema:
    said = described().get((section, key))
    words: Schema = {} if said is None else {"description": said}
    if example is not None:
        words["description"] = f"{words.get('description', '')} Such as {example}".strip()
    if kind is None:
        return words | _looked_into(key)
    return words | _value(kind)


def _looked_into(key: str) -> Schema:
    """Return a section of the file that is looked into by itself."""
    if key == "site":
        return _within(SiteKeys)
    if key == "crops":
        named = {"anyOf": [_within(CropKeys), {"type": "null"}]}
        called = _untyped(_read(text))
        return {
            "type": ["object", "null"],
            "additionalProperties": named,
            "propertyNames": called,
        }
    listed: Schema = {"items": _within(_LISTS[key])}
    if key == "beds":
        return listed | {"type": "array", "minItems": 1}
    return listed | {"type": ["array", "null"]}


def _within(section: type) -> Schema:
    return {"$ref": f"#/$defs/{SECTIONS[section]}"}


def _value(kind: Any) -> Schema:
    if isinstance(kind, Leaf):
        return _read(kind.read)
    if isinstance(kind, Each):
        one = _read(kind.read)
        return {"anyOf": [one, {"type": "array", "items": one}]}
    if isinstance(kind, Keyed):
        keyed: Schema = {"type": "object", "additionalProperties": _value(kind.of)}
        if kind.empty is not None:
            keyed["minProperties"] = 1
        names = form_of(kind.read_key)
        pattern = None if names is None else _as_name(names)
        if pattern is not None:
            keyed["propertyNames"] = _untyped(pattern)
        return keyed if kind.alone is None else {"anyOf": [_read(kind.alone), keyed]}
    assert isinstance(kind, Within)
    section = _within(kind.section)
    ways = [section]
    if kind.listed:
        items: Schema = {"type": "array", "items": section}
        ways.append(items | ({"minItems": 1} if kind.empty is not None else {}))
    if kind.alone is not None:
        ways.append(_read(kind.alone))
    return section if len(ways) == 1 else {"anyOf": ways}


def _untyped(name: Schema) -> Schema:
    """Return the form of a name without its type: an editor that is told it refuses `2025:`."""
    return {key: said for key, said in name.items() if key != "type"}


def _as_name(form: Schema) -> Schema | None:
    """Return the form of a value as that of a name, which is always a text."""
    texts = [each for each in form.get("anyOf", [form]) if each.get("type") == "string"]
    return texts[0] if texts else None


def _read(read: Reader) -> Schema:
    return form_of(read) or LOOSE
