"""What there is to do in a week."""

from __future__ import annotations

from sowtide.schedule.work.lookout import Lookout, lookout_of, warmth_of
from sowtide.schedule.work.task import Amount, Delay, Kind, Picking, Seedlings, Task, WeekSheet
from sowtide.schedule.work.week import week_sheets

__all__ = [
    "Amount",
    "Delay",
    "Kind",
    "Lookout",
    "Picking",
    "Seedlings",
    "Task",
    "WeekSheet",
    "lookout_of",
    "warmth_of",
    "week_sheets",
]
