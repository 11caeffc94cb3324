"""How hot a day gets: usually, or in a week as the grower expects it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from sowtide.days import DateSpan
from sowtide.units import TOO_HOT
from sowtide.values import value


@value
class HeatForecast:
    """The highest temperature that the grower expects on some days. [°C]"""

    days: DateSpan
    high: float


def high_by(
    usual: Callable[[date], float | None], forecast: HeatForecast | None
) -> Callable[[date], float | None]:
    """Return what tells the maximum of a day, None where nobody knows. [°C]

    Parameters
    ----------
    usual
        The usual maximum of a day. [°C]
    forecast
        What the grower expects in its place; None for nothing.
    """
    return lambda day: (
        forecast.high if forecast is not None and day in forecast.days else usual(day)
    )


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
