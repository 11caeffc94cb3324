"""Why nobody can say when a wave that stands over the winter will be ready."""

from __future__ import annotations

from sowtide.climate.daylight import SHORT_DAY
from sowtide.days import short_day
from sowtide.schedule.waves.wave import Judged, NoDate

_NEEDS_ITS_WINTER = 184
"""With more days to harvest than from midsummer to midwinter, they count a winter in. [days]"""


_SAID = {
    NoDate.OUT_OF_TIME: (
        "is planted too late for one harvest and too early for the next: nobody can say when it "
        "will be ready",
        "plant it four to eleven months before it is ready",
    ),
    NoDate.KILLED: (
        "does not stand the winters here: in half of them or more frost kills it",
        "write `killed_at` and `ready` of a hardier variety",
    ),
}


def no_winter_date(judged: Judged, *, fewest: int, south: bool) -> tuple[str, str]:
    """Say why a wave has no date, and what would give it one.

    Parameters
    ----------
    judged
        What is thought of it: no first pick, and no verdict.
    fewest
        The crop's fewest days to harvest. [days]
    south
        Whether the place lies south of the equator.
    """
    if judged.no_date is not None:
        return _SAID[judged.no_date]
    winter = judged.winter
    ready = f"give the crop its days: `ready: {'12-25..01-20' if south else '06-25..07-20'}`"
    if winter is not None and fewest > _NEEDS_ITS_WINTER:
        return f"needs its winter: its {fewest} days to harvest and more count it in", ready
    if winter is None:
        return "stands over the winter and nobody knows when it will be ready", ready
    if winter.enough or winter.short_from is None:
        return "stands over the winter and is not ready by midsummer", ready
    return (
        f"stands over the winter and is about {round(100 * winter.grown)} % grown when the days "
        f"fall under {SHORT_DAY} hours, {short_day(winter.short_from)}: too little to say when "
        "it will be ready",
        f"plant it so that it is three quarters grown by then, or {ready}",
    )
