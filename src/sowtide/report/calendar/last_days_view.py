"""The last days to plant each crop, at three odds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.report.blocks import together
from sowtide.report.kinds import Share
from sowtide.report.kit import words
from sowtide.schedule.season import Season
from sowtide.schedule.waves import last_days
from sowtide.units import show_temperature_difference
from sowtide.values import value

EVEN, LATE = 0.5, 0.2
_SURE_WHERE_DAYS_ARE_COUNTED = 0.8
"""What "sure" means in the table where the grower counts days instead. [0–1]"""

_MOST_BEDS = 3
"""Beds named before they are only counted. [1]"""

_SURELY = 0.995
"""Odds that are said to be certain. [0–1]"""


@value
class CropLastDays:
    """The last days to plant a crop, one for each of the odds, and the last to sow it in trays.

    `ground` says which ground they are for, where it is not the open ground of the site.
    """

    crop: str
    raised: Raised
    days: tuple[date | None, ...]
    sow_by: date | None
    ground: str | None


@value
class LastDays:
    """The last days of every crop at some odds, and the crops that no frost ends."""

    odds: tuple[Share, ...]
    crops: tuple[CropLastDays, ...]
    endless: tuple[str, ...]


@value
class _Grown:
    """A crop as it is grown: how it is raised, and the beds whose ground its days are for.

    No beds stand for the open ground of the site.
    """

    crop: Crop
    raised: Raised
    beds: tuple[Bed, ...]

    @property
    def colder_by(self) -> float:
        """How much colder its ground is than the site. [°C]"""
        return self.beds[0].colder_than_site if self.beds else 0.0


def shares_of(season: Season) -> tuple[float, ...]:
    """Return the odds that the last days are for, the surest first. [0–1]"""
    sure = season.garden.site.sure.share or _SURE_WHERE_DAYS_ARE_COUNTED
    return tuple(sorted({sure, EVEN, LATE}, reverse=True))


def last_days_of(season: Season, shares: tuple[float, ...]) -> LastDays:
    """Return the last days to plant each crop.

    What stands over the winter has no such day, and what no frost ends is only named. A crop whose
    waves all stand on one kind of ground has the days of that ground.
    """
    year = season.garden.year
    rows: list[CropLastDays] = []
    endless: list[str] = []
    for grown in _grown(season):
        days = last_days(
            season.conditions,
            grown.crop,
            grown.raised,
            shares=shares,
            colder_by=grown.colder_by,
        )
        if all(day == year.last for day in days) and _is_sure(grown, season):
            endless.append(grown.crop.name)
        elif any(days):
            ground = _ground(grown, season) if grown.beds else None
            sow_by = _sow_by(grown, days[0])
            rows.append(
                CropLastDays(
                    crop=grown.crop.name,
                    raised=grown.raised,
                    days=tuple(days),
                    sow_by=sow_by,
                    ground=ground,
                )
            )
    return LastDays(shares, tuple(rows), tuple(endless))


def _is_sure(grown: _Grown, season: Season) -> bool:
    """Whether nothing ends what is planted on any of the last safe days, looked at every week.

    Where winter is mild and the year ends in it, sowing goes on, though some frosts take flowers.
    """
    prospects = season.conditions.prospects(grown.crop, grown.raised, colder_by=grown.colder_by)
    last = prospects.windows[-1] if prospects.windows else None
    if last is None:
        return True
    days = (last.first + timedelta(weeks=week) for week in range(last.length // 7 + 1))
    return all(prospects.promise(day)[0] >= _SURELY for day in days)


def _sow_by(grown: _Grown, last: date | None) -> date | None:
    """Return the last day to sow in trays for a last safe day to plant out."""
    nursery = grown.crop.nursery_days
    if last is None or nursery is None or grown.raised is not Raised.TRAYS:
        return None
    return last - timedelta(days=nursery.low)


def _grown(season: Season) -> Iterator[_Grown]:
    """Yield each crop that frost can end and the way it is raised once, in the file's order."""
    beds: dict[tuple[str, Raised], dict[str, Bed]] = {}
    for wave in season.waves:
        here = beds.setdefault((wave.crop.name, wave.entry.raised), {})
        here.update((stand.bed.name, stand.bed) for stand in wave.stands)
    for entry in season.garden.entries:  # without room anywhere the beds it may go to count
        here = beds.setdefault((entry.crop.name, entry.raised), {})
        here.update((bed.name, bed) for bed in (() if here else entry.beds))
    seen: set[tuple[str, Raised]] = set()
    for entry in season.garden.entries:
        key = (entry.crop.name, entry.raised)
        if key not in seen and not entry.crop.overwinters:
            seen.add(key)
            yield _Grown(entry.crop, entry.raised, _one_ground(beds.get(key, {}).values()))


def _one_ground(beds: Iterable[Bed]) -> tuple[Bed, ...]:
    """Return beds that are all of one kind of ground and not of the open site's; else none."""
    listed = tuple(beds)
    kinds = {bed.colder_than_site for bed in listed}
    return listed if len(kinds) == 1 and kinds != {0.0} else ()


def _ground(grown: _Grown, season: Season) -> str:
    """Say which ground a crop's days are for."""
    beds = grown.beds
    if len(beds) <= _MOST_BEDS:
        where = words.listed(together(bed.name) for bed in beds)
    else:
        where = f"its {words.count(len(beds), 'bed')}"
    by = show_temperature_difference(abs(grown.colder_by), season.garden.site.units)
    if grown.colder_by > 0:
        return f"as in {where}, {together(by)} colder than the site"
    return f"under cover, as in {where}, {together(by)} warmer than the site"
