"""What comes free in the beds, and what would be safe there."""

from sowtide.schedule.openings.coming_free import coming_free, free_ahead, opening_in
from sowtide.schedule.openings.free_space import (
    BedOpening,
    ComingFree,
    KeptOut,
    Offer,
    OpeningsQuestion,
    StartNow,
)
from sowtide.schedule.openings.fullness import (
    SHORTEST,
    FreeBed,
    free_spans,
    full_weeks,
    growing_days,
    longest_free,
)

__all__ = [
    "SHORTEST",
    "BedOpening",
    "ComingFree",
    "FreeBed",
    "KeptOut",
    "Offer",
    "OpeningsQuestion",
    "StartNow",
    "coming_free",
    "free_ahead",
    "free_spans",
    "full_weeks",
    "growing_days",
    "longest_free",
    "opening_in",
]
