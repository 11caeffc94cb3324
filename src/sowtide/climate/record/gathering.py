"""DayLines gathered from the lines of a file, in their order, each known by its line."""

from __future__ import annotations

from array import array
from datetime import date

from sowtide.climate.record.degrees import Unit
from sowtide.climate.record.faults import Faults

NOTHING = float("nan")
"""Stands for a reading that is not there."""

THE_FORM = "the form of the file"
"""What says the unit of a file whose form allows only one."""

EARLIEST, LATEST = date(1700, 1, 1).toordinal(), date(2200, 12, 31).toordinal()
"""DayLines outside these are slips of the pen; no station has measured for so long."""


class DayLines:
    """The readings of a file as they are written in it.

    Attributes
    ----------
    ordinals
        The days, rising.
    lows, highs
        Their readings in the file's unit; `highs` stays empty where the file has none.
    lines
        The line each day stands on.
    station
        What the file calls its station, or None.
    unit, unit_from
        The unit, and what says so; None and "" where the file does not.
    unit_line
        The line that says so, or would: that of the header.
    integers
        Whether no reading is written with decimals.
    flagged
        Readings that the archive doubts.
    """

    __slots__ = (
        "_index",
        "_misplaced",
        "flagged",
        "highs",
        "integers",
        "lines",
        "lows",
        "ordinals",
        "station",
        "unit",
        "unit_from",
        "unit_line",
    )

    def __init__(self) -> None:
        self.ordinals = array("l")
        self.lows = array("d")
        self.highs = array("d")
        self.lines = array("l")
        self.station: str | None = None
        self.unit: Unit | None = None
        self.unit_from = ""
        self.unit_line = 1
        self.integers = True
        self.flagged = 0
        self._index: dict[int, int] = {}
        self._misplaced = (0, 0)

    def misplaced(self, ordinal: int, faults: Faults, *, line: int, text: str) -> None:
        """Say what is wrong with a day that does not come after the last one taken.

        Of days that follow each other behind a jump back only the first is out of order.
        """
        number = len(self.ordinals)
        for index in range(len(self._index), number):
            self._index[self.ordinals[index]] = index
        latest = self.ordinals[-1]
        before = self._misplaced[1] if self._misplaced[0] == number else latest
        self._misplaced = (number, ordinal)
        day = date.fromordinal(ordinal)
        same = self._index.get(ordinal)
        if same is not None:
            faults.at(
                "record-duplicate",
                f"{day} stands on line {self.lines[same]} already",
                "keep the line that is right and delete the other",
                line=line,
                text=text,
            )
        elif ordinal <= before:
            faults.at(
                "record-order",
                f"{day} comes after {date.fromordinal(latest)} on line {self.lines[-1]}",
                "sort the lines by date, the oldest first",
                line=line,
                text=text,
            )
