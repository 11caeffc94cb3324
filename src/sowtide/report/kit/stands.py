"""Where plants stand, as pages and programs are told it."""

from __future__ import annotations

from collections.abc import Iterable

from sowtide.schedule.waves import Stand
from sowtide.values import value


@value
class BedPlants:
    """A bed's name, and how many plants of a wave stand in it."""

    bed: str
    plants: int


def bed_plants(stands: Iterable[Stand]) -> tuple[BedPlants, ...]:
    """Return where the plants of a wave stand."""
    return tuple(BedPlants(each.bed.name, each.plants) for each in stands)
