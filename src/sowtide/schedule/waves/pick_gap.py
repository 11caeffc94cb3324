"""What heat does to a wave: above all, in flower, a gap in what there is to pick weeks later."""

from __future__ import annotations

from datetime import date, timedelta
from enum import Enum
from typing import TYPE_CHECKING

from sowtide.climate.answers import EndedBy, Need, Outlook
from sowtide.climate.questions import Climate
from sowtide.days import DateSpan
from sowtide.reasons import Dated
from sowtide.values import value

if TYPE_CHECKING:  # only where temperatures are known
    from sowtide.climate.warmth import FruitGap

_USUAL = 0.5
"""Share of the years from which on a gap is as the plan has it. [0–1]"""


class HeatHarm(Enum):
    """What heat does to a wave that is too hot."""

    PICKED_IN_IT = "first picked in the hot weeks"
    DROPS_FLOWERS = "drops its flowers"
    SPOILS_SEED = "too warm for its seed"
    SPOILS_ROOT = "too warm for its root to grow well"


@value
class PickGap:
    """Weeks with nothing to pick, since heat kept the flowers from setting fruit."""

    flowers: FruitGap
    """The days on which flowers set none, in the middle of the years that have any."""
    picks: DateSpan
    """The days on which their fruit would be picked, of those on which the wave could be."""

    @property
    def is_usual(self) -> bool:
        """Whether half of the years or more have it."""
        return self.flowers.share >= _USUAL


def pick_gap_of(planted: date, need: Need, outlook: Outlook, climate: Climate) -> PickGap | None:
    """Return the gap that heat makes in the picking of a wave; None where it makes none.

    Flowers count from those of the early first pick to those of the last pick before frost,
    whatever heat has left of them.
    """
    heat = need.fruit_set
    if heat is None:
        return None
    days = timedelta(days=heat.ripens)
    early, late = (_ripe(each) for each in outlook.first_pick)
    end = outlook.end
    if outlook.ended_by is EndedBy.HEAT:
        end = climate.waves.frost_end(need)
    last = late + timedelta(days=need.picking - 1)
    if end is not None:
        last = min(last, end.day - timedelta(days=1))
    opens, closes = max(early - days, planted), last - days
    if closes < opens:
        return None
    gap = climate.weather.fruit_gap(DateSpan(opens, closes), high=heat.high, low=heat.low)
    if gap is None:
        return None
    return PickGap(gap, DateSpan(gap.first + days, gap.last + days))


def _ripe(first_pick: Dated) -> date:
    """The first pick without what heat on its flowers holds it back by."""
    waits = sum(step.days for step in first_pick.steps if step.rule == "fruit-set")
    return first_pick.day - timedelta(days=waits)
