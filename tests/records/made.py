"""Made-up records."""

from __future__ import annotations

import math
from array import array
from collections.abc import Callable
from datetime import date, timedelta

from sowtide.climate.record.record import Record


def year(lows: tuple[float, float], highs: tuple[float, float], *, digits: int = 1) -> str:
    """A made-up year whose lows and highs swing between two bounds, as rows of a table."""
    rows = []
    for number in range(366):
        swing = (1 - math.cos(2 * math.pi * number / 366)) / 2
        low, high = (a + (b - a) * swing for a, b in (lows, highs))
        rows.append(f"{date(2012, 1, 1) + timedelta(number)},{low:.{digits}f},{high:.{digits}f}\n")
    return "".join(rows)


def record(
    first: date, last: date, low_of: Callable[[date], float], *, step: float = 0.1
) -> Record:
    """A record of daily minima that a rule gives; not a number is a missing day."""
    days = (last - first).days + 1
    lows = array("d", [low_of(first + timedelta(each)) for each in range(days)])
    return Record("made-up", None, first, lows, None, step, False)


def frosts_on(*days: date) -> Callable[[date], float]:
    """Minima of −5 °C on some days and of 5 °C on all others."""
    return lambda day: -5.0 if day in days else 5.0
