"""Young plants are chilled in spring and may take it for a winter."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown, Placed
from sowtide.schedule.checks import Said, SeriesRule, named
from sowtide.schedule.waves import Conditions, chilled
from sowtide.units import show_temperature


def _check(grown: Grown, conditions: Conditions) -> Iterator[Said]:
    waves = [each for each in grown.waves if _chill(each, conditions) is not None]
    if not waves:
        return
    crop, units = waves[0].planting.entry.crop, conditions.site.units
    mean, limit = _chill(waves[0], conditions), crop.chill_limit
    assert mean is not None  # only such were taken
    assert limit is not None
    meet = "meets" if len(waves) == 1 else "meet"
    names = named(waves)
    yield Said(
        f"{names} {meet} cold as young plants and may run to seed: the first "
        f"{crop.chill_days} days have a mean of {show_temperature(mean, units)}, and below "
        f"{show_temperature(limit, units)} they take it for a winter",
        "plant later, set out small plants, cover them, or choose a sort slow to run to seed",
        waves[0],
        about=names,
    )


def _chill(placed: Placed, conditions: Conditions) -> float | None:
    planting = placed.planting
    return chilled(planting.entry.crop, planting.planted.day, conditions.climate, conditions.year)


RULE = SeriesRule("may-run-to-seed", Severity.WARNING, _check)
