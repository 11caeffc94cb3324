"""Reading the fixed-width monthly lines of the public daily archive (``.dly``).

Each line holds station (11 characters), year (4), month (2), element (4) and 31 times a value (5)
with its measurement, quality and source flags; values are tenths of °C, -9999 where there is none
(the archive's own description, GHCN-Daily readme).
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable
from datetime import date

from sowtide.climate.record.degrees import Unit
from sowtide.climate.record.faults import Faults, plain
from sowtide.climate.record.gathering import EARLIEST, LATEST, NOTHING, THE_FORM, DayLines
from sowtide.garden.text import quoted

_MISSING = "-9999"
_FIRST, _EACH, _WIDTH = 21, 8, 21 + 31 * 8
_LOW, _HIGH = "TMIN", "TMAX"

_Month = tuple[int, int]


def is_monthly(line: str) -> bool:
    """Say whether a line is one of the fixed-width monthly ones."""
    return (
        len(line) > _FIRST + 5
        and line[11:17].isdigit()
        and line[11:17].isascii()
        and line[17:21].isalnum()
        and line[17:21] == line[17:21].upper()
        and not {",", ";", "\t"} & set(line[:_FIRST])
    )


def read_monthly(stream: Iterable[str], faults: Faults) -> DayLines:
    """Read monthly lines; of their elements only minima and maxima."""
    archive = _Archive(faults)
    for number, line in enumerate(stream, 1):
        archive.take(number, line)
    return archive.days()


def column_of(day: int) -> int:
    """Return where the value of a day of the month begins in its line, counted from 1."""
    return _FIRST + (day - 1) * _EACH + 1


class _Archive:
    """The months read so far."""

    def __init__(self, faults: Faults) -> None:
        self._faults = faults
        self._station = ""
        self._flagged = 0
        self._others = False
        self._months: dict[str, dict[_Month, array[float]]] = {_LOW: {}, _HIGH: {}}
        self._lines: dict[tuple[str, _Month], int] = {}

    def take(self, number: int, line: str) -> None:
        """Take a line."""
        element = line[17:21]
        if element not in self._months:
            if line.strip() and not is_monthly(line):
                self._odd(number, line)
            return
        try:
            month = int(line[11:15]), int(line[15:17])
            first = date(*month, 1)
        except ValueError:
            self._odd(number, line)
            return
        if not EARLIEST <= first.toordinal() <= LATEST:
            self._odd(number, line)
        elif self._is_in_place(element, month, number, line):
            self._lines[element, month] = number
            self._months[element][month] = self._values(number, line, month)

    def days(self) -> DayLines:
        """Return the days of all months."""
        days = DayLines()
        days.unit, days.unit_from = Unit.TENTHS, THE_FORM
        days.station = self._station or None
        days.flagged = self._flagged
        lows, highs = self._months[_LOW], self._months[_HIGH]
        if not lows and not self._faults.errors:
            self._faults.at(
                "record-header",
                "no line of daily minima (TMIN) stands in the file",
                "take the file of a station that measures temperatures",
                line=1,
            )
        for month in sorted({**lows, **highs}):
            number = _length(month)
            first = date(*month, 1).toordinal()
            nothing = array("d", [NOTHING]) * number
            days.ordinals.extend(range(first, first + number))
            days.lows.extend(lows.get(month, nothing))
            if highs:
                days.highs.extend(highs.get(month, nothing))
            line = self._lines.get((_LOW, month)) or self._lines[_HIGH, month]
            days.lines.extend([line] * number)
        return days

    def _is_in_place(self, element: str, month: _Month, number: int, line: str) -> bool:
        """Say whether a line is of the one station, and its month comes after the last one."""
        station = line[:11]
        self._station = self._station or station
        if station != self._station:
            if not self._others:
                self._others = True
                self._fault(
                    "record-stations",
                    f"this is station {quoted(station)}, above stands {quoted(self._station)}",
                    "a record is of one station: make a file of each",
                    number,
                    line,
                )
            return False
        same = self._lines.get((element, month))
        name = f"{element} of {month[0]}-{month[1]:02}"
        if same is not None:
            self._fault(
                "record-duplicate",
                f"{name} stands on line {same} already",
                "keep the line that is right and delete the other",
                number,
                line,
            )
            return False
        latest = next(reversed(self._months[element]), month)
        if month < latest:
            above = self._lines[element, latest]
            self._fault(
                "record-order",
                f"{name} comes after {latest[0]}-{latest[1]:02} on line {above}",
                "sort the lines, the oldest first",
                number,
                line,
            )
        return month >= latest

    def _values(self, number: int, line: str, month: _Month) -> array[float]:
        """Return the readings of a month, without those that the archive doubts."""
        line = plain(line).ljust(_WIDTH)
        days = _length(month)
        values = array("d", [NOTHING]) * days
        for day in range(31):
            at = _FIRST + day * _EACH
            text = line[at : at + 5]
            if text == _MISSING or text.isspace():
                continue
            try:
                value = int(text)
            except ValueError:
                self._fault(
                    "record-number",
                    f"{quoted(text.strip())} is no number of tenths of °C",
                    "take the file from the archive again",
                    number,
                    line.rstrip(),
                    text.strip(),
                )
                continue
            if day >= days:
                self._fault(
                    "record-date",
                    f"a reading for day {day + 1} of {month[0]}-{month[1]:02}, which has {days}",
                    "take the file from the archive again",
                    number,
                    line.rstrip(),
                    text.strip(),
                )
            elif line[at + 6] != " ":
                self._flagged += 1
            else:
                values[day] = value
        return values

    def _odd(self, number: int, line: str) -> None:
        self._fault(
            "record-line",
            "this is not a month of the archive",
            "each line has station, year, month, element and the days' values at fixed places",
            number,
            line,
        )

    def _fault(
        self, code: str, message: str, hint: str, number: int, line: str, cell: str = ""
    ) -> None:
        self._faults.at(code, message, hint, line=number, text=line, cell=cell)


def _length(month: _Month) -> int:
    """Return how many days a month has. [days]"""
    year, number = month
    return (date(year + number // 12, number % 12 + 1, 1) - date(year, number, 1)).days
