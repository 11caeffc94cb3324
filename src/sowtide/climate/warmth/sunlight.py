"""Light in autumn: how the growth of leaves, roots and heads falls behind its warmth.

The sun's strength at the top of the air is eq. 21 of FAO's Irrigation and Drainage Paper 56 (Allen
and others, 1998), with the declination of the Astronomical Almanac, as FAO's own is off by a degree
in autumn. Growth is held back where it falls under what the end of summer has: a factor of
sowtide's own, calibrated on last sowings that are published for 45 to 56° of latitude.
"""

from __future__ import annotations

from datetime import date, timedelta
from math import acos, cos, pi, radians, sin, tan

from sowtide.climate.daylight import declination
from sowtide.days import GrowingYear

ENOUGH = 28.0
"""Sun over the air from which on growth is not held back: early September at 52°. [MJ/m² a day]"""

_SOLAR_CONSTANT = 0.0820  # MJ/m² a minute
_MINUTES = 24 * 60
_YEAR = 365


def sun_above(latitude: float, day: date) -> float:
    """Return the sun's energy on a level plane at the top of the air. [MJ/m² a day]

    Parameters
    ----------
    latitude
        Degrees north of the equator, south negative. [°]
    day
        Any day.

    Examples
    --------
    >>> round(sun_above(52.0, date(2026, 9, 5)))
    28
    """
    nearness = 1 + 0.033 * cos(2 * pi * day.timetuple().tm_yday / _YEAR)
    phi, delta = radians(latitude), declination(day.toordinal())
    sunset = acos(min(max(-tan(phi) * tan(delta), -1.0), 1.0))
    risen = sunset * sin(phi) * sin(delta) + cos(phi) * cos(delta) * sin(sunset)
    return _MINUTES / pi * _SOLAR_CONSTANT * nearness * risen


def autumn_light(latitude: float, year: GrowingYear) -> tuple[float, ...]:
    """Return for each day of a growing year the share of the light that growth wants. [0–1]

    It is 1 up to midsummer, when days grow longer: cold holds growth back then, not the dark.

    Parameters
    ----------
    latitude
        Degrees north of the equator, south negative. [°]
    year
        The growing year.
    """
    days = [year.first + timedelta(days=day) for day in range((year.last - year.first).days + 1)]
    return tuple(
        1.0 if day < year.midsummer else min(sun_above(latitude, day) / ENOUGH, 1.0) for day in days
    )
