"""Whether seed is sown into soil in which little of it comes up."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from functools import cached_property

from sowtide.climate.questions import Climate
from sowtide.climate.soil import Soil
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.by_temperature import ByTemperature
from sowtide.garden.crop import Crop, Raised
from sowtide.units import Units, show_number, show_temperature
from sowtide.values import value

_DAY = timedelta(days=1)

FEW = 0.5
"""Below this share of what comes up at the best temperature, seed comes up poorly."""


@value
class Doubt:
    """Soil that is likely outside a crop's limits."""

    soil: Soil
    too_warm: bool
    """Whether it is too warm, else too cold."""
    limit: float | None
    """The crop's limit that it passes, or None where only counts of seedlings are known. [°C]"""
    is_slow: bool = False
    """Whether seed comes up in it, but slowly and less of it than in good soil."""


def doubt(crop: Crop, soil: Soil | None) -> Doubt | None:
    """Return why seed sown into a soil is likely to come up poorly, or None.

    It passes the crop's coldest or warmest soil, or fewer than half as many seedlings were counted
    at that temperature as at the best one (sowtide's own measure). A limit that the grower wrote
    stands above the counts.

    Parameters
    ----------
    crop
        The crop.
    soil
        What the soil is likely to be, or None where nothing is known of it.
    """
    if soil is None:
        return None
    low, high = crop.soil_min, crop.soil_max
    if high is not None and soil.warmest > high:
        return Doubt(soil, True, high)
    if low is not None and soil.about < low and not soil.at_least:
        return Doubt(soil, False, low)
    good = crop.soil_good
    if good is not None and soil.about < good and not soil.at_least:
        return Doubt(soil, False, good, is_slow=True)
    counted = crop.germinates
    if counted is None or crop.origin("soil_max").file or crop.origin("soil_min").file:
        return None
    if (counted.at(soil.warmest) or 0.0) >= FEW * counted.best:
        return None
    best_at = max(counted.points, key=lambda point: point[1] or 0.0)[0]
    too_warm = soil.warmest > best_at
    return Doubt(soil, too_warm, None) if too_warm or not soil.at_least else None


def doubt_of(crop: Crop, raised: Raised, sown: date, climate: Climate) -> Doubt | None:
    """Return `doubt` of a wave by the day it is sown on.

    Trays stand where the grower wants them, so there is none of theirs.
    """
    return None if raised is Raised.TRAYS else doubt(crop, climate.weather.soil(sown))


def is_too_warm(crop: Crop, soil: Soil | None) -> bool:
    """Whether a soil passes the warmest in which a crop's seed comes up.

    Counts of seedlings alone do not tell: gardeners sow beans in soil in which half of them fail.
    """
    return soil is not None and crop.soil_max is not None and soil.warmest > crop.soil_max


class WarmSoil:
    """The days of a growing year on which the soil is too warm for seed, looked at once for all.

    They are those of the average of the years; none where nothing is known of the soil.
    """

    def __init__(self, climate: Climate, year: GrowingYear) -> None:
        self._weather, self._year = climate.weather, year
        self._above: dict[float, tuple[DateSpan, ...]] = {}

    def too_warm_for(self, crop: Crop) -> tuple[DateSpan, ...]:
        """Return the runs of days on which the soil is too warm for a crop's seed."""
        limit = crop.soil_max
        if limit is None:
            return ()
        if limit not in self._above:
            self._above[limit] = tuple(self._runs_above(limit))
        return self._above[limit]

    @cached_property
    def _warmest(self) -> list[tuple[date, float]]:
        """What the soil may well reach on each day on which something is known of it. [°C]"""
        year = self._year
        days = map(date.fromordinal, range(year.first.toordinal(), year.last.toordinal() + 1))
        soils = ((day, self._weather.soil(day)) for day in days)
        return [(day, soil.warmest) for day, soil in soils if soil is not None]

    def _runs_above(self, limit: float) -> Iterator[DateSpan]:
        days = [day for day, warmest in self._warmest if warmest > limit]
        first = 0
        for at in range(1, len(days) + 1):
            if at == len(days) or days[at] - days[at - 1] > _DAY:
                yield DateSpan(days[first], days[at - 1])
                first = at


def is_lost(found: Doubt | None) -> bool:
    """Whether little of the seed comes up, not only slowly."""
    return found is not None and not found.is_slow


def seed_in_doubt(crop: Crop, found: Doubt, units: Units) -> str:
    """Say what a soil is likely to be and how poorly seed comes up in it.

    With the counts at the temperatures on both sides of it, where there are any: such as ``79 °F or
    warmer: little spinach seed comes up above 75 °F (of 100 seeds 28 at 77 °F, 32 at 86 °F)``.
    """
    shown = show_temperature(found.soil.about, units)
    soil = f"{shown} or warmer" if found.soil.at_least else f"about {shown}"
    if found.is_slow and found.limit is not None:
        good = show_temperature(found.limit, units)
        soil = f"a little under {good}" if shown == good else soil
        return f"{soil}: under {good} {crop.title} seed comes up slowly, and less of it"
    text = f"{soil}: little {crop.title} seed comes up"
    if found.limit is not None:
        text += f" {'above' if found.too_warm else 'below'} "
        text += show_temperature(found.limit, units)
    beside = ", ".join(
        f"{show_number(figure or 0.0, 0)} at {show_temperature(temperature, units)}"
        for temperature, figure in _around(crop.germinates, found.soil.warmest)
    )
    return f"{text} (of 100 seeds {beside})" if beside else text


def _around(
    counted: ByTemperature | None, temperature: float
) -> tuple[tuple[float, float | None], ...]:
    """Return the counts on both sides of a temperature."""
    if counted is None:
        return ()
    colder = [point for point in counted.points if point[0] <= temperature]
    warmer = [point for point in counted.points if point[0] > temperature]
    return (*colder[-1:], *warmer[:1])
