"""The twelve months of a place of which only the warmest and the coldest are known.

Between the two the months follow a cosine. Its warmest day lies midway between the average last and
first frost, kept within the days that it falls on at most places; without frost dates on 21 July. A
day is as much warmer than its night as in the summers of four records (Wageningen, Fulda, Seattle,
Clemson), 10 to 12 °C.
"""

from __future__ import annotations

from math import cos, pi

_MIDDLES = tuple(15.2 + 30.42 * month for month in range(12))  # day of the year
_YEAR = 365
_PEAKS = (198, 206)
"""The first and the last day of the year that is taken for the warmest: 17 and 25 July."""

_USUAL_PEAK = 202
_RANGE = 11.0
"""From the coldest to the warmest of a day: sowtide's own. [°C]"""

_OF_MONTH = 0.99
"""Share of the swing from the coldest to the warmest day that is left in the means of months."""


def twelve_months(
    *, warmest: float, coldest: float, middle: float | None, south: bool
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return the mean maxima and minima of twelve months, January's first. [°C]

    Parameters
    ----------
    warmest, coldest
        Means of the warmest and of the coldest month. [°C]
    middle
        Day of the year midway between the average last and first frost; None where it has none.
    south
        Whether January is the warm side of the year.

    Examples
    --------
    >>> highs, lows = twelve_months(warmest=20.0, coldest=0.0, middle=None, south=False)
    >>> round((highs[6] + lows[6]) / 2, 1), round((highs[0] + lows[0]) / 2, 1)
    (20.1, -0.1)
    """
    usual = _USUAL_PEAK + (_YEAR / 2 if south else 0)
    peak = usual
    if middle is not None:
        off = (middle - usual + _YEAR / 2) % _YEAR - _YEAR / 2
        peak = usual + min(max(off, _PEAKS[0] - _USUAL_PEAK), _PEAKS[1] - _USUAL_PEAK)
    mean, swing = (warmest + coldest) / 2, (warmest - coldest) / 2 / _OF_MONTH
    means = [mean + swing * cos(2 * pi * (day - peak) / _YEAR) for day in _MIDDLES]
    half = _RANGE / 2
    return tuple(each + half for each in means), tuple(each - half for each in means)
