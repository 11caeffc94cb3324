"""P(a crop still stands beyond a day) where it stands more frost in leaf than in flower."""

from __future__ import annotations

from collections.abc import Sequence

from sowtide.climate.frost.on_curve import Frosts
from sowtide.climate.frost.survival import Survival
from sowtide.climate.medians import NEVER
from sowtide.reasons import Dated

_YEAR = 365
_HALF = 0.5


class SurvivalInLeaf(Survival):
    """Survival of what may meet the frost that takes its flowers while it has none yet.

    A plant set to flower after a winter is picked where no frost has killed it before and none of
    the spring after takes its flowers. Frosts of autumn and of spring are taken to come
    independently of each other.

    Parameters
    ----------
    autumn, spring
        First and last frosts of the growing year planned.
    at
        The frost that takes flowers and pods. [°C]
    green_at
        The frost that kills plants in leaf. [°C]
    ripens
        Days from a flower to the pick of its fruit. [days]
    """

    def __init__(
        self, autumn: Frosts, spring: Frosts, *, at: float, green_at: float, ripens: int
    ) -> None:
        super().__init__(autumn, at=at, later=0)
        self._spring = spring
        self._at = at
        self._plants = Survival(autumn, at=green_at, later=0)
        self._ripens = ripens
        self._through: dict[int, float] = {}

    def through(self, pick: int) -> float:
        """Share of years in which what has its first pick on a day comes through. [0–1]"""
        found = self._through.get(pick)
        if found is None:
            flowers = pick - self._ripens
            taken = self._spring.odds(flowers - _YEAR, at=self._at)
            found = self._through[pick] = self._plants.total(flowers, 1) * (1 - taken)
        return found

    @property
    def rises_from(self) -> int:
        """The first pick, as an ordinal, whose flowers some frosts of the next spring spare."""
        return self._spring.reach(self._at)[0] + _YEAR + self._ripens

    def standing(self, day: int) -> float:
        """P(it still stands on the day after), picked or not. [0–1]"""
        return max(super().total(day, 1), self._plants.total(day, 1))

    def end_of(self, pick: int) -> Dated | None:
        """Return the day that ends, in half of the years, what has its first pick on a day."""
        end = self.end
        if end is None or pick - self._ripens <= end.day.toordinal():
            return end
        return None if self.through(pick) >= _HALF else end

    def ends_of(self, pick: int, years: int) -> list[int]:
        """Return the ends of equally likely years of what has its first pick on a day."""
        lost = years - round(self.through(pick) * years)
        flowers = pick - self._ripens
        return [
            NEVER if number >= lost and end < flowers else end
            for number, end in enumerate(self.ends(years))
        ]

    def total(self, first: int, days: int) -> float:
        """Sum of P(end > day) over some days from a first pick on. [days]"""
        return max(super().total(first, days), days * self.through(first))

    def over(self, picks: Sequence[int], days: int) -> float:
        """Sum of P(end > pick + days) over some first picks."""
        if picks and max(picks) + days < self._start:  # no frost of autumn comes as early
            return float(len(picks))
        before = super().total
        return sum([max(before(pick + days, 1), self.through(pick)) for pick in picks])
