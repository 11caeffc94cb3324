"""The beds as they fill up: what stays where, how full a bed is, and what rotation closes in it."""

from sowtide.schedule.stays.level import NEVER, Level
from sowtide.schedule.stays.room import Room, Sick, Stay, is_taken, most_together, without
from sowtide.schedule.stays.rotation import LONG_STAY, Closings, barred, family_key, too_soon
from sowtide.schedule.stays.sharing import row_in, row_of, share_out

__all__ = [
    "LONG_STAY",
    "NEVER",
    "Closings",
    "Level",
    "Room",
    "Sick",
    "Stay",
    "barred",
    "family_key",
    "is_taken",
    "most_together",
    "row_in",
    "row_of",
    "share_out",
    "too_soon",
    "without",
]
