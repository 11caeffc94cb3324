"""A garden whose crops take the days that they took here, where enough was noted."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from sowtide.days import DayRange
from sowtide.garden.crop import Crop, Learned
from sowtide.garden.journal import Journal
from sowtide.garden.model import Garden
from sowtide.schedule.learning.observed import observed_in
from sowtide.schedule.learning.posterior import FEWEST, Posterior, posterior_of
from sowtide.schedule.waves import Conditions


def taught(garden: Garden, journal: Journal, conditions: Conditions, today: date) -> Garden:
    """Return a garden with what its journal teaches of its crops.

    Parameters
    ----------
    garden
        The garden, its crops as the packet has them.
    journal
        What happened, in all seasons.
    conditions
        The place; no later plan may be made with it, since it knows the packet's crops.
    today
        Nothing later counts.
    """
    crops = {}
    for crop, seen in observed_in(garden, journal, conditions, today, fewest=FEWEST):
        crops[id(crop)] = _with(crop, posterior_of(each.ratio for each in seen))
    if not crops:
        return garden
    return replace(
        garden,
        crops=tuple(crops.get(id(crop), crop) for crop in garden.crops),
        entries=tuple(
            replace(entry, crop=crops[id(entry.crop)]) if id(entry.crop) in crops else entry
            for entry in garden.entries
        ),
    )


def _with(crop: Crop, found: Posterior) -> Crop:
    """Return a crop that takes so many times its days, each end to the nearest day."""
    days, units = crop.days_to_harvest, crop.heat.units
    heat = crop.heat if units is None else replace(crop.heat, units=_times(units, found.factor))
    return replace(
        crop,
        days_to_harvest=_times(days, found.factor),
        heat=heat,
        learned=Learned(found.factor, found.pickings, days),
    )


def _times(days: DayRange, factor: float) -> DayRange:
    low = max(int(days.low * factor + 0.5), 1)
    return DayRange(low, max(int(days.high * factor + 0.5), low))
