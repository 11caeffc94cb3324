"""What a grower asks of a season, as values."""

from __future__ import annotations

from datetime import date

from sowtide.garden.crop import Crop
from sowtide.garden.model import Bed
from sowtide.values import value


@value
class Question:
    """What the grower asks.

    Parameters
    ----------
    crop
        The crop or variety.
    plants
        How many plants, or None: as many as its last wave, else as many as fit.
    bed
        The bed asked about, or None for all.
    on
        The planting day asked about, or None for the first possible one.
    seedlings
        Whether seedlings are there, to be planted out at once.
    cover
        Degrees that a cover over it would buy, to see what that brings; None without one. [°C]
    """

    crop: Crop
    plants: int | None
    bed: Bed | None
    on: date | None
    seedlings: bool
    cover: float | None = None


@value
class BedQuestion:
    """What still fits into a bed?

    Parameters
    ----------
    bed
        The bed.
    on
        The day from which on it is asked, or None for the season's today.
    seedlings
        Whether seedlings are there of all that is raised in trays.
    crops
        The crops that are looked at, or None: all of the file and all built-in ones.
    """

    bed: Bed
    on: date | None
    seedlings: bool
    crops: tuple[Crop, ...] | None = None
