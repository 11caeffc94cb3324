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
    """What a record lacks, from its first day to its last."""

    days: int
    """How many days that is. [days]"""
    missing: int
    """How many of them have no minimum; those left out are among them. [days]"""
    gap_from: date | None
    gap_to: date | None
    """The first and the last day of the longest run of them; None where none is missing."""
    doubted: int
    """Readings left out because the archive itself doubts them. [1]"""
    impossible: int
    """Days left out because no day can be so. [days]"""


@value
class RecordUsed:
    """The daily record that dates and odds rest on."""

    file: str
    """Its name as the grower wrote it."""
    station: str | None
    """What the file calls its station, or None."""
    unit: str
    """What its readings were taken to be: ``°F`` or ``°C``."""
    first_year: int
    last_year: int
    """The first and the last growing year with an autumn that is used."""
    unit_from: str
    """What says so, such as ``the header``, ``the values`` or ``given``."""
    years_there: int
    """How many growing years before the one planned it reaches into. [years]"""
    lacks: Lacks
    """What it lacks."""


@value
class Basis:
    """What dates and odds rest on."""

    frost: FrostFrom
    warmth: WarmthFrom
    """What tells of frost, and of warmth."""
    assumed: tuple[str, ...]
    """What had to be assumed, each in a few words."""
    years_used: int | None
    """Recorded years behind the odds, or None."""
    record: RecordUsed | None = None
    """The record that they are of, or None."""


@value
class SoFar:
    """How far the season has come."""

    until: date
    """The last day whose temperatures are known."""
    days_ahead: int
    """Days by which its warmth so far is ahead of the middle of the years; negative: behind."""
