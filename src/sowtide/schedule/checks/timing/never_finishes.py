"""Frost or heat ends a wave, in half of the years, before anything can be picked."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.climate.answers import EndedBy
from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.garden.crop import AfterFrost
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.checks.timing.late import last_safe
from sowtide.schedule.waves import Conditions, HeatHarm


def _check(placed: Placed, conditions: Conditions) -> Iterator[Said]:
    judged = placed.judged
    if judged.verdict is None or judged.stages.first_pick is not None:
        return
    stands = placed.planting.entry.crop.after_frost is AfterFrost.STANDS
    end = "frost ends it"
    if judged.ended_by is EndedBy.HEAT:
        end = "the heat ends it"
    elif judged.ended_by is EndedBy.SEED:
        end = "it runs to seed"
    elif stands:
        known = conditions.climate.weather.knows_ground
        end = "the ground freezes" if known else "frost stops its growth"
    when = "" if judged.end is None else f" about {short_day(judged.end.day)}"
    why = f"cannot be picked before {end}{when}"
    if judged.ended_by is EndedBy.TOO_COOL:
        why = "does not get warm enough to ripen"
    if judged.heat is HeatHarm.DROPS_FLOWERS:
        why = "flowers in heat that sets no fruit: there is nothing to pick"
    planted = f"{placed.planting.id}, planted on {short_day(placed.planting.planted.day)},"
    yield Said(
        f"{planted} {why}",
        last_safe(judged) or "no day of this growing year is safe for it here",
        about=planted,
    )


RULE = WaveRule("never-finishes", Severity.ERROR, _check)
