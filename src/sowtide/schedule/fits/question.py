"""What a grower asks of a season, as values."""

from __future__ import annotations

from datetime import date

from sowtide.garden.crop import Crop
from sowtide.garden.model import Bed
from sowtide.values import value


@value
class Question:
    """What the grower asks."""

    crop: Crop
    """The crop or variety."""
    plants: int | None
    """How many plants, or None: as many as its last wave, else as many as fit."""
    bed: Bed | None
    """The bed asked about, or None for all."""
    on: date | None
    """The planting day asked about, or None for the first possible one."""
    seedlings: bool
    """Whether seedlings are there, to be planted out at once."""
    cover: float | None = None
    """Degrees that a cover over it would buy, to see what that brings; None without one. [°C]"""


@value
class BedQuestion:
    """What still fits into a bed?"""

    bed: Bed
    on: date | None
    """The day from which on it is asked, or None for the season's today."""
    seedlings: bool
    """Whether seedlings are there of all that is raised in trays."""
    crops: tuple[Crop, ...] | None = None
    """The crops that are looked at, or None: all of the file and all built-in ones."""
