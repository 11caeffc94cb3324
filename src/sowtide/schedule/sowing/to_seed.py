"""When a crop that has stood the winter runs to seed: as days lengthen, and it gets warm.

Biennials flower in their second year. What is still picked, or still stands in its bed, when the
days fall under ten hours is then picked until it runs to seed in spring, unless frost ends it: it
has stood still for the winter.
"""

from __future__ import annotations

from datetime import date, timedelta

from sowtide.climate.daylight import SHORT_DAY, first_below, longest_day
from sowtide.climate.questions import Climate
from sowtide.days import GrowingYear
from sowtide.garden.crop import Crop
from sowtide.garden.site import Site
from sowtide.reasons import OURS, Dated
from sowtide.schedule.sowing.planting_limits import MILD
from sowtide.values import value

_AROUND = 5
"""Days before and after one over which its mean is taken: sowtide's own. [days]"""

_MIDWINTER = 31
"""Days of January, or July, whose mean tells how cold a winter is. [days]"""

_NO_WINTER = 15.0
"""Mean of those days above which no plant takes them for a winter: the most that chills celery or
endive, by FAO Ecocrop; one figure for all is sowtide's own. [°C]"""


@value
class ToSeed:
    """When plants of one growing year run to seed, and from when on they stand until then."""

    short_from: date | None
    """The first of the short days of their winter; None where no day is short, where the grower
    says how long they are picked, and for roots that nobody knows to stand it."""
    day: Dated
    """The day on which they run to seed: nothing is picked on it."""

    def stands_from(self, last: date) -> bool:
        """Whether what would be picked or hold up to a day stands on from there."""
        return self.short_from is not None and self.short_from <= last < self.day.day

    def later(self, days: int) -> ToSeed:
        """Return the same of plants of another growing year, that begins so much later. [days]"""
        if not days:
            return self
        short_from = None if self.short_from is None else self.short_from + timedelta(days=days)
        day = self.day.then(days, "to-seed", "the same day of its own growing year", OURS)
        return ToSeed(short_from, day)


def to_seed_of(crop: Crop, climate: Climate, site: Site, year: GrowingYear) -> ToSeed | None:
    """Return when what is planted in a growing year runs to seed; None for what does not."""
    time = crop.runs_to_seed
    if time is None or not _is_chilled(climate, year):
        return None
    days = time.after_longest_day(site.latitude)
    longest = longest_day(GrowingYear(year.season + 1, year.south))
    day = Dated.on(longest, "to-seed", "the longest day after its winter", OURS)
    day = day.then(days, "to-seed", "it runs to seed", crop.origin("runs_to_seed"))
    waits = _cold_days(longest_day(year) + timedelta(days=days), climate, year)
    if waits:
        day = day.then(waits, "to-seed", "the days are colder than 45 °F (7 °C) until then", OURS)
    stands = _stands_the_winter(crop)
    return ToSeed(first_below(SHORT_DAY, site.latitude, year) if stands else None, day)


def _stands_the_winter(crop: Crop) -> bool:
    """Whether what is over in the short days is known to stand on, and no days are written."""
    if crop.cut_once:
        return crop.killed_at is not None and crop.origin("holding_days").file is None
    return crop.origin("picking_days").file is None


def _is_chilled(climate: Climate, year: GrowingYear) -> bool:
    """Whether it takes the winters for one, which warm ones are not; where nobody knows, too."""
    mean = climate.weather.mean_over(year.first, _MIDWINTER)
    return mean is None or mean <= _NO_WINTER


def _cold_days(day: date, climate: Climate, year: GrowingYear) -> int:
    """Days from one on that are too cold to grow, in the average of the years; 0 if unknown."""
    waits = 0
    while day + timedelta(days=waits) < year.midsummer:
        first = day + timedelta(days=waits - _AROUND)
        mean = climate.weather.mean_over(first, 2 * _AROUND + 1)
        if mean is None or mean >= MILD:
            break
        waits += 1
    return waits
