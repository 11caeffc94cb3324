"""What heat that drops flowers leaves of a picking in an average year."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable
from typing import NamedTuple

from sowtide.climate.growth import NO_FRUIT, UNRIPE_DAYS, for_want_of_fruit
from sowtide.climate.medians import NEVER
from sowtide.climate.warmth import Barren, left_by_heat
from sowtide.reasons import Dated, Origin
from sowtide.values import value


@value
class SeasonsBarren:
    """The days without fruit of each season, the coldest first, as ordinals."""

    seasons: tuple[Barren, ...]

    @property
    def usual(self) -> Barren:
        """Those of the average season."""
        return self.seasons[len(self.seasons) // 2]

    def turns(
        self,
        planted: range,
        picking: int,
        early: Callable[[int], int],
        late: Callable[[int], int],
    ) -> Iterable[int]:
        """Return the days on which something planted would meet days without fruit.

        A later one may meet fewer of them: every such day is a turn.

        Parameters
        ----------
        planted
            Planting days, as ordinals.
        picking
            How long it is picked. [days]
        early, late
            The quickest and the slowest first pick of a planting day, as ordinals.
        """
        missing = self.seasons[-1].of(planted.start, planted.stop + UNRIPE_DAYS)
        if not missing:
            return ()
        meets = bisect_left(planted, missing[0] - picking + 1, key=late)
        over = bisect_left(planted, missing[-1] + 1, key=early)
        return range(planted.start + meets, min(planted.start + over + 1, planted.stop))


class WithFruit(NamedTuple):
    """First picks of flowers that set, what ends them, and days that the late one waits. [days]"""

    early: Dated
    late: Dated
    end: Dated | None
    waited: int


def with_fruit(
    ripens: tuple[Dated, Dated], ripe: tuple[int, int], picking: int, barren: Barren, origin: Origin
) -> WithFruit:
    """Return the first picks of flowers that set, and what heat leaves after them.

    Parameters
    ----------
    ripens
        The early and the late first pick without heat, counted.
    ripe
        The same as ordinals of the growing year planned.
    picking
        How long it is picked. [days]
    barren
        The days without fruit.
    origin
        Where the temperatures are written.
    """
    early, late = ripens
    left = left_by_heat(*ripe, picking, barren)
    end, stop = None, picking
    if left.end < NEVER:
        text = f"{NO_FRUIT}, in an average year"
        end = early.then(left.end - ripe[0], "fruit-set", text, origin)
        stop = (end.day - late.day).days
    waits = [
        stop if sets >= NEVER else sets - day
        for sets, day in zip((left.early, left.late), ripe, strict=True)
    ]
    return WithFruit(
        for_want_of_fruit(early, waits[0]),
        for_want_of_fruit(late, waits[1]),
        end,
        max(waits[1], 0),
    )
