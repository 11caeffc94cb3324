"""Seed is sown direct into soil that is likely too warm or too cold for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sowtide.days import short_day, short_span
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown, Placed
from sowtide.schedule.checks import Said, SeriesRule, named
from sowtide.schedule.waves import Conditions, Doubt, doubt_of, seed_in_doubt
from sowtide.units import Units


def _check(grown: Grown, conditions: Conditions) -> Iterator[Said]:
    found = [(each, _doubt(each, conditions)) for each in grown.waves]
    doubted = [(each, doubt) for each, doubt in found if doubt is not None]
    for warm in (False, True):
        alike = [each for each in doubted if each[1].too_warm is warm]
        if alike:
            yield _said(alike, conditions.site.units, warm=warm)


def _said(doubted: Sequence[tuple[Placed, Doubt]], units: Units, *, warm: bool) -> Said:
    """Say it once of waves whose soil is too warm, or of those whose soil is too cold."""
    waves = [each for each, _ in doubted]
    days = [each.planting.planted.day for each in waves]
    worst, doubt = max(doubted, key=lambda each: each[1].soil.about * (1 if warm else -1))
    sown, likely = f"is sown on {short_day(days[0])}", "likely"
    if len(waves) > 1:
        sown = f"are sown {short_span(days[0], days[-1])}"
    if len({each.soil for _, each in doubted}) > 1:
        likely = f"likely, on {short_day(worst.planting.planted.day)},"
    words = seed_in_doubt(worst.planting.entry.crop, doubt, units)
    return Said(
        f"{named(waves)} {sown} into soil that is {likely} {words}",
        "sow in the evening into wet soil and shade it, or raise it in trays in a cool place"
        if warm
        else "wait for warmer soil, or raise it in trays",
        waves[0],
    )


def _doubt(placed: Placed, conditions: Conditions) -> Doubt | None:
    planting = placed.planting
    return doubt_of(
        planting.entry.crop, planting.entry.raised, planting.planted.day, conditions.climate
    )


RULE = SeriesRule("poor-germination", Severity.WARNING, _check)
