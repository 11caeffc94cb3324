"""What the answers of a climate rest on, and how far the season has come."""

from __future__ import annotations

from datetime import date
from enum import Enum

from sowtide.values import value


class FrostFrom(Enum):
    """What tells of frost."""

    RECORD = "record"
    TABLE = "table"
    AVERAGES = "averages"
    NONE = "none"


class WarmthFrom(Enum):
    """What tells of warmth."""

    RECORD = "record"
    NORMALS = "normals"
    TWO_MONTHS = "two months"
    NONE = "none"


@value
class Lacks:
    """What a record lacks, from its first day to its last.

    Parameters
    ----------
    days
        How many days that is. [days]
    missing
        How many of them have no minimum; those left out are among them. [days]
    gap_from, gap_to
        The first and the last day of the longest run of them; None where none is missing.
    doubted
        Readings left out because the archive itself doubts them. [1]
    impossible
        Days left out because no day can be so. [days]
    """

    days: int
    missing: int
    gap_from: date | None
    gap_to: date | None
    doubted: int
    impossible: int


@value
class RecordUsed:
    """The daily record that dates and odds rest on.

    Parameters
    ----------
    file
        Its name as the grower wrote it.
    station
        What the file calls its station, or None.
    unit
        What its readings were taken to be: ``°F`` or ``°C``.
    first_year, last_year
        The first and the last growing year with an autumn that is used.
    unit_from
        What says so, such as ``the header``, ``the values`` or ``given``.
    years_there
        How many growing years before the one planned it reaches into. [years]
    lacks
        What it lacks.
    """

    file: str
    station: str | None
    unit: str
    first_year: int
    last_year: int
    unit_from: str
    years_there: int
    lacks: Lacks


@value
class Basis:
    """What dates and odds rest on.

    Parameters
    ----------
    frost, warmth
        What tells of frost, and of warmth.
    assumed
        What had to be assumed, each in a few words.
    years_used
        Recorded years behind the odds, or None.
    record
        The record that they are of, or None.
    """

    frost: FrostFrom
    warmth: WarmthFrom
    assumed: tuple[str, ...]
    years_used: int | None
    record: RecordUsed | None = None


@value
class SoFar:
    """How far the season has come.

    Parameters
    ----------
    until
        The last day whose temperatures are known.
    days_ahead
        Days by which its warmth so far is ahead of the middle of the years; negative: behind.
    """

    until: date
    days_ahead: int
