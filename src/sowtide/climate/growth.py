"""How long a planting takes to its first pick, by days or by warmth."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Protocol

from sowtide.climate.allowance import Allowances
from sowtide.climate.answers import Need, Warmth
from sowtide.days import GrowingYear
from sowtide.reasons import OURS, Dated, Origin
from sowtide.units import Units, show_degree_days, show_temperature

UNRIPE_DAYS = 365
"""What never ripens is dated so many days after planting, beyond every frost. [days]"""

NO_FRUIT = "heat drops its flowers, there is nothing to pick"


class Growth(Protocol):
    """From planting to first pick. A later planting is never picked earlier, except at a turn."""

    def picks(self, planted: int, need: Need) -> Sequence[int]:
        """Return the first pick of each part of the range that ripens, as ordinals in order.

        Parameters
        ----------
        planted
            Planting day of the growing year, as an ordinal.
        need
            What the crop needs.
        """

    def unripe(self, need: Need) -> int:
        """Return how many parts of the range never ripen within a year. [1]"""

    def pick(self, planted: int, need: Need, *, late: bool) -> int:
        """Return the first or the last of `picks`, where there are any, as an ordinal."""

    def usual(self, planted: int, need: Need, *, late: bool) -> int:
        """Return the first pick at one end of the range in the average year, as an ordinal.

        A year on where it does not ripen in it.
        """

    def turns(self) -> Iterable[int]:
        """Return planting days, as ordinals, from which on growth is counted in another way."""

    def explain(self, planted: Dated, need: Need, *, late: bool) -> Dated:
        """Count the first pick at one end of the range, step by step."""


class GrowthByDays:
    """The packet's days, with allowances for slow growth at both ends of the season.

    Parameters
    ----------
    allowances
        What is added to them.
    origin
        Where the fall allowance is written.
    year
        The growing year.
    """

    def __init__(self, allowances: Allowances, origin: Origin, year: GrowingYear) -> None:
        self._allowances = allowances
        self._origin = origin
        self._year = year

    def picks(self, planted: int, need: Need) -> Sequence[int]:
        """Return the first pick for each number of days to harvest."""
        return self._allowances.picks(planted, need.days, cool=need.cool)

    def unripe(self, need: Need) -> int:
        """Return 0: days always pass."""
        return 0

    def pick(self, planted: int, need: Need, *, late: bool) -> int:
        """Return the first pick at one end of the range."""
        days = need.days.high if late else need.days.low
        return self._allowances.pick(planted, days, cool=need.cool)

    def usual(self, planted: int, need: Need, *, late: bool) -> int:
        """Return the first pick at one end of the range."""
        return self.pick(planted, need, late=late)

    def turns(self) -> Iterable[int]:
        """Return the day on which the fall allowance stops."""
        frosted = self._allowances.first_frost
        return () if frosted is None else (frosted + 1,)

    def explain(self, planted: Dated, need: Need, *, late: bool) -> Dated:
        """Count the days to harvest, and what is added to them."""
        days = need.days.high if late else need.days.low
        first = planted.then(days, "stages", range_end(need, late=late), need.days_origin)
        day = planted.day.toordinal() - self._year.days_to(planted.day)
        fall = self._allowances.fall_days(day + days, planted=day, cool=need.cool)
        if fall:
            first = first.then(fall, "fall-allowance", "fall allowance", self._origin)
        spring = self._allowances.spring_days(day)
        if spring:
            first = first.then(
                spring, "spring-allowance", "slow growth before the last frost", OURS
            )
        return first


def range_end(need: Need, *, late: bool) -> str:
    """Return the words for one end of the days to harvest."""
    if need.days.low == need.days.high:
        return need.days_text
    return f"{need.days_text}, {'late end' if late else 'early end'}"


def for_want_of_light(first: Dated, days: int) -> Dated:
    """Add what the light of autumn holds a first pick back by, if it does."""
    if days <= 0:
        return first
    return first.then(days, "autumn-light", "less light than growth wants", OURS)


def for_want_of_fruit(first: Dated, days: int) -> Dated:
    """Add what heat on its first flowers holds a first pick back by, if it does."""
    if days <= 0:
        return first
    return first.then(days, "fruit-set", "its first flowers dropped in the heat", OURS)


def in_warmth(warmth: Warmth, total: float, units: Units) -> str:
    """Return the words for the warmth that an end of the days to harvest needs."""
    if warmth.response is not None:
        rated = show_temperature(warmth.response.rated, units)
        return f"{total:g} days' growth at {rated}"
    base = show_temperature(warmth.base, units)
    return f"as warmth: {show_degree_days(total, units)} above {base}"
