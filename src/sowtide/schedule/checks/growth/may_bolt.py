"""A cool-season crop is picked in high summer, and no hot weeks are known."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown
from sowtide.schedule.checks import Said, SeriesRule, named
from sowtide.schedule.waves import Conditions


def _check(grown: Grown, conditions: Conditions) -> Iterator[Said]:
    waves = [each for each in grown.waves if each.judged.may_bolt]
    if waves:
        names = named(waves)
        days = "01-10..02-10" if conditions.year.south else "07-10..08-10"
        yield Said(
            f"{names} would be picked in high summer and may bolt or turn bitter",
            f"write your place's hot weeks into site (`too_hot: {days}`), or `too_hot: none`",
            waves[0],
            about=names,
        )


RULE = SeriesRule("may-bolt", Severity.WARNING, _check)
