"""The units and the growing year by which everything else in a file is read."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from sowtide.days import GrowingYear
from sowtide.garden.readers import dates
from sowtide.garden.readers import words as fields
from sowtide.garden.text import Refused
from sowtide.units import Units, celsius, micrometres
from sowtide.values import value

_COLDEST, _HOTTEST = -40.0, 50.0
_COLDEST_FROST, _MILDEST_FROST = -25.0, 5.0


@value
class Frame:
    """Units and growing year of a file."""

    units: Units
    """What it is written in."""
    year: GrowingYear
    """The growing year planned."""

    def temperature(self, value: Fraction) -> float:
        """Convert a temperature in the file's unit. [°C]

        Raises
        ------
        Refused
            If no garden has such a temperature: most often it is in the other unit.
        """
        found = celsius(float(value)) if self.units is Units.US else float(value)
        if not _COLDEST <= found <= _HOTTEST:
            raise self._no(value, "temperature of a garden")
        return found

    def frost(self, value: Fraction) -> float:
        """Convert the temperature of a frost in the file's unit. [°C]

        Raises
        ------
        Refused
            If nobody would call it a frost: most often it is in the other unit.
        """
        found = self.temperature(value)
        if not _COLDEST_FROST <= found <= _MILDEST_FROST:
            raise self._no(value, "frost")
        return found

    def _no(self, value: Fraction, what: str) -> Refused:
        degree = self.units.degree
        said = f"{float(value):g} {degree} is no {what}"
        return Refused("out-of-range", said, f"write it in {degree}, as the site's units say")

    def difference(self, value: Fraction) -> float:
        """Convert a difference of temperatures in the file's unit. [°C]"""
        return self.units.difference(value) if value else 0.0

    def degree_days(self, value: int) -> int:
        """Convert degree-days in the file's unit, to the nearest whole one. [°C·d]"""
        return (value * 10 + 9) // 18 if self.units is Units.US else value

    def side(self, value: Fraction) -> int:
        """Convert the side of a bed. [µm]"""
        return micrometres(value, self.units.long_unit)

    def spacing(self, value: Fraction) -> int:
        """Convert a spacing. [µm]"""
        return micrometres(value, self.units.short_unit)


def frame_of(file: Any) -> Frame | None:
    """Return the units and the growing year of a file, whatever else is wrong with it.

    None where one of the three values they rest on is missing or wrong.
    """
    site = file.get("site") if isinstance(file, dict) else None
    if not isinstance(site, dict):
        return None
    try:
        units = fields.choice(Units)(_text(site, "units"))
        latitude = fields.latitude(_text(site, "latitude"))
        season = dates.year_of(_text(file, "season"))
    except Refused:
        return None
    return Frame(units, GrowingYear(season, south=latitude < 0))


def _text(section: dict[str, Any], key: str) -> str:
    value = section.get(key)
    if not isinstance(value, str):
        raise Refused("missing", key)
    return value
