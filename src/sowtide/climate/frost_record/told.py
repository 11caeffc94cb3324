"""What each recorded frost does to a wave whose growth is the same in every year."""

from __future__ import annotations

from datetime import date

from sowtide.climate.answers import EndedBy, Need, YearTold
from sowtide.climate.fate import Fate, picking_left
from sowtide.climate.frost_record.frost_years import FrostYears, YearsFrost
from sowtide.climate.medians import NEVER
from sowtide.days import GrowingYear


def told_by_frost(
    fate: Fate,
    need: Need,
    frosts: FrostYears,
    year: GrowingYear,
    *,
    planted: int,
    leaf: FrostYears | None,
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
    leaf
        The frosts that kill it in leaf, where it stands more before it flowers.
    """
    through = {} if leaf is None else _flowers_after(frosts, leaf, need, year)
    lasts = _lasts_of_spring(frosts, year)
    shown = NEVER if need.shows is None else planted + need.shows
    return tuple(
        _killed(each.season, last)
        if (last := lasts.get(each.season)) is not None
        and year.like(last, year.season).toordinal() > shown
        else _told(fate, need, each, year, flowers_after=through.get(each.season, NEVER))
        for each in frosts.autumn.years
    )


def _lasts_of_spring(frosts: FrostYears, year: GrowingYear) -> dict[int, date]:
    """Return the last frost of each recorded spring that had one within its growing year."""
    return {
        each.season: each.day
        for each in frosts.spring.years
        if each.day is not None and year.holding(each.day).season == each.season
    }


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


def _flowers_after(
    frosts: FrostYears, leaf: FrostYears, need: Need, year: GrowingYear
) -> dict[int, int]:
    """Return the first pick of what flowers after the frosts of each winter that it stands in leaf.

    By the growing year before the winter, as ordinals of the planned one and of the year after it.
    """
    assert need.green is not None
    dead = {each.season for each in leaf.autumn.years if each.day is not None}
    found = {}
    for spring in frosts.spring.years:
        if spring.day is None or spring.season - 1 in dead:
            continue
        last = year.like(
            spring.day, year.season + 1 + year.holding(spring.day).season - spring.season
        )
        found[spring.season - 1] = last.toordinal() + need.green.ripens + 1
    return found


def _told(
    fate: Fate, need: Need, autumn: YearsFrost, year: GrowingYear, *, flowers_after: int
) -> YearTold:
    frost = _first_of(autumn, need, year)
    seeds = NEVER if need.seeds is None else need.seeds.day.toordinal()
    frost_ends, frost = frost, min(frost, seeds)
    hot = NEVER if fate.hot_end is None else fate.hot_end

    def ends(pick: int) -> int:
        return NEVER if pick >= flowers_after else frost

    if fate.late >= flowers_after:
        frost_ends = NEVER
    end = min(ends(fate.late), hot)
    worth = sum(pick + need.before_frost - 1 < ends(pick) for pick in fate.worthwhile(need))
    after = [pick for pick in fate.first_picks(need) if pick >= flowers_after > frost]
    days = picking_left(fate, need, frost, 0)[0] + len(after) * need.picking

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
        picking_days=days / fate.count,
        worth=worth / fate.count,
    )


def _first_of(autumn: YearsFrost, need: Need, year: GrowingYear) -> int:
    """The end that an autumn's first frost makes, laid in the planned year; `NEVER` for none."""
    if autumn.day is None:
        return NEVER
    later = year.holding(autumn.day).season - autumn.season
    like = year.like(autumn.day, year.season + later)
    return like.toordinal() + need.after_frost_days


def _ended_by(hot: int, frost: int, seeds: int) -> EndedBy:
    """What comes first."""
    if hot < min(frost, seeds):
        return EndedBy.HEAT
    return EndedBy.SEED if seeds < frost else EndedBy.FROST
