"""The week's frost risk, where no forecast is known: what is tender, where, and the odds."""

from __future__ import annotations

from sowtide.report.kinds import Share
from sowtide.schedule.at_risk import at_risk
from sowtide.schedule.season import Season
from sowtide.schedule.work import WeekSheet
from sowtide.values import value


@value
class FrostRisk:
    """Tender waves that stand in a week, their beds, and how often frost ends them in it."""

    waves: tuple[str, ...]
    beds: tuple[str, ...]
    odds: Share


def risk_of(sheet: WeekSheet, season: Season) -> FrostRisk | None:
    """Return what frost may end in a week; None while that is far off."""
    found = at_risk(season, sheet.first, sheet.last)
    return None if found is None else FrostRisk(found.waves, found.beds, float(found.odds))
