"""What each recorded frost does to a wave whose growth is the same in every year."""

from __future__ import annotations

from datetime import date

from sowtide.climate.answers import EndedBy, Need, YearTold
from sowtide.climate.fate import Fate, picking_left
from sowtide.climate.frost_record.frost_years import FrostYears, YearsFrost
from sowtide.climate.medians import NEVER
from sowtide.days import GrowingYear


def told_by_frost(
    fate: Fate, need: Need, frosts: FrostYears, year: GrowingYear, *, planted: int
) -> tuple[YearTold, ...]:
    """Return what the first frost of each recorded autumn does to a wave, in order.

    Parameters
    ----------
    fate
        Its first picks in the growing year planned.
    need
        What it needs.
    frosts
        Those at the temperature that kills it.
    year
        The growing year planned.
    planted
        Its planting day, as an ordinal.
    """
    lasts = {
        each.season: each.day
        for each in frosts.spring.years
        if each.day is not None and year.holding(each.day).season == each.season
    }
    shown = NEVER if need.shows is None else planted + need.shows
    return tuple(
        _killed(each.season, last)
        if (last := lasts.get(each.season)) is not None
        and year.like(last, year.season).toordinal() > shown
        else _told(fate, need, each, year)
        for each in frosts.autumn.years
    )


def _killed(season: int, frost: date) -> YearTold:
    """Return a year whose last frost of spring kills it."""
    return YearTold(
        season=season,
        first_pick=(None, None),
        end=frost,
        ended_by=EndedBy.FROST,
        picking_days=0.0,
        worth=0.0,
    )


def _told(fate: Fate, need: Need, autumn: YearsFrost, year: GrowingYear) -> YearTold:
    frost = NEVER
    if autumn.day is not None:
        later = year.holding(autumn.day).season - autumn.season
        like = year.like(autumn.day, year.season + later)
        frost = like.toordinal() + need.after_frost_days
    seeds = NEVER if need.seeds is None else need.seeds.day.toordinal()
    frost_ends, frost = frost, min(frost, seeds)
    hot = NEVER if fate.hot_end is None else fate.hot_end
    end = min(frost, hot)
    worth = sum(pick + need.before_frost - 1 < frost for pick in fate.worthwhile(need))

    def own(day: int) -> date | None:
        """The like of a planned day in the recorded year; None where the end comes first."""
        if day >= NEVER:
            return None
        planned = date.fromordinal(day)
        return year.like(planned, autumn.season + year.holding(planned).season - year.season)

    picks = tuple(fate.first_fruit(max(each, fate.waits)) for each in (fate.early, fate.late))
    return YearTold(
        season=autumn.season,
        first_pick=(
            own(picks[0]) if picks[0] < end else None,
            own(picks[1]) if picks[1] < end else None,
        ),
        end=own(end),
        ended_by=None if end >= NEVER else _ended_by(hot, frost_ends, seeds),
        picking_days=picking_left(fate, need, frost, 0)[0] / fate.count,
        worth=worth / fate.count,
    )


def _ended_by(hot: int, frost: int, seeds: int) -> EndedBy:
    """What comes first."""
    if hot < min(frost, seeds):
        return EndedBy.HEAT
    return EndedBy.SEED if seeds < frost else EndedBy.FROST
