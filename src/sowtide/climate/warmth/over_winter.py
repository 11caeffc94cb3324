"""What stands over the winter: it grows only on days that are long enough and warm enough.

A day counts with ten hours of light or more and a mean at or above the base of the crop; on all
others it stands still. A wave that goes into the short days three quarters grown or more is ready
in or after them; of a smaller one nobody can say (Michigan State University's student farm, 2019).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from functools import lru_cache

from sowtide.climate.answers import GROWN_ENOUGH, Need, Warmth, Winter
from sowtide.climate.daylight import SHORT_DAY, first_below, last_below
from sowtide.climate.growth import in_warmth, range_end
from sowtide.climate.medians import NEVER, median
from sowtide.days import GrowingYear
from sowtide.reasons import OURS, Dated
from sowtide.units import ROUNDING_OF_SUMS, Units
from sowtide.values import value


@value
class Wintered:
    """What one year does to a wave that stands over its winter. Days are counted from planting."""

    early: int
    late: int
    """First pick at the two ends of the range of days to harvest; `NEVER` where not by
    midsummer."""
    grown: float
    """How far it is grown when the short days begin, 1 for wholly. [0–1]"""


@value
class Standing:
    """The days in which a wave may stand, from its planting to the midsummer after next winter."""

    bright: tuple[bool, ...]
    """Of each day, whether it has ten hours of light."""
    short_from: int | None
    """The first of them, counted from planting, that has not; None where there is none. [days]"""


def standing_of(planted: date, latitude: float, year: GrowingYear) -> Standing:
    """Return the days in which a wave planted on a day stands.

    Parameters
    ----------
    planted
        Its planting day, in any growing year.
    latitude
        Degrees north of the equator, south negative. [°]
    year
        Any growing year of that hemisphere.
    """
    own = year.holding(planted)
    begins = first_below(SHORT_DAY, latitude, own)
    return Standing(
        _bright(latitude, own)[(planted - own.first).days :],
        None if begins is None else max((begins - planted).days, 0),
    )


@lru_cache(maxsize=16)
def _bright(latitude: float, year: GrowingYear) -> tuple[bool, ...]:
    """Whether each day is no short one, from the first of a year to the midsummer after it."""
    following = GrowingYear(year.season + 1, year.south)
    days = (following.midsummer - year.first).days
    bright = [True] * days
    winters = (
        (year.first, last_below(SHORT_DAY, latitude, year)),
        (first_below(SHORT_DAY, latitude, year), last_below(SHORT_DAY, latitude, following)),
    )
    for begins, over in winters:
        if begins is not None and over is not None:
            first, last = (begins - year.first).days, (over - year.first).days
            for day in range(first, min(last + 1, days)):
                bright[day] = False
    return tuple(bright)


def wintered(
    planted: int, stand: Standing, warmth: Warmth, heat: Sequence[float], means: Sequence[float]
) -> Wintered:
    """Grow a wave through one winter.

    Parameters
    ----------
    planted
        Its planting day. [index]
    stand
        The days in which it stands.
    warmth
        What it needs.
    heat
        Degree-days gathered before each day, see `heat.accumulated`. [°C·d]
    means
        Mean temperature of each day. [°C]
    """
    gathered, days = 0.0, 0
    early = late = NEVER
    grown = 1.0
    for after, bright in enumerate(stand.bright):
        if after == stand.short_from:
            grown = _share(gathered, days, warmth)
        at = planted + after
        if not bright or means[at] < warmth.base:
            continue
        gathered += heat[at + 1] - heat[at]
        days += 1
        if days < warmth.least:
            continue
        if early == NEVER and gathered >= warmth.low - ROUNDING_OF_SUMS:
            early = after + 1
        if gathered >= warmth.high - ROUNDING_OF_SUMS:
            late = after + 1
            break
    return Wintered(early, late, grown)


def grown_by(
    planted: int,
    short_from: int,
    stand: Standing,
    warmth: Warmth,
    heat: Sequence[float],
    means: Sequence[float],
) -> float:
    """Return how far a wave is grown on the first short day, as `wintered` does. [0–1]

    Parameters
    ----------
    planted
        Its planting day. [index]
    short_from
        The first short day, counted from planting. [days]
    stand, warmth, heat, means
        As for `wintered`.
    """
    gathered, days, base = 0.0, 0, warmth.base
    for at, bright in enumerate(stand.bright[:short_from], planted):
        if bright and not means[at] < base:
            gathered += heat[at + 1] - heat[at]
            days += 1
    return _share(gathered, days, warmth)


def _share(gathered: float, days: int, warmth: Warmth) -> float:
    return min(gathered / ((warmth.low + warmth.high) / 2), days / warmth.least, 1.0)


def winter_of(
    planted: Dated,
    need: Need,
    told: Iterable[Wintered],
    stand: Standing,
    *,
    units: Units,
    years: bool,
) -> Winter | None:
    """Return how a wave gets on over the winter, in the middle of the years; None without any.

    Parameters
    ----------
    planted
        Its planting day.
    need
        What it needs; its warmth is set.
    told
        What each year does to it.
    stand
        The days in which it stands.
    units
        What warmth is shown in.
    years
        Whether they are recorded years, not one average year.
    """
    warmth, runs = need.warmth, tuple(told)
    if not runs or warmth is None:
        return None
    grown = sorted(run.grown for run in runs)[(len(runs) - 1) // 2]
    early, late = median([run.early for run in runs]), median([run.late for run in runs])
    first = None
    if late < NEVER and grown >= GROWN_ENOUGH:
        among = f"median of {len(runs)} years" if years else "in an average year"

        def counted(days: int, total: float, *, late: bool) -> Dated:
            text = (
                f"{range_end(need, late=late)}, {in_warmth(warmth, total, units)}, gathered on "
                f"days of {SHORT_DAY} hours or more that are warm enough, {among}"
            )
            return planted.then(days, "over-winter", text, need.days_origin)

        first = (counted(early, warmth.low, late=False), counted(late, warmth.high, late=True))
    begins = None
    if stand.short_from is not None:
        begins = planted.then(
            stand.short_from, "over-winter", f"days fall under {SHORT_DAY} hours", OURS
        ).day
    return Winter(
        first_pick=first,
        short_from=begins,
        grown=grown,
        grown_enough=sum(run.grown >= GROWN_ENOUGH for run in runs) / len(runs),
        years=len(runs) if years else None,
    )
