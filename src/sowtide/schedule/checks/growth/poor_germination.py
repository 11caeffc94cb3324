"""Seed is sown direct into soil that is likely too warm or too cold for it."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown, Placed
from sowtide.schedule.checks import Said, SeriesRule, named
from sowtide.schedule.waves import Conditions, Doubt, doubt_of, seed_in_doubt


def _check(grown: Grown, conditions: Conditions) -> Iterator[Said]:
    found = [(each, _doubt(each, conditions)) for each in grown.waves]
    waves = [each for each, doubted in found if doubted is not None]
    if not waves:
        return
    first = next(doubted for _, doubted in found if doubted is not None)
    days = [short_day(each.planting.planted.day) for each in (waves[0], waves[-1])]
    sown = f"is sown on {days[0]}" if len(waves) == 1 else f"are sown from {days[0]} to {days[1]}"
    words = seed_in_doubt(waves[0].planting.entry.crop, first, conditions.site.units)
    yield Said(
        f"{named(waves)} {sown} into soil that is likely {words}",
        "sow in the evening into wet soil and shade it, or raise it in trays in a cool place"
        if first.too_warm
        else "wait for warmer soil, or raise it in trays",
        waves[0],
    )


def _doubt(placed: Placed, conditions: Conditions) -> Doubt | None:
    planting = placed.planting
    return doubt_of(
        planting.entry.crop, planting.entry.raised, planting.planted.day, conditions.climate
    )


RULE = SeriesRule("poor-germination", Severity.WARNING, _check)
