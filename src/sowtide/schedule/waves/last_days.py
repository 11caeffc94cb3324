"""The last planting days of a crop with some odds or better."""

from __future__ import annotations

from datetime import date
from functools import partial

from sowtide.climate.answers import Chances
from sowtide.garden.crop import Crop, Raised
from sowtide.schedule.waves.conditions import Conditions


def last_days(
    conditions: Conditions,
    crop: Crop,
    raised: Raised,
    *,
    shares: tuple[float, ...],
    colder_by: float = 0.0,
) -> tuple[date | None, ...]:
    """Return the last planting day of the growing year with at least each of these odds.

    It is the last of the run of days that goes on from the surest ones: what is sown to stand the
    winter has better odds again, and no last day.

    Parameters
    ----------
    conditions, crop, raised
        What is planted, where and how.
    shares
        Shares of years. [0–1]
    colder_by
        How much colder the ground is than the site; negative under a cover. [°C]
    """
    prospects = conditions.prospects(crop, raised, colder_by=colder_by)
    days: list[date | None] = []
    for share in shares:
        runs = prospects.days_with(partial(_has_odds, share))
        surest = next((day for day in days if day is not None), None)
        on = (run for run in reversed(runs) if surest is None or surest in run)
        run = next(on, runs[-1] if runs else None)
        days.append(None if run is None else run.last)
    return tuple(days)


def _has_odds(share: float, chances: Chances) -> bool:
    return chances.odds >= share and not chances.too_hot
