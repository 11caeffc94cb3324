"""Reading a garden's file: everything that is wrong with it at once, or the garden."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sowtide.diagnostics import (
    Problem,
    Severity,
    Span,
    has_errors,
    the_first,
)
from sowtide.garden.keys import FileKeys, SiteKeys, read_section
from sowtide.garden.making import (
    Crops,
    Entries,
    Wants,
    beds_of,
    check_comments,
    check_curly_quotes,
    check_families,
    site_of,
    spans_of,
    watches_of,
)
from sowtide.garden.model import EVERY_DAY, Entry, Garden
from sowtide.garden.readers import Frame, frame_of
from sowtide.garden.text import EnoughError, Findings, Tree, bytes_of, decode, parse
from sowtide.garden.want import Want
from sowtide.values import value

if TYPE_CHECKING:  # only where a file has care
    from sowtide.garden.care import Routine


@value
class Reading:
    """What came of reading a file."""

    garden: Garden | None
    """The garden, or None where any of the problems is an error."""
    problems: tuple[Problem, ...]
    """Everything found, in file order."""


def read_file(path: Path, label: str | None = None) -> Reading:
    """Read a garden's file from disk.

    Parameters
    ----------
    path
        The file.
    label
        How messages name it; the path as given unless set.

    Raises
    ------
    Unreadable
        If there is no such file or it cannot be opened.
    """
    name = label or str(path)
    return read_garden(bytes_of(path, name), name)


def read_garden(data: bytes, label: str) -> Reading:
    """Read a garden from the bytes of its file."""
    source = decode(data, label)
    if isinstance(source, Problem):
        return Reading(None, (source,))
    tree = parse(source)
    if tree.broken:
        return Reading(None, the_first(tree.problems))
    return read_tree(tree)


def read_tree(tree: Tree) -> Reading:
    """Read a garden from a parsed file."""
    if tree.value is None:
        return _empty(tree)
    findings, garden = Findings(tree), None
    with suppress(EnoughError):
        if not check_curly_quotes(findings):  # before these are right, no name can be told
            check_comments(findings)
            garden = _garden(tree, findings)
    return Reading(None if has_errors(findings.problems) else garden, the_first(findings.problems))


def _garden(tree: Tree, findings: Findings) -> Garden | None:
    file: Any = tree.value
    top = read_section(FileKeys, file, (), findings)
    if not isinstance(file, dict):
        return None
    frame = frame_of(file)
    site_keys = None
    if "site" in file:
        site_keys = read_section(SiteKeys, file["site"], ("site",), findings)
    site = site_of(site_keys, frame, findings) if site_keys and frame else None
    beds = beds_of(file.get("beds"), frame, findings)
    crops = Crops(file.get("crops"), frame, findings)
    check_families(file.get("beds"), beds, crops, findings)
    entries = Entries(frame, beds, crops, findings).read(file.get("waves"))
    wants: tuple[Want, ...] = ()
    if "want" in file:
        wants = Wants(frame, crops, site_keys, findings).read(file["want"])
    watches = watches_of(file.get("watch"), frame, findings)
    away = spans_of(top.away or (), ("away",), frame, findings) if top and frame else None
    care = _care(file.get("care"), frame, entries, beds, crops, findings)
    if top is None or site is None or away is None or not isinstance(frame, Frame):
        return None
    return Garden(
        label=findings.label,
        year=frame.year,
        site=site,
        beds=tuple(bed for bed in beds.values() if bed is not None),
        crops=crops.all(),
        entries=entries,
        watches=watches,
        journal=top.journal,
        learn=top.learn,
        working_days=tuple(sorted(set(top.working_days or EVERY_DAY))),
        away=away,
        care=care,
        wants=wants,
    )


def _care(
    raw: Any,
    frame: Frame | None,
    entries: tuple[Entry, ...],
    beds: Iterable[str],
    crops: Crops,
    findings: Findings,
) -> tuple[Routine, ...]:
    """Return the routines of care; most files have none, and load nothing for them."""
    if raw is None:
        return ()
    from sowtide.garden.care import care_of

    series = {entry.name: entry.crop for entry in entries}
    known = crops.all()
    return care_of(raw, frame, series=series, beds=tuple(beds), crops=known, findings=findings)


def _empty(tree: Tree) -> Reading:
    problem = Problem(
        severity=Severity.ERROR,
        code="empty-file",
        message="the file is empty"
        if not tree.source.text.strip()
        else "nothing but comments stands here",
        hint="write a starter file with: sowtide new",
        span=Span(file=tree.source.label, line=1, column=1, length=1, text=tree.source.lines[0]),
    )
    return Reading(None, the_first([*tree.problems, problem]))
