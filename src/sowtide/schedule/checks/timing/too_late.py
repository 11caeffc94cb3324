"""A wave is worth growing in fewer than half of the years."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.checks.timing.late import late
from sowtide.schedule.waves import Conditions, Verdict


def _check(placed: Placed, _: Conditions) -> Iterator[Said]:
    judged = placed.judged
    if judged.verdict is Verdict.TOO_LATE and judged.stages.first_pick is not None:
        yield late(placed)


RULE = WaveRule("too-late", Severity.WARNING, _check)
