"""A wave is worth growing in at least half of the years, but not as surely as you asked for."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.checks.timing.late import late
from sowtide.schedule.waves import Conditions, Verdict


def _check(placed: Placed, _: Conditions) -> Iterator[Said]:
    judged = placed.judged
    if judged.verdict is Verdict.CHANCY and judged.stages.first_pick is not None:
        yield late(placed)


RULE = WaveRule("chancy", Severity.NOTE, _check)
