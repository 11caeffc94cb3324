"""The JSON Schema of a journal: a list of what happened, an entry each."""

from __future__ import annotations

from sowtide.garden.described.forms_of_values import LOOSE, Schema, form_of, one_of
from sowtide.garden.described.garden_schema import DIALECT, described
from sowtide.garden.journal import KEYS, OF_A_WAVE, WEATHER, Did, reader_of, takes

_SECTION = "journal"
_ALWAYS = ("on", "did")


def journal_schema() -> Schema:
    """Return the schema of a journal: draft 2020-12."""
    return {
        "$schema": DIALECT,
        "title": "A journal of sowtide: what really happened",
        "type": ["array", "null"],
        "items": {
            "type": "object",
            "additionalProperties": False,
            "required": list(_ALWAYS),
            "properties": {key: _key(key) for key in KEYS},
            "allOf": [_stage(did) for did in Did],
        },
    }


def _key(key: str) -> Schema:
    said = described().get((_SECTION, key))
    words: Schema = {} if said is None else {"description": said}
    if key == "on":
        return words | {
            "type": "string",
            "pattern": r"^\d{4}-\d\d-\d\d$",
            "examples": ["2026-07-18"],
        }
    if key in ("did", "skips"):
        return words | one_of(*(did.value for did in Did))
    return words | (form_of(reader_of(key)) or LOOSE)


def _stage(did: Did) -> Schema:
    """Return what an entry of a stage must have and may not have."""
    must = ["wave"] if did in OF_A_WAVE else ["amount"] if did in WEATHER else []
    if did is Did.SCOUTED:
        must.append("found")
    then: Schema = {"properties": {key: False for key in KEYS if not takes(did, key)}}
    if must:
        then["required"] = must
    if did not in OF_A_WAVE and did not in WEATHER:
        then["anyOf"] = [{"required": ["wave"]}, {"required": ["bed"]}]
    return {"if": {"properties": {"did": {"const": did.value}}, "required": ["did"]}, "then": then}
