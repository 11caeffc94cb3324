"""Noting down: from the grower's words to entries of the journal, and what they move."""

from __future__ import annotations

from sowtide.schedule.noting.asked import Details, happenings_of
from sowtide.schedule.noting.moved import Moved, Shift, moved
from sowtide.schedule.noting.named import Unclear, day, one_of, stage

__all__ = [
    "Details",
    "Moved",
    "Shift",
    "Unclear",
    "day",
    "happenings_of",
    "moved",
    "one_of",
    "stage",
]
