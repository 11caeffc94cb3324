"""A wave stands over the winter, and nobody can say when it is ready."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.waves import Conditions, no_winter_date


def _check(placed: Placed, conditions: Conditions) -> Iterator[Said]:
    judged = placed.judged
    if judged.verdict is None and judged.stages.first_pick is None:
        fewest = placed.planting.entry.crop.days_to_harvest.low
        south = conditions.year.south
        why, hint = no_winter_date(judged, fewest=fewest, south=south)
        yield Said(f"{placed.planting.id} {why}", hint, about=placed.planting.id)


RULE = WaveRule("no-winter-date", Severity.WARNING, _check)
