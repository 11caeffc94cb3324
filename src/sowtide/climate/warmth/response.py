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

from collections.abc import Sequence
from itertools import accumulate

from sowtide.climate.answers import Response
from sowtide.climate.warmth.heat import sine_over

FASTEST = 1 / 0.85
"""Most that a day counts, in days of good growth: sowtide's own. [1]"""

SWING = 5.0
"""How far the day and the night that days are rated in lie from their mean: sowtide's own. [°C]"""


def days_of_growth(
    tmin: Sequence[float],
    tmax: Sequence[float],
    response: Response,
    light: Sequence[float] | None = None,
) -> list[float]:
    """Days of good growth gathered before each day, and by the end of the last one. [days]

    One number longer than the days; it starts at 0 and never falls.

    Parameters
    ----------
    tmin, tmax
        Temperatures of days in order, each minimum no higher than its maximum. [°C]
    response
        How the crop's growth answers temperature.
    light
        Share of the light that growth wants, of each day; None for enough of it. [0–1]

    Examples
    --------
    >>> bean = Response(base=5, best_from=24, best_to=31, ceiling=44, rated=20)
    >>> [round(days, 2) for days in days_of_growth([15, 10, 22], [25, 20, 30], bean)]
    [0.0, 1.0, 1.67, 2.85]
    """
    return gathered_growth(rates_of(tmin, tmax, response), response, light)


def rates_of(tmin: Sequence[float], tmax: Sequence[float], response: Response) -> list[float]:
    """Return the rate of growth over each day, as a share of the fastest. [0–1]

    Crops that answer temperature alike share them, whatever they are rated at.

    Parameters
    ----------
    tmin, tmax, response
        As for `days_of_growth`.
    """
    pairs = list(zip(tmin, tmax, strict=True))
    few = set(pairs)
    if 2 * len(few) <= len(pairs) + 1:  # whole degrees, or a smooth year laid along more than one
        known = {(low, high): rate_of(low, high, response) for low, high in few}
        return [known[pair] for pair in pairs]
    return [rate_of(low, high, response) for low, high in pairs]


def gathered_growth(
    rates: Sequence[float], response: Response, light: Sequence[float] | None = None
) -> list[float]:
    """Return what `days_of_growth` does, from the rates of the days."""
    rated = rate_of(response.rated - SWING, response.rated + SWING, response)
    days = [day if (day := rate / rated) < FASTEST else FASTEST for rate in rates]
    if light is not None and response.light:
        power = response.light
        days = [
            day if share == 1.0 else day * share**power
            for day, share in zip(days, light, strict=True)
        ]
    return list(accumulate(days, initial=0.0))


def rate_of(low: float, high: float, response: Response) -> float:
    """Return the rate of growth over a day, as a share of the fastest. [0–1]

    Parameters
    ----------
    low, high
        The day's temperatures. [°C]
    response
        How the crop's growth answers temperature.

    Examples
    --------
    >>> bean = Response(base=5, best_from=24, best_to=31, ceiling=44, rated=20)
    >>> rate_of(11.5, 17.5, bean) == (14.5 - 5) / (24 - 5)
    True
    """
    base, best_from, best_to = response.base, response.best_from, response.best_to
    risen = sine_over(low, high, base)
    if high > best_from:
        risen -= sine_over(low, high, best_from)
    rate = risen / (best_from - base)
    if high > best_to:
        ceiling = response.ceiling
        fallen = sine_over(low, high, best_to) - sine_over(low, high, ceiling)
        rate -= fallen / (ceiling - best_to)
    return max(rate, 0.0)
