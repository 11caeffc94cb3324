"""Why no more is planted for a week that still lacks something, and the gaps that stay."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from datetime import date, timedelta
from itertools import groupby
from operator import itemgetter

from sowtide.days import DateSpan
from sowtide.schedule.filling.chosen import Chosen
from sowtide.schedule.filling.plantings import ToFill
from sowtide.schedule.season import Season
from sowtide.schedule.supply import CropSupply, Shortage, Why, monday_of_week, shortages_of
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
    """Yield the weeks that still lack something."""
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


def gaps_left(
    after: Season, supply: CropSupply, unfilled: Collection[Unfilled]
) -> Iterator[Shortage]:
    """Yield the gaps of a crop from today on, parted by why no more is planted for their weeks."""
    named = supply.crop.name, supply.asked.unit
    why = {each.week: each.why for each in unfilled if (each.crop, each.unit) == named}
    for gap in shortages_of(after, supply):
        if gap.days.last < after.today:
            continue
        if gap.why not in (Why.TOO_FEW, Why.NOTHING_PLANTED):
            yield gap
            continue
        weeks = (each for each in supply.weeks if each.week in gap.days)
        told = [(why.get(each.week, gap.why), each) for each in weeks]
        for reason, run in groupby(told, itemgetter(0)):
            found = [each for _, each in run]
            yield Shortage(
                days=DateSpan(found[0].week, found[-1].week + timedelta(days=6)),
                wanted=sum(each.want or 0.0 for each in found),
                expected=sum(each.expected for each in found),
                why=reason,
            )
