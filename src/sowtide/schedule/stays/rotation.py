"""Crop rotation: how soon a family may stand in a bed again.

The interval is published (Iowa State University and West Virginia University: two or three years).
Within one season another family, or the same series, may follow what stood sixty days or more, and
anything what stood a shorter time: sowtide's own reading. So kin may stand beside each other, and
what stands less than sixty days closes nothing on any day. Where plants were pulled as sick their
family waits for another season, whatever its rotation; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from sowtide.days import short_day
from sowtide.garden.crop import Crop
from sowtide.garden.model import Bed
from sowtide.schedule.stays.room import Room, Stay

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
    bed: Bed,
    stays: Iterable[Stay],
    crop: Crop,
    *,
    series: str,
    planted: int,
    season: int,
    pulled: int | None = None,
) -> str | None:
    """Say in a few words why the crop should not stand in the bed yet, or return None.

    Parameters
    ----------
    bed
        The bed, with what it grew in earlier years.
    stays
        What stands in it this season.
    crop, series
        What is to be planted.
    planted
        Its planting day, as an ordinal.
    season
        The growing year.
    pulled
        The day it is pulled out, where it is asked as well whether it would close the bed to what
        is planted there afterwards. [ordinal]
    """
    if not crop.rotation:
        return None
    family = family_key(crop.family)
    grew = grew_too_lately(bed, family, crop.rotation, season=season)
    return grew or _stood(stays, family, series=series, planted=planted, pulled=pulled)


def _stood(
    stays: Iterable[Stay], family: str, *, series: str, planted: int, pulled: int | None
) -> str | None:
    """Say what of a family stands in a bed too long this season, or return None."""
    begun: dict[str, int] = {}
    for stay in stays:
        if stay.family != family or stay.series == series:
            continue
        if pulled is not None and stay.first >= pulled >= planted + LONG_STAY:
            return f"{stay.wave} of the same family follows there"
        # One that was set between others stands in two stays, one after the other.
        since = begun.setdefault(stay.wave, stay.first)
        if stay.pulled <= planted and stay.pulled - since >= LONG_STAY:
            return f"{stay.wave} of the same family stood there this season"
    return None


def grew_too_lately(bed: Bed, family: str, rotation: int, *, season: int) -> str | None:
    """Say when a family grew in a bed, where it should not be back yet, or return None.

    Parameters
    ----------
    bed, family
        The bed, and the family as `family_key` has it.
    rotation
        Years from one to the next. [years]
    season
        The growing year.
    """
    for year, grown in bed.grew:
        if family_key(grown) == family and year < season < year + rotation:
            return f"{grown} in {year}, again from {year + rotation}"
    return None


def barred(room: Room, index: int, crop: Crop, planted: int) -> str | None:
    """Say what of a crop's family was pulled as sick from a bed by a day, or return None.

    Parameters
    ----------
    room
        The beds.
    index
        Number of the bed.
    crop
        What is to be planted.
    planted
        Its planting day. [ordinal]
    """
    found = room.sick.get((index, family_key(crop.family))) if room.sick else None
    if found is None or found.on.toordinal() > planted:
        return None
    return f"{found.wave} was pulled there as sick on {short_day(found.on)}"


class Closings:
    """What rotation closes in the beds of a plan."""

    def __init__(self, room: Room, season: int) -> None:
        self._room, self._season = room, season
        self._grew: dict[tuple[int, str, int], str | None] = {}
        """What earlier years have against a family in a bed, by its rotation."""

    def closed(
        self, index: int, crop: Crop, *, series: str, planted: int, pulled: int | None = None
    ) -> str | None:
        """Say why a bed is closed to a series of a crop on a day, or return None.

        Parameters
        ----------
        index
            Number of the bed.
        crop, series
            What is to be planted.
        planted, pulled
            As in `too_soon`. [ordinal]
        """
        if self._room.sick and (sick := barred(self._room, index, crop, planted)):
            return sick
        if not crop.rotation:
            return None
        family = family_key(crop.family)
        if self._room.beds[index].grew:
            grew = self._by_earlier_years(index, family, crop.rotation)
            if grew is not None:
                return grew
        kin = self._room.kin(index, family)
        return _stood(kin, family, series=series, planted=planted, pulled=pulled) if kin else None

    def _by_earlier_years(self, index: int, family: str, rotation: int) -> str | None:
        key = (index, family, rotation)
        if key not in self._grew:
            bed = self._room.beds[index]
            self._grew[key] = grew_too_lately(bed, family, rotation, season=self._season)
        return self._grew[key]
