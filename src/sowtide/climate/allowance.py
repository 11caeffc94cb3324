"""Extra days for slow growth, where no temperatures are known.

The fall allowance is published (Virginia Cooperative Extension and Nebraska Extension add about 14
days); where it sets in, and the spring allowance, are rules of sowtide's own.
"""

from __future__ import annotations

from collections.abc import Sequence

from sowtide.days import DayRange
from sowtide.values import value

RAMP = 28
"""Days over which the fall allowance grows from none to all. [days]"""

COOL_RAMP_BEGINS = 56
WARM_RAMP_BEGINS = 28
"""Days from the first pick to the average first frost at which the ramp begins. [days]"""

OF_DAYS = 55
"""Days to harvest that the fall allowance is for; quicker crops have it in proportion. [days]"""

SPRING_DAYS = 10
"""Allowance of a sowing `SPRING_LEAD` or more days before the average last frost. [days]"""

SPRING_LEAD = 30


@value
class Allowances:
    """What is added to days to harvest."""

    fall: int
    """The whole fall allowance of a crop of 55 days or more. [days]"""
    always: bool
    """Whether it is added to every wave, in place of both ramps."""
    last_frost: int | None
    first_frost: int | None
    """Average 0 °C frosts, as proleptic ordinals; None where there is no frost."""

    def picks(self, planted: int, days: DayRange, *, cool: bool) -> Sequence[int]:
        """Return the first pick for each number of days to harvest, as ordinals in order.

        Parameters
        ----------
        planted
            Planting day, as an ordinal.
        days
            Days to harvest. [days]
        cool
            Whether it is a cool-season crop.
        """
        first, last = planted + days.low, planted + days.high
        spring = self.spring_days(planted)
        least = self.fall_days(first, planted=planted, cool=cool)
        most = self.fall_days(last, planted=planted, cool=cool)
        if least == most:  # the allowance never falls from one pick to a later one
            return range(first + spring + least, last + spring + least + 1)
        return [
            pick + spring + self.fall_days(pick, planted=planted, cool=cool)
            for pick in range(first, last + 1)
        ]

    def pick(self, planted: int, days: int, *, cool: bool) -> int:
        """Return the first pick for one number of days to harvest, as an ordinal."""
        plain = planted + days
        spring = self.spring_days(planted)
        return plain + spring + self.fall_days(plain, planted=planted, cool=cool)

    def fall_days(self, plain_pick: int, *, planted: int, cool: bool) -> int:
        """Return the fall allowance of a first pick counted without it, halves up. [days]"""
        if self.always:
            return self.fall
        if self.first_frost is None or planted > self.first_frost:
            return 0
        begins = COOL_RAMP_BEGINS if cool else WARM_RAMP_BEGINS
        into = begins - (self.first_frost - plain_pick)
        if into <= 0:
            return 0
        into = min(into, RAMP)
        all_of_it, days = RAMP * OF_DAYS, min(plain_pick - planted, OF_DAYS)
        return (2 * self.fall * days * into + all_of_it) // (2 * all_of_it)

    def spring_days(self, planted: int) -> int:
        """Return the spring allowance of a planting day, halves up. [days]"""
        if self.always or self.last_frost is None or planted >= self.last_frost:
            return 0
        lead = min(self.last_frost - planted, SPRING_LEAD)
        return (2 * SPRING_DAYS * lead + SPRING_LEAD) // (2 * SPRING_LEAD)
