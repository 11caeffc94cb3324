"""Crop rotation: how soon a family may stand in a bed again.

The interval is published (Iowa State University and West Virginia University: two or three years).
Within one season another family, or the same series, may follow what stood sixty days or more, and
anything what stood a shorter time: sowtide's own reading.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from sowtide.garden.crop import Crop
from sowtide.garden.model import Bed
from sowtide.schedule.beds.room import Stay

LONG_STAY = 60
"""Days in the ground from which on a wave closes its bed to its family: sowtide's own. [days]"""


@cache
def family_key(family: str) -> str:
    """Return a family's name in the form names are compared in.

    Examples
    --------
    >>> family_key("Squash family")
    'squash'
    """
    return family.strip().lower().removesuffix("family").strip()


def too_soon(
    bed: Bed, stays: Iterable[Stay], crop: Crop, *, series: str, planted: int, season: int
) -> str | None:
    """Say in a few words why the crop should not stand in the bed yet, or return None.

    Parameters
    ----------
    bed
        The bed, with what it grew in earlier years.
    stays
        What stood in it this season.
    crop, series
        What is to be planted.
    planted
        Its planting day, as an ordinal.
    season
        The growing year.
    """
    if not crop.rotation:
        return None
    family = family_key(crop.family)
    for year, grown in bed.grew:
        if family_key(grown) == family and year < season < year + crop.rotation:
            return f"{grown} in {year}, again from {year + crop.rotation}"
    begun: dict[str, int] = {}
    for stay in stays:
        if stay.family != family or stay.series == series or stay.pulled > planted:
            continue
        # One that was set between others stands in two stays, one after the other.
        if stay.pulled - begun.setdefault(stay.wave, stay.first) >= LONG_STAY:
            return f"{stay.wave} of the same family stood there this season"
    return None
