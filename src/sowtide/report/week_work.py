"""The work of a week's sheet: lines to tick off, their groups, the bench, and the week after."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from sowtide.days import GrowingYear
from sowtide.garden.model import Bed
from sowtide.report import words
from sowtide.report.names import shortened
from sowtide.report.sheet import (
    Column,
    Line,
    Span,
    Style,
    cells,
    fit,
    line,
    pad,
    row,
    together,
    wrap,
)
from sowtide.schedule.task import Kind, Seedlings, Task, WeekSheet
from sowtide.season import Season
from sowtide.values import value

BENCH, NO_BED = "bench", "no room"
_TRAY_WORK = (Kind.SOW_IN_TRAYS, Kind.HARDEN_OFF)
_LEAST_TEXT = 26
"""How wide the last column must be for text to hang under it. [cells]"""

_BENCH_HEAD = ("SEEDLINGS", "how many", "ready from", "too old after", "for")
_BENCH_COLUMNS = (8, 10, 13)
_MOST_NAMED = 16
"""Tasks of the week after that are named one by one; more are counted by kind. [1]"""


@value
class Layout:
    """Widths of the columns of the work, the same on the whole sheet.

    Parameters
    ----------
    code, bed, verb, name
        Short code, bed, kind of work and wave. [cells]
    width
        The whole line. [cells]
    year
        The growing year.
    sheet
        The sheet it is laid out for.
    """

    code: int
    bed: int
    verb: int
    name: int
    width: int
    year: GrowingYear
    sheet: WeekSheet

    @classmethod
    def of(cls, tasks: Iterable[Task], year: GrowingYear, sheet: WeekSheet, width: int) -> Layout:
        """Measure the tasks; a name longer than its column only moves its own line."""
        listed = tuple(tasks)
        most = 14 + max(width - 80, 0) // 4
        return cls(
            max((len(task.code) for task in listed), default=0),
            min(max((cells(place_of(task)) for task in listed), default=0), most),
            max((len(task.kind.value) for task in listed), default=0),
            min(max((cells(task.wave.id) for task in listed), default=0), most + 2),
            width,
            year,
            sheet,
        )


def place_of(task: Task) -> str:
    """Say where a task is done: a bed, the bench, or that its wave has no room."""
    if task.bed is not None:
        return task.bed
    return BENCH if task.wave.places or task.kind in _TRAY_WORK else NO_BED


def grouped(
    tasks: Iterable[Task], beds: Sequence[Bed], *, by: str
) -> Iterator[tuple[str, tuple[Task, ...]]]:
    """Yield groups of tasks with their titles: by bed as one walks, or by kind of work."""
    listed = tuple(tasks)
    if by == "work":
        for kind in Kind:
            found = tuple(task for task in listed if task.kind is kind)
            if found:
                yield kind.value.upper(), found
        return
    by_place: dict[str, list[Task]] = {}
    for task in listed:
        by_place.setdefault(place_of(task), []).append(task)
    order = [BENCH, *(bed.name for bed in beds), NO_BED]
    for place in [*order, *(place for place in by_place if place not in order)]:
        if place in by_place:
            yield place.upper(), tuple(by_place[place])
            del by_place[place]


def work_lines(
    task: Task, layout: Layout, *, bed: bool = False, verb: bool = False, must: bool = False
) -> tuple[Line, ...]:
    """Return a task as lines: code, box, day, where, kind of work, wave, and how.

    Parameters
    ----------
    task
        The task.
    layout
        The sheet's columns.
    bed, verb
        Whether the place and the kind of work are said: not where they are the title.
    must
        Whether it is one that cannot slip.
    """
    first = f" {pad(task.code, layout.code)} [ ] {_day(task, layout)}  "
    columns: list[Span] = []
    if bed:
        columns.append((_column(place_of(task), layout.bed), Style.PLAIN))
    if verb:
        columns.append((_column(task.kind.value, layout.verb), Style.PLAIN))
    columns.append((_column(task.wave.id, layout.name), Style.STRONG))
    hang = cells(first) + sum(cells(text) + 1 for text, _ in columns)
    if layout.width - hang < _LEAST_TEXT:
        hang = min(cells(first), layout.width - _LEAST_TEXT)
    # Each column is a word to the wrapping, so that a long one breaks the line and not the sheet.
    words_of = [part for column in columns for part in (column, (" ", Style.PLAIN))]
    text = line(*words_of, *_how(task, layout, must=must))
    return wrap(text, layout.width, first=first, hang=max(hang, 0))


def _column(text: str, width: int) -> str:
    """Return the text and a space behind it, filled up to a width and never cut, as one word."""
    return together(text + " " * (width - cells(text) + 1))


def _day(task: Task, layout: Layout) -> str:
    if task.due < layout.sheet.first:
        return "late  "
    return f"{words.WEEKDAYS[task.due.weekday()]} {task.due.day:>2}"


def _how(task: Task, layout: Layout, *, must: bool) -> Iterator[str | tuple[str, Style]]:
    amount = together(words.amount(task.amount)) if task.amount is not None else ""
    yield ", ".join(text for text in (amount, task.text) if text)
    if task.overdue or task.due < layout.sheet.first:
        yield "; "
        yield f"overdue since {together(words.weekday(task.due, layout.year))}", Style.BAD
    yield from _until(task, layout, must=must)
    if not task.wave.places:
        yield "; "
        yield "no room: no bed has space for this wave", Style.WARN


def _until(task: Task, layout: Layout, *, must: bool) -> Iterator[str | tuple[str, Style]]:
    """Yield the last safe day, unless it has passed or is none: then waiting costs nothing."""
    last = task.last_day
    if last is None or last < task.due or last >= layout.year.last:
        return
    if must:
        yield ". "
        yield f"Last safe day {together(words.weekday(last, layout.year))}", Style.BAD
    elif task.kind is not Kind.LOOK:
        yield f"; safe until {together(words.day(last, layout.year))}"


def bench_table(sheet: WeekSheet, season: Season, *, width: int) -> Iterator[Line]:
    """Yield the seedlings in trays: how many, when they are fit to plant out, and for what."""
    if not sheet.bench:
        return
    year = season.garden.year
    size = max(cells(each.wave.id) for each in sheet.bench)
    size = max(min(size, width - sum(_BENCH_COLUMNS) - 20), len(_BENCH_HEAD[0]))
    columns = (
        Column(size),
        *(Column(each, right=True) for each in _BENCH_COLUMNS),
        Column(max(width - size - sum(_BENCH_COLUMNS) - 8, 1)),
    )
    yield fit(row(columns, [(text, Style.HEADING) for text in _BENCH_HEAD]), width)
    for each in sheet.bench:
        texts = (
            (shortened(each.wave.id, size), Style.STRONG),
            f"{each.wave.plants:,}",
            words.day(each.ready, year),
            words.day(each.too_old, year),
            _destination(each, year),
        )
        yield fit(row(columns, texts), width)


def _destination(seedlings: Seedlings, year: GrowingYear) -> str | tuple[str, Style]:
    day = words.day(seedlings.plant, year)
    if not seedlings.beds:
        return f"no room on {day}", Style.WARN
    text = f"{words.listed(seedlings.beds)}, {day}"
    if seedlings.plant > seedlings.too_old:
        return f"{text}: too old", Style.WARN
    return text


def next_week(sheet: WeekSheet, season: Season, *, width: int) -> Iterator[Line]:
    """Yield the week after in brief, day by day."""
    if not sheet.next_week:
        return
    year = season.garden.year
    count_them = len(sheet.next_week) > _MOST_NAMED
    days = []
    for day, found in groupby(sheet.next_week, key=lambda task: task.due):
        tasks = tuple(found)
        if count_them:
            kinds = Counter(task.kind for task in tasks)
            what = [f"{kind.value} {kinds[kind]}" for kind in Kind if kinds[kind]]
        else:
            what = list(
                dict.fromkeys(f"{task.kind.value} {together(task.wave.id)}" for task in tasks)
            )
        days.append(f"{together(words.weekday(day, year))}: {', '.join(what)}")
    yield from wrap(line(("NEXT WEEK:", Style.HEADING), " " + "; ".join(days)), width, hang=2)
