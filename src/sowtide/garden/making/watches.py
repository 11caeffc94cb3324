"""From the file's watch list to what is to be looked for, and at how much warmth."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from sowtide.garden.keys import WatchKeys, read_list, read_section
from sowtide.garden.model import Watch
from sowtide.garden.readers import Frame, resolve
from sowtide.garden.text import Findings, Path, Refused


def watches_of(raw: Any, frame: Frame | None, findings: Findings) -> tuple[Watch, ...]:
    """Return what to look for, in the file's order; what is wrong is left out and reported."""
    example = "{look_for: squash vine borer moths, base: 50, total: 1000}"
    items = read_list(raw, "watch", findings, example=example)
    found = (_watch(item, ("watch", number), frame, findings) for number, item in enumerate(items))
    return tuple(each for each in found if each is not None)


def _watch(item: Any, path: Path, frame: Frame | None, findings: Findings) -> Watch | None:
    keys = read_section(WatchKeys, item, path, findings)
    if keys is None or frame is None:
        return None
    watch = _made(keys, path, frame, findings)
    if watch is None:
        return None
    before = len(findings.problems)
    _check(watch, path, frame, findings)
    return watch if len(findings.problems) == before else None


def _made(keys: WatchKeys, path: Path, frame: Frame, findings: Findings) -> Watch | None:
    at, upper, start = "base", None, frame.year.first
    try:
        base = frame.temperature(keys.base)
        if keys.upper is not None:
            at = "upper"
            upper = frame.temperature(keys.upper)
        if keys.start is not None:
            at = "from"
            start = resolve(keys.start, frame.year, end=False)
    except Refused as refused:
        findings.refused((*path, at), refused)
        return None
    return Watch(
        look_for=keys.look_for,
        base=base,
        upper=upper,
        method=keys.method,
        total=frame.difference(Fraction(keys.total)),
        start=start,
        span=findings.tree.value_span((*path, "look_for")),
    )


def _check(watch: Watch, path: Path, frame: Frame, findings: Findings) -> None:
    if watch.upper is not None and watch.upper <= watch.base:
        findings.at_value(
            (*path, "upper"),
            "watch-numbers",
            "the upper temperature is not above the base",
            "the base is where warmth begins to count, the upper where more adds none",
        )
    if watch.start not in frame.year:
        findings.at_value(
            (*path, "from"),
            "watch-numbers",
            f"{watch.start} lies in another growing year than the season",
            f"write {watch.start:%m-%d}",
        )
