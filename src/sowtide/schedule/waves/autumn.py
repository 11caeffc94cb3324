"""How late in autumn a crop may go out: light, and soil that seed still comes up in.

What is out in winter hardly grows under ten hours of daylight, and must be three quarters grown by
then (Michigan State University's student farm, 2019). What frost ends before has its own limit.
"""

from __future__ import annotations

from bisect import bisect_left
from datetime import date, timedelta
from math import ceil

from sowtide.climate.answers import GROWN_ENOUGH, Need
from sowtide.climate.daylight import SHORT_DAY, first_below
from sowtide.climate.questions import Climate
from sowtide.days import GrowingYear
from sowtide.garden.crop import Crop
from sowtide.garden.site import Site
from sowtide.values import value

_EVEN = 0.5


@value
class AutumnLimit:
    """The last day that light and soil allow.

    Parameters
    ----------
    day
        The day.
    why
        What is wrong with a wave that is planted after it, in a grower's words.
    """

    day: date
    why: str


def autumn_limit(
    crop: Crop, need: Need, climate: Climate, site: Site, year: GrowingYear, *, sown: bool
) -> AutumnLimit | None:
    """Return what ends the planting days of a crop before frost and the year do; None if nothing.

    Parameters
    ----------
    crop, need
        What is planted, and what it needs.
    climate, site, year
        Where and when.
    sown
        Whether it is sown direct.
    """
    dark = f"would not be three quarters grown when the days fall under {SHORT_DAY} hours"
    cold = "is sown into soil too cold for its seed"
    limits = []
    grown = grown_by_the_short_days(need, climate, site, year)
    if grown is not None:
        limits.append(AutumnLimit(grown, dark))
    warm = warm_soil_until(crop, climate, year) if sown and not crop.overwinters else None
    if warm is not None:
        limits.append(AutumnLimit(warm, cold))
    return min(limits, key=lambda each: each.day, default=None)


def grown_by_the_short_days(
    need: Need, climate: Climate, site: Site, year: GrowingYear
) -> date | None:
    """Return the last day from which a cool crop is three quarters grown by the short days.

    In as many years as the grower is sure of, where temperatures are known; else by the middle of
    its days to harvest. The day before the growing year where no day is early enough; None where
    days stay long, and for a crop that wants warmth: frost ends it.

    Parameters
    ----------
    need
        What it needs.
    climate, site, year
        Where and when.
    """
    if not (need.cool or need.stands):
        return None
    short_from = first_below(SHORT_DAY, site.latitude, year)
    if short_from is None:
        return None
    first, last = year.first.toordinal(), short_from.toordinal()
    share = _EVEN if site.sure.share is None else site.sure.share
    days = ceil(GROWN_ENOUGH * (need.days.low + need.days.high) / 2)

    def too_late(day: int) -> bool:
        enough = climate.waves.grown_enough(date.fromordinal(day), need)
        return day + days > last if enough is None else enough < share

    # Before midsummer it only waits for spring: the days from there on run in order.
    midsummer = min(year.midsummer.toordinal(), last)
    begin = first if too_late(midsummer) else midsummer
    found = bisect_left(range(begin, last + 1), True, key=too_late)
    return date.fromordinal(begin + found - 1)


def warm_soil_until(crop: Crop, climate: Climate, year: GrowingYear) -> date | None:
    """Return the last day of the growing year on which its seed still comes up.

    None where it does to the end, or nothing is known of the soil or the crop.
    """
    if crop.soil_min is None:
        return None
    day = year.last
    while day > year.midsummer:
        soil = climate.weather.soil(day)
        if soil is None or soil.at_least:
            return None
        if soil.about >= crop.soil_min:
            return None if day == year.last else day
        day -= timedelta(days=1)
    return day
