"""Flowers that are open in a hot week and set little, and the days on which that is missed."""

from __future__ import annotations

from datetime import date, timedelta

from sowtide.days import DateSpan
from sowtide.schedule.waves import Wave, picked_in
from sowtide.values import value


@value
class HeatGap:
    """Days on which there is little to pick, since heat kept flowers from setting."""

    wave: Wave
    flowers: DateSpan
    """The days of the hot week on which its flowers are open."""
    picks: DateSpan
    """The days on which their pods or fruit would be picked."""
    ripens: int
    """Days from one to the other, the crop's own figure. [days]"""


def heat_gap(wave: Wave, high: float, begins: date, last: date) -> HeatGap | None:
    """Return the gap that a hot week makes in the picking of a wave; None where it makes none.

    The crop's limit is of a week's mean maxima (Cornell); that a maximum above it is enough to say
    that a gap may come is sowtide's own reading.

    Parameters
    ----------
    wave
        A wave that stands.
    high
        The highest temperature expected. [°C]
    begins, last
        First and last day of the heat.
    """
    crop, stages = wave.crop, wave.stages
    limit, ripens, picked = crop.fruit_set_high, crop.flower_to_pick, picked_in(stages)
    if limit is None or ripens is None or picked is None or high <= limit:
        return None
    later = timedelta(days=ripens)
    opens = max(picked.first - later, stages.plant.day, begins)
    closes = min(picked.last - later, last)
    if closes < opens:
        return None
    return HeatGap(wave, DateSpan(opens, closes), DateSpan(opens + later, closes + later), ripens)
