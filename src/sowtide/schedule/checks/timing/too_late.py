"""A wave is worth growing in fewer than half of the years, or goes into the dark or cold soil."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.checks.timing.late import last_safe, late
from sowtide.schedule.waves import Conditions, Verdict

_USUAL = 0.5


def _check(placed: Placed, conditions: Conditions) -> Iterator[Said]:
    judged = placed.judged
    if judged.verdict is not Verdict.TOO_LATE or judged.stages.first_pick is None:
        return
    entry, planted = placed.planting.entry, placed.planting.planted.day
    autumn = conditions.prospects(entry.crop, entry.raised).autumn
    if judged.odds is None or judged.odds < _USUAL or autumn is None:
        yield late(placed)
        return
    wave = f"{placed.planting.id}, planted on {short_day(planted)},"
    yield Said(f"{wave} {autumn.why}", last_safe(judged), about=wave)


RULE = WaveRule("too-late", Severity.WARNING, _check)
