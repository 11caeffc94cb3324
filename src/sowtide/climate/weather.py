"""What the days are like where no temperatures are known."""

from __future__ import annotations

from datetime import date

from sowtide.climate.answers import Warmth
from sowtide.climate.soil import HOT_WEEKS, Soil, soil_under
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.site import Site


class UnknownWeather:
    """The days of a place whose temperatures nobody knows, but for the grower's own hot weeks."""

    def __init__(self, site: Site, year: GrowingYear) -> None:
        self.hot_weeks: DateSpan | None = site.too_hot
        """The hot weeks as the grower wrote them."""
        self.knows_heat: bool = site.heat_known
        """Whether the grower said which weeks are too hot, or that none are."""
        self.knows_ground = False
        self.hot_odds = None
        self.so_far = None
        self._year = year

    def soil(self, day: date) -> Soil | None:
        """Return what the soil is on a day of the hot weeks, at the least."""
        hot = self.hot_weeks
        if hot is None:
            return None
        on = day.toordinal() - self._year.days_to(day)
        if not hot.first.toordinal() <= on <= hot.last.toordinal():
            return None
        return Soil(soil_under(HOT_WEEKS, day, self._year), at_least=True)

    def mean_over(self, first: date, days: int) -> None:
        """Return None: nothing is known."""

    def usual_high(self, day: date) -> None:
        """Return None: nothing is known."""

    def reached(self, warmth: Warmth, start: date) -> None:
        """Return None: nothing is known."""

    def fruit_gap(self, flowers: DateSpan, *, high: float | None, low: float | None) -> None:
        """Return None: nothing is known."""

    def warm_from(self, *, soil: float | None, nights: float | None) -> None:
        """Return None: nothing is known."""
