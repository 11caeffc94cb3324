"""What comes free in the beds, and what would be safe there."""

from __future__ import annotations

from sowtide.schedule.openings.coming_free import coming_free, opening_in
from sowtide.schedule.openings.free_space import (
    BedOpening,
    ComingFree,
    Offer,
    OpeningsQuestion,
    StartNow,
)

__all__ = [
    "BedOpening",
    "ComingFree",
    "Offer",
    "OpeningsQuestion",
    "StartNow",
    "coming_free",
    "opening_in",
]
