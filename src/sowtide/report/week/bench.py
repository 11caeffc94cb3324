"""The bench of a week's sheet, and the week after in brief."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from itertools import groupby

from sowtide.days import GrowingYear
from sowtide.report.blocks import (
    Block,
    Heading,
    Line,
    Span,
    Style,
    Text,
    TrailingTable,
    line,
    together,
)
from sowtide.report.kit import words
from sowtide.report.kit.seedlings import start_lines
from sowtide.report.kit.stands import SpaceView, area_of
from sowtide.report.week.view import Coming, SeedlingsView, SheetView, WeekView
from sowtide.schedule.work import Kind

_MOST_SEEDLINGS = 24
"""Of more seedlings those are listed that are due in the week; the others are counted. [1]"""

_MOST_OPENINGS = 6
"""Openings named; more are counted. [1]"""

_CARE = tuple(kind.value for kind in (Kind.FEED, Kind.SPRAY, Kind.DUST))
_MOST_NAMED = 16
"""Tasks of the week after, care apart, that are all named; of more the small are counted. [1]"""

_SMALL = tuple(kind.value for kind in (Kind.HARDEN_OFF, Kind.PREPARE, Kind.LOOK, Kind.THIN))
"""Kinds of work that need no plant, no seed and no room of their own."""


def bench_table(sheet: SheetView, year: GrowingYear) -> Iterator[Block]:
    """Yield the seedlings in trays: how many, when they are fit to plant out, and for what."""
    rows = tuple(sheet.bench)
    if len(rows) > _MOST_SEEDLINGS:
        rows = tuple(each for each in rows if _is_due(each, sheet.to))
    if rows:
        yield TrailingTable(
            ("SEEDLINGS", "how many", "ready from", "too old after", "for"),
            tuple(
                (
                    each.wave,
                    (
                        f"{each.plants:,}",
                        words.day(each.ready, year),
                        words.day(each.too_old, year),
                    ),
                    _destination(each, year),
                )
                for each in rows
            ),
        )
    if len(rows) < len(sheet.bench):
        more = words.count(len(sheet.bench) - len(rows), "tray sowing")
        yield Text(f"and {more} for later weeks: `sowtide calendar`", first=" ", hang=5)


def _is_due(seedlings: SeedlingsView, last: date) -> bool:
    """Say whether seedlings are planted out or too old by a day, or have no bed to go to."""
    if seedlings.plant is None or not seedlings.beds:
        return True
    return min(seedlings.plant, seedlings.too_old) <= last


def _destination(seedlings: SeedlingsView, year: GrowingYear) -> Span:
    if seedlings.plant is None:
        return "stand by for a gap", Style.DIM
    day = words.day(seedlings.plant, year)
    if not seedlings.beds:
        return f"no room on {day}", Style.WARN
    text = f"{words.listed(seedlings.beds)}, {day}"
    if seedlings.plant > seedlings.too_old:
        return f"{text}: too old", Style.WARN
    return text, Style.PLAIN


def coming_free(sheet: SheetView, of: WeekView) -> Iterator[Block]:
    """Yield the spaces that come free in the week, and what to sow in trays now for a space."""
    opening = [each for each in sheet.openings if each.from_ >= sheet.from_]
    free = len(sheet.openings) - len(opening)
    if opening:
        others = f"besides {words.count(free, 'space')} free already" if free else None
        yield Heading("COMES FREE", others)
    yield from _first_of([_space(each, of) for each in opening])
    if sheet.start_now:
        yield Heading("START NOW", "in trays this week, for what comes free")
    yield from _first_of(start_lines(sheet.start_now, of.setting.year))


def _first_of(lines: Sequence[Line]) -> Iterator[Block]:
    """Yield the first lines of a list, and how many more there are."""
    for each in lines[:_MOST_OPENINGS]:
        yield Text(each, first=" ", hang=5)
    if len(lines) > _MOST_OPENINGS:
        yield Text(f"and {len(lines) - _MOST_OPENINGS} more: `sowtide fits`", first=" ")


def _space(of: SpaceView, whole: WeekView) -> Line:
    year, units = whole.setting.year, whole.setting.units
    text = f": {words.weekday(of.from_, year)}"
    if of.until is not None:
        text += f" until {words.weekday(of.until, year)}"
    text += f", {area_of(of.area, units)}"
    if of.leaves:
        text += f", as {words.listed(of.leaves)} {'leaves' if len(of.leaves) == 1 else 'leave'}"
    return line((of.bed, Style.STRONG), words.unbroken(text))


def next_week(sheet: SheetView, year: GrowingYear) -> Iterator[Block]:
    """Yield the week after in brief, day by day; of a busy one the small work is only counted."""
    if not sheet.next_week:
        return
    busy = sum(each.kind not in _CARE for each in sheet.next_week) > _MOST_NAMED
    days = []
    for day, found in groupby(sheet.next_week, key=lambda each: each.due):
        tasks = tuple(found)
        named = [task for task in tasks if not busy or task.kind not in _SMALL]
        what = [*_by_kind(named), *_counted(tasks if busy else ())]
        days.append(f"{together(words.weekday(day, year))}: {', '.join(what)}")
    if busy:
        yield Heading("NEXT WEEK")
        yield from (Text(day, first=" ", hang=5) for day in days)
    else:
        yield Text(line(("NEXT WEEK:", Style.HEADING), " " + "; ".join(days)), hang=2)


def _counted(tasks: Iterable[Coming]) -> Iterator[str]:
    """Yield how often each kind of small work comes."""
    kinds = Counter(task.kind for task in tasks)
    yield from (f"{kind} {kinds[kind]}" for kind in _SMALL if kinds[kind])


def _by_kind(tasks: Iterable[Coming]) -> Iterator[str]:
    """Yield each kind of a day's work with its waves, each said once."""
    waves: dict[str, dict[str, None]] = {}
    for task in tasks:
        waves.setdefault(task.kind, {})[together(task.wave)] = None
    for kind, names in waves.items():
        yield f"{kind} {words.listed(names)}"
