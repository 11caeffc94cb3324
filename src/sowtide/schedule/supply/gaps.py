"""Weeks with too little of a crop and why, and weeks with too much."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import timedelta
from itertools import groupby
from typing import Any

from sowtide.days import DateSpan
from sowtide.garden.want import Met
from sowtide.schedule.season import Season
from sowtide.schedule.supply.counted import CropSupply, WeekSupply
from sowtide.schedule.supply.why_short import Reasons, Why
from sowtide.schedule.waves import Wave, picked_in
from sowtide.values import value

GLUT = 2.0
"""One that brings more than so many times what is wanted is a glut. [1]"""


@value
class Shortage:
    """Weeks one after another with less than half of what is wanted."""

    days: DateSpan
    """From the first of them to the last."""
    wanted: float
    expected: float
    """What is wanted in them and what is expected. [kg or 1]"""
    why: Why
    """Why there is so little."""
    waves: tuple[str, ...] = ()
    """The waves that it is the fault of, if it is any wave's."""
    days_late: int | None = None
    """How late the seedlings are, the latest of them, where that is why. [days]"""


@value
class Glut:
    """Weeks one after another with more than twice of what is wanted, or with what nobody wants."""

    days: DateSpan
    """From the first of them to the last."""
    wanted: float
    expected: float
    """What is wanted in them and what is expected. [kg or 1]"""
    waves: int
    """How many waves are picked in them at most at once. [1]"""


def shortages_of(season: Season, supply: CropSupply) -> tuple[Shortage, ...]:
    """Return the gaps of a crop, in order."""
    reasons = Reasons(season, supply)
    found = []
    for (why, waves), run in _runs(
        supply.weeks, lambda week: reasons.of(week) if week.met is Met.LESS else None
    ):
        late = reasons.days_late(waves) if why is Why.SEEDLINGS_LATE else None
        wanted, expected = _sums(run)
        found.append(
            Shortage(
                days=_days(run),
                wanted=wanted,
                expected=expected,
                why=why,
                waves=waves,
                days_late=late,
            )
        )
    return tuple(found)


def gluts_of(supply: CropSupply) -> tuple[Glut, ...]:
    """Return the gluts of a crop that is wanted, in order."""
    most = max((each.want or 0.0 for each in supply.weeks), default=0.0)
    if not most:
        return ()
    return tuple(
        Glut(_days(run), *_sums(run), _at_once(supply.waves, _days(run)))
        for _, run in _runs(
            supply.weeks, lambda week: week.expected > GLUT * (week.want or most) or None
        )
    )


def _runs(
    weeks: tuple[WeekSupply, ...], key: Callable[[WeekSupply], Any]
) -> Iterator[tuple[Any, list[WeekSupply]]]:
    """Yield weeks one after another with the same key, but for those that have none."""
    for found, run in groupby(weeks, key):
        if found is not None:
            yield found, list(run)


def _sums(run: list[WeekSupply]) -> tuple[float, float]:
    """Return what is wanted and what is expected in some weeks. [kg or 1]"""
    return sum(each.want or 0.0 for each in run), sum(each.expected for each in run)


def _days(run: list[WeekSupply]) -> DateSpan:
    return DateSpan(run[0].week, run[-1].week + timedelta(days=6))


def _at_once(waves: tuple[Wave, ...], days: DateSpan) -> int:
    """Count the waves that are picked together at most."""
    picked = [
        span for each in waves if each.stands and (span := picked_in(each.stages)) is not None
    ]
    starts = [max(each.first, days.first) for each in picked]
    return max((sum(day in each for each in picked) for day in starts if day in days), default=0)
