"""When a wave bears: in each recorded year, or in years that stand for the curve of its frosts.

The years of one place and crop come in one order for all its waves, so that what they bring in can
be added up year by year: a late frost that spares one wave spares the others too.
"""

from __future__ import annotations

from collections.abc import Sequence

from sowtide.climate.answers import Need
from sowtide.climate.fate import Fate
from sowtide.climate.medians import NEVER
from sowtide.values import value

YEARS_OF_CURVE = 20
"""Equally likely years that stand for a curve of frosts. [years]"""

_MOST_PARTS = 12
"""Parts of the range of first picks that are followed, where a climate knows more. [1]"""

Bearing = tuple[int, int, int] | None
"""The day from which a part bears, is picked, and is picked no more, counted from its planting day;
what it bore before it was picked is lost. None for a part that comes to nothing. [days]"""


@value
class Borne:
    """What one year does to one wave.

    Parameters
    ----------
    season
        The growing year, or which of the years that stand for a curve, from 0 on.
    parts
        One for each part of the range of days to harvest, all equally likely.
    """

    season: int
    parts: tuple[Bearing, ...]


def bearing(
    fate: Fate, need: Need, picks: Sequence[int], *, planted: int, end: int
) -> tuple[Bearing, ...]:
    """Return when each part of the range bears.

    Parameters
    ----------
    fate
        What the hot weeks make of the first picks.
    need
        What the crop needs.
    picks
        The first picks without heat, one for each part, as ordinals in order.
    planted, end
        The planting day and the day that frost ends it, as ordinals.
    """
    parts: list[Bearing] = [None] * fate.count
    lead = len(picks) - len(fate.picks) if fate.waits else 0
    left = fate.left or [need.picking] * len(fate.picks)
    for number, (pick, days) in enumerate(zip(fate.picks, left, strict=True), lead):
        if pick >= end or pick >= NEVER:
            continue
        stop = NEVER if need.picking == 1 else pick + days
        if not need.stands:
            stop = min(stop, end)
        if fate.hot_end is not None:
            stop = min(stop, fate.hot_end)
        parts[number] = picks[number] - planted, pick - planted, stop - planted
    return tuple(parts)


def borne_by_curve(
    fate: Fate, need: Need, picks: Sequence[int], *, planted: int, ends: Sequence[int]
) -> tuple[Borne, ...]:
    """Return what equally likely years do to a wave, by the days on which frost ends it in each."""
    found = []
    for number, end in enumerate(ends):
        parts = bearing(fate, need, picks, planted=planted, end=end)
        if len(parts) > _MOST_PARTS:
            step = len(parts) / _MOST_PARTS
            parts = tuple(parts[int((each + 0.5) * step)] for each in range(_MOST_PARTS))
        found.append(Borne(number, parts))
    return tuple(found)
