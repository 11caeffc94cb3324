"""The answer to "does one more wave fit before frost?", as values."""

from __future__ import annotations

from datetime import date
from enum import Enum

from sowtide.days import DateSpan
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.schedule.stays import row_of, share_out
from sowtide.schedule.waves import SAFE, Judged, Verdict
from sowtide.values import value


@value
class Neighbour:
    """What stands in a bed before or after one more wave.

    Parameters
    ----------
    wave
        Its name; None for the grower's own use of the bed.
    day
        The day it leaves the bed free, or the day it comes.
    """

    wave: str | None
    day: date


@value
class Spot:
    """A bed with room for the wave.

    Parameters
    ----------
    bed
        The bed.
    free_from
        First day on which the room is there for the whole stay.
    free_until
        Last day on which a wave of this crop could still be planted there and have its room for the
        whole stay, and be safe; None where none would be safe.
    plants
        Plants that go in, no more than asked for. [1]
    judged
        The wave planted there on `free_from`.
    after
        The wave that leaves its space to it; None where it was free before.
    before
        The first that comes and leaves too little of it; None where none does.
    """

    bed: Bed
    free_from: date
    free_until: date | None
    plants: int
    judged: Judged
    after: Neighbour | None = None
    before: Neighbour | None = None


class Way(Enum):
    """What else could be done where something does not fit."""

    WAIT = "wait"
    ANOTHER_BED = "another bed"
    PLANT_OUT = "plant out"
    SOW_DIRECT = "sow direct"
    COVER = "cover"
    QUICKER_CROP = "quicker crop"
    COVER_CROP = "cover crop"


@value
class Instead:
    """Something else that would fit.

    Parameters
    ----------
    what
        Which way it is.
    text
        In one sentence.
    plant
        The planting day.
    odds
        Its odds; None for a cover crop, which is not picked. [0–1]
    years
        How many recorded years they are of; None where they come from a curve. [years]
    """

    what: Way
    text: str
    plant: date
    odds: float | None
    years: int | None = None


@value
class Covered:
    """A planting without any cover, and under one.

    Parameters
    ----------
    buys
        Degrees that the cover keeps off. [°C]
    without, under
        The wave planted on the day asked about.
    last_without, last_under
        Last day of the last safe run, or None.
    own
        Degrees that the bed's own cover keeps off, which is left out of both. [°C]
    """

    buys: float
    without: Judged
    last_without: date | None
    under: Judged
    last_under: date | None
    own: float = 0.0


@value
class Answer:
    """Whether one more wave of a crop fits.

    Parameters
    ----------
    crop
        The crop or variety asked about.
    raised
        Direct or trays, as judged.
    plants
        How many plants were asked for, or would fit. [1]
    asked_on
        The planting day judged.
    day_given
        Whether the grower named that day; else it is the first possible one.
    judged
        The wave planted on `asked_on`, on the ground of its beds.
    earliest
        First day it should be planted.
    last_safe
        Last day of the last safe run, or None.
    windows
        The safe runs of the growing year.
    frost_limit
        The day frost ends the crop in half of the years, or None.
    spots
        Beds with room, best first.
    instead
        What else would fit; empty where the answer is yes.
    weekly
        The same planting on that day and in the weeks after it, on the same ground; empty for a
        wave over the winter.
    cover
        The same under the cover that was asked about, or None.
    """

    crop: Crop
    raised: Raised
    plants: int
    asked_on: date
    day_given: bool
    judged: Judged
    earliest: date
    last_safe: date | None
    windows: tuple[DateSpan, ...]
    frost_limit: date | None
    spots: tuple[Spot, ...]
    instead: tuple[Instead, ...]
    weekly: tuple[Judged, ...] = ()
    cover: Covered | None = None

    @property
    def sow_by(self) -> date | None:
        """The day the seedlings of that planting must be sown; None for direct sowing."""
        return self.judged.stages.sow.day if self.raised is Raised.TRAYS else None

    @property
    def verdict(self) -> Verdict | None:
        """What is to be thought of it, room apart."""
        return self.judged.verdict

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
