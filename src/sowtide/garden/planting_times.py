"""The times of the year in which a crop is planted, where they are published.

They are told by the frosts and by the longest day, so that they hold at any place: an onion has to
grow its leaves before long days start the bulb, a corn salad has to come up after the summer.
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
