"""The times of the year in which a crop is planted, and is ready, where they are published.

They are told by the frosts and by the longest day, so that they hold at any place: an onion has to
grow its leaves before long days start the bulb, a corn salad has to come up after the summer, and
garlic is lifted when the longest day is past.
"""

from __future__ import annotations

from enum import Enum

from sowtide.values import value


class YearMark(Enum):
    """A day of the year that planting times are counted from."""

    LAST_FROST = "last frost"
    FIRST_FROST = "first frost"
    LONGEST_DAY = "longest day"


@value
class FromMark:
    """A day so many days after a mark, negative before it. [days]"""

    mark: YearMark
    days: int

    def __str__(self) -> str:
        """Say it as growers do."""
        if not self.days:
            return f"the {self.mark.value}"
        side = "before" if self.days < 0 else "after"
        return f"{abs(self.days)} days {side} the {self.mark.value}"


@value
class PlantingTime:
    """A time in which a crop is planted, first and last day included."""

    first: FromMark
    last: FromMark

    def __str__(self) -> str:
        """Say it as growers do."""
        return f"from {self.first} to {self.last}"


@value
class SeedTime:
    """When a crop that has stood the winter runs to seed, told by the longest day."""

    days: int
    """So many days after the longest day, negative before it. [days]"""
    sooner: int
    below: int
    """How much sooner for each degree nearer the equator than a latitude. [days], [°]"""

    def after_longest_day(self, latitude: float) -> int:
        """Return how many days after the longest day it runs to seed, negative before it. [days]

        Parameters
        ----------
        latitude
            Degrees north of the equator, south negative. [°]

        Examples
        --------
        >>> seed_time("longest day -50, 3 sooner a degree below 52").after_longest_day(-37)
        -95
        """
        return self.days - _sooner(self.sooner, self.below, latitude)

    def __str__(self) -> str:
        """Say it as growers do."""
        day = FromMark(YearMark.LONGEST_DAY, self.days)
        return f"about {day}{_said_sooner(self.sooner, self.below)}"


@value
class ReadyTime:
    """When a crop that needs its winter is ready, told by the longest day."""

    first: int
    last: int
    """From and to so many days after the longest day, negative before it. [days]"""
    sooner: int
    below: int
    """How much sooner for each degree nearer the equator than a latitude. [days], [°]"""

    def after_longest_day(self, latitude: float) -> tuple[int, int]:
        """Return how many days after the longest day it is ready, from and to. [days]

        Parameters
        ----------
        latitude
            Degrees north of the equator, south negative. [°]

        Examples
        --------
        >>> ready_time("longest day +11..longest day +31, 4 sooner a degree below 43").\
after_longest_day(-37.5)
        (-11, 9)
        """
        days = _sooner(self.sooner, self.below, latitude)
        return self.first - days, self.last - days

    def __str__(self) -> str:
        """Say it as growers do."""
        side = "before" if self.last < 0 else "after"
        text = f"{abs(self.first)}\N{EN DASH}{abs(self.last)} days {side} the longest day"
        return text + _said_sooner(self.sooner, self.below)


def _sooner(days: int, below: int, latitude: float) -> int:
    return round(days * max(below - abs(latitude), 0.0))


def _said_sooner(days: int, below: int) -> str:
    if not days:
        return ""
    return f", {days} days sooner for each degree nearer the equator than {below}°"


def planting_times(text: str) -> tuple[PlantingTime, ...]:
    """Read times as the table of built-in crops has them.

    Examples
    --------
    >>> [str(each) for each in planting_times("last frost -45..longest day -50")]
    ['from 45 days before the last frost to 50 days before the longest day']
    """
    return tuple(_time(each) for each in text.split(", "))


def _time(text: str) -> PlantingTime:
    first, last = (_counted(end) for end in text.split(".."))
    return PlantingTime(first, last)


def _counted(text: str) -> FromMark:
    mark, _, days = text.rpartition(" ")
    return FromMark(YearMark(mark), int(days))


def ready_time(text: str) -> ReadyTime:
    """Read the time it is ready as the table of built-in crops has it.

    Examples
    --------
    >>> str(ready_time("longest day -120..longest day -85"))
    '120–85 days before the longest day'
    """
    span, sooner, below = _nearer(text)
    first, last = (_counted(end).days for end in span.split(".."))
    return ReadyTime(first, last, sooner, below)


def seed_time(text: str) -> SeedTime:
    """Read the time it runs to seed as the table of built-in crops has it.

    Examples
    --------
    >>> str(seed_time("longest day -50"))
    'about 50 days before the longest day'
    """
    day, sooner, below = _nearer(text)
    return SeedTime(_counted(day).days, sooner, below)


def _nearer(text: str) -> tuple[str, int, int]:
    """Part a time from how much sooner it is a degree below a latitude."""
    span, _, nearer = text.partition(", ")
    if not nearer:
        return span, 0, 0
    sooner, _, below = nearer.partition(" sooner a degree below ")
    return span, int(sooner), int(below)
