"""A wave is planted before the earliest day of its crop."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.waves import Conditions, Verdict


def _check(placed: Placed, _: Conditions) -> Iterator[Said]:
    if placed.judged.verdict is Verdict.TOO_EARLY:
        day = short_day(placed.planting.planted.day)
        planted = f"{placed.planting.id} is planted on {day},"
        yield Said(
            f"{planted} too early for its crop",
            f"wait until {short_day(placed.judged.earliest)}, or write `from: earliest`",
            about=planted,
        )


RULE = WaveRule("too-early", Severity.WARNING, _check)
