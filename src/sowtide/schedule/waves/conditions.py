"""A site in a growing year, and the prospects of its crops there."""

from __future__ import annotations

from sowtide.climate.questions import Climate
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.garden.site import Site
from sowtide.schedule.sowing import WarmSoil
from sowtide.schedule.waves.stages import picked_in
from sowtide.schedule.waves.windows import Prospects


class Conditions:
    """A site in a growing year; hands out the prospects of its crops, each worked out once."""

    def __init__(self, climate: Climate, site: Site, year: GrowingYear) -> None:
        self.climate = climate
        self.site = site
        self.year = year
        self._warm_soil = WarmSoil(climate, year)
        self._prospects: dict[tuple[str, Raised, float], Prospects] = {}
        self._grounds: dict[int, tuple[tuple[Bed, ...], tuple[float, ...]]] = {}

    def grounds(self, beds: tuple[Bed, ...]) -> tuple[float, ...]:
        """Return how much colder than the site some beds are, each figure once, in order. [°C]

        Entries that name no beds share one tuple of all of them, which is looked through once.
        """
        found = self._grounds.get(id(beds))  # its beds are kept with it: no other has its id
        if found is None:
            grounds = {bed.colder_than_site for bed in beds} or {0.0}
            found = self._grounds[id(beds)] = (beds, tuple(sorted(grounds)))
        return found[1]

    def prospects(self, crop: Crop, raised: Raised, *, colder_by: float = 0.0) -> Prospects:
        """Return the prospects of a crop on ground so much colder than the site. [°C]"""
        key = (crop.name, raised, colder_by)
        found = self._prospects.get(key)
        if found is None:
            found = self._prospects[key] = Prospects(
                crop,
                raised,
                climate=self.climate,
                site=self.site,
                year=self.year,
                warm_soil=self._warm_soil,
                colder_by=colder_by,
            )
        return found

    def on_warmest(self, crop: Crop, beds: tuple[Bed, ...]) -> Prospects:
        """Return the prospects of a crop on the warmest ground that some beds have."""
        return self.prospects(crop, crop.raised_unless_said, colder_by=self.grounds(beds)[0])

    def picked_safely(self, crop: Crop, beds: tuple[Bed, ...]) -> DateSpan | None:
        """Return the days between which safe plantings of a crop are picked, first and last.

        On the warmest ground; None where there are none, as of crops of the winter.
        """
        prospects = self.on_warmest(crop, beds)
        days = dict.fromkeys(day for run in prospects.windows for day in (run.first, run.last))
        judged = (prospects.judge_on(day).stages for day in days)
        picked = [span for stages in judged if (span := picked_in(stages)) is not None]
        if not picked:
            return None
        return DateSpan(min(each.first for each in picked), max(each.last for each in picked))
