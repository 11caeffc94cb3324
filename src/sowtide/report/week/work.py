"""The work of a week's sheet: lines to tick off, their groups, the bench, and the week after."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from datetime import timedelta
from itertools import groupby

from sowtide.days import GrowingYear
from sowtide.garden.model import Bed
from sowtide.report.blocks import Line, Span, Style, line, together
from sowtide.report.formats.terminal.cells import Column, cells, fit, pad, row, wrap
from sowtide.report.formats.terminal.names import shortened
from sowtide.report.kit import words
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Verdict
from sowtide.schedule.work import Delay, Kind, Seedlings, Task, WeekSheet
from sowtide.units import in_hundred
from sowtide.values import value

BENCH, NO_BED = "bench", "no room"
_TRAY_WORK = (Kind.SOW_IN_TRAYS, Kind.HARDEN_OFF)
_SAID_AHEAD = timedelta(days=14)
"""How near its last safe day must be for a task to say it."""

_UNTIL_PLANTED = (Kind.SOW_IN_TRAYS, Kind.HARDEN_OFF, Kind.PREPARE, Kind.SOW, Kind.PLANT_OUT)
_LEAST_TEXT = 26
"""How wide the last column must be for text to hang under it. [cells]"""

_BENCH_HEAD = ("SEEDLINGS", "how many", "ready from", "too old after", "for")
_LEAST_DESTINATION = 20
"""Room kept behind the names for what seedlings are for, gaps included. [cells]"""

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
    yield ", ".join(text for text in (amount, words.unbroken(task.text)) if text)
    if task.overdue or task.due < layout.sheet.first:
        yield "; "
        yield f"overdue since {together(words.weekday(task.due, layout.year))}", Style.BAD
    if task.delay is not None:
        yield f"; {words.unbroken(_costs(task.delay))}"
    yield from _mark(task)
    yield from _until(task, layout, must=must)
    if not task.wave.places:
        yield "; "
        yield "no room: no bed has space for this wave", Style.WARN


def _costs(delay: Delay) -> str:
    """Say what it costs to start today: ``today 64 in 100 (83)``."""
    return f"today {in_hundred(delay.now)} in 100 ({in_hundred(delay.planned)})"


def _mark(task: Task) -> Iterator[str | tuple[str, Style]]:
    """Yield what is to be thought of the wave, where it is not safe and work is still put in."""
    mark = words.mark(task.wave.judged)
    if mark is None or task.kind in (Kind.PULL, Kind.PICK):
        return
    if task.wave.judged.verdict is Verdict.TOO_EARLY and task.kind not in _UNTIL_PLANTED:
        return
    yield "; "
    yield together(mark[0]), mark[1]


def _until(task: Task, layout: Layout, *, must: bool) -> Iterator[str | tuple[str, Style]]:
    """Yield the last safe day where it is near; a look says itself until when to sow again.

    Where it has passed or there is none, waiting costs nothing.
    """
    last = task.last_day
    if last is None or last < task.due or last >= layout.year.last or task.kind is Kind.LOOK:
        return
    if must:
        yield ". "
        yield f"Last safe day {together(words.weekday(last, layout.year))}", Style.BAD
    elif last - task.due <= _SAID_AHEAD:
        yield f"; safe until {together(words.day(last, layout.year))}"


def bench_table(sheet: WeekSheet, season: Season, *, width: int) -> Iterator[Line]:
    """Yield the seedlings in trays: how many, when they are fit to plant out, and for what."""
    if not sheet.bench:
        return
    year = season.garden.year
    texts = [
        (f"{each.plants:,}", words.day(each.ready, year), words.day(each.too_old, year))
        for each in sheet.bench
    ]
    widths = [
        max(cells(text) for text in column) for column in zip(_BENCH_HEAD[1:4], *texts, strict=True)
    ]
    size = max(cells(each.wave.id) for each in sheet.bench)
    size = max(min(size, width - sum(widths) - _LEAST_DESTINATION), len(_BENCH_HEAD[0]))
    columns = (Column(size), *(Column(each, right=True) for each in widths))
    hang = sum(column.width + 2 for column in columns)
    last = Column(max(width - hang, 0))
    yield fit(row((*columns, last), [(text, Style.HEADING) for text in _BENCH_HEAD]), width)
    for each, shown in zip(sheet.bench, texts, strict=True):
        name = (shortened(each.wave.id, size), Style.STRONG)
        where, style = _destination(each, year)
        if cells(where) <= last.width:
            yield row((*columns, last), (name, *shown, (where, style)))
        else:
            yield row(columns, (name, *shown))
            yield from wrap((where, style), width, first="  ")


def _destination(seedlings: Seedlings, year: GrowingYear) -> Span:
    if seedlings.plant is None:
        return "stand by for a gap", Style.DIM
    day = words.day(seedlings.plant, year)
    if not seedlings.beds:
        return f"no room on {day}", Style.WARN
    text = f"{words.listed(seedlings.beds)}, {day}"
    if seedlings.plant > seedlings.too_old:
        return f"{text}: too old", Style.WARN
    return text, Style.PLAIN


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
            what = list(_by_kind(tasks))
        days.append(f"{together(words.weekday(day, year))}: {', '.join(what)}")
    yield from wrap(line(("NEXT WEEK:", Style.HEADING), " " + "; ".join(days)), width, hang=2)


def _by_kind(tasks: Iterable[Task]) -> Iterator[str]:
    """Yield each kind of a day's work with its waves, each said once."""
    waves: dict[Kind, dict[str, None]] = {}
    for task in tasks:
        waves.setdefault(task.kind, {})[together(task.wave.id)] = None
    for kind, names in waves.items():
        yield f"{kind.value} {words.listed(names)}"
