"""Growth by temperature: none at the base, most over the best range, none again at the ceiling.

Between base and best the rate of growth rises in a straight line, over the best range it is level,
and it falls in a straight line to the ceiling: the response that the crop models of DSSAT use for
development. A day is taken hour by hour, as a sine between its two temperatures (Baskerville and
Emin, Ecology 50:514–517, 1969), so that a warm noon counts in a cool day; the sum over the hours is
exact, since each straight piece is a difference of two single sines.

A day is told in *days of good growth*: its rate over that of a day in the weather in which the
crop's days to harvest are right. No day counts more than 1 / 0.85 of them, so that each end of a
range of days to harvest takes at least 0.85 of itself, however warm it is: sowtide's own rule.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import atan2, pi, sqrt

from sowtide.climate.answers import Response
from sowtide.climate.warmth.heat import sine_over

FASTEST = 1 / 0.85
"""Most that a day counts, in days of good growth: sowtide's own. [1]"""

SWING = 5.0
"""How far the day and the night that days are rated in lie from their mean: sowtide's own. [°C]"""


def good_days(rates: Iterable[float], response: Response) -> list[float]:
    """Return what each day's rate of growth is worth in full light, in days of good growth.

    Examples
    --------
    >>> bean = Response(base=5, best_from=24, best_to=31, ceiling=44, rated=20, light=0)
    >>> [round(days, 2) for days in good_days(rates_of([(15, 25), (10, 20)], bean), bean)]
    [1.0, 0.67]
    """
    rated = rate_of(response.rated - SWING, response.rated + SWING, response)
    return [day if (day := rate / rated) < FASTEST else FASTEST for rate in rates]


def rates_of(days: Iterable[tuple[float, float]], response: Response) -> list[float]:
    """Return the rate of growth over each day, as a share of the fastest. [0–1]

    Crops that answer temperature alike share them, whatever they are rated at.

    Parameters
    ----------
    days
        Minimum and maximum of each. [°C]
    response
        How the crop's growth answers temperature.

    Examples
    --------
    >>> bean = Response(base=5, best_from=24, best_to=31, ceiling=44, rated=20, light=0)
    >>> rates_of([(11.5, 17.5)], bean) == [(14.5 - 5) / (24 - 5)]
    True
    """
    base, best_from, best_to = response.base, response.best_from, response.best_to
    ceiling, rising = response.ceiling, response.best_from - response.base
    rates = []
    for low, high in days:
        if high <= base:
            rates.append(0.0)
            continue
        mean = (low + high) / 2
        if low >= base:
            risen = mean - base
        else:  # as `sine_over` has it, which is too far to go on most days of a year
            over, under = high - base, base - low
            half_angle = 2 * atan2(sqrt(over), sqrt(under))
            risen = max(((mean - base) * half_angle + sqrt(over * under)) / pi, 0.0)
        if high > best_from:
            risen -= sine_over(low, high, best_from)
        rate = risen / rising
        if high > best_to:
            fallen = sine_over(low, high, best_to) - sine_over(low, high, ceiling)
            rate = max(rate - fallen / (ceiling - best_to), 0.0)
        rates.append(rate)
    return rates


def rate_of(low: float, high: float, response: Response) -> float:
    """Return the rate of growth over a day of two temperatures [°C], as `rates_of` does. [0–1]"""
    return rates_of([(low, high)], response)[0]
