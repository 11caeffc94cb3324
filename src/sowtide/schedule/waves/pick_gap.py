"""Heat while a wave is in flower: a gap in what there is to pick some weeks later."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from sowtide.climate.questions import Climate
from sowtide.days import DateSpan
from sowtide.garden.crop import Crop
from sowtide.schedule.waves.wave import Stages
from sowtide.values import value

if TYPE_CHECKING:  # only where temperatures are known
    from sowtide.climate.warmth import FruitGap


@value
class PickGap:
    """Weeks with little to pick, since heat kept the flowers from setting fruit.

    Parameters
    ----------
    flowers
        The days on which flowers set little, in the middle of the years that have any.
    picks
        The days on which their fruit would be picked, of those on which the wave is.
    """

    flowers: FruitGap
    picks: DateSpan


def pick_gap_of(crop: Crop, stages: Stages, climate: Climate) -> PickGap | None:
    """Return the gap that heat makes in the picking of a wave; None where it makes none.

    Flowers that open less than `flower_to_pick` days before the last pick bear nothing any more.
    """
    ripens, first, last = crop.flower_to_pick, stages.first_pick, stages.last_pick
    if crop.fruit_set_high is None and crop.fruit_set_low is None:
        return None
    if ripens is None or first is None or last is None:
        return None
    days = timedelta(days=ripens)
    opens = max(first[0].day - days, stages.plant.day)
    closes = last.day - days
    if closes < opens:
        return None
    gap = climate.weather.fruit_gap(
        DateSpan(opens, closes), high=crop.fruit_set_high, low=crop.fruit_set_low
    )
    if gap is None:
        return None
    return PickGap(gap, DateSpan(gap.first + days, gap.last + days))
