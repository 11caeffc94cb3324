"""The answer to "does one more wave fit before frost?", as values."""

from __future__ import annotations

from datetime import date
from enum import Enum

from sowtide.days import DateSpan
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.schedule.stays import row_of, share_out
from sowtide.schedule.waves import SAFE, HeatHarm, Judged, Verdict
from sowtide.values import value


@value
class Neighbour:
    """What stands in a bed before or after one more wave."""

    wave: str | None
    """Its name; None for the grower's own use of the bed."""
    day: date
    """The day it leaves the bed free, or the day it comes."""


@value
class Spot:
    """A bed with room for the wave."""

    bed: Bed
    free_from: date
    """First day on which the room is there for the whole stay."""
    free_until: date | None
    """Last day on which a wave of this crop could still be planted there and have its room for the
    whole stay, and be safe; None where none would be safe."""
    plants: int
    """Plants that go in, no more than asked for. [1]"""
    judged: Judged
    """The wave planted there on `free_from`."""
    after: Neighbour | None
    """The wave that leaves its space to it; None where it was free before."""
    before: Neighbour | None
    """The first that comes and leaves too little of it; None where none does."""


class Way(Enum):
    """What else could be done where something does not fit."""

    WAIT = "wait"
    ANOTHER_BED = "another bed"
    PLANT_OUT = "plant out"
    SOW_DIRECT = "sow direct"
    COVER = "cover"
    EARLY_SORT = "early sort"
    QUICKER_CROP = "quicker crop"
    COVER_CROP = "cover crop"


@value
class Instead:
    """Something else that would fit."""

    what: Way
    """Which way it is."""
    text: str
    """In one sentence."""
    plant: date
    """The planting day."""
    odds: float | None
    """Its odds; None for a cover crop, which is not picked. [0–1]"""
    years: int | None = None
    """How many recorded years they are of; None where they come from a curve. [years]"""


@value
class Covered:
    """A planting without any cover, and under one."""

    buys: float
    """Degrees that the cover keeps off. [°C]"""
    without: Judged
    """The wave planted on the day asked about, in the open."""
    last_without: date | None
    """Last day of its last safe run, or None."""
    under: Judged
    """The same wave under the cover."""
    last_under: date | None
    """Last day of its last safe run, or None."""
    own: float
    """Degrees that the bed's own cover keeps off, which is left out of both. [°C]"""


@value
class Answer:
    """Whether one more wave of a crop fits."""

    crop: Crop
    """The crop or variety asked about."""
    raised: Raised
    """Direct or trays, as judged."""
    plants: int
    """How many plants were asked for, or would fit. [1]"""
    asked_on: date
    """The planting day judged."""
    day_given: bool
    """Whether the grower named that day; else it is the first possible one."""
    judged: Judged
    """The wave planted on `asked_on`, on the ground of its beds."""
    earliest: date
    """First day it should be planted."""
    last_safe: date | None
    """Last day of the last safe run, or None."""
    windows: tuple[DateSpan, ...]
    """The safe runs of the growing year."""
    frost_limit: date | None
    """The day frost ends the crop in half of the years, or None."""
    spots: tuple[Spot, ...]
    """Beds with room, best first."""
    instead: tuple[Instead, ...]
    """What else would fit; empty where the answer is yes."""
    weekly: tuple[Judged, ...]
    """The same planting on that day and in the weeks after it, on the same ground; empty for a wave
    over the winter."""
    cover: Covered | None
    """The same under the cover that was asked about, or None."""

    @property
    def verdict(self) -> Verdict | None:
        """What is to be thought of it, room apart."""
        return self.judged.verdict

    @property
    def heat(self) -> HeatHarm | None:
        """What heat does to it, in all years or in some.

        Chancy between two runs of safe days is only what drops its flowers in the heat.
        """
        later = any(run.first > self.judged.stages.plant.day for run in self.windows)
        drops = later and self.crop.fruit_set_high is not None and self.verdict is Verdict.CHANCY
        return HeatHarm.DROPS_FLOWERS if drops else self.judged.heat

    @property
    def good(self) -> tuple[Spot, ...]:
        """The beds with room on one day, on which nothing speaks against planting it there.

        The day is the one given, else the day of the bed that takes most.
        """
        open_to_it = [spot for spot in self.spots if spot.judged.verdict in (*SAFE, None)]
        if not open_to_it:
            return ()
        day = self.asked_on if self.day_given else open_to_it[0].free_from
        return tuple(
            spot
            for spot in open_to_it
            if spot.free_from <= day <= (spot.free_until or spot.free_from)
        )

    @property
    def whole(self) -> Spot | None:
        """The likeliest of the beds that take all the plants at some risk; None without one."""
        beds = (
            spot
            for spot in self.spots
            if spot.plants >= self.plants and spot.judged.verdict is Verdict.CHANCY
        )
        return max(beds, key=lambda spot: spot.judged.odds or 0.0, default=None)

    @property
    def fits(self) -> bool:
        """Whether all its plants have room in those beds, in no part smaller than a row."""
        there = [(n, s.plants, row_of(self.crop, s.bed)) for n, s in enumerate(self.good)]
        return bool(share_out(there, self.plants))
