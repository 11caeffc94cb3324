"""The risk of a week without a forecast: what is tender, where, and how often frost ends it."""

from __future__ import annotations

from datetime import date, timedelta

from sowtide.days import Half
from sowtide.garden.model import Garden
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.units import FREEZING
from sowtide.values import value

_AHEAD = timedelta(days=14)
"""How long before the day that sees frost in 20 % of years it is told: sowtide's own. [days]"""
_EARLY = 0.2


@value
class AtRisk:
    """What frost may end in a week."""

    waves: tuple[str, ...]
    beds: tuple[str, ...]
    """Tender waves that stand then, and their beds, in the file's order."""
    odds: float
    """Share of the years in which it still stands that end it in that week; the tenderest's.
    [0–1]"""


def at_risk(season: Season, first: date, last: date) -> AtRisk | None:
    """Return what frost may end from a first day to a last; None while that is far off."""
    garden, frosts = season.garden, season.climate.frosts
    if first < garden.year.midsummer or last > garden.year.last:
        return None
    if frosts.odds(Half.AUTUMN, first + _AHEAD, at=_mildest(garden)) < _EARLY:
        return None
    waves: list[Wave] = []
    worst = 0.0
    for wave in season.waves:
        if not wave.stands or wave.status.is_gone or not wave.crop.hardiness.is_tender:
            continue
        if wave.stages.plant.day > first or wave.stages.pull_out.day <= first:
            continue
        at = season.prospects(wave).need.killed_at
        if frosts.odds(Half.AUTUMN, first + _AHEAD, at=at) < _EARLY:
            continue
        before = frosts.odds(Half.AUTUMN, first, at=at)
        ended = frosts.odds(Half.AUTUMN, last + timedelta(days=1), at=at) - before
        worst = max(worst, ended / (1 - before) if before < 1 else 1.0)
        waves.append(wave)
    if not waves:
        return None
    standing = {stand.bed.name for wave in waves for stand in wave.stands}
    beds = tuple(bed.name for bed in season.garden.beds if bed.name in standing)
    return AtRisk(tuple(wave.id for wave in waves), beds, worst)


def _mildest(garden: Garden) -> float:
    """Return the mildest frost by the site's dates that ends anything in any of the beds. [°C]"""
    killed_at = max((crop.killing_temperature for crop in garden.crops), default=FREEZING)
    colder_by = max((bed.colder_than_site for bed in garden.beds), default=0.0)
    return killed_at + garden.site.colder_by + colder_by
