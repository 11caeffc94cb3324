"""Reading a file of daily temperatures, whatever its form: the record, or what is wrong with it.

Known are tables with a date and a minimum (the public daily archive's CSV for one station among
them) and the archive's fixed-width monthly lines, each as it is or compressed with gzip.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from io import BufferedReader
from itertools import chain, islice
from pathlib import Path

from sowtide.climate.record.checks import (
    Settled,
    in_celsius,
    record_of,
    report_gaps,
    report_wild,
    settle_unit,
    wild_days,
)
from sowtide.climate.record.degrees import Unit, named
from sowtide.climate.record.delimited import read_table
from sowtide.climate.record.dly import column_of, is_monthly, read_monthly
from sowtide.climate.record.faults import MOST, Faults, TooManyError, plain
from sowtide.climate.record.gathering import DayLines
from sowtide.climate.record.record import Record
from sowtide.climate.record.stream import BUFFER, BoundsError, encoding_of, opened, text_of
from sowtide.diagnostics import Problem, Span, Unreadable, reason_of
from sowtide.values import value

_BINARY = ((b"PK\x03\x04", "a spreadsheet or a ZIP file"), (b"\xd0\xcf\x11\xe0", "a spreadsheet"))
_WEB = (b"<!doctype html", b"<html")
_WEB_PAGE = "a page of the web"
_GONE_BY = {"record-unit", "record-quote", "record-gap"}


@value
class RecordReading:
    """What came of reading a record."""

    record: Record | None
    """The record, or None where any of the problems is an error."""
    problems: tuple[Problem, ...]
    """Everything found, errors before warnings."""
    unit_from: str
    """What says which unit the file is in, such as ``the header``, ``the values`` or ``given``;
    empty where the unit could not be settled."""


def read_record(
    path: Path, *, unit: str | None = None, otherwise: str | None = None, label: str | None = None
) -> RecordReading:
    """Read a file of daily temperatures.

    Parameters
    ----------
    path
        The file.
    unit
        What the grower says that its numbers count: ``°C``, ``°F`` or ``tenths of °C``.
    otherwise
        The same, where neither the grower nor the header nor the values say.
    label
        How messages name the file; the path as given unless set.

    Raises
    ------
    Unreadable
        If there is no such file or it cannot be opened.
    ValueError
        If `unit` or `otherwise` is none of these.
    """
    given, fallback = _unit(unit), _unit(otherwise)
    faults = Faults(label or str(path))
    with opened(path, faults.label) as file:
        monthly, days = _read(file, faults)
    if faults.errors or days is None:
        return RecordReading(None, _shown(path, faults), "")
    settled = settle_unit(days, given, faults, otherwise=fallback)
    if settled is None:
        return RecordReading(None, _shown(path, faults), "")
    return _finished(path, days, settled, faults, monthly=monthly)


def _unit(text: str | None) -> Unit | None:
    found = None if text is None else named(text)
    if text is not None and found is None:
        raise ValueError(f"not a unit of temperature: {text}")
    return found


def _finished(
    path: Path, days: DayLines, settled: Settled, faults: Faults, *, monthly: bool
) -> RecordReading:
    lows, highs = in_celsius(days.lows, settled.unit), in_celsius(days.highs, settled.unit)
    wild = wild_days(days, lows, highs, settled.unit)
    many = False
    if wild:
        first = [each.index for each in wild[:MOST]]
        many = report_wild(wild, days, _places(path, days, first, faults, monthly), faults)
    if many:
        return RecordReading(None, faults.problems(), settled.by)
    report_gaps(days, faults)
    record = record_of(days, lows, highs, settled=settled, wild=wild, label=path.name)
    return RecordReading(record, _shown(path, faults), settled.by)


def _read(file: BufferedReader, faults: Faults) -> tuple[bool, DayLines | None]:
    """Return whether the file is made of monthly lines, and its days."""
    try:
        head = file.peek(BUFFER)
        binary = _binary(head)
        if binary is not None:
            hint = "save it as CSV, or take the station's file of daily values"
            if binary == _WEB_PAGE:
                hint = "take the file that the page offers, not the page itself"
            faults.at("record-text", f"the file is {binary}", hint, line=1)
            return False, None
        with text_of(file, head) as lines:
            opening = list(islice(lines, 1))
            if opening and is_monthly(opening[0]):
                return True, read_monthly(chain(opening, lines), faults)
            return False, read_table(chain(opening, lines), faults)
    except TooManyError:
        return False, None
    except BoundsError as error:
        hint = "a record is of one station, one line a day: is this the file you mean?"
        faults.at("record-text", f"the file {error}, unpacked", hint, line=1)
    except _damages() as error:
        what = "ends too early" if isinstance(error, EOFError) else "is damaged"
        faults.at("record-text", f"the compressed file {what}", "download it again", line=1)
    except OSError as error:
        raise Unreadable(f"{faults.label} cannot be read: {reason_of(error)}") from None
    return False, None


def _damages() -> tuple[type[Exception], ...]:
    """Return what a damaged compressed file raises; looked up only where something is raised."""
    import zlib
    from gzip import BadGzipFile

    return EOFError, BadGzipFile, zlib.error


def _binary(head: bytes) -> str | None:
    """Return what the file is if its beginning is not that of a table."""
    for magic, kind in _BINARY:
        if head.startswith(magic):
            return kind
    if head[:200].lstrip().lower().startswith(_WEB):
        return _WEB_PAGE
    if encoding_of(head) is not None:
        return None
    endless = len(head) >= BUFFER and b"\n" not in head and b"\r" not in head
    return "not a text" if endless or b"\0" in head else None


def _shown(path: Path, faults: Faults) -> tuple[Problem, ...]:
    """Return the problems; lines that had gone by when they were found are looked up again."""
    problems = faults.problems()
    lines = {each.span.line for each in problems if each.span and each.code in _GONE_BY}
    texts = _lines(path, lines, faults.label) if lines else {}
    return tuple(_with_line(each, texts) if each.code in _GONE_BY else each for each in problems)


def _with_line(problem: Problem, texts: dict[int, str]) -> Problem:
    span = problem.span
    if span is None or span.text or not texts.get(span.line):
        return problem
    text = texts[span.line]
    return replace(problem, span=replace(span, length=len(text), text=text))


def _places(
    path: Path, days: DayLines, indices: list[int], faults: Faults, monthly: bool
) -> list[Span]:
    """Return where some days stand, with their lines, which are looked up in the file again."""
    texts = _lines(path, {days.lines[index] for index in indices}, faults.label)
    spans = []
    for index in indices:
        line = days.lines[index]
        text = texts.get(line, "")
        if monthly:
            column = column_of(date.fromordinal(days.ordinals[index]).day)
            spans.append(Span(file=faults.label, line=line, column=column, length=5, text=text))
        else:
            spans.append(
                Span(file=faults.label, line=line, column=1, length=len(text) or 1, text=text)
            )
    return spans


def _lines(path: Path, numbers: set[int], name: str) -> dict[int, str]:
    """Return some lines of a file that has been read before."""
    texts: dict[int, str] = {}
    with opened(path, name) as file, text_of(file, file.peek(BUFFER)) as lines:
        for number, text in enumerate(lines, 1):
            if number in numbers:
                texts[number] = plain(text)
            if len(texts) == len(numbers):
                break
    return texts
