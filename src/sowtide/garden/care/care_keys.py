"""The keys of a routine of care, and of the label of its material."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sowtide.garden import readers
from sowtide.garden.care import care_readers as care
from sowtide.garden.care.routine import Against, Every, Made, OnDemand, Rate, TimeOfDay, Work
from sowtide.garden.keys import Each, Keyed, Leaf, Within, may, must
from sowtide.values import value

_days = readers.whole(0, readers.LONGEST)


@value
class LabelKeys:
    """What the grower copied from the label of a material."""

    crops: tuple[str, ...] | None = may(Each(readers.text))
    days_before_harvest: int | None = may(_days)
    hours_before_entry: int | None = may(readers.whole(0, 24 * 60))
    most: int | None = may(readers.whole(0, 366))
    days_apart: int | None = may(readers.whole(0, 366))
    not_within: Mapping[str, int] | None = may(Keyed(readers.text, Leaf(readers.whole(0, 366))))
    hottest: care.DegreesWritten | None = may(care.degrees)
    in_a_row: int | None = may(readers.whole(1, 366))
    not_in_flower: bool = may(readers.yes_no, False)
    together_with: tuple[str, ...] | None = may(Each(readers.text))


@value
class CareKeys:
    """A routine of care."""

    name: str = must(readers.text, "name: dry feed")
    do: tuple[Work, str] = must(care.work, "do: feed")
    on: tuple[str, ...] = must(Each(readers.text), "on: [cucumber], or on: everything")
    start: Any = may(care.moment, key="from")
    on_demand: OnDemand | None = may(readers.choice(OnDemand))
    every: Every | None = may(care.every)
    until: Any = may(care.moment)
    time: TimeOfDay | None = may(readers.choice(TimeOfDay))
    amount: care.MixWritten | None = may(care.rate)
    mix: Rate | None = may(care.mix)
    package_rate: Rate | None = may(care.package)
    weighs: float | None = may(care.density)
    analysis: tuple[float, float, float] | None = may(care.analysis)
    made_of: Made | None = may(readers.choice(Made))
    touches_soil: bool = may(readers.yes_no, True)
    minutes: care.MinutesWritten | None = may(care.minutes)
    against: Against | None = may(readers.choice(Against))
    group: str | None = may(care.group)
    keep_dry: int = may(care.drying, 0)
    overhead: bool = may(readers.yes_no, False)
    label: LabelKeys | None = may(Within(LabelKeys))
