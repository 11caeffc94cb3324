"""How hot a day gets: usually, by the monthly normals, or in a week as the grower expects it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from sowtide.days import DateSpan
from sowtide.garden.site import Normals
from sowtide.values import value

TOO_HOT = 32.2
"""The maximum from which on nothing is sprayed, dusted or fed, and working wants care: 90 °F. [°C]

UC IPM says it of oil and of sulfur; that it is taken for all is sowtide's own.
"""


@value
class HeatForecast:
    """The highest temperature that the grower expects on some days. [°C]"""

    days: DateSpan
    high: float


def usual_high(
    normals: Normals | None, forecast: HeatForecast | None = None
) -> Callable[[date], float | None]:
    """Return what tells the maximum of a day [°C], straight between the middles of months.

    Parameters
    ----------
    normals
        The normals; without them it is not known.
    forecast
        What the grower expects in their place; None for nothing.
    """
    usual = _of_normals(normals) if normals is not None else None

    def of_day(day: date) -> float | None:
        if forecast is not None and day in forecast.days:
            return forecast.high
        return None if usual is None else usual(day)

    return of_day


def too_hot_by(forecast: HeatForecast | None) -> Callable[[date], bool]:
    """Return what tells whether a day is too hot to spray or feed, by what the grower expects.

    A usual maximum holds off only what its own label keeps from heat: else a hot place would have
    no day of summer to feed on.

    Parameters
    ----------
    forecast
        What that is; None for nothing.
    """
    days = None if forecast is None or forecast.high < TOO_HOT else forecast.days
    return lambda day: days is not None and day in days


def _of_normals(normals: Normals) -> Callable[[date], float]:
    from calendar import monthrange

    highs = normals.highs

    def of_day(day: date) -> float:
        length = monthrange(day.year, day.month)[1]
        past = (day.day - 0.5) / length - 0.5  # of a month, from its middle
        here = highs[day.month - 1]
        there = highs[(day.month - 1 + (1 if past > 0 else -1)) % 12]
        return here + abs(past) * (there - here)

    return of_day
