"""What is to be thought of a planting, as pages say it."""

from __future__ import annotations

from datetime import date

from sowtide.climate.answers import EndedBy
from sowtide.garden.crop import Crop
from sowtide.reasons import Dated
from sowtide.report.kinds import Mean, Share, Unsaid
from sowtide.schedule.waves import Judged, Verdict
from sowtide.values import value

SPRING_MATTERS = 0.05
"""Share of years killed by a frost of spring from which on it is said: ours. [0–1]"""


@value
class Judgement:
    """A planting's odds, picks and end."""

    verdict: Verdict | None
    """None for one that stands over the winter."""
    odds: Share | None
    odds_of_nothing: Share | None
    """Shares of years with the worthwhile days, and without any pick; None over the winter.
    [0–1]"""
    expected_picking_days: Mean | None
    """Mean over the years; None over the winter. [days]"""
    years: int | None
    """How many recorded years the odds are of; None where they come from a curve. [years]"""
    first_pick: tuple[date, date] | None
    """Its early and its late day; None where it comes to nothing."""
    last_pick: date | None
    """None where it comes to nothing."""
    end: date | None
    ended_by: EndedBy
    """The day it is ended in half of the years, and what ends it; no day where nothing does."""
    margin: int | None
    """From its last worthwhile pick to the average frost that ends it; None without any. [days]"""
    worthwhile_days: int
    """How many days make it worth growing. [days]"""
    cut_once: bool
    """Whether it is cut once, not picked for days."""
    may_bolt: bool
    """Whether it is picked in a summer nobody knows the heat of."""
    winter_kills: Unsaid[bool]
    """Whether it is not safe, since frosts of a winter that it would stand may end it."""


def judgement_of(judged: Judged, crop: Crop) -> Judgement:
    """Return what pages say of a planting of a crop."""
    first = judged.stages.first_pick
    return Judgement(
        verdict=judged.verdict,
        odds=judged.odds,
        odds_of_nothing=judged.odds_of_nothing,
        expected_picking_days=judged.expected_picking_days,
        years=judged.years,
        first_pick=None if first is None else (first[0].day, first[1].day),
        last_pick=day_of(judged.stages.last_pick),
        end=day_of(judged.end),
        ended_by=judged.ended_by,
        margin=judged.margin,
        worthwhile_days=crop.worthwhile_days,
        cut_once=crop.cut_once,
        may_bolt=judged.may_bolt,
        winter_kills=judged.winter_kills,
    )


def day_of(dated: Dated | None) -> date | None:
    """Return the day alone of a counted one."""
    return None if dated is None else dated.day
