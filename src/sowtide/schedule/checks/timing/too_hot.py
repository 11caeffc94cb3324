"""A wave of a cool-season crop would be ready in the hot weeks."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.waves import Conditions, Verdict


def _check(placed: Placed, _: Conditions) -> Iterator[Said]:
    judged = placed.judged
    if judged.verdict is Verdict.TOO_HOT and judged.stages.first_pick is not None:
        yield Said(
            f"{placed.planting.id} would be ready in the hot weeks",
            "plant it earlier or later, or a crop that stands heat",
        )


RULE = WaveRule("too-hot", Severity.WARNING, _check)
