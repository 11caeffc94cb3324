"""The week's frost risk, where no forecast is known: what is tender, where, and the odds."""

from __future__ import annotations

from datetime import timedelta

from sowtide.days import Half
from sowtide.garden.crop import Hardiness
from sowtide.report.kinds import Share
from sowtide.schedule.season import Season
from sowtide.schedule.work import WeekSheet
from sowtide.values import value

_AHEAD = timedelta(days=14)
_EARLY = 0.2
_IN_A_HOLLOW = 3.0
"""How much colder than the site a bed may be for its frost to be told in time. [°C]"""


@value
class FrostRisk:
    """Tender waves that stand in a week, their beds, and how often frost ends them in it."""

    waves: tuple[str, ...]
    beds: tuple[str, ...]
    odds: Share


def risk_of(sheet: WeekSheet, season: Season) -> FrostRisk | None:
    """Return what frost may end in a week, from two weeks before its 20 % day on."""
    at = Hardiness.VERY_TENDER.killed_at + season.garden.site.colder_by + _IN_A_HOLLOW
    if sheet.first < season.garden.year.midsummer:
        return None
    if season.climate.frosts.odds(Half.AUTUMN, sheet.first + _AHEAD, at=at) < _EARLY:
        return None
    from sowtide.schedule.tonight import at_risk

    found = at_risk(season, sheet.first, sheet.last)
    return None if found is None else FrostRisk(found.waves, found.beds, float(found.odds))
