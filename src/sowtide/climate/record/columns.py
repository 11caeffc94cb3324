"""The columns of a table of daily temperatures, as its header names them.

Known are the names that the public archives, weather services and spreadsheets use.
"""

from __future__ import annotations

import csv
from contextlib import suppress

from sowtide.climate.record.degrees import Unit, named
from sowtide.values import value

_DATES = (
    "date",
    "datetime",
    "datetimelst",
    "localdate",
    "obsdate",
    "observationdate",
    "yyyymmdd",
    "messdatum",
    "datum",
    "time",
    "timestamp",
    "validtime",
    "day",
)
_LOWS = {
    "tmin",
    "tempmin",
    "mintemp",
    "min",
    "minimum",
    "minimumtemperature",
    "mintemperature",
    "temperatureminimum",
    "temperaturemin",
    "minairtemperature",
    "minimumairtemperature",
    "airtemperaturemin",
    "airtempmin",
    "temperature2mmin",
    "dailyminimum",
    "dailymin",
    "tn",
    "tnk",
    "low",
    "lowtemp",
    "templow",
    "lowtemperature",
}
_HIGHS = {
    name.replace("minimum", "maximum").replace("min", "max").replace("low", "high")
    for name in _LOWS
} - {"tn", "tnk"} | {"tx", "txk"}
_STATIONS = ("station", "stationid", "stationsid", "staid", "stn", "climateid", "id")
_STATION_NAMES = ("name", "stationname")
_FLAGS = "attributes"
_DELIMITERS = (",", ";", "\t")


@value
class Columns:
    """Where the cells stand in a row, counted from 0; None where the table has no such column."""

    names: tuple[str, ...]
    """The header's cells."""
    delimiter: str
    """What stands between two cells."""
    date: tuple[int, ...]
    """The date, or year, month and day."""
    low: int | None
    high: int | None
    """Daily minimum and maximum."""
    low_flags: int | None
    high_flags: int | None
    """What the archive remarks on each."""
    station: int | None
    station_name: int | None
    """What the station is called."""
    units: tuple[Unit, ...]
    """What the header calls the unit of each column of temperatures."""
    twice: tuple[str, ...]
    """Names that could all be the same column of temperatures."""

    @property
    def complete(self) -> bool:
        """Whether a record can be read from the table."""
        return bool(self.date) and self.low is not None

    @property
    def furthest(self) -> int:
        """The last column that is read."""
        others = (self.low, self.high, self.low_flags, self.high_flags, self.station)
        return max((*self.date, *(at for at in others if at is not None)))


def columns_of(header: str) -> Columns:
    """Return the columns that a line names, as far as it names any."""
    delimiter = max(_DELIMITERS, key=header.count)
    row = []
    with suppress(csv.Error):  # a cell too long for any name
        row = next(csv.reader([header], delimiter=delimiter, skipinitialspace=True), [])
    cells = tuple(cell.strip() for cell in row)
    read = [_name_and_unit(cell) for cell in cells]
    names = [name for name, _ in read]
    low, high = _first(names, _LOWS), _first(names, _HIGHS)
    return Columns(
        names=cells,
        delimiter=delimiter,
        date=_date(names),
        low=low,
        high=high,
        low_flags=_flags(names, low),
        high_flags=_flags(names, high),
        station=_first(names, _STATIONS),
        station_name=_first(names, _STATION_NAMES),
        units=tuple(unit for at in (low, high) if at is not None and (unit := read[at][1])),
        twice=_twice(cells, names, _LOWS) or _twice(cells, names, _HIGHS),
    )


def _name_and_unit(cell: str) -> tuple[str, Unit | None]:
    """Split a header's cell such as ``tmin (°F)`` or ``TMIN_F``."""
    text = cell.casefold().strip()
    for opening, closing in ("()", "[]"):
        name, bracket, rest = text.partition(opening)
        if bracket:
            return _squashed(name), named(rest.partition(closing)[0])
    for sign in ("_", " ", ".", "-"):
        name, found, unit = text.rpartition(sign)
        if found and _squashed(name) in _LOWS | _HIGHS and named(unit):
            return _squashed(name), named(unit)
    return _squashed(text), None


def _squashed(text: str) -> str:
    return "".join(char for char in text if char.isalnum())


def _first(names: list[str], known: set[str] | tuple[str, ...]) -> int | None:
    return next((at for at, name in enumerate(names) if name in known), None)


def _date(names: list[str]) -> tuple[int, ...]:
    parts = tuple(names.index(part) for part in ("year", "month", "day") if part in names)
    for name in _DATES:
        if name in names and not (name == "day" and len(parts) == 3):
            return (names.index(name),)
    return parts if len(parts) == 3 else ()


def _flags(names: list[str], of: int | None) -> int | None:
    return None if of is None else _first(names, (names[of] + _FLAGS,))


def _twice(cells: tuple[str, ...], names: list[str], known: set[str]) -> tuple[str, ...]:
    """Return the header's cells that could all be the same column, or nothing."""
    found = tuple(cell for cell, name in zip(cells, names, strict=True) if name in known)
    return found if len(found) > 1 else ()
