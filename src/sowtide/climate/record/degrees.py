"""The unit of a record: what its header calls it, and what its values can be.

A unit that cannot be right is an error, and one that nothing tells is asked for. The yearly range
decides: where the warmest days stay under 10 °C nothing is grown, and nowhere do they pass 52 °C,
so that one and the same year is possible in °C or in °F, hardly ever in both. The bounds are
sowtide's own.
"""

from __future__ import annotations

from array import array
from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date
from enum import Enum
from math import isnan

from sowtide.units import ROUNDING_OF_MEANS, ROUNDING_OF_SUMS, celsius, fahrenheit
from sowtide.values import value

LEAST, MOST = -60.0, 60.0
"""No minimum or maximum lies outside these. [°C]"""

RARE = 0.01
"""Share of readings that may be wild before all of them are doubted."""

_YEAR = 300
"""DayLines, from all twelve months, that make a yearly range."""

_TAIL = 0.02
"""Share of days beyond the warm and the cold end of the yearly range."""

_MANY = 100
"""Different days needed before whole °F are seen behind rounded °C."""


class Unit(Enum):
    """What a file's numbers count."""

    CELSIUS = "°C"
    FAHRENHEIT = "°F"
    TENTHS = "tenths of °C"

    @property
    def key(self) -> str:
        """How the garden's file says it."""
        return "unit: tenths" if self is Unit.TENTHS else f"unit: {self.value}"

    def celsius(self, number: float) -> float:
        """Convert a number of the file, to the tenth where it is one but for rounding. [°C]"""
        if self is Unit.CELSIUS:
            return number
        if self is Unit.TENTHS:
            return number / 10
        exact = celsius(number)
        tenth = round(exact, 1)
        return tenth if abs(exact - tenth) < ROUNDING_OF_SUMS else exact


_NAMES = {
    "c": Unit.CELSIUS,
    "degc": Unit.CELSIUS,
    "degreec": Unit.CELSIUS,
    "degreesc": Unit.CELSIUS,
    "celsius": Unit.CELSIUS,
    "degcelsius": Unit.CELSIUS,
    "degreecelsius": Unit.CELSIUS,
    "degreescelsius": Unit.CELSIUS,
    "f": Unit.FAHRENHEIT,
    "degf": Unit.FAHRENHEIT,
    "degreef": Unit.FAHRENHEIT,
    "degreesf": Unit.FAHRENHEIT,
    "fahrenheit": Unit.FAHRENHEIT,
    "degfahrenheit": Unit.FAHRENHEIT,
    "degreefahrenheit": Unit.FAHRENHEIT,
    "degreesfahrenheit": Unit.FAHRENHEIT,
}
_TENTHS = ("tenths of ", "tenth of ", "tenths ", "tenth ", "0.1", "1/10", "01")


def named(text: str) -> Unit | None:
    """Return the unit that some words name, or None where they name none.

    Examples
    --------
    >>> named("deg F"), named("0.1 °C"), named("mm")
    (<Unit.FAHRENHEIT: '°F'>, <Unit.TENTHS: 'tenths of °C'>, None)
    """
    text = text.strip().casefold().replace("℃", "c").replace("℉", "f")
    for prefix in _TENTHS:
        if text.startswith(prefix):
            inner = named(text.removeprefix(prefix))
            return Unit.TENTHS if inner is Unit.CELSIUS else None
    return _NAMES.get("".join(char for char in text if "a" <= char <= "z" or char.isdigit()))


@value
class Range:
    """What the numbers of a file reach."""

    cold: float
    warm: float
    """Numbers with a fiftieth of the daily minima below, of the warmest readings above."""
    maxima: bool
    """Whether `warm` is of maxima; else of minima."""
    number: int
    """How many numbers there are."""
    beyond: tuple[tuple[Unit, int], ...]
    """How many of them no thermometer shows, for each unit."""
    whole_year: bool
    """Whether the days cover a year."""
    integers: bool
    """Whether all are written without decimals."""

    def allows(self, unit: Unit) -> bool:
        """Say whether the numbers can be in a unit."""
        if unit is Unit.TENTHS and not self.integers:
            return False
        if dict(self.beyond)[unit] > max(1, RARE * self.number):
            return False
        if not self.whole_year:
            return True
        warm, cold = unit.celsius(self.warm), unit.celsius(self.cold)
        if not self.maxima:
            return 5 <= warm <= 34 and (unit is not Unit.TENTHS or warm >= 15 or warm - cold >= 8)
        # Tenths may look like °F: but where it is never warm, it is not the same all the year.
        even = unit is Unit.TENTHS and warm < 20 and warm - cold < 12
        return 10 <= warm <= 52 and not even

    def possible(self) -> tuple[Unit, ...]:
        """Return the units that the numbers can be in."""
        return tuple(unit for unit in Unit if self.allows(unit))


def range_of(
    lows: array[float], highs: array[float], ordinals: Sequence[int], *, integers: bool
) -> Range:
    """Return what the numbers of a file reach.

    Parameters
    ----------
    lows, highs
        Minima and maxima, the latter perhaps empty. [the file's unit]
    ordinals
        The days, rising.
    integers
        Whether all are written without decimals.
    """
    low, high = _counted(lows), _counted(highs)
    both = low + high
    beyond = [
        (unit, sum(n for each, n in both.items() if not LEAST <= unit.celsius(each) <= MOST))
        for unit in Unit
    ]
    months = {date.fromordinal(day).month for day in ordinals[::7]}
    return Range(
        cold=_quantile(low, _TAIL),
        warm=_quantile(high or low, 1 - _TAIL),
        maxima=bool(high),
        number=both.total(),
        beyond=tuple(beyond),
        whole_year=len(months) == 12 and low.total() >= _YEAR,
        integers=integers,
    )


def step_of(readings: Iterable[float]) -> float:
    """Return the step between neighbouring readings. [°C]

    Whole °F are seen behind °C too, as long as each reading is the nearest to one of them.
    """
    distinct = {each for each in set(readings) if not isnan(each)}
    if _on_grid(distinct, 1.0):
        return 1.0
    if all(_is_whole(fahrenheit(each)) for each in distinct) or (
        len(distinct) >= _MANY and all(map(_was_whole_fahrenheit, distinct))
    ):
        return 5 / 9
    for step in (0.5, 0.1, 1 / 18):
        if _on_grid(distinct, step, offset=celsius(0) if step == 1 / 18 else 0.0):
            return step
    return 0.01


def _on_grid(values: Iterable[float], step: float, *, offset: float = 0.0) -> bool:
    return all(_is_whole((each - offset) / step) for each in values)


def _is_whole(number: float) -> bool:
    return abs(number - round(number)) < ROUNDING_OF_MEANS


def _was_whole_fahrenheit(reading: float) -> bool:
    """Say whether a reading is a whole °F, rounded to some decimals of a °C."""
    exact = celsius(round(fahrenheit(reading)))
    return any(abs(round(exact, digits) - reading) < ROUNDING_OF_MEANS for digits in (1, 2, 3, 4))


def _counted(values: Iterable[float]) -> Counter[float]:
    counted = Counter(values)
    for each in [number for number in counted if isnan(number)]:
        del counted[each]
    return counted


def _quantile(counted: Counter[float], share: float) -> float:
    left = share * counted.total()
    for each in sorted(counted):
        left -= counted[each]
        if left < 0:
            return each
    return max(counted, default=0.0)
