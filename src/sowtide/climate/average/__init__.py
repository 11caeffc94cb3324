"""The average year of a place, day by day."""

from sowtide.climate.average.average_year import DailyYear, average_year
from sowtide.climate.average.dropped import SeasonsBarren, with_fruit
from sowtide.climate.average.normal_days import NormalDays
from sowtide.climate.average.normal_year import SPREAD, NormalYear
from sowtide.climate.average.two_months import twelve_months

__all__ = [
    "SPREAD",
    "DailyYear",
    "NormalDays",
    "NormalYear",
    "SeasonsBarren",
    "average_year",
    "twelve_months",
    "with_fruit",
]
