"""How single values may be written: a table of spellings, each with what it is taken for.

    PYTHONPATH=tests python tests/garden/spellings.py --update  # then read the difference

A line of ``spellings.tsv`` is a reader, a text and what comes of it: the value, or after ``!`` the
code and the message of the refusal, and what to write instead. Of a new line the first two are
written, and the rest by ``--update``. A space that it begins with stands as ``_``.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

from sowtide.days import DayRange, GrowingYear
from sowtide.garden import readers
from sowtide.garden.care import Measured, care_readers
from sowtide.garden.care.care_readers import MixWritten
from sowtide.garden.care.measured import measured
from sowtide.garden.care.routine import Rate
from sowtide.garden.crop import CountedFrom, Raised
from sowtide.garden.journal import journal_of
from sowtide.garden.text import Refused

TABLE = Path(__file__).with_name("spellings.tsv")

NORTH, SOUTH = (GrowingYear(2026, south=south) for south in (False, True))


def _day(year: GrowingYear, *, end: bool) -> Callable[[str], date]:
    return lambda text: readers.resolve(readers.day(text), year, end=end)


def _entries(text: str) -> str:
    """Read the lines of a journal, which stand in the table with ``|`` between them."""
    read = journal_of("\n".join(text.split("|")).encode(), "journal.yaml")
    found = [each.line for each in (read.journal.happenings if read.journal else read.understood)]
    found += [
        f"! {each.span.line}:{each.span.column} {each.code}: {each.message} -> {each.hint}"
        for each in read.problems
        if each.span is not None
    ]
    return " ".join(found)


READERS: dict[str, Callable[[str], Any]] = {
    "whole 0-20": readers.whole(0, 20),
    "whole 1-1000000": readers.whole(1, 1_000_000),
    "number -90-90": readers.decimal(-90, 90),
    "number 0-30": readers.decimal(0, 30),
    "above 0-10": readers.above_zero(10),
    "days 1-1000": readers.day_range(1),
    "range 0-20": readers.range_within(0, 20),
    "percent 1-99": readers.percent(1, 99),
    "day": readers.day,
    "days": readers.days,
    "all year": readers.days_or_all_year,
    "days or none": readers.days_or_none,
    "month days": readers.month_days,
    "year": readers.year_of,
    "from north": _day(NORTH, end=False),
    "until north": _day(NORTH, end=True),
    "from south": _day(SOUTH, end=False),
    "span north": lambda text: readers.resolve_span(readers.days_or_all_year(text), NORTH),
    "span south": lambda text: readers.resolve_span(readers.days_or_all_year(text), SOUTH),
    "text": readers.text,
    "name": readers.series_name,
    "raised": readers.choice(Raised),
    "counted from": readers.choice(CountedFrom),
    "years": readers.years_wanted,
    "unit": readers.record_unit,
    "word": readers.word("dry", "wet"),
    "yes or no": readers.yes_no,
    "every": readers.how_often,
    "weekday": readers.weekday,
    "working day": readers.working_day,
    "latitude": readers.latitude,
    "size": readers.size,
    "sure": readers.sure,
    "allowance": readers.allowance,
    "warm-cool": readers.warm_cool,
    "start": readers.start,
    "until": readers.until,
    "amount": readers.amount,
    "yield": readers.yield_of_plant,
    "in the drawer": readers.amount_of,
    "work": care_readers.work,
    "moment": care_readers.moment,
    "how often": care_readers.every,
    "rate": care_readers.rate,
    "package": care_readers.package,
    "mix": care_readers.mix,
    "weighs": care_readers.density,
    "analysis": care_readers.analysis,
    "minutes": care_readers.minutes,
    "drying": care_readers.drying,
    "degrees": care_readers.degrees,
    "group": care_readers.group,
    "entry": lambda text: _entries(f"- {{{text}}}|"),
    "journal": _entries,
    "of material": lambda text: measured(text, bare=True),
}


def said(reader: str, text: str) -> str:
    """Return what a reader makes of a text as it stands in the table."""
    spaced = text.replace("_", " ") if text.startswith("_") else text
    try:
        return _shown(READERS[reader](spaced))
    except Refused as refused:
        return f"! {refused.code}: {refused.message} -> {refused.hint}"


def _shown(found: Any) -> str:
    if isinstance(found, readers.WrittenAmount):
        return f"{_shown(found.low)} to {_shown(found.high)} {found.unit}"
    if isinstance(found, MixWritten):
        return _shown(found.rate) + (f", a mix of {_shown(found.mix)}" if found.mix else "")
    if isinstance(found, Rate):
        return _shown(found.much) + (f" for {_shown(found.per)}" if found.per else "")
    if isinstance(found, Measured):
        return f"{found} ({found.dimension.value})"
    if isinstance(found, tuple):
        return ", ".join(map(_shown, found))
    if isinstance(found, DayRange):
        return f"{found.low} to {found.high}"
    return str(found)


def rows() -> list[tuple[str, str, str]]:
    """Return the rows of the table."""
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    parted = [[*line.split("\t"), ""][:3] for line in lines]
    return [(reader, text, told) for reader, text, told in parted]


if __name__ == "__main__":
    if sys.argv[1:] != ["--update"]:
        sys.exit("usage: python tests/garden/spellings.py --update")
    made = [f"{reader}\t{text}\t{said(reader, text)}\n" for reader, text, _ in rows()]
    TABLE.write_text("".join(made), encoding="utf-8")
