"""What to look for when: the days on which enough warmth for it has gathered."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from sowtide.climate.answers import Warmth
from sowtide.climate.questions import Climate
from sowtide.garden.model import Watch
from sowtide.values import value

if TYPE_CHECKING:  # only where temperatures are known
    from sowtide.climate.warmth import Reached


@value
class Lookout:
    """Something to look for, and when."""

    watch: Watch
    """What the grower wrote."""
    reached: Reached | None
    """When its warmth has gathered; None where no temperatures are known."""

    def due(self, first: date, last: date) -> bool:
        """Say whether it is to be looked for on some of the days from a first to a last."""
        if self.reached is None or self.reached.early is None:
            return False
        late = self.reached.late
        return self.reached.early <= last and (late is None or first <= late)


def lookout_of(watch: Watch, climate: Climate) -> Lookout:
    """Return when something is to be looked for."""
    total = watch.total
    warmth = Warmth(
        base=watch.base,
        upper=watch.upper,
        method=watch.method,
        low=total,
        high=total,
        parts=1,
        least=1,
    )
    return Lookout(watch, climate.weather.reached(warmth, watch.start))
