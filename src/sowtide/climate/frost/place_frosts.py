"""When it freezes at a place: the days and the odds of both halves of the growing year."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import TYPE_CHECKING

from sowtide.climate.frost.on_curve import Frosts
from sowtide.days import Half
from sowtide.reasons import Dated

if TYPE_CHECKING:  # only where a site has a record
    from sowtide.climate.frost_record import FrostYears


class PlaceFrosts:
    """The frosts of a place.

    Parameters
    ----------
    spring, autumn
        Those of both halves of the growing year; None where there is no frost.
    recorded
        Those of each recorded year at a temperature [°C], where there is a record.
    """

    def __init__(
        self,
        spring: Frosts | None,
        autumn: Frosts | None,
        recorded: Callable[[float], FrostYears] | None = None,
    ) -> None:
        self.spring = spring
        self.autumn = autumn
        self._recorded = recorded

    def day(self, half: Half, *, at: float, share: float) -> Dated | None:
        """Return the day with that share of years beyond it, to the nearest day.

        Parameters
        ----------
        half
            Spring: the share of years with a frost later than the day. Autumn: with one earlier.
        at
            Temperature of the frost. [°C]
        share
            Share of years, between 0 and 1.

        Returns
        -------
        Dated or None
            None where the place has no such frost.
        """
        frost = self._of(half)
        day = None if frost is None else frost.nearest_day(at=at, share=share)
        if frost is None or day is None:
            return None
        return frost.dated(day, at=at, share=share)

    def odds(self, half: Half, day: date, *, at: float) -> float:
        """Return the share of years with a frost later (spring) or earlier (autumn) than a day."""
        frost = self._of(half)
        return 0.0 if frost is None else frost.odds(day.toordinal(), at=at)

    def safe_from(self, *, at: float, share: float) -> Dated | None:
        """Return the first day after which frost comes in no more than that share of years.

        None where the place has no such frost in spring.
        """
        spring = self.spring
        day = None if spring is None else spring.first_safe(at=at, share=share)
        if spring is None or day is None:
            return None
        return spring.dated(day, at=at, share=share)

    def years(self, at: float) -> FrostYears | None:
        """Return the frosts of each recorded year at a temperature [°C]; None without a record."""
        return None if self._recorded is None else self._recorded(at)

    def _of(self, half: Half) -> Frosts | None:
        return self.spring if half is Half.SPRING else self.autumn
