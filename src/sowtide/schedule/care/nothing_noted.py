"""What is told of care where there is no journal: nothing."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from sowtide.garden.care import Routine
from sowtide.schedule.care.care_plan import Plot
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.garden.journal import Happening


@value
class Application:
    """Something that was put on the leaves: the day, and with what if that is said."""

    on: date
    using: str | None


class NothingNoted:
    """Tells nothing of care."""

    __slots__ = ("rain",)

    def __init__(self) -> None:
        self.rain: tuple[tuple[date, float], ...] = ()
        """Rain by day. [mm]"""

    def begun(self, routine: Routine) -> date | None:
        """Return the first day on which a routine is noted anywhere; None where it never is."""
        return None

    def done(self, routine: Routine, plot: Plot) -> tuple[date, ...]:
        """Return the days on which a routine is noted as done to some plants, in order."""
        return ()

    def skipped(self, routine: Routine, plot: Plot) -> tuple[date, ...]:
        """Return the days on which it is noted that a routine was left out."""
        return ()

    def applied(self, plot: Plot) -> tuple[Application, ...]:
        """Return what was put on the leaves of some plants, in order of day."""
        return ()

    def found(self, plot: Plot) -> Happening | None:
        """Return the latest look at some plants, or None."""
        return None

    def wanted_since(self, routine: Routine, plot: Plot) -> date | None:
        """Return the day since which a routine on demand is wanted; None where it is not."""
        return None

    def is_unwell(self, plot: Plot) -> bool:
        """Say whether something was found at the latest look at some plants, or pulled sick."""
        return False
