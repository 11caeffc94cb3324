"""Closing a space with a cover crop, where nothing that is picked would be safe in it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from typing import TypeAlias

from sowtide.climate.questions import Climate
from sowtide.days import DateSpan, GrowingYear, Half, short_day
from sowtide.garden.library import CoverCrop, cover_crops
from sowtide.garden.model import Bed
from sowtide.schedule.fits.answer import Instead, Way
from sowtide.units import FREEZING

MOST_COVERS = 2

FreeBed: TypeAlias = Callable[[date, date], Bed | None]
"""The bed with most room from a day until another one, or None."""


def sowing_days(cover: CoverCrop, climate: Climate, year: GrowingYear) -> DateSpan:
    """Return the days on which a cover crop may be sown, first and last day included.

    They are counted from the average frosts at 0 °C; where there are none, from the ends of the
    growing year.
    """
    last = climate.frosts.day(Half.SPRING, at=FREEZING, share=0.5)
    first = climate.frosts.day(Half.AUTUMN, at=FREEZING, share=0.5)
    return DateSpan(
        year.first if last is None else last.day + timedelta(days=cover.sow_after_frost),
        year.last if first is None else first.day - timedelta(days=cover.sow_before_frost),
    )


def closing(
    day: date, *, climate: Climate, year: GrowingYear, free_bed: FreeBed
) -> Iterator[Instead]:
    """Yield the cover crops to close a space with on a day, the most pressing first.

    A cover crop that is dug in within the season needs its room for so long, one that stands over
    the winter until the growing year ends.

    Parameters
    ----------
    day
        When it would be sown.
    climate, year
        The place and the growing year.
    free_bed
        The bed with most room over a stay.
    """
    found = []
    for cover in cover_crops():
        sown = sowing_days(cover, climate, year)
        if day in sown:
            found.append((sown.last, cover.name, cover))
    yielded = 0
    for latest, _, cover in sorted(found, key=lambda each: each[:2]):
        dug_in = day + timedelta(days=cover.days_to_dig_in.low)
        bed = free_bed(day, min(dug_in, year.last))
        if bed is not None and yielded < MOST_COVERS:
            yielded += 1
            yield Instead(Way.COVER_CROP, _words(cover, bed, day, latest), day, None)


def _words(cover: CoverCrop, bed: Bed, day: date, latest: date) -> str:
    winter = "frost kills it" if cover.winter_kills else "it stands the winter"
    rest = cover.rest_days
    return (
        f"close the space in {bed.name} with {cover.name}, sown on {short_day(day)} (till "
        f"{short_day(latest)} at the latest): {winter}; dig it in {cover.dig_in_when}, "
        f"{rest.low} to {rest.high} days before the next sowing"
    )
