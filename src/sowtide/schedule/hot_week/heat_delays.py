"""Work of a hot week that had better wait for a cooler day or a cooler hour: proposals only."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from sowtide.climate.soil import Soil, soil_under
from sowtide.days import GrowingYear
from sowtide.garden.crop import Crop
from sowtide.schedule.hot_week.heat_limits import mean_under
from sowtide.schedule.waves import Doubt, Wave, doubt
from sowtide.schedule.work import Kind, Task, last_to_plant
from sowtide.units import TOO_HOT
from sowtide.values import value

_DAY = timedelta(days=1)
_SETTING_OUT = (Kind.HARDEN_OFF, Kind.PLANT_OUT)
_SOWING = (Kind.SOW, Kind.SOW_IN_TRAYS)


@value
class HeatDelay:
    """Plants that had better not go out in the heat."""

    task: Task
    """The hardening off or the planting out."""
    until: date
    """The day to look again: the first after the heat."""
    cannot_wait: bool
    """Whether by then its last safe day has passed, or the plants are too old; or it is not safe on
    its own day, and each further one costs something."""


@value
class HotSowing:
    """A sowing of a hot week."""

    task: Task
    """The sowing."""
    doubt: Doubt | None
    """Why little of the seed comes up in soil that warm; None where it does."""
    until: date | None
    """The first day after the heat, where the seed is in doubt and it may wait that long."""


def heat_delays(tasks: Iterable[Task], high: float, last: date) -> Iterator[HeatDelay]:
    """Yield what had better not be hardened off or planted out up to a last day of heat."""
    until = last + _DAY
    for task in tasks:
        if task.kind in _SETTING_OUT and is_too_hot_for(task.wave.crop, high):
            planted = task.wave.stages.plant.day + max(until - task.due, timedelta())
            yield HeatDelay(task, until, cannot_wait=not _may_wait(task.wave, planted))


def _may_wait(wave: Wave, planted: date) -> bool:
    """Say whether a wave is still safe and fit if it is planted on a later day.

    Of one that is not safe on its own day every day costs something.
    """
    limit = last_to_plant(wave)
    return wave.judged.verdict is None if limit is None else planted <= limit


def hot_sowings(
    tasks: Iterable[Task], high: float, last: date, year: GrowingYear
) -> Iterator[HotSowing]:
    """Yield the sowings that are better done in the cool of a day, up to a last day of heat."""
    until = last + _DAY
    for task in tasks:
        if task.kind not in _SOWING:
            continue
        soil = Soil(soil_under(mean_under(high), task.due, year), at_least=False)
        found = doubt(task.wave.crop, soil)
        found = found if found is not None and found.too_warm else None
        if found is None and high < TOO_HOT:
            continue
        waits = found is not None and task.kind is Kind.SOW and _may_wait(task.wave, until)
        yield HotSowing(task, found, until if waits else None)


def is_too_hot_for(crop: Crop, high: float) -> bool:
    """Say whether it is too hot for young plants of a crop to be set out."""
    limit = crop.warm_limit
    return high >= TOO_HOT or (limit is not None and round(mean_under(high), 6) > limit)
