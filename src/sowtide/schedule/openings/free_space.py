"""Spaces that come free in the beds, and what would be safe in each, as values."""

from __future__ import annotations

from datetime import date

from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.schedule.waves import Judged
from sowtide.values import value


@value
class OpeningsQuestion:
    """What comes free?"""

    beds: tuple[Bed, ...]
    """The beds that are looked at."""
    on: date | None = None
    """The day from which on it is asked, or None for the season's today."""
    weeks: int = 8
    """How many weeks are looked at. [weeks]"""


@value
class Offer:
    """A crop that would be safe in an opening."""

    crop: Crop
    raised: Raised
    """What is planted and how."""
    plants: int
    """As many as fill the opening. [1]"""
    judged: Judged
    """The wave planted on its day."""

    @property
    def sow(self) -> date:
        """The day it is sown, in trays or in the bed."""
        return self.judged.stages.sow.day


@value
class KeptOut:
    """A crop that would be safe in an opening and is not offered there."""

    crop: Crop
    raised: Raised
    """What it is and how it is planted."""
    in_the_way_of: tuple[str, ...]
    """The planned waves that might not stand as planned beside it; empty where rotation bars it."""


@value
class BedOpening:
    """A space in a bed that is free or comes free."""

    bed: Bed
    first: date
    """The day from which on it is free."""
    until: date | None
    """The day something else comes into it; None where nothing does."""
    area: int
    """How much it is. [µm²]"""
    leaves: tuple[str, ...]
    """The waves that leave the bed on the first day; empty where it was free before."""
    fits: tuple[Offer, ...] = ()
    """What would be safe there, the best first; of these one can be taken."""
    kept_out: KeptOut | None = None
    """Where nothing fits: the best of what would be safe, were it not for rotation and the plan."""


@value
class StartNow:
    """What to sow in trays this week, so that it is ready for an opening."""

    opening: BedOpening
    offer: Offer


@value
class ComingFree:
    """What comes free in the beds."""

    asked_on: date
    last: date
    """The first and the last day that are looked at."""
    openings: tuple[BedOpening, ...]
    """The spaces that are free or come free, those that open first before the others."""
    start_now: tuple[StartNow, ...]
    """What to sow in trays this week, one crop for an opening."""
