"""Why a planting comes to little, where it is not too late: heat, or the frosts of the winter."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from sowtide.climate.answers import Need
from sowtide.climate.daylight import SHORT_DAY, last_below
from sowtide.climate.questions import Climate
from sowtide.days import GrowingYear
from sowtide.garden.site import Site
from sowtide.schedule.waves.runs import Holds
from sowtide.schedule.waves.stages import planted_on

_SOON = 14
"""Days within which heat is over that makes a planting come to little: ours. [days]"""

_NO_FROST = -90.0
"""Colder than any night. [°C]"""


def heat_harms(planted: date, need: Need, climate: Climate, *, last: date, is_worth: Holds) -> bool:
    """Whether it would be worth planting without any heat, and is again within two weeks.

    Parameters
    ----------
    planted, need, climate
        When it is planted, what it needs, and where.
    last
        The last day on which light and soil let it be planted.
    is_worth
        Whether chances make it worth planting.
    """
    cool = replace(need, heat_ends=False, warm_limit=None, fruit_set=None)
    soon = (planted + timedelta(days=later) for later in range(1, _SOON + 1))
    chances = climate.waves.chances
    return any(day <= last and is_worth(chances(day, need)) for day in soon) and is_worth(
        chances(planted, cool)
    )


def stands_winter(planted: date, need: Need, climate: Climate, site: Site) -> bool:
    """Whether a crop that stands more in leaf than in flower would be picked after the winter.

    It would if no frost ended it, and its first pick came after the days of under ten hours; where
    no day is so short, after the growing year.
    """
    if need.green is None:
        return False
    unharmed = replace(need, killed_at=_NO_FROST, green=None)
    early, _ = climate.waves.outlook(planted_on(planted), unharmed).first_pick
    south = site.latitude < 0
    year = GrowingYear(2000, south=south).holding(planted)
    dark = last_below(SHORT_DAY, site.latitude, GrowingYear(year.season + 1, south=south))
    return early.day > (dark or year.last)
