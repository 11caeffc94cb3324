"""A week in which great heat is forecast: what it means for what stands where, and what to do."""

from sowtide.schedule.hot_week.heat_delays import HeatDelay, HotSowing
from sowtide.schedule.hot_week.heat_gap import HeatGap
from sowtide.schedule.hot_week.heat_limits import action_in_heat
from sowtide.schedule.hot_week.hot_week import HotWeek, InHeat, hot_week_of
from sowtide.schedule.hot_week.water_forward import WaterForward

__all__ = [
    "HeatDelay",
    "HeatGap",
    "HotSowing",
    "HotWeek",
    "InHeat",
    "WaterForward",
    "action_in_heat",
    "hot_week_of",
]
