"""A wave is worth growing in fewer than half of the years, or is planted out of its time."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.checks.timing.late import last_safe, late
from sowtide.schedule.waves import Conditions, Verdict

_USUAL = 0.5
_LATE = (Verdict.TOO_LATE, Verdict.WINTER, Verdict.NOT_ITS_TIME)


def _check(placed: Placed, conditions: Conditions) -> Iterator[Said]:
    judged = placed.judged
    if judged.verdict not in _LATE or judged.stages.first_pick is None:
        return
    entry, planted = placed.planting.entry, placed.planting.planted.day
    autumn = conditions.prospects(entry.crop, entry.raised).autumn
    if judged.verdict is Verdict.NOT_ITS_TIME:
        why = "is not planted at that time of the year"
    elif judged.odds is None or judged.odds < _USUAL or autumn is None or judged.winter_kills:
        yield late(placed)
        return
    else:
        why = autumn.why
    wave = f"{placed.planting.id}, planted on {short_day(planted)},"
    yield Said(f"{wave} {why}", last_safe(judged), about=wave)


RULE = WaveRule("too-late", Severity.WARNING, _check)
