"""There are days on which a series is not planted."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown
from sowtide.schedule.checks import Said, SeriesRule
from sowtide.schedule.waves import Conditions


def _check(grown: Grown, _: Conditions) -> Iterator[Said]:
    for gap in grown.gaps:
        yield Said(
            f"{gap.series} is not planted from {short_day(gap.first)} to {short_day(gap.last)}: "
            f"{gap.why}",
            wave=grown.waves[0],
        )


RULE = SeriesRule("gap", Severity.NOTE, _check)
