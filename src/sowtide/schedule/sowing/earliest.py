"""The first day a crop should be planted: after frost, in warm soil, after mild nights."""

from __future__ import annotations

from sowtide.climate.questions import Climate
from sowtide.days import DateSpan, GrowingYear, Half
from sowtide.garden.crop import Crop, Hardiness, Raised
from sowtide.garden.site import Site
from sowtide.reasons import OURS, Dated
from sowtide.schedule.sowing.emergence import emergence_of
from sowtide.units import FREEZING
from sowtide.values import value

DAYS_BEFORE_FROST = {Hardiness.HALF_HARDY: 21, Hardiness.HARDY: 28, Hardiness.HARDIEST: 35}
COLDEST_NIGHTS = 10.0
"""Mean minimum of 11 days that very tender plants wait for: sowtide's own reading. [°C]"""


@value
class PlantedWhere:
    """Where and when something is planted."""

    climate: Climate
    site: Site
    year: GrowingYear
    """The place and the growing year."""
    colder_by: float
    """How much colder the ground is than the site's frost dates; negative under a cover. [°C]"""


def earliest_of(
    crop: Crop,
    raised: Raised,
    ground: PlantedWhere,
    *,
    killed_at: float,
    times: tuple[DateSpan, ...],
) -> tuple[Dated, int]:
    """Return the first planting day, and the days until a frost of spring can harm what is planted.

    After frost for tender crops, some weeks before it for others; where temperatures are known, not
    before the soil and the nights are warm enough.

    Parameters
    ----------
    crop, raised, ground
        What is planted, how and where.
    killed_at
        The minimum at the site's own dates that kills it. [°C]
    times
        The times of the year in which it is planted at all; none for any.
    """
    climate, year, shows = ground.climate, ground.year, 0
    if crop.hardiness.is_tender:
        earliest, shows = _after_frost(crop, raised, ground, killed_at)
    else:
        earliest = _before_frost(crop, ground)
    warm = climate.weather.warm_from(
        soil=crop.soil_min if raised is Raised.DIRECT else None, nights=_coldest_nights(crop)
    )
    if warm is not None and (earliest is None or warm.day > earliest.day):
        earliest = warm
    if times and (earliest is None or times[0].first > earliest.day):
        text = f"planted {crop.planted_in[0]}"
        earliest = Dated.on(times[0].first, "earliest", text, crop.origin("planted_in"))
    if earliest is None:
        return Dated.on(year.first, "earliest", "no frost: the growing year begins", OURS), shows
    if earliest.day < year.first:
        days = (year.first - earliest.day).days
        earliest = earliest.then(days, "earliest", "the growing year begins", OURS)
    return earliest, shows


def _coldest_nights(crop: Crop) -> float | None:
    """The mean minimum that a crop waits for, or None. [°C]"""
    if crop.nights_min is None and crop.hardiness is Hardiness.VERY_TENDER:
        return COLDEST_NIGHTS
    return crop.nights_min


def _after_frost(
    crop: Crop, raised: Raised, ground: PlantedWhere, killed_at: float
) -> tuple[Dated | None, int]:
    climate, sure = ground.climate, ground.site.sure
    share = 0.5 if sure.share is None else 1 - sure.share
    earliest, days = climate.frosts.safe_from(at=killed_at, share=share), 0
    if earliest is None:
        return None, 0
    if raised is Raised.DIRECT:
        shows = emergence_of(crop, climate.weather.soil(earliest.day))
        days = shows.days
        if days:
            text = f"{shows.text}: no frost harms it before it is up"
            earliest = earliest.then(-days, "earliest", text, shows.origin)
    if crop.days_after_frost:
        text, origin = "days after the last frost", crop.origin("days_after_frost")
        earliest = earliest.then(crop.days_after_frost, "earliest", text, origin)
    return earliest, days


def _before_frost(crop: Crop, ground: PlantedWhere) -> Dated | None:
    at = round(FREEZING + ground.colder_by, 6)
    frost = ground.climate.frosts.day(Half.SPRING, at=at, share=0.5)
    if frost is None:
        return None
    days, origin = crop.days_before_frost, crop.origin("days_before_frost")
    if days is None:
        days, origin = DAYS_BEFORE_FROST[crop.hardiness], OURS
    words = f"days before the last frost, {crop.hardiness.value}"
    return frost.then(-days, "earliest", words, origin)
