"""What to look for when: the days on which enough warmth for it has gathered."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from sowtide.climate.answers import Warmth
from sowtide.climate.questions import Climate
from sowtide.diagnostics import Problem, Severity
from sowtide.garden.model import Watch
from sowtide.units import Units, show_degree_days, show_temperature
from sowtide.values import value

if TYPE_CHECKING:  # only where temperatures are known
    from sowtide.climate.warmth import Reached


@value
class Lookout:
    """Something to look for, and when.

    Parameters
    ----------
    watch
        What the grower wrote.
    reached
        When its warmth has gathered; None where no temperatures are known.
    """

    watch: Watch
    reached: Reached | None

    def due(self, first: date, last: date) -> bool:
        """Say whether it is to be looked for on some of the days from a first to a last."""
        if self.reached is None or self.reached.early is None:
            return False
        late = self.reached.late
        return self.reached.early <= last and (late is None or first <= late)


def lookout_of(watch: Watch, climate: Climate) -> Lookout:
    """Return when something is to be looked for."""
    total = watch.total
    warmth = Warmth(watch.base, watch.upper, watch.method, total, total, 1, 1)
    return Lookout(watch, climate.reached(warmth, watch.start))


def warmth_of(watch: Watch, units: Units) -> str:
    """Say the warmth at which it is looked for: ``1,000 °F·d above 50 °F``."""
    return f"{show_degree_days(watch.total, units)} above {show_temperature(watch.base, units)}"


def never_due(lookout: Lookout, units: Units) -> Iterator[Problem]:
    """Say why there is no day to look for it, where there is none."""
    what, reached = lookout.watch.look_for, lookout.reached
    if reached is None:
        yield Problem(
            Severity.NOTE,
            "watch-unknown",
            f"nobody can say when to look for {what}: no temperatures are known here",
            "name a record of daily temperatures, or write the monthly normals",
            lookout.watch.span,
        )
    elif reached.day is None:
        yield Problem(
            Severity.NOTE,
            "watch-never",
            f"{what}: in most years less than {warmth_of(lookout.watch, units)} gathers here",
            "are base and total in the units of the site?",
            lookout.watch.span,
        )
