"""What there is to do in a week."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sowtide.schedule.work.codes import has_code
from sowtide.schedule.work.jobs import PREPARE_AHEAD, jobs_of, last_to_plant
from sowtide.schedule.work.lookout import Lookout, lookout_of
from sowtide.schedule.work.task import (
    Amount,
    DayPart,
    Delay,
    HeatAction,
    Kind,
    Picking,
    Seedlings,
    Task,
    WeekSheet,
)
from sowtide.schedule.work.week import all_work, part_id, task_id, week_sheets
from sowtide.schedule.work.working import WorkingDays, away_at_first_pick

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.work.still_to_do import STAGE_OF, StillToDo

__all__ = [
    "PREPARE_AHEAD",
    "STAGE_OF",
    "Amount",
    "DayPart",
    "Delay",
    "HeatAction",
    "Kind",
    "Lookout",
    "Picking",
    "Seedlings",
    "StillToDo",
    "Task",
    "WeekSheet",
    "WorkingDays",
    "all_work",
    "away_at_first_pick",
    "has_code",
    "jobs_of",
    "last_to_plant",
    "lookout_of",
    "part_id",
    "task_id",
    "week_sheets",
]


def __getattr__(name: str) -> Any:
    """Load what only a journal needs when it is first asked for."""
    if name not in ("STAGE_OF", "StillToDo"):
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from sowtide.schedule.work import still_to_do

    return getattr(still_to_do, name)
