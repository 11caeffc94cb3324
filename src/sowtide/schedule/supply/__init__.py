"""What a garden brings in week by week, beside what its household wants."""

from sowtide.schedule.supply.counted import (
    CropSupply,
    WeekSupply,
    supply_of,
    without_yield,
)
from sowtide.schedule.supply.gaps import GLUT, Glut, Shortage, gluts_of, shortages_of
from sowtide.schedule.supply.pickings import Weeks, bearing, monday_of_week, week_of
from sowtide.schedule.supply.wanted import Converted, wanted_together
from sowtide.schedule.supply.why_short import AVOIDABLE, Why

__all__ = [
    "AVOIDABLE",
    "GLUT",
    "Converted",
    "CropSupply",
    "Glut",
    "Shortage",
    "WeekSupply",
    "Weeks",
    "Why",
    "bearing",
    "gluts_of",
    "monday_of_week",
    "shortages_of",
    "supply_of",
    "wanted_together",
    "week_of",
    "without_yield",
]
