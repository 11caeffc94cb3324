"""What waves bring in week by week, in every year that is known or stands for the odds.

The years are followed whole: a year that is warm for one wave is warm for the others, so the share
of the years in which several together bring in enough is counted, never multiplied.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date

from sowtide.climate.fate import Bearing, Borne, Lost
from sowtide.garden.crop import Crop
from sowtide.reasons import OURS, Dated
from sowtide.schedule.season import Season
from sowtide.schedule.sowing import ToSeed
from sowtide.schedule.supply.shape import borne_before
from sowtide.schedule.waves import Judged, Prospects, Wave, picked_out
from sowtide.values import value

_WINTER_PARTS = 5
"""Parts of the first picks of a wave that stands over the winter. [1]"""


def week_of(day: date) -> int:
    """Return the number of a day's week; weeks begin on Mondays."""
    return (day.toordinal() - 1) // 7


def monday_of_week(week: int) -> date:
    """Return the Monday of a week by its number."""
    return date.fromordinal(week * 7 + 1)


@value
class Bearer:
    """A planting that bears: on its days, in each year."""

    planted: date
    """The day that the days of `borne` are counted from."""
    days: int
    """How many days its harvest is spread over. [days]"""
    usual: int
    """How many of them are its usual picking days: on the others it stands over the winter."""
    at_once: bool
    """Whether it is cut once."""
    borne: tuple[Borne, ...] | None
    """When it bears, year by year; None where every year is alike, as `always` says."""
    always: tuple[Bearing, ...] = ()
    """The parts of a planting that bears alike in all years."""


class Weeks:
    """What plantings bring in, by week, in one year of one part of their range after another.

    Parameters
    ----------
    bearers
        The plantings of a crop, each with what it brings in all in all. [kg or 1]
    """

    def __init__(self, bearers: Iterable[tuple[Bearer, float]]) -> None:
        self._bearers = tuple(bearers)
        known = [each.borne for each, _ in self._bearers if each.borne is not None]
        of_years = [{one.season: one for one in borne} for borne in known]
        self.seasons = sorted(set(of_years[0]).intersection(*of_years[1:])) if of_years else [0]
        counts = [len(borne[0].parts) for borne in known if borne]
        counts += [len(each.always) for each, _ in self._bearers if each.borne is None]
        self._parts = max(counts, default=1)
        self.by_week: dict[int, list[float]] = {}
        for each, amount in self._bearers:
            self._add(each, amount)

    @property
    def years(self) -> int:
        """How many cases there are: years times parts of the range. [1]"""
        return len(self.seasons) * self._parts

    def of(self, week: int) -> list[float]:
        """Return what a week brings in every case. [kg or 1]"""
        return self.by_week.get(week) or [0.0] * self.years

    def _add(self, each: Bearer, amount: float) -> None:
        shares = borne_before(each.days, at_once=each.at_once, usual=each.usual)
        years = None if each.borne is None else {one.season: one for one in each.borne}
        start, case, parts = each.planted.toordinal(), 0, self._parts
        for season in self.seasons:
            of_year = each.always if years is None else years[season].parts
            lost = () if years is None else years[season].lost
            step = len(of_year) / parts
            for number in range(parts):
                part = int((number + 0.5) * step)
                found = of_year[part]
                gone = lost[part] if lost else ()
                weeks = () if found is None else _with_fruit(found, start, shares, gone)
                for week, share in weeks:
                    column = self.by_week.get(week)
                    if column is None:
                        column = self.by_week[week] = [0.0] * self.years
                    column[case] += share * amount
                case += 1


def _with_fruit(
    found: tuple[int, int, int],
    start: int,
    shares: tuple[float, ...],
    lost: Lost,
) -> Iterator[tuple[int, float]]:
    """Yield what `_by_week` does, between the days on which heat has left no fruit."""
    begins, picked, stop = found
    for first, over in lost:
        until = min(first, stop)  # frost or pulling may come before the heat
        if picked < until:
            yield from _by_week((begins, picked, until), start, shares)
        picked = max(picked, over)
    if picked < stop:
        yield from _by_week((begins, picked, stop), start, shares)


def _by_week(
    found: tuple[int, int, int], start: int, shares: tuple[float, ...]
) -> Iterator[tuple[int, float]]:
    """Yield the weeks in which a part is picked, with the share of its harvest."""
    begins, picked, stop = found
    at, stop = picked - begins, min(stop - begins, len(shares) - 1)
    day = start + begins
    while at < stop:
        week = (day + at - 1) // 7
        beyond = min(week * 7 + 8 - day, stop)
        yield week, shares[beyond] - shares[at]
        at = beyond


def bearer_of(season: Season, wave: Wave) -> Bearer | None:
    """Return when a wave bears, as it was noted where it was; None where it stands nowhere."""
    if not wave.stands:
        return None
    if wave.judged.odds is None:
        return _of_winter(season, wave)
    bearer = bearing(season, season.prospects(wave), wave.judged)
    if wave.done is None or bearer.borne is None:
        return bearer
    noted = (replace(one, parts=_as_noted(wave, one.parts, bearer.days)) for one in bearer.borne)
    return replace(bearer, borne=tuple(noted))


def bearing(season: Season, prospects: Prospects, judged: Judged) -> Bearer:
    """Return when a planting bears, as it is planned.

    Parameters
    ----------
    season
        The season.
    prospects
        Those of its crop on its ground.
    judged
        The planting; no wave that stands over the winter.
    """
    crop, stages = prospects.crop, judged.stages
    planted = stages.plant.day
    first = stages.first_pick[0].day if stages.first_pick else planted
    return Bearer(
        planted=planted,
        days=days_of(season, crop, first, to_seed=judged.through_winter),
        usual=crop.picking_days,
        at_once=crop.cut_once,
        borne=season.climate.waves.borne(planted, prospects.need_on(planted)),
    )


def days_of(season: Season, crop: Crop, first: date, *, to_seed: ToSeed | None) -> int:
    """Return over how many days a harvest is spread that begins on a day. [days]

    Parameters
    ----------
    season, crop
        Where, and of what.
    first
        The day.
    to_seed
        When it runs to seed if it stands the winter, or None.
    """
    begins = Dated.on(first, "picking", "first pick", OURS)
    last = picked_out(crop, begins, year=season.garden.year, to_seed=to_seed)
    return (last.day - first).days + 1


def _of_winter(season: Season, wave: Wave) -> Bearer | None:
    """Return when a wave bears that stands over the winter: alike in all years."""
    stages = wave.stages
    if stages.first_pick is None:
        return None
    early, late = ((each.day - stages.plant.day).days for each in stages.first_pick)
    days = days_of(season, wave.crop, stages.first_pick[0].day, to_seed=None)
    always: list[Bearing] = []
    for number in range(_WINTER_PARTS):
        at = early + (late - early) * number // max(_WINTER_PARTS - 1, 1)
        always.append((at, at, at + days))
    parts = _as_noted(wave, tuple(always), days) if wave.done is not None else tuple(always)
    return Bearer(
        planted=stages.plant.day,
        days=days,
        usual=days,
        at_once=wave.crop.cut_once,
        borne=None,
        always=parts,
    )


def _as_noted(wave: Wave, parts: tuple[Bearing, ...], days: int) -> tuple[Bearing, ...]:
    """Return the parts with the first pick and the end that are noted of a wave."""
    done = wave.done
    assert done is not None
    planted, found = wave.stages.plant.day, []
    for part in parts:
        if done.first_pick is not None:
            first = (done.first_pick - planted).days
            stop = first + days
            if part is not None and part[2] < part[0] + days:  # something ends it early
                stop = max(part[2], first + 1)
            part = first, first, stop
        if part is not None and done.pull_out is not None:
            part = part[0], part[1], min(part[2], (done.pull_out - planted).days)
        found.append(part)
    return tuple(found)
