"""Who stands where: the room of the beds, and finding a place in it."""

from __future__ import annotations

from sowtide.schedule.beds.level import Level
from sowtide.schedule.beds.place_all import Grown, Placed, place_all
from sowtide.schedule.beds.room import Room, Sick, Stay, is_taken, without
from sowtide.schedule.beds.rotation import LONG_STAY, barred, family_key, too_soon
from sowtide.schedule.beds.sharing import row_of, share_out

__all__ = [
    "LONG_STAY",
    "Grown",
    "Level",
    "Placed",
    "Room",
    "Sick",
    "Stay",
    "barred",
    "family_key",
    "is_taken",
    "place_all",
    "row_of",
    "share_out",
    "too_soon",
    "without",
]
