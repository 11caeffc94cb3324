"""What the soil at sowing depth is likely to be, estimated from the air above it."""

from __future__ import annotations

from datetime import date

from sowtide.days import GrowingYear
from sowtide.units import celsius
from sowtide.values import value

ERROR = 3.0
"""How far off the estimate may well be. [°C]"""

HOT_WEEKS = celsius(75)
"""The least daily mean of weeks that are called too hot: Knott's highest monthly mean. [°C]"""

GROUND_DAYS = 11
"""The ground follows the mean of so many days of air. [days]"""

_SUN_WARMS = 2.0
_SUN_RISES = 30  # days
_SPRING_EQUINOX, _SUMMERS_END = (3, 21), (8, 31)
_SPRING_EQUINOX_SOUTH, _SUMMERS_END_SOUTH = (9, 22), (2, 29)


@value
class Soil:
    """The temperature of the soil at sowing depth."""

    about: float
    """The estimate. [°C]"""
    at_least: bool
    """Whether it is known only to be no colder than that."""

    @property
    def warmest(self) -> float:
        """What seed may well meet: the estimate, with its error where that is only the least."""
        return self.about + ERROR if self.at_least else self.about


def soil_under(air: float, day: date, year: GrowingYear) -> float:
    """Estimate the soil's temperature from the mean of the last days' air. [°C]

    The soil follows the mean of the last 11 days of air (Zheng, Hunt and Running, Climate Research
    2, 1993); that the sun makes it 2 °C warmer to the end of August, none on the spring equinox and
    all of it 30 days later, is sowtide's own.

    Parameters
    ----------
    air
        Mean of the air. [°C]
    day
        A day of any growing year.
    year
        A growing year of the same hemisphere.
    """
    month_day = (day.month, day.day)
    if year.south:
        sun_warms = month_day >= _SPRING_EQUINOX_SOUTH or month_day <= _SUMMERS_END_SOUTH
        equinox = date(day.year - (month_day < _SPRING_EQUINOX_SOUTH), *_SPRING_EQUINOX_SOUTH)
    else:
        sun_warms = _SPRING_EQUINOX <= month_day <= _SUMMERS_END
        equinox = date(day.year, *_SPRING_EQUINOX)
    if not sun_warms:
        return air
    return air + _SUN_WARMS * min((day - equinox).days / _SUN_RISES, 1.0)
