"""How messages tell of a wave that is planted late."""

from __future__ import annotations

from sowtide.climate.answers import EndedBy
from sowtide.days import short_day
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said
from sowtide.schedule.waves import SURER, Judged
from sowtide.units import years_of_hundred


def late(placed: Placed) -> Said:
    """Say in how many years a wave is worth growing, and the last day that is safe for it."""
    odds = placed.judged.odds
    assert odds is not None  # only waves over the winter have none
    heat = placed.judged.ended_by is EndedBy.HEAT
    cut = "; the heat cuts its picking short" if heat else ""
    planted = f"{placed.planting.id}, planted on {short_day(placed.planting.planted.day)},"
    years = years_of_hundred(odds, of=placed.judged.years or 100)
    if placed.judged.winter_kills:
        return Said(f"{planted} comes through the winter in {years}", SURER, about=planted)
    return Said(
        f"{planted} is worth growing in {years}{cut}", last_safe(placed.judged), about=planted
    )


def last_safe(judged: Judged) -> str | None:
    """Say the last day that is safe, or None where there is none."""
    if judged.last_safe is None:
        return None
    return f"the last safe day to plant it is {short_day(judged.last_safe)}"
