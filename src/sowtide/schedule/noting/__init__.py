"""Noting down: from the grower's words to entries of the journal, and what they move."""

from sowtide.schedule.noting.asked import Details, Shared, happenings_of, shared_codes
from sowtide.schedule.noting.moved import Moved, RoomMoved, Shift, all_moved, moved, room_moved
from sowtide.schedule.noting.named import Unclear, day, one_of, stage

__all__ = [
    "Details",
    "Moved",
    "RoomMoved",
    "Shared",
    "Shift",
    "Unclear",
    "all_moved",
    "day",
    "happenings_of",
    "moved",
    "one_of",
    "room_moved",
    "shared_codes",
    "stage",
]
