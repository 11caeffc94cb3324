"""What is to be thought of a planting: too early, too hot, safe, chancy or too late."""

from __future__ import annotations

from sowtide.climate.answers import Chances
from sowtide.garden.site import Sure
from sowtide.schedule.waves.wave import Verdict
from sowtide.units import ROUNDING_OF_SUMS

EVEN_ODDS = 0.5


def verdict_of(chances: Chances, *, early: bool, sure: Sure) -> Verdict:
    """Return the first verdict that holds.

    Parameters
    ----------
    chances
        Odds and margins of the planting.
    early
        Whether its day lies before the earliest planting day.
    sure
        What the grower calls safe: a share of years, or days before the average frost.
    """
    if early:
        return Verdict.TOO_EARLY
    if chances.too_hot:
        return Verdict.TOO_HOT
    safe = Verdict.SAFE_FROM_FROST if chances.by_frost_alone else Verdict.SAFE
    if sure.days is None:
        assert sure.share is not None  # one of the two is set
        if chances.odds >= sure.share - ROUNDING_OF_SUMS:
            return safe
        return Verdict.CHANCY if chances.odds >= EVEN_ODDS - ROUNDING_OF_SUMS else Verdict.TOO_LATE
    if _by_days(chances, sure.days):
        return safe
    return Verdict.CHANCY if _by_days(chances, 0) else Verdict.TOO_LATE


def _by_days(chances: Chances, days: int) -> bool:
    """Whether the last worthwhile pick lies so many days before frost, and before the heat."""
    holds = chances.margin is None or chances.margin >= days
    return holds and (chances.heat_margin is None or chances.heat_margin >= 0)
