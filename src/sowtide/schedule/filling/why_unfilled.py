"""Why no more is planted for a week that still lacks something."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from sowtide.schedule.filling.chosen import Chosen
from sowtide.schedule.filling.plantings import ToFill
from sowtide.schedule.supply import Why, monday_of_week
from sowtide.values import value

_LITTLE = 1e-6


@value
class Unfilled:
    """A week of a crop that still lacks something, and why."""

    crop: str
    unit: str
    """What its want is of: ``kg``, or what is counted."""
    week: date
    """Its Monday."""
    why: Why


def unfilled_weeks(of: Chosen, fills: Sequence[ToFill]) -> Iterator[Unfilled]:
    """Yield the weeks that still lack something.

    Parameters
    ----------
    of
        What was chosen.
    fills
        What it was chosen for.
    """
    for want, fill in enumerate(fills):
        asked = fill.supply.asked
        for place, number in enumerate(fill.weeks):
            if of.balance[want][place] < -_LITTLE:
                yield Unfilled(
                    asked.crop.name, asked.unit, monday_of_week(number), _why(of, want, place)
                )


def _why(of: Chosen, want: int, place: int) -> Why:
    serving = [
        number
        for number, option in enumerate(of.options)
        if option.want == want and any(each == place for each, _ in option.gives)
    ]
    ground = of.ground
    if not serving or any(
        ground.room(number, bed) >= ground.least[number]
        for number in serving
        for bed in ground.places[number]
    ):
        return Why.NOT_WORTH_IT
    if any(
        ground.bare(number, bed) >= max(ground.least[number], 1)
        for number in serving
        for bed in range(len(of.beds))
    ):
        return Why.ROTATION
    return Why.BEDS_FULL
