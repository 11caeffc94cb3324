"""Runs of planting days whose chances are good enough."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator
from datetime import date

from sowtide.climate.answers import Chances, Need, Stretch
from sowtide.climate.questions import Climate
from sowtide.days import DateSpan

_CLOSED = 3
"""Days that a gap may have which counting alone makes: ours. [days]"""

Holds = Callable[[Chances], bool]


def runs_of(
    stretches: Iterable[Stretch],
    climate: Climate,
    need: Need,
    holds: Holds,
    nearly: Holds | None,
) -> tuple[DateSpan, ...]:
    """Return the runs of days with chances that hold, in order.

    Odds are counted in steps, of a year or of a part of the range of days to harvest, while
    frosts of spring fall away day by day: so near the mark they go up and down.

    Parameters
    ----------
    stretches
        Days along which the chances only fall, in order.
    climate, need
        Where they are planted, and what they need.
    holds
        Whether chances are good enough; better ones always are, unless it is too hot.
    nearly
        Whether chances are so near that a few days of them part no run; None if none are.
    """
    found: list[range] = []
    for held in (run for each in stretches for run in _held(each, climate, need, holds)):
        if found and _is_one(range(found[-1].stop, held.start), climate, need, nearly):
            held = range(found.pop().start, held.stop)
        found.append(held)
    return tuple(DateSpan(date.fromordinal(run[0]), date.fromordinal(run[-1])) for run in found)


def _is_one(gap: range, climate: Climate, need: Need, nearly: Holds | None) -> bool:
    """Whether the days between two runs part them no more than counting does."""
    if not gap or nearly is None or len(gap) > _CLOSED:
        return not gap
    return all(nearly(climate.waves.chances(date.fromordinal(day), need)) for day in gap)


def _held(stretch: Stretch, climate: Climate, need: Need, holds: Holds) -> Iterator[range]:
    """Yield the days of a stretch that hold, in runs."""
    waves, days = climate.waves, stretch.days

    def fails(day: int) -> bool:
        return not holds(waves.chances(date.fromordinal(day), need))

    if not stretch.rises:  # after the first that fails none holds
        if not fails(days[0]):
            yield days[: bisect_left(days, True, lo=1, key=fails)]
    elif holds(waves.least(need, days)):
        yield days
    else:
        yield from (range(day, day + 1) for day in days if not fails(day))
