"""A crop that long days make run to seed is first picked in longer ones."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.climate.daylight import day_length
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown
from sowtide.schedule.checks import Said, SeriesRule, named
from sowtide.schedule.waves import Conditions
from sowtide.units import show_number


def _check(grown: Grown, conditions: Conditions) -> Iterator[Said]:
    limit = grown.entry.crop.long_day
    if limit is None:
        return
    latitude = conditions.site.latitude
    waves = []
    for each in grown.waves:
        first = each.judged.stages.first_pick
        if first is not None and day_length(latitude, first[0].day) > limit:
            waves.append(each)
    if waves:
        names = named(waves)
        yield Said(
            f"{names} would be picked in days longer than {show_number(limit)} hours and "
            "may run to seed",
            "pick it young, choose a sort slow to run to seed, or plant it for shorter days",
            waves[0],
            about=names,
        )


RULE = SeriesRule("long-days", Severity.NOTE, _check)
