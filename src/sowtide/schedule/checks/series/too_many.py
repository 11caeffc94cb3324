"""A series would have more than 366 waves; the rest is left out."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown
from sowtide.schedule.checks import Said, SeriesRule
from sowtide.schedule.waves import MOST_WAVES, Conditions, Over


def _check(grown: Grown, _: Conditions) -> Iterator[Said]:
    if grown.over is Over.TOO_MANY:
        yield Said(
            f"{grown.entry.name} would have more than {MOST_WAVES} waves; the rest was left out",
            "write a longer `every`, or an earlier `until`",
        )


RULE = SeriesRule("too-many-waves", Severity.ERROR, _check)
