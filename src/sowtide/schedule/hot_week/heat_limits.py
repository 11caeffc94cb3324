"""What to do for one wave in great heat: leave it, water it early, shade it, or pick it now.

A hotter week never asks for less.
"""

from __future__ import annotations

from sowtide.garden.crop import Crop
from sowtide.schedule.work import HeatAction
from sowtide.units import TOO_HOT, celsius

UNDER_HIGH = 10 * 5 / 9
"""How far the mean of a hot day lies under its maximum: half of 20 °F, sowtide's own. [°C]"""

NEAR_LIMIT = 5 * 5 / 9
"""How far below its warm limit a cool-season crop is watered: sowtide's own. [°C]"""

SCORCHING = celsius(100)
"""The maximum from which on fruit and leaves of any crop are scorched; common practice. [°C]"""


def mean_under(high: float) -> float:
    """Return the mean of a day with such a maximum. [°C]"""
    return high - UNDER_HIGH


def action_in_heat(crop: Crop, high: float, *, ripe: bool, young: bool) -> HeatAction:
    """Return what to do for a wave.

    Parameters
    ----------
    crop
        What stands there.
    high
        The highest temperature expected. [°C]
    ripe
        Whether there is anything on it that is fit to eat.
    young
        Whether it is not up, just up, or just set out.
    """
    limit, mean = crop.warm_limit, round(mean_under(high), 6)
    if limit is not None and mean > limit:
        return HeatAction.PICK if ripe else HeatAction.SHADE
    if limit is None and crop.cut_once and ripe:
        return HeatAction.LEAVE  # it ripens off, and is lifted dry
    if (young and high >= TOO_HOT) or high >= SCORCHING:
        return HeatAction.SHADE
    near = limit is not None and mean > limit - NEAR_LIMIT
    return HeatAction.WATER if near or high >= TOO_HOT else HeatAction.LEAVE
