"""Day length by latitude and date: from sunrise to sunset, as almanacs print it.

The sun rises and sets when its upper edge stands on a level horizon, seen through the air that
bends its light: its centre is then 0.833° below. A definition by the sun's centre alone, as FAO's
Irrigation and Drainage Paper 56 (eq. 34) has it, gives days that are minutes shorter, and moves a
ten-hour day by about a week.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from datetime import date
from functools import lru_cache
from math import acos, asin, cos, degrees, radians, sin

from sowtide.days import GrowingYear

SHORT_DAY = 10
"""Below so many hours of daylight most crops hardly grow. [h]"""

_SUNRISE = sin(radians(-0.833))
_J2000 = date(2000, 1, 1).toordinal()  # and at noon, as all days are taken here
_SOLSTICES = range(20, 24)  # of June and of December


def declination(day: int) -> float:
    """Declination of the sun at noon in Greenwich. [rad]

    The low-precision formula of the Astronomical Almanac, good to 0.01° from 1950 to 2050.

    Parameters
    ----------
    day
        Proleptic ordinal of the day.
    """
    since = day - _J2000
    longitude = 280.460 + 0.9856474 * since
    anomaly = radians(357.528 + 0.9856003 * since)
    ecliptic = radians(longitude + 1.915 * sin(anomaly) + 0.020 * sin(2 * anomaly))
    obliquity = radians(23.439 - 0.0000004 * since)
    return asin(sin(obliquity) * sin(ecliptic))


def day_length(latitude: float, day: date) -> float:
    """Time from sunrise to sunset: 0 where the sun does not rise, 24 where it does not set. [h]

    Within half a minute of a full reckoning of the sun between 65° N and 55° S. The sun is taken as
    it stands at noon in Greenwich: half the world away an equinox day is off by up to two minutes
    at 45°, four at 65°.

    Parameters
    ----------
    latitude
        Degrees north of the equator, south negative. [°]
    day
        Any day.

    Raises
    ------
    ValueError
        If there is no such latitude.

    Examples
    --------
    >>> round(day_length(40.0, date(2026, 12, 21)), 1)
    9.3
    """
    return _length(_checked(latitude), day.toordinal())


def first_below(hours: float, latitude: float, year: GrowingYear) -> date | None:
    """Return the first day shorter than some hours after the longest day of a growing year.

    It begins the short days of the coming winter; the `last_below` of the next year ends them. It
    is no later than the shortest day, and the longest day itself where even that is shorter.

    Parameters
    ----------
    hours
        Length of a day, as `day_length` gives it. [h]
    latitude
        Degrees north of the equator, south negative. [°]
    year
        The growing year.

    Returns
    -------
    date or None
        None where not even the shortest day is that short.

    Raises
    ------
    ValueError
        If there is no such latitude, or it lies in the other hemisphere than the growing year.

    Examples
    --------
    >>> first_below(10, 40.0, GrowingYear(2023, south=False))
    datetime.date(2023, 11, 15)
    """
    latitude = _of_hemisphere(latitude, year)
    falling = range(longest_day(year).toordinal(), _shortest_after(year) + 1)
    found = bisect_right(falling, -hours, key=lambda day: -_length(latitude, day))
    return date.fromordinal(falling[found]) if found < len(falling) else None


def last_below(hours: float, latitude: float, year: GrowingYear) -> date | None:
    """Return the last day shorter than some hours before the longest day of a growing year.

    It ends the short days of the past winter, which are days of the year before where the winter
    is mild enough; the `first_below` of that year began them. It is no earlier than the shortest
    day, and the longest day itself where even that is shorter.

    Parameters
    ----------
    hours, latitude, year
        As for `first_below`, with what it returns and raises. [h], [°]

    Examples
    --------
    >>> last_below(10, 40.0, GrowingYear(2023, south=False))
    datetime.date(2023, 1, 27)
    """
    latitude = _of_hemisphere(latitude, year)
    rising = range(
        _shortest_after(GrowingYear(year.season - 1, year.south)), longest_day(year).toordinal() + 1
    )
    found = bisect_left(rising, hours, key=lambda day: _length(latitude, day))
    return date.fromordinal(rising[found - 1]) if found else None


@lru_cache(maxsize=2_000)
def _length(latitude: float, day: int) -> float:
    """Day length at a latitude in radians. [h]"""
    sun = declination(day)
    cosine = (_SUNRISE - sin(latitude) * sin(sun)) / (cos(latitude) * cos(sun))
    return degrees(acos(min(max(cosine, -1.0), 1.0))) * 2 / 15


def _checked(latitude: float) -> float:
    """Return a latitude in radians, once it is one."""
    if not -90 <= latitude <= 90:
        raise ValueError(f"no latitude: {latitude}°")
    return radians(latitude)


def _of_hemisphere(latitude: float, year: GrowingYear) -> float:
    if (latitude < 0) is not year.south and latitude != 0:
        raise ValueError(f"latitude {latitude}° lies in the other hemisphere")
    return _checked(latitude)


def longest_day(year: GrowingYear) -> date:
    """Return the longest day of a growing year."""
    return date.fromordinal(_solstice(year.season, 12 if year.south else 6))


def _shortest_after(year: GrowingYear) -> int:
    return _solstice(year.season + 1, 6) if year.south else _solstice(year.season, 12)


@lru_cache(maxsize=16)
def _solstice(year: int, month: int) -> int:
    """Return the day on which the sun stands furthest from the equator, as an ordinal."""
    return max(
        [date(year, month, day).toordinal() for day in _SOLSTICES],
        key=lambda day: abs(declination(day)),
    )
