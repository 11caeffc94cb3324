"""The average year of a place, day by day."""

from __future__ import annotations

from sowtide.climate.average.average_year import DailyYear, average_year
from sowtide.climate.average.normal_year import NormalYear

__all__ = [
    "DailyYear",
    "NormalYear",
    "average_year",
]
