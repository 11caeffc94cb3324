"""Reading tables of daily temperatures: one line a day, cells between commas, ; or tabs."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterable, Iterator
from datetime import date
from itertools import chain

from sowtide.climate.record.cells import Doubts, Numbers
from sowtide.climate.record.columns import Columns
from sowtide.climate.record.degrees import named
from sowtide.climate.record.faults import Faults, plain
from sowtide.climate.record.gathering import EARLIEST, LATEST, NOTHING, DayLines
from sowtide.climate.record.header import header_of
from sowtide.climate.record.stream import Lines
from sowtide.climate.record.written_dates import Form, form_of
from sowtide.garden.text import quoted

_DayOf = Callable[[list[str]], int]


def read_table(stream: Iterable[str], faults: Faults) -> DayLines:
    """Read a table, its header within the first lines, one line a day."""
    lines = Lines(stream)
    columns = header_of(lines, faults)
    days = DayLines()
    if columns is None:
        return days
    days.unit_line = lines.number
    if len(set(columns.units)) == 1:
        days.unit, days.unit_from = columns.units[0], "the header"
    table = _Table(columns, days, lines, faults)
    try:
        table.read()
    except csv.Error:
        if '"' in lines.text or lines.number > table.done + 1:
            faults.at(
                "record-quote",
                "a quote that opens here or further down is not closed behind its cell",
                'write " behind the cell that it belongs to, or delete it',
                line=table.done + 1,
            )
        else:
            faults.at(
                "record-text",
                "a cell of this line is too long for any reading",
                "is the file damaged? take it from its source again",
                line=lines.number,
            )
    return days


class _Table:
    """The lines below a header."""

    def __init__(self, columns: Columns, days: DayLines, lines: Lines, faults: Faults) -> None:
        self._columns = columns
        self._days = days
        self._lines = lines
        self._faults = faults
        self._numbers = Numbers(comma=columns.delimiter != ",")
        self._doubts = Doubts()
        self._station = ""
        self._others = False
        self._form = Form.HYPHENS

    @property
    def done(self) -> int:
        """The last line that a day was taken from, else that of the header."""
        days = self._days
        return days.lines[-1] if days.lines else days.unit_line

    def read(self) -> None:
        """Read all of them."""
        rows = csv.reader(
            self._lines, delimiter=self._columns.delimiter, skipinitialspace=True, strict=True
        )
        first = self._first(rows)
        if first is None:
            return
        day_of = self._dates(first)
        if day_of is None:
            return
        self._name(first)
        self._take(chain((first,), rows), day_of)
        self._days.integers = self._numbers.integers

    def _take(self, rows: Iterable[list[str]], day_of: _DayOf) -> None:
        """Take the rows: the common case here, all that is wrong with one apart."""
        columns, days, lines, numbers = self._columns, self._days, self._lines, self._numbers
        at_low, at_high, at_station = columns.low or 0, columns.high, columns.station
        remarks = columns.low_flags is not None or columns.high_flags is not None
        width, station, latest = len(columns.names), self._station, EARLIEST - 1
        for row in rows:
            try:
                ordinal = day_of(row)
                low = numbers[row[at_low]]
                high = NOTHING if at_high is None else numbers[row[at_high]]
                if remarks:
                    low, high = self._undoubted(row, low, high)
                if at_station is not None and row[at_station] != station:
                    self._another(row[at_station])
                    continue
            except (ValueError, IndexError):
                self._refused(row, day_of)
                continue
            if (not latest < ordinal <= LATEST or len(row) > width) and self._is_odd(row, ordinal):
                continue
            latest = ordinal
            days.ordinals.append(ordinal)
            days.lines.append(lines.number)
            days.lows.append(low)
            if at_high is not None:
                days.highs.append(high)

    def _first(self, rows: Iterator[list[str]]) -> list[str] | None:
        """Return the first row with a day in it; a row of units may stand before it."""
        for row in rows:
            if not self._is_of_units(row) and not _is_idle(row):
                return row
        self._fault(
            "record-empty",
            "no day stands below the header",
            "one line a day, such as: 2012-01-01,-2.2,4.4",
        )
        return None

    def _is_of_units(self, row: list[str]) -> bool:
        at_date, at_low = self._columns.date[0], self._columns.low or 0
        if len(row) <= max(at_date, at_low) or any(map(str.isdigit, row[at_date])):
            return False
        unit = named(row[at_low])
        if unit is not None and self._days.unit is None:
            self._days.unit, self._days.unit_from = unit, "the line of units"
            self._days.unit_line = self._lines.number
        return unit is not None

    def _name(self, row: list[str]) -> None:
        """Take what the file calls its station."""
        columns = self._columns
        if columns.station is not None and columns.station < len(row):
            self._station = row[columns.station]
        for at in (columns.station_name, columns.station):
            if at is not None and at < len(row) and row[at].strip():
                self._days.station = plain(row[at]).strip()
                return

    def _dates(self, first: list[str]) -> _DayOf | None:
        """Return what reads the date of a row, written as in the first one."""
        at = self._columns.date
        if len(at) == 3:
            year, month, day = at
            whole = Form.HYPHENS.reader()
            return lambda row: whole(f"{row[year].strip()}-{row[month].strip()}-{row[day].strip()}")
        column = at[0]
        form = form_of(first[column]) if column < len(first) else None
        if form is None:
            self._bad_date(first)
            return None
        self._form, read = form, form.reader()
        return lambda row: read(row[column])

    def _undoubted(self, row: list[str], low: float, high: float) -> tuple[float, float]:
        """Return the two readings without those that the archive doubts."""
        columns, doubts = self._columns, self._doubts
        if columns.low_flags is not None and doubts[row[columns.low_flags]] and low == low:
            low = NOTHING
            self._days.flagged += 1
        if columns.high_flags is not None and doubts[row[columns.high_flags]] and high == high:
            high = NOTHING
            self._days.flagged += 1
        return low, high

    def _is_odd(self, row: list[str], ordinal: int) -> bool:
        """Say what is wrong with a row that does not follow on the last one, if anything is."""
        width = len(self._columns.names)
        if any(map(str.strip, row[width:])):
            self._fault(
                "record-cells",
                f"{len(row)} cells stand here, the header names {width}",
                "write decimals with a point, as many cells as the header has",
            )
            return True
        if not EARLIEST <= ordinal <= LATEST:
            self._fault(
                "record-date",
                f"no record reaches to {date.fromordinal(ordinal)}",
                "correct the year",
                self._date_cell(row),
            )
            return True
        if self._days.ordinals and ordinal <= self._days.ordinals[-1]:
            text = self._lines.text
            self._days.misplaced(ordinal, self._faults, line=self._lines.number, text=text)
            return True
        return False

    def _another(self, station: str) -> None:
        if not self._others:
            self._others = True
            self._fault(
                "record-stations",
                f"this is station {quoted(plain(station))}, above stands "
                f"{quoted(plain(self._station))}",
                "a record is of one station: make a file of each",
                plain(station),
            )

    def _refused(self, row: list[str], day_of: _DayOf) -> None:
        """Say what is wrong with a row that cannot be read."""
        columns = self._columns
        if _is_idle(row):
            return
        temperatures = [at for at in (columns.low, columns.high) if at is not None]
        if len(row) <= columns.furthest:
            self._fault(
                "record-cells",
                f"{len(row)} {'cell stands' if len(row) == 1 else 'cells stand'} here, "
                f"the header names {len(columns.names)}",
                "leave a cell empty where there is no reading, but write its comma",
            )
            return
        try:
            day_of(row)
        except ValueError:
            self._bad_date(row)
        for at in temperatures:
            try:
                self._numbers[row[at]]
            except ValueError:
                self._fault(
                    "record-number",
                    f"{quoted(plain(row[at]).strip())} is no temperature",
                    "write a number; leave the cell empty where there is no reading",
                    plain(row[at]),
                )

    def _bad_date(self, row: list[str]) -> None:
        cell = self._date_cell(row)
        form = form_of(cell)
        if form is None:
            known = "could be more than one day" if _is_ambiguous(cell) else "is no date"
            hint = "write the year first, such as 2012-04-03"
        elif form is self._form:
            known, hint = "is a day that no calendar has", "correct it, or delete the line"
        else:
            known = "is not written as the dates above it are"
            hint = f"write all of them in one way, such as {self._form.value}"
        self._fault("record-date", f"{quoted(cell)} {known}", hint, cell)

    def _date_cell(self, row: list[str]) -> str:
        return "-".join(plain(row[at]).strip() for at in self._columns.date if at < len(row))

    def _fault(self, code: str, message: str, hint: str, cell: str = "") -> None:
        lines = self._lines
        self._faults.at(code, message, hint, line=lines.number, text=lines.text, cell=cell)


def _is_idle(row: list[str]) -> bool:
    return not any(map(str.strip, row)) or row[0].lstrip().startswith("#")


def _is_ambiguous(cell: str) -> bool:
    """Say whether three numbers stand there, and day, month and year may be in any order."""
    parts = cell.replace("-", "/").replace(".", "/").split("/")
    return len(parts) == 3 and all(map(str.isdecimal, parts)) and len(parts[0]) <= 2
