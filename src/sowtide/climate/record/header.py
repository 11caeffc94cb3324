"""Finding the header of a table of daily temperatures: the line that names its columns."""

from __future__ import annotations

from sowtide.climate.record.columns import Columns, columns_of
from sowtide.climate.record.faults import Faults, plain
from sowtide.climate.record.stream import Lines
from sowtide.garden.text import quoted

_PREAMBLE = 60
"""Lines in which the header is looked for."""

_WANTED = "the first line names the columns, such as: date,tmin,tmax"


def header_of(lines: Lines, faults: Faults) -> Columns | None:
    """Return the columns, or None with what is wrong with the header."""
    seen: tuple[Columns, int, str] | None = None
    for text in lines:
        if not text.strip():
            continue
        columns = columns_of(plain(text))
        if columns.complete:
            if _is_clear(columns, lines, faults):
                return columns
            return None
        if seen is None or (not seen[0].date and seen[0].low is None):
            partly = bool(columns.date) or columns.low is not None
            if seen is None or partly:
                seen = columns, lines.number, plain(text)
        if lines.number >= _PREAMBLE:
            break
    if seen is None:
        faults.at("record-empty", "the file is empty", _WANTED, line=1)
        return None
    columns, number, text = seen
    if columns.date:
        what, hint = "no column of daily minima is named here", "call it tmin"
    elif columns.low is not None:
        what, hint = "no column of dates is named here", "call it date"
    else:
        what, hint = "the columns are not named here", _WANTED
    faults.at("record-header", what, hint, line=number, text=text)
    return None


def _is_clear(columns: Columns, lines: Lines, faults: Faults) -> bool:
    text = plain(lines.text)
    if columns.twice:
        names = " and ".join(map(quoted, columns.twice))
        faults.at(
            "record-header",
            f"{names} could be the same column",
            "leave only one of them, or name the others otherwise",
            line=lines.number,
            text=text,
            cell=columns.twice[1],
        )
    if len(set(columns.units)) > 1:
        faults.at(
            "record-unit",
            f"minima in {columns.units[0].value}, maxima in {columns.units[1].value}",
            "write both in one unit",
            line=lines.number,
            text=text,
        )
    return not faults.errors
