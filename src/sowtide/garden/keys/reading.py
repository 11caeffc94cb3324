"""Reading a section of a file: its values and where they stand, looked at side by side.

What is wrong goes to the findings, everything at once; what is right becomes the section's value.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import Any, TypeVar, cast

from sowtide.garden.keys.section import Each, Keyed, Leaf, Within, keys_of, not_text
from sowtide.garden.text import Branch, Findings, Path, Refused

_Section = TypeVar("_Section")

_WRONG: Any = object()
"""Stands for a value that was refused."""


def read_section(
    section: type[_Section], raw: Any, path: Path, findings: Findings
) -> _Section | None:
    """Return a section of a file, or None with its problems added."""
    found = _section(section, raw, findings.tree.at(path), path, findings)
    return None if found is _WRONG else cast(_Section, found)


def read_list(raw: Any, section: str, findings: Findings, *, example: str) -> list[Any]:
    """Return the entries of a section that is a list of them; nothing else may stand there."""
    if raw is None or isinstance(raw, list):
        return raw or []
    hint = f"write each as - {example}, below {section}:"
    findings.at_key((section,), "not-a-list", f"{section} must be a list", hint)
    return []


def _section(section: type, raw: Any, place: Any, path: Path, findings: Findings) -> Any:
    if not isinstance(raw, dict):
        return _misshapen(path, findings)
    keys = keys_of(section)
    absent = {key for key, each in keys.items() if key not in raw and each.needed(raw)}
    right = not absent
    values: dict[str, Any] = {}
    several: dict[str, dict[str, Any]] = {}
    for key in place.keys if type(place) is Branch and place.keys is not None else ():
        if key not in keys:
            from sowtide.garden.keys.mistakes import unknown_key

            right = False
            absent -= unknown_key(section, key, path, absent, findings)
    for key, each in keys.items():
        if key in raw:
            at = place.values[key] if type(place) is Branch else None
            found = _value(each.kind, raw[key], at, (*path, key), findings)
            right = right and found is not _WRONG
            if each.is_one_of_several:
                several.setdefault(each.field, {})[key] = found
            else:
                values[each.field] = found
        elif key in absent:
            from sowtide.garden.keys.mistakes import missing_key

            missing_key(section, key, path, findings)
    if not right:
        return _WRONG
    return section(**values, **{name: MappingProxyType(of) for name, of in several.items()})


def _value(kind: Any, raw: Any, place: Any, path: Path, findings: Findings) -> Any:
    """Return what a key's value says, or that it is wrong."""
    if type(kind) is Leaf:
        return _text(kind, raw, path, findings)
    if type(kind) is Each:
        return _each(kind, raw, path, findings)
    if type(kind) is Keyed:
        return _keyed(kind, raw, place, path, findings)
    return _within(kind, raw, place, path, findings) if type(kind) is Within else raw


def _text(kind: Leaf | Each, raw: Any, path: Path, findings: Findings) -> Any:
    refused = None
    try:
        if isinstance(raw, str):
            return kind.read(raw)
    except Refused as error:
        refused = error
    return _refused(path, refused or not_text(raw), findings)


def _each(kind: Each, raw: Any, path: Path, findings: Findings) -> Any:
    if isinstance(raw, dict):
        hint = "write one value, or several in brackets: [North, South]"
        refused = Refused("not-text", "keys and values stand where a list belongs", hint)
        return _refused(path, refused, findings)
    items = raw if isinstance(raw, list) else [raw]
    found = [_text(kind, item, (*path, number), findings) for number, item in enumerate(items)]
    return _WRONG if _WRONG in found else tuple(found)


def _keyed(kind: Keyed, raw: Any, place: Any, path: Path, findings: Findings) -> Any:
    if kind.alone is not None and isinstance(raw, str):
        return _text(Leaf(kind.alone), raw, path, findings)
    if not isinstance(raw, dict):
        return _misshapen(path, findings)
    if kind.empty is not None and not place.keys:
        return _refused(path, kind.empty, findings)
    found: dict[Any, Any] = {}
    for key in place.keys:
        try:
            name = kind.read_key(key)
        except Refused as refused:
            message = f"{path[-1]}: {refused.message}"
            findings.at_key((*path, key), refused.code, message, refused.hint)
            name, value = key, _WRONG
        else:
            value = _value(kind.of, raw.get(key), None, (*path, key), findings)
        found[name] = value
    return _WRONG if _WRONG in found.values() else MappingProxyType(found)


def _within(kind: Within, raw: Any, place: Any, path: Path, findings: Findings) -> Any:
    if kind.alone is not None and isinstance(raw, str):
        return _text(Leaf(kind.alone), raw, path, findings)
    if not kind.listed:
        return _section(kind.section, raw, place, path, findings)
    if kind.empty is not None and raw == []:
        return _refused(path, kind.empty, findings)
    items, places = (raw, place.values) if isinstance(raw, list) else ([raw], [place])
    found = [
        _section(kind.section, item, at, (*path, number), findings)
        for number, (item, at) in enumerate(zip(items, places, strict=True))
    ]
    return _WRONG if _WRONG in found else tuple(found)


def _refused(path: Path, refused: Refused, findings: Findings) -> Any:
    findings.refused(path, refused)
    return _WRONG


def _misshapen(path: Path, findings: Findings) -> Any:
    from sowtide.garden.keys.mistakes import wrong_shape

    wrong_shape(path, findings)
    return _WRONG
