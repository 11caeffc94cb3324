"""A series has no wave at all."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown
from sowtide.schedule.checks import Said, SeriesRule
from sowtide.schedule.waves import Conditions


def _check(grown: Grown, _: Conditions) -> Iterator[Said]:
    entry = grown.entry
    if grown.waves:
        return
    if entry.until is None:
        why = f"no day of this growing year is safe for {entry.crop.name}"
        hint = "try a cover, seedlings in place of sowing, or a quicker variety"
    else:
        why = f"its earliest day comes after {short_day(entry.until)}"
        hint = "write a later `until`, or `last safe`"
    yield Said(f"{entry.name} has no wave: {why}", hint)


RULE = SeriesRule("no-wave", Severity.ERROR, _check)
