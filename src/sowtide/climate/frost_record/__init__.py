"""When it froze, counted over the years of a record."""

from sowtide.climate.frost_record.frost_years import FrostYears
from sowtide.climate.frost_record.nights import next_night
from sowtide.climate.frost_record.of_record import RecordedFrosts
from sowtide.climate.frost_record.record_years import FEW_YEARS, RecordYears
from sowtide.climate.frost_record.told import told_by_frost
from sowtide.climate.frost_record.trend import trend

__all__ = [
    "FEW_YEARS",
    "FrostYears",
    "RecordYears",
    "RecordedFrosts",
    "next_night",
    "told_by_frost",
    "trend",
]
