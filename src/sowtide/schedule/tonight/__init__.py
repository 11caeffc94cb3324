"""The evening when frost is forecast: what it means for what stands where, and what to do."""

from sowtide.schedule.tonight.action import DAMP, SLACK, Action, action_of
from sowtide.schedule.tonight.evening import Evening, Put, Threatened, evening_of
from sowtide.schedule.tonight.forecast import CLEAR_AND_CALM, HOLDS, Forecast, Sky, air_at

__all__ = [
    "CLEAR_AND_CALM",
    "DAMP",
    "HOLDS",
    "SLACK",
    "Action",
    "Evening",
    "Forecast",
    "Put",
    "Sky",
    "Threatened",
    "action_of",
    "air_at",
    "evening_of",
]
