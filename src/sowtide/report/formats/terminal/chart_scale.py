"""The scale of the season calendar: which column a day falls in, and the head above the columns."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from sowtide.days import MONTHS, DateSpan
from sowtide.report.blocks import ChartMark
from sowtide.values import value

_LONG_MONTHS = {4: "April", 6: "June", 7: "July", 9: "Sept"}


@value
class Scale:
    """Days laid out over columns, the same number of whole days in each.

    A column shows what its middle day holds, so that a wave which follows another on the day that
    one is pulled out never shares a column with it.
    """

    first: date
    """The first day of the first column."""
    step: int
    """Days in a column. [days]"""
    columns: int
    """How many columns. [1]"""

    @property
    def last(self) -> date:
        """The last day of the last column."""
        return self.first + timedelta(days=self.step * self.columns - 1)

    def holding(self, day: date) -> int | None:
        """Return the column that a day lies in, or None where it lies outside."""
        column = (day - self.first).days // self.step
        return column if 0 <= column < self.columns else None

    def middle(self, column: int) -> date:
        """Return the day that a column shows."""
        return self.first + timedelta(days=column * self.step + self.step // 2)

    def start(self, day: date) -> int:
        """Return the first column whose middle day is that day or later; it may lie outside."""
        return -((self.step // 2 - (day - self.first).days) // self.step)

    def stretch(self, first: date, beyond: date) -> tuple[int, int] | None:
        """Return the columns of the days from `first` to before `beyond`, at least one.

        Returns
        -------
        tuple of int, or None
            The first column and the one after the last, within the scale; None where the days lie
            outside.

        Examples
        --------
        >>> scale = Scale(date(2026, 6, 1), 4, 20)
        >>> scale.stretch(date(2026, 6, 3), date(2026, 6, 11)), scale.start(date(2026, 6, 11))
        ((0, 2), 2)
        """
        if beyond <= self.first or first > self.last or beyond <= first:
            return None
        begin = min(max(self.start(first), 0), self.columns - 1)
        return begin, min(max(self.start(beyond), begin + 1), self.columns)


def scale_for(days: DateSpan, *, columns: int) -> Scale:
    """Return the finest scale that shows some days within so many columns."""
    total = days.length
    # One column is kept for the mark behind a bar that ends on the last day.
    step = -(-total // (columns - 1))
    return Scale(days.first, step, -(-total // step) + 1)


def months_over(scale: Scale) -> str:
    """Return the names of the months, each over the column of its first day."""
    starts = [0, *(column for _, column in _month_starts(scale))]
    names = [scale.first.month, *(month for month, _ in _month_starts(scale))]
    cells = [" "] * scale.columns
    for month, at, beyond in zip(names, starts, [*starts[1:], scale.columns], strict=True):
        short = MONTHS[month - 1]
        name = _LONG_MONTHS.get(month, short)
        for text in (name, short):
            if len(text) < beyond - at or (beyond == scale.columns and len(text) == beyond - at):
                cells[at : at + len(text)] = text
                break
    return "".join(cells).rstrip()


def _month_starts(scale: Scale) -> Iterator[tuple[int, int]]:
    """Yield each month that begins within the scale, and its column."""
    day = scale.first
    while True:
        day = (day.replace(day=1) + timedelta(days=32)).replace(day=1)
        column = scale.holding(day)
        if column is None:
            return
        yield day.month, column


def weeks_over(scale: Scale) -> str:
    """Return the day of the month on which a week starts, as many weeks as there is room for."""
    weeks = next(n for n in (1, 2, 4, 8, 16) if 7 * n >= 3 * scale.step)
    cells = [" "] * scale.columns
    for offset in range(0, scale.step * scale.columns, 7 * weeks):
        text = str((scale.first + timedelta(days=offset)).day)
        at = offset // scale.step
        if at + len(text) <= scale.columns:
            cells[at : at + len(text)] = text
    return "".join(cells).rstrip()


def marks_over(scale: Scale, marks: Iterable[ChartMark]) -> str:
    """Return a row with a sign over the column of each day, or over every column of a span.

    A sign of several characters is left out where it would touch one before it.
    """
    cells = [" "] * scale.columns
    for mark in marks:
        first, last = mark.days.first, mark.days.last
        if first == last:
            column = scale.holding(first)
            if column is not None:
                _put(mark.sign, cells, column)
            continue
        found = scale.stretch(first, last + timedelta(days=1))
        if found is not None:
            cells[slice(*found)] = mark.sign * (found[1] - found[0])
    return "".join(cells).rstrip()


def _put(sign: str, cells: list[str], column: int) -> None:
    """Write a sign over a column, a longer one from it on and with room on either side."""
    at = min(column, len(cells) - len(sign))
    if len(sign) == 1 or not "".join(cells[max(at - 1, 0) : at + len(sign) + 1]).strip():
        cells[at : at + len(sign)] = sign
