"""How a wave gets on that stands over the winter."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from sowtide.reasons import Dated
from sowtide.values import value

GROWN_ENOUGH = 0.75
"""Share of its growth with which a wave may go into the short days. [0–1]"""


@value
class Winter:
    """How a wave that stands over the winter gets on, in the middle of the years.

    Parameters
    ----------
    first_pick
        Early and late day of the first pick; None where it is too small when the short days begin,
        or not ready by the midsummer after.
    short_from
        The first of the short days, or its planting day where that is later; None without any.
    grown
        How far it is grown by then. [0–1]
    grown_enough
        Share of the years in which it is grown far enough by then. [0–1]
    years
        How many recorded years these are of; None for one average year. [years]
    """

    first_pick: tuple[Dated, Dated] | None
    short_from: date | None
    grown: float
    grown_enough: float
    years: int | None

    def counted_anew(self, begin: Dated, onto: Dated) -> Winter:
        """Return the same winter, counted on from another way to the planting day."""
        first = self.first_pick
        if first is None:
            return self
        anew = first[0].counted_anew(begin, onto), first[1].counted_anew(begin, onto)
        return replace(self, first_pick=anew)

    @property
    def enough(self) -> bool:
        """Whether it is grown far enough when the short days begin, in the middle of the years."""
        return self.grown >= GROWN_ENOUGH
