"""The hot weeks of recorded years: from the day a mean passes a limit until it stays below it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from sowtide.climate.warmth.aligned import Years
from sowtide.climate.warmth.running import running_mean
from sowtide.units import ROUNDING_OF_MEANS

DAYS = 15
"""Days that the mean is taken over, as many before the day as after it. [days]"""

_MISSING = 0.3


def centred_means(means: Sequence[float]) -> Sequence[float]:
    """Return the mean of the 15 days around each day; the last days of all have none.

    Parameters
    ----------
    means
        Daily mean temperatures, not a number where missing. [°C]
    """
    trailing = running_mean(means, DAYS, missing=_MISSING)
    return trailing[DAYS // 2 :]


def hot_spans(
    centred: Sequence[float], years: Years, limit: float
) -> tuple[tuple[int, int] | None, ...]:
    """Return each year's first hot day and the day after its last, as indices, or None.

    Parameters
    ----------
    centred
        Means around each day, see `centred_means`. [°C]
    years
        The growing years.
    limit
        A day is hot where the mean is above it. [°C]
    """
    limit += ROUNDING_OF_MEANS
    hot = [day for day, mean in enumerate(centred) if mean > limit]
    spans: list[tuple[int, int] | None] = []
    for base in years.bases:
        begin, over = bisect_left(hot, base), bisect_left(hot, base + 366)
        spans.append((hot[begin], hot[over - 1] + 1) if begin < over else None)
    return tuple(spans)
