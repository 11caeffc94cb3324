"""Care: what is done to the waves that stand, on which day, how much of it, and what that stops."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sowtide.schedule.care.care_plan import CarePlan, Dose, Hindrance, PickBlock, Round
from sowtide.schedule.care.care_totals import CareTotal, totals_of
from sowtide.schedule.care.caring import care_plan
from sowtide.schedule.care.heat_forecast import HeatForecast
from sowtide.schedule.care.kept_apart import in_flower, order_of
from sowtide.schedule.care.measuring import Taken, exceeds, taken_by
from sowtide.schedule.care.scouting import signs_of

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.care.care_noted import stage_of_work

__all__ = [
    "CarePlan",
    "CareTotal",
    "Dose",
    "HeatForecast",
    "Hindrance",
    "PickBlock",
    "Round",
    "Taken",
    "care_plan",
    "exceeds",
    "in_flower",
    "order_of",
    "signs_of",
    "stage_of_work",
    "taken_by",
    "totals_of",
]


def __getattr__(name: str) -> Any:
    """Load what only a journal needs when it is first asked for."""
    if name != "stage_of_work":
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from sowtide.schedule.care.care_noted import stage_of_work

    return stage_of_work
