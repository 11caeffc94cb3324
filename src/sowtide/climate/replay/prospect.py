"""What each planting day of the growing year promises, over all recorded years."""

from __future__ import annotations

from collections.abc import Iterator
from operator import lt, mul, ne, not_

from sowtide.values import value

HALF = 0.5
"""Share of the years above which a day is called too hot."""


@value
class Prospect:
    """What each planting day of the growing year promises."""

    odds: list[float]
    """Mean share of the range that is picked for its worthwhile days. [0–1]"""
    too_hot: list[float]
    """Share of the years in which it is too hot. [0–1]"""
    used: list[int]
    """Years that say something of the day. [years]"""

    def turns(self, first: int, stop: int) -> Iterator[int]:
        """Yield days, from a first one on, that are better than the day before or of another kind.

        Parameters
        ----------
        first, stop
            The days to look at, half-open, counted from the growing year's first. [days]
        """
        odds, used = self.odds[first:stop], self.used[first:stop]
        hot = [share > HALF for share in self.too_hot[first:stop]]
        better, changed = map(lt, odds, odds[1:]), map(ne, hot, hot[1:])
        unknown = map(not_, map(mul, used, used[1:]))
        for day, turns in enumerate(zip(better, changed, unknown, strict=True), 1):
            if True in turns:
                yield day
