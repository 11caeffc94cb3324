"""The room of a season filled for what its household wants and does not get."""

from sowtide.schedule.filling.choosing import choose
from sowtide.schedule.filling.filled import Filled, filled, rounds_for
from sowtide.schedule.filling.free_beds import FreeBeds
from sowtide.schedule.filling.plantings import PlantingOption, options_for, to_fill
from sowtide.schedule.filling.why_unfilled import gaps_left

__all__ = [
    "Filled",
    "FreeBeds",
    "PlantingOption",
    "choose",
    "filled",
    "gaps_left",
    "options_for",
    "rounds_for",
    "to_fill",
]
