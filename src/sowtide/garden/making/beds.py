"""From the file's beds to beds: areas exact, spans of days resolved."""

from __future__ import annotations

from typing import Any

from sowtide.days import DateSpan
from sowtide.garden.keys import BedKeys, read_section
from sowtide.garden.model import Bed
from sowtide.garden.readers import DaysWritten, Frame, resolve_span
from sowtide.garden.text import Findings, Path, Refused, quoted
from sowtide.units import Size


def beds_of(raw: Any, frame: Frame | None, findings: Findings) -> dict[str, Bed | None]:
    """Return the beds by name in the file's order; None for one that has problems."""
    if not isinstance(raw, list) or not raw:
        if raw is not None:
            findings.at_key(
                ("beds",),
                "not-a-list",
                "beds must be a list of at least one bed",
                "write each as - {bed: Long 1, size: 4 x 20}, indented below beds:",
            )
        return {}
    found: dict[str, Bed | None] = {}
    first_path: dict[str, Path] = {}
    for number, item in enumerate(raw):
        path: Path = ("beds", number)
        keys = read_section(BedKeys, item, path, findings)
        name = keys.bed if keys else _name_at(item)
        if name is None:
            continue
        if name in found:
            line = findings.tree.value_span((*first_path[name], "bed")).line
            findings.at_value(
                (*path, "bed"),
                "duplicate-name",
                f"two beds are called {quoted(name)}; the first is in line {line}",
                "give each bed its own name",
            )
            continue
        first_path[name] = path
        found[name] = _bed(keys, path, frame, findings) if keys and frame else None
    return found


def _name_at(item: Any) -> str | None:
    name = item.get("bed") if isinstance(item, dict) else None
    return " ".join(name.split()) if isinstance(name, str) else None


def _bed(keys: BedKeys, path: Path, frame: Frame, findings: Findings) -> Bed | None:
    taken = spans_of(keys.taken or (), (*path, "taken"), frame, findings)
    if taken is None:
        return None
    width, length = keys.size
    grew = keys.grew or {}
    return Bed(
        name=keys.bed,
        size=Size(frame.side(width), frame.side(length)),
        span=findings.tree.value_span((*path, "bed")),
        rest=keys.rest,
        grew=tuple((year, family) for year, list_ in grew.items() for family in list_),
        cover=frame.difference(keys.cover),
        colder_by=frame.difference(keys.colder_by),
        taken=taken,
    )


def spans_of(
    written: tuple[DaysWritten, ...], path: Path, frame: Frame, findings: Findings
) -> tuple[DateSpan, ...] | None:
    """Return the spans of days that are meant; None where one is none, and reported."""
    spans: list[DateSpan] = []
    for number, each in enumerate(written):
        try:
            spans.append(resolve_span(each, frame.year))
        except Refused as refused:
            findings.refused((*path, number), refused)
    return tuple(spans) if len(spans) == len(written) else None
