"""How each figure of the built-in table becomes a field of a crop."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from sowtide.days import DayRange
from sowtide.garden.by_temperature import ByTemperature
from sowtide.garden.crop import AfterFrost, CountedFrom, Hardiness, Raised, Weather
from sowtide.garden.library.table import Row
from sowtide.units import celsius, micrometres

FACTS = frozenset(
    {
        "names",
        "botanical",
        "botanical_family",
        "growth_least",
        "growth_best",
        "growth_most",
        "soil_best",
        "sow_every",
        "seeds_per_gram",
        "spacing_rows",
        "spacing_trained",
        "spacing_sprawling",
        "yield_per_row",
        "yield_per_area",
        "heat_units",
        "heat_method",
        "chore",
    }
)
"""Rows that are no field of a crop: they are told, and no date hangs on them."""

NOT_MEASURED = "none"
"""Stands in ``emergence`` where no seed came up."""


def temperature(row: Row) -> float:
    """Return a temperature. [°C]"""
    return _degrees(row.value, row.unit)


def days(row: Row) -> DayRange:
    """Return a range of days, or one number as a range."""
    low, _, high = row.value.partition("-")
    return DayRange(int(low), int(high or low))


def whole(row: Row) -> int:
    """Return a whole number."""
    return int(row.value)


def _degrees(text: str, unit: str) -> float:
    written = float(text)
    return celsius(written) if unit.endswith("°F") else written


def _by_temperature(row: Row) -> ByTemperature:
    points = []
    for point in row.value.split(", "):
        at, figure = point.split(": ")
        points.append((_degrees(at, row.unit), None if figure == NOT_MEASURED else float(figure)))
    return ByTemperature(tuple(points))


def _temperatures(row: Row) -> tuple[float, float]:
    low, _, high = row.value.partition("-")
    return _degrees(low, row.unit), _degrees(high or low, row.unit)


def _words(row: Row) -> str:
    return row.value


def _number(row: Row) -> float:
    return float(row.value)


def _share(row: Row) -> float:
    return int(row.value) / 100


def _length(row: Row) -> int:
    return micrometres(Fraction(row.value), row.unit)


def _yes(row: Row) -> bool:
    return row.value == "yes"


READERS: dict[str, Callable[[Row], object]] = {
    "family": _words,
    "weather": lambda row: Weather(row.value),
    "raised": lambda row: Raised(row.value),
    "counted_from": lambda row: CountedFrom(row.value),
    "nursery_days": days,
    "hardening_days": whole,
    "days_to_harvest": days,
    "picking_days": whole,
    "pick_gap": whole,
    "pick_when": _words,
    "worthwhile_days": whole,
    "holding_days": days,
    "hardiness": lambda row: Hardiness(row.value),
    "after_frost": lambda row: AfterFrost(row.value),
    "days_before_frost": whole,
    "days_after_frost": whole,
    "overwinters": _yes,
    "up_days": whole,
    "emergence": _by_temperature,
    "germinates": _by_temperature,
    "flower_to_pick": whole,
    "needs_bees": _yes,
    "soil_min": temperature,
    "soil_good": temperature,
    "soil_max": temperature,
    "warm_limit": temperature,
    "long_day": _number,
    "chill_limit": temperature,
    "chill_days": whole,
    "fruit_set_high": temperature,
    "fruit_set_low": temperature,
    "rated_at": temperature,
    "curve_base": temperature,
    "curve_best": _temperatures,
    "curve_ceiling": temperature,
    "in_row": _length,
    "between_rows": _length,
    "sown_as": _words,
    "seeds_per_plant": _number,
    "germination": _share,
    "rotation": whole,
}
"""What makes a field of a crop of its row, by field."""
