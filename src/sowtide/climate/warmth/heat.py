"""Degree-days: the warmth that growth is counted in, by the three methods in use.

Warmth below a crop's base temperature, and above its upper one where it has one, counts no more.
The methods differ only on days that reach beyond either of them, but there by up to 83 % (McMaster
and Wilhelm, Agricultural and Forest Meteorology 87:291–300, 1997): a crop's heat units are good
only with the method that they were measured with.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Sequence
from itertools import accumulate
from math import atan2, pi, sqrt

from sowtide.garden.crop import HeatMethod


def accumulated(
    tmin: Sequence[float],
    tmax: Sequence[float],
    *,
    base: float,
    upper: float | None,
    method: HeatMethod,
) -> list[float]:
    """Degree-days gathered before each day, and by the end of the last one. [°C·d]

    The total at `n` is the heat of the days before the one at `n`, so that one number longer than
    the days; it starts at 0 and never falls. A day with either temperature missing (NaN) adds
    nothing: whoever reads a total across such a day has to ask `missing_before` as well.

    Parameters
    ----------
    tmin, tmax
        Temperatures of days in order, each minimum no higher than its maximum. [°C]
    base, upper
        Where warmth begins to count, and where it counts no more. [°C]
    method
        How a day is counted.

    Raises
    ------
    ValueError
        If `upper` is not above `base`, or there are not as many minima as maxima.

    Examples
    --------
    >>> clip = HeatMethod.CLIP
    >>> accumulated([0.0, 15.0], [20.0, 35.0], base=10.0, upper=30.0, method=clip)
    [0.0, 5.0, 17.5]
    """
    heat = _OF_DAYS[method](tmin, tmax, base, _ceiling(base, upper))
    totals = list(accumulate(heat, initial=0.0))
    if totals[-1] == totals[-1]:
        return totals
    return list(accumulate([day if day == day else 0.0 for day in heat], initial=0.0))


def missing_before(tmin: Iterable[float], tmax: Iterable[float]) -> array[int]:
    """How many days miss a temperature before each day, and by the end of the last one. [days]

    Between two days of a year none is missing where both have the same number.

    Parameters
    ----------
    tmin, tmax
        Temperatures of days in order, NaN where missing. [°C]

    Raises
    ------
    ValueError
        If there are not as many minima as maxima.

    Examples
    --------
    >>> missing_before([1.0, float("nan"), 3.0], [9.0, 9.0, 9.0]).tolist()
    [0, 0, 1, 1]
    """
    missing = [low != low or high != high for low, high in zip(tmin, tmax, strict=True)]
    return array("l", accumulate(missing, initial=0))


def _ceiling(base: float, upper: float | None) -> float:
    if upper is None:
        return float("inf")
    if upper <= base:
        raise ValueError(f"upper temperature {upper} °C is not above the base of {base} °C")
    return upper


# Every comparison below is false for NaN and then keeps it, so that a missing day shows in the sum.


def _clipped(
    tmin: Sequence[float], tmax: Sequence[float], base: float, upper: float
) -> list[float]:
    return [
        (
            (base if low < base else upper if low > upper else low)
            + (base if high < base else upper if high > upper else high)
        )
        / 2
        - base
        for low, high in zip(tmin, tmax, strict=True)
    ]


def _averaged(
    tmin: Sequence[float], tmax: Sequence[float], base: float, upper: float
) -> list[float]:
    means = [(low + high) / 2 for low, high in zip(tmin, tmax, strict=True)]
    most = upper - base
    return [0.0 if mean < base else most if mean > upper else mean - base for mean in means]


def _under_sine(
    tmin: Sequence[float], tmax: Sequence[float], base: float, upper: float
) -> list[float]:
    over_base = [sine_over(low, high, base) for low, high in zip(tmin, tmax, strict=True)]
    if upper == float("inf"):
        return over_base
    return [
        over if high <= upper else max(over - sine_over(low, high, upper), 0.0)
        for over, low, high in zip(over_base, tmin, tmax, strict=True)
    ]


def sine_over(low: float, high: float, threshold: float) -> float:
    """Return the area over a threshold under one turn of a sine from `low` to `high`. [°C·d]

    The half angle that the sine spends over it comes from the distances of both temperatures, not
    from an arc cosine, whose argument rounding may take out of its range.
    """
    mean = (low + high) / 2
    if low >= threshold:
        return mean - threshold
    if high <= threshold:
        return 0.0
    over, under = high - threshold, threshold - low
    half_angle = 2 * atan2(sqrt(over), sqrt(under))
    return max(((mean - threshold) * half_angle + sqrt(over * under)) / pi, 0.0)


_OF_DAYS = {
    HeatMethod.CLIP: _clipped,
    HeatMethod.AVERAGE: _averaged,
    HeatMethod.SINE: _under_sine,
}
