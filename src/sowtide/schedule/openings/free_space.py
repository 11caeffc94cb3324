"""Spaces that come free in the beds, and what would be safe in each, as values."""

from __future__ import annotations

from datetime import date

from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.schedule.waves import Judged
from sowtide.values import value


@value
class OpeningsQuestion:
    """What comes free?

    Parameters
    ----------
    beds
        The beds that are looked at.
    on
        The day from which on it is asked, or None for the season's today.
    weeks
        How many weeks are looked at. [weeks]
    """

    beds: tuple[Bed, ...]
    on: date | None = None
    weeks: int = 8


@value
class Offer:
    """A crop that would be safe in an opening.

    Parameters
    ----------
    crop, raised
        What is planted and how.
    plants
        As many as fill the opening. [1]
    judged
        The wave planted on its day.
    """

    crop: Crop
    raised: Raised
    plants: int
    judged: Judged

    @property
    def sow(self) -> date:
        """The day it is sown, in trays or in the bed."""
        return self.judged.stages.sow.day


@value
class BedOpening:
    """A space in a bed that is free or comes free.

    Parameters
    ----------
    bed
        The bed.
    first
        The day from which on it is free.
    until
        The day something else comes into it; None where nothing does.
    area
        How much it is. [µm²]
    leaves
        The waves that leave the bed on the first day; empty where it was free before.
    fits
        What would be safe there, the best first; of these one can be taken.
    """

    bed: Bed
    first: date
    until: date | None
    area: int
    leaves: tuple[str, ...]
    fits: tuple[Offer, ...] = ()


@value
class StartNow:
    """What to sow in trays this week, so that it is ready for an opening."""

    opening: BedOpening
    offer: Offer


@value
class ComingFree:
    """What comes free in the beds.

    Parameters
    ----------
    asked_on, last
        The first and the last day that are looked at.
    openings
        The spaces that are free or come free, those that open first before the others.
    start_now
        What to sow in trays this week, one crop for an opening.
    """

    asked_on: date
    last: date
    openings: tuple[BedOpening, ...]
    start_now: tuple[StartNow, ...]
