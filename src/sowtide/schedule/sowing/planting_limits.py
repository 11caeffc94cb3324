"""The days between which a crop may go out: light and soil in autumn, and its own planting times.

What is out in winter hardly grows under ten hours of daylight, and must be three quarters grown by
then (Michigan State University's student farm, 2019). Where the short days are mild it grows on in
them, and has only to be well begun. What frost ends before has its own limit.
"""

from __future__ import annotations

from bisect import bisect_left
from datetime import date, timedelta
from math import ceil

from sowtide.climate.answers import GROWN_ENOUGH, Need
from sowtide.climate.daylight import SHORT_DAY, first_below, last_below, longest_day
from sowtide.climate.questions import Climate
from sowtide.days import DateSpan, GrowingYear, Half
from sowtide.garden.crop import Crop
from sowtide.garden.planting_times import FromMark, YearMark
from sowtide.garden.site import Site
from sowtide.units import FREEZING, celsius
from sowtide.values import value

_EVEN = 0.5

_APART = 14
"""Days that part two times of planting at the least, if they do not meet: ours. [days]"""

MILD = celsius(45)
"""Mean of the short days from which on they are mild: the least mean of a month in which Knott's
Handbook has most cool-season crops grow; one figure for all is sowtide's own reading. [°C]"""

THROUGH_WINTER = -10.0
"""What a young plant stands that is sown to come through any winter: broad bean's. [°C]"""

WELL_BEGUN = 0.25
"""Share of its growth with which a wave may go into mild short days: sowtide's own. [0–1]"""


@value
class AutumnLimit:
    """The last day that light and soil allow."""

    day: date
    why: str
    """What is wrong with a wave that is planted after it, in a grower's words."""


def autumn_limit(
    crop: Crop, need: Need, climate: Climate, site: Site, year: GrowingYear, *, sown: bool
) -> AutumnLimit | None:
    """Return what ends the planting days of a crop before frost and year do; None if nothing."""
    cold = "is sown into soil too cold for its seed"
    limits = []
    grown = grown_by_the_short_days(need, climate, site, year)
    if grown is not None:
        share = "a quarter" if are_mild(climate, site, year) else "three quarters"
        dark = f"would not be {share} grown when the days fall under {SHORT_DAY} hours"
        limits.append(AutumnLimit(grown, dark))
    warm = warm_soil_until(crop, climate, year) if sown and not crop.overwinters else None
    if warm is not None:
        limits.append(AutumnLimit(warm, cold))
    return min(limits, key=lambda each: each.day, default=None)


def end_of_times(
    crop: Crop, times: tuple[DateSpan, ...], climate: Climate, site: Site, year: GrowingYear
) -> AutumnLimit | None:
    """Return what ends the planting times of a crop before the year does; None if nothing.

    What flowers after the winter and is not as hardy as broad beans goes into no short days but
    mild ones: a rule of sowtide's own.

    Parameters
    ----------
    crop, times
        What is planted, and the times in which it is, one at least.
    climate, site, year
        Where and when.
    """
    last = times[-1].last
    if crop.flowers_killed_at is not None and crop.plants_killed_at > THROUGH_WINTER:
        short_from = first_below(SHORT_DAY, site.latitude, year)
        if short_from is not None and short_from < last and not are_mild(climate, site, year):
            return AutumnLimit(short_from, f"is sown into days under {SHORT_DAY} hours")
    return AutumnLimit(last, "is planted after its time") if last < year.last else None


def are_mild(climate: Climate, site: Site, year: GrowingYear) -> bool:
    """Whether what is out grows on in the short days; not where no temperatures are known."""
    begins = first_below(SHORT_DAY, site.latitude, year)
    over = last_below(SHORT_DAY, site.latitude, GrowingYear(year.season + 1, year.south))
    if begins is None or over is None:
        return False
    mean = climate.weather.mean_over(begins, (over - begins).days + 1)
    return mean is not None and mean >= MILD


def grown_by_the_short_days(
    need: Need, climate: Climate, site: Site, year: GrowingYear
) -> date | None:
    """Return the last day from which a cool crop is grown far enough by the short days.

    Three quarters, or well begun where they are mild: in as many years as the grower is sure of,
    where temperatures are known; else by the middle of its days to harvest. The day before the
    growing year where no day is early enough; None where days stay long, and for a crop that wants
    warmth: frost ends it.
    """
    if not (need.cool or need.stands):
        return None
    short_from = first_below(SHORT_DAY, site.latitude, year)
    if short_from is None:
        return None
    first, last = year.first.toordinal(), short_from.toordinal()
    share = _EVEN if site.sure.share is None else site.sure.share
    days = ceil(GROWN_ENOUGH * (need.days.low + need.days.high) / 2)
    grown = WELL_BEGUN if are_mild(climate, site, year) else GROWN_ENOUGH

    def too_late(day: int) -> bool:
        enough = climate.waves.grown_enough(date.fromordinal(day), need, grown)
        return day + days > last if enough is None else enough < share

    # Before midsummer it only waits for spring: the days from there on run in order.
    midsummer = year.midsummer.toordinal()
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


def times_of(
    crop: Crop, climate: Climate, year: GrowingYear, *, colder_by: float
) -> tuple[DateSpan, ...]:
    """Return the days of the growing year in which it is planted, in order; none for all of them.

    Where no frost comes, its times run to that end of the year. Two that do not meet are two weeks
    apart at least: no published time is good to a day.

    Parameters
    ----------
    crop
        The crop.
    climate, year
        Where and when.
    colder_by
        How much colder the ground is than the site's frost dates; negative under a cover. [°C]
    """
    spans: list[DateSpan] = []
    for time in crop.planted_in:
        first, last = (_day(end, climate, year, colder_by) for end in (time.first, time.last))
        first, last = max(first, year.first), min(last, year.last)
        if spans and spans[-1].last + timedelta(days=1) >= first:
            first = spans.pop().first
        elif spans:
            first = max(first, spans[-1].last + timedelta(days=1 + _APART))
        if first <= last:
            spans.append(DateSpan(first, last))
    return tuple(spans)


def _day(end: FromMark, climate: Climate, year: GrowingYear, colder_by: float) -> date:
    if end.mark is YearMark.LONGEST_DAY:
        return longest_day(year) + timedelta(days=end.days)
    half = Half.SPRING if end.mark is YearMark.LAST_FROST else Half.AUTUMN
    frost = climate.frosts.day(half, at=round(FREEZING + colder_by, 6), share=0.5)
    if frost is None:
        return year.first if half is Half.SPRING else year.last
    return frost.day + timedelta(days=end.days)
