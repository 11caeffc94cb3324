"""Care: what is done to the waves that stand, on which day, how much of it, and what that stops."""

from __future__ import annotations

from sowtide.schedule.care.care_noted import stage_of_work
from sowtide.schedule.care.care_plan import CarePlan, Dose, Given, PickBlock, Plot, Round
from sowtide.schedule.care.care_totals import CareTotal, totals_of
from sowtide.schedule.care.caring import care_plan
from sowtide.schedule.care.kept_apart import goes_on_open_flowers, in_flower, order_of
from sowtide.schedule.care.measuring import Taken, exceeds, taken_by
from sowtide.schedule.care.scouting import signs_of

__all__ = [
    "CarePlan",
    "CareTotal",
    "Dose",
    "Given",
    "PickBlock",
    "Plot",
    "Round",
    "Taken",
    "care_plan",
    "exceeds",
    "goes_on_open_flowers",
    "in_flower",
    "order_of",
    "signs_of",
    "stage_of_work",
    "taken_by",
    "totals_of",
]
