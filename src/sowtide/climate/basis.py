"""What the answers of a climate rest on, and how far the season has come."""

from __future__ import annotations

from datetime import date

from sowtide.values import value


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
    """

    file: str
    station: str | None
    unit: str
    first_year: int
    last_year: int


@value
class Basis:
    """What dates and odds rest on.

    Parameters
    ----------
    frost
        ``record``, ``table``, ``averages`` or ``none``.
    warmth
        ``record``, ``normals`` or ``none``.
    assumed
        What had to be assumed, each in a few words.
    years_used
        Recorded years behind the odds, or None.
    record
        The record that they are of, or None.
    """

    frost: str
    warmth: str
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
