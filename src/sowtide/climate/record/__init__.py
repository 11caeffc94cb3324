"""A file of daily temperatures, read into a record."""

from sowtide.climate.record.file import read_record
from sowtide.climate.record.record import Record

__all__ = [
    "Record",
    "read_record",
]
