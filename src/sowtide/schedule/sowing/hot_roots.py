"""Roots that would grow in great heat: pale, tough and bitter, whenever they are lifted."""

from __future__ import annotations

from bisect import bisect_left
from datetime import date, timedelta

from sowtide.climate.answers import Need
from sowtide.climate.questions import Climate
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.crop import Crop

_STEP = 7
"""Days between those that are looked at before the ends of a run are found. [days]"""


def spoils_root(crop: Crop, need: Need, planted: date, climate: Climate) -> bool:
    """Whether the mean from a planting day to its first pick is too warm for a root.

    The limit is published for means of a month (Knott's Handbook), that it is taken over the whole
    growth is sowtide's own. By the packet's days: heat makes no root wait.
    """
    if not crop.root or need.warm_limit is None:
        return False
    mean = climate.weather.mean_over(planted, (need.days.low + need.days.high) // 2)
    return mean is not None and mean > need.warm_limit


def too_hot_for_roots(
    crop: Crop, need: Need, climate: Climate, year: GrowingYear
) -> tuple[DateSpan, ...]:
    """Return the run of planting days of a growing year from which a root grows in too much heat.

    None where no such day is, or nothing is known of the heat.
    """
    weather = climate.weather
    if not crop.root or weather.hot_weeks is None or not weather.knows_heat:
        return ()

    def spoilt(day: int) -> bool:
        return spoils_root(crop, need, date.fromordinal(day), climate)

    first, last = year.first.toordinal(), year.last.toordinal()
    hot = [day for day in range(first, last + 1, _STEP) if spoilt(day)]
    if not hot:
        return ()
    before, after = max(hot[0] - _STEP, first), min(hot[-1] + _STEP, last)
    begin = bisect_left(range(before, hot[0]), True, key=spoilt) + before
    over = bisect_left(range(hot[-1], after + 1), True, key=lambda day: not spoilt(day)) + hot[-1]
    return (DateSpan(date.fromordinal(begin), date.fromordinal(over) - timedelta(days=1)),)
