"""A season filled for its wants: what is planted stays, and what is added is named as entries."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from datetime import date

from sowtide.days import MONTHS
from sowtide.diagnostics import Span
from sowtide.garden.model import Bed, Entry
from sowtide.progress import Progress, unwatched
from sowtide.schedule.filling.choosing import ONE_BY_ONE, Rounds, choose
from sowtide.schedule.filling.chosen import Chosen
from sowtide.schedule.filling.free_beds import FreeBeds
from sowtide.schedule.filling.plantings import PlantingOption, ToFill, options_for, to_fill
from sowtide.schedule.filling.why_unfilled import Unfilled, unfilled_weeks
from sowtide.schedule.planning import planned
from sowtide.schedule.season import Season
from sowtide.schedule.supply import CropSupply
from sowtide.values import value

_ROUNDS = 80_000
"""How often it is chosen again in parts, times wants times beds that are planted. [1]"""
_TOGETHER = 3
"""From so many beds on; of fewer there is less to choose. [1]"""
_FEW_WANTS = 8
"""Of fewer wants than these it is not chosen again more often. [1]"""
_AT_ONCE, _AT_MOST = 480_000, 20_000
"""How often where many beds come in at once, times wants times beds; times wants at most. [1]"""
_FIRST = 5.0
"""An unmet week of a want that is first counts for so many of others; sowtide's own choice. [1]"""
_ONCE = 4.0
"""What is wanted once, to preserve, counts for so many weeks: it is eaten later; our own. [1]"""
_EACH = 160
"""No more rounds for each planting that is possible: of a few all ways are soon tried. [1]"""


@value
class Filled:
    """What is to be added for the wants of a season."""

    entries: tuple[Entry, ...]
    """The entries to add, in order of planting day."""
    after: Season
    """The season with them."""
    unfilled: tuple[Unfilled, ...]
    """The weeks that still lack something, from today on, and why no more is planted for them."""


def filled(
    season: Season,
    supplies: Collection[CropSupply],
    *,
    crops: Collection[str] | None = None,
    progress: Progress = unwatched,
) -> Filled:
    """Fill the room of a season for what it lacks; what is wanted first counts for more.

    Parameters
    ----------
    season
        The season.
    supplies
        What its crops bring in.
    crops
        Names of the crops to fill for; None: all that are wanted.
    progress
        Told how far it has come.
    """
    wanted = [
        each for each in supplies if each.asked.wants and (crops is None or each.crop.name in crops)
    ]
    fills = [to_fill(season, each) for each in wanted]
    chosen = _chosen(season, fills, progress)
    beds = season.garden.beds
    found = [
        (chosen.options[each.option], beds[each.bed], each.plants) for each in chosen.choices()
    ]
    found.sort(key=lambda each: (each[0].first, each[0].crop.name, each[1].name))
    entries = _entries(season, found)
    garden = replace(season.garden, entries=(*season.garden.entries, *entries))
    after = planned(garden, season.conditions, season.today, season.accounts)
    return Filled(entries, after, tuple(unfilled_weeks(chosen, fills)))


def _chosen(season: Season, fills: list[ToFill], progress: Progress) -> Chosen:
    options = [
        option for number, fill in enumerate(fills) for option in options_for(season, number, fill)
    ]
    lacking = [fill.lacking for fill in fills]
    rounds = rounds_for(options, wants=len(fills))
    counts = [_counts(each) for each in fills]
    return choose(
        options, FreeBeds(season), lacking, counts=counts, rounds=rounds, progress=progress
    )


def _counts(fill: ToFill) -> float:
    """Return how much more an unmet week of it counts than one of other wants. [1]"""
    asked = fill.supply.asked
    first = _FIRST if asked.is_first else 1.0
    return first * (_ONCE if all(want.every is None for want in asked.wants) else 1.0)


def rounds_for(options: Collection[PlantingOption], *, wants: int) -> Rounds:
    """Return how often so many beds are chosen again in parts: the more, the less often. [1]"""
    of_all, most = _ROUNDS // max(wants, _FEW_WANTS), _EACH * len(options)

    def rounds(beds: int) -> int:
        if beds > ONE_BY_ONE:
            return max(min(_AT_MOST, _AT_ONCE // beds) // max(wants, 1), 4)
        return min(of_all * beds // max(beds, _TOGETHER) ** 2, most)

    return rounds


def _entries(season: Season, found: list[tuple[PlantingOption, Bed, int]]) -> tuple[Entry, ...]:
    taken = {entry.name.casefold() for entry in season.garden.entries}
    taken |= {wave.id.casefold() for wave in season.waves}
    made = []
    for option, bed, plants in found:
        day = date.fromordinal(option.first)
        name = _name(option.crop.name, day, taken)
        taken.add(name.casefold())
        made.append(
            Entry(
                name=name,
                crop=option.crop,
                raised=option.raised,
                plants=plants,
                start=day,
                every=None,
                until=None,
                count=None,
                beds=(bed,),
                beds_named=True,
                split=True,
                span=Span(season.garden.label, 1),
            )
        )
    return tuple(made)


def _name(crop: str, day: date, taken: set[str]) -> str:
    """Return a name that no other series has: the crop's, with the day it is planted."""
    stem = "-".join("".join(c if c.isalnum() else " " for c in crop).split())
    name = plain = f"{stem}-{day.day}-{MONTHS[day.month - 1]}"
    for letter in "bcdefghijklmnopqrstuvwxyz":
        if name.casefold() not in taken:
            return name
        name = f"{plain}-{letter}"
    return f"{plain}-{len(taken)}x"
