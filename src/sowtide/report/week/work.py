"""The work of a week's sheet: lines to tick off, in groups, and the grid of what to pick."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import timedelta
from itertools import groupby
from types import MappingProxyType

from sowtide.grouping import grouped
from sowtide.report.blocks import (
    Checklist,
    ChecklistGroup,
    ChecklistItem,
    Grid,
    GridRow,
    Line,
    Span,
    Style,
    line,
    together,
)
from sowtide.report.kinds import AmountView
from sowtide.report.kit import words
from sowtide.report.week.tasks_view import (
    BENCH,
    NO_BED,
    DayView,
    DelayView,
    PickingView,
    TaskView,
)
from sowtide.report.week.view import SheetView, WeekBy, WeekView
from sowtide.schedule.waves import Verdict
from sowtide.schedule.work import DayPart, Kind
from sowtide.units import in_hundred

_SAID_AHEAD = timedelta(days=14)
"""How near its last safe day must be for a task to say it."""

_DONE_ALIKE = (Kind.HARDEN_OFF, Kind.PLANT_OUT, Kind.LOOK)
"""Work that is done in the same way whatever it is done to."""

_OFTEN = 5
"""How many tasks of a kind must say the same for it to be said once: ours. [1]"""

_STARTING = (Kind.SOW_IN_TRAYS, Kind.HARDEN_OFF, Kind.PREPARE, Kind.SOW, Kind.PLANT_OUT)


def work(sheet: SheetView, of: WeekView) -> Checklist:
    """Return all work of a week to tick off, the pickings as a grid by weekday."""
    parts: list[ChecklistGroup | Grid] = []
    by_day = of.by is WeekBy.DAY
    over = _over(sheet)
    late = [
        task for task in sheet.overdue_of if task.wave not in over or task.kind not in _STARTING
    ]
    for title, tasks, must in (
        ("OVERDUE", late, False),
        ("CANNOT SLIP", () if by_day else sheet.urgent, True),
    ):
        note = _left_out(over) if title == "OVERDUE" and over else None
        if tasks or note:
            items = tuple(item_of(task, sheet, of, must=must) for task in tasks)
            parts.append(ChecklistGroup(title, items, note=note))
    if sheet.pickings:
        parts.append(_grid(sheet, of))
    once = said_once(sheet.others)
    if once:
        how = (f"{kind.value}: {text}" for kind, text in once.items())
        parts.append(ChecklistGroup("HOW", (), note=line("; ".join(how))))
    if by_day:
        for day in sheet.days:
            parts += _day(day, sheet, of, once)
        return Checklist(tuple(parts))
    by_work = of.by is WeekBy.WORK
    for title, tasks in _groups(sheet.others, of):
        items = tuple(item_of(task, sheet, of, once=once) for task in tasks)
        block = "" if by_work else block_of(tasks[0].place, of.beds)
        parts.append(ChecklistGroup(title, items, place=by_work, verb=not by_work, block=block))
    return Checklist(tuple(parts))


def _over(sheet: SheetView) -> tuple[str, ...]:
    """Return the waves that it is too late to start this season."""
    late = (task for task in sheet.overdue_of if task.delay is not None and task.delay.over)
    return tuple(dict.fromkeys(task.wave for task in late if task.wave is not None))


def _left_out(over: tuple[str, ...]) -> Line:
    """Say which waves it is too late to start, and how to note that they are left out."""
    named = words.unbroken(words.named_shortly(over))
    how = together(f"`sowtide did {over[0]} skipped`")
    return line(f"Too late now for {named}. Left out? {how} frees the room.")


def said_once(tasks: Iterable[TaskView]) -> dict[Kind, str]:
    """Return what is said of so many tasks of a kind in the same words that once is enough.

    What stands behind its colon is each task's own, as the day until which to sow again.
    """
    found = Counter(
        (task.kind, task.text.partition(": ")[0]) for task in tasks if task.kind in _DONE_ALIKE
    )
    most = (pair for pair, number in found.most_common() if number >= _OFTEN)
    once: dict[Kind, str] = {}
    for kind, text in most:
        once.setdefault(kind, text)
    return {kind: once[kind] for kind in _DONE_ALIKE if kind in once}


def block_of(bed: str, beds: Sequence[str]) -> str:
    """Return the block that a bed is of: what stands before its number, if others have that too.

    Examples
    --------
    >>> block_of("Hill 12", ("Hill 1", "Hill 12", "Tunnel"))
    'Hill'
    """
    block, _, number = bed.rpartition(" ")
    if not block or not number.isdecimal():
        return ""
    others = (other.rpartition(" ") for other in beds if other != bed)
    alike = any(name == block and each.isdecimal() for name, _, each in others)
    return block if alike else ""


def _groups(
    tasks: tuple[TaskView, ...], of: WeekView
) -> Iterator[tuple[str, tuple[TaskView, ...]]]:
    """Yield groups of tasks with their titles: by bed as one walks, or by kind of work."""
    if of.by is WeekBy.WORK:
        for kind in Kind:
            found = tuple(task for task in tasks if task.kind is kind)
            if found:
                yield kind.value.upper(), found
        return
    by_place = grouped(tasks, lambda task: task.place)
    order = dict.fromkeys((BENCH, *of.beds, NO_BED, *by_place))
    for place in order:
        if place in by_place:
            yield place.upper(), tuple(by_place[place])


def _day(
    day: DayView, sheet: SheetView, of: WeekView, once: Mapping[Kind, str]
) -> Iterator[ChecklistGroup]:
    """Yield a day's work, a group for each part of the day that has some of its own."""
    title = words.weekday(day.date_, of.setting.year).upper()
    title += ", today" if day.is_today else ""
    picked = [together(task.wave or "") for task in day.work if task.kind is Kind.PICK]
    note = line("pick ", ", ".join(picked)) if picked else None
    left = [task for task in day.work if task.kind is not Kind.PICK]
    if note is not None and (not left or left[0].part is DayPart.EVENING):
        yield ChecklistGroup(title, (), day=False, note=note)
        note = None
    for part, found in groupby(left, key=lambda task: task.part):
        named = title if part is DayPart.ANY_TIME else f"{title}, {part.value}"
        items = tuple(
            item_of(task, sheet, of, must=task.id in sheet.cannot_slip, once=once) for task in found
        )
        yield ChecklistGroup(named, items, day=False, note=note)
        note = None


def item_of(
    task: TaskView,
    sheet: SheetView,
    of: WeekView,
    *,
    must: bool = False,
    once: Mapping[Kind, str] = MappingProxyType({}),
) -> ChecklistItem:
    """Return a task as an item of a list, late or on its day.

    Parameters
    ----------
    task, sheet, of
        The task, and where it stands.
    must
        Whether it is said until when it must be done, and what waiting costs.
    once
        What is said elsewhere of all tasks of a kind.
    """
    late = task.due < sheet.from_
    text = task.text
    common, _, own = text.partition(": ")
    if once.get(task.kind) == common:
        text = f"few up: {own}" if own and task.kind is Kind.LOOK else own
    day = "late  " if late else f"{words.WEEKDAYS[task.due.weekday()]} {task.due.day:>2}"
    return ChecklistItem(
        code=task.code,
        day=day,
        place=task.place,
        verb=task.kind.value,
        name=waves_of(task),
        words=line(
            *_how(task, text, of, late=late, must=must), *_waiting(task, sheet, of, must=must)
        ),
    )


_NAMED = 22
"""How long the names of the waves of one piece of care may be; else they are counted. [cells]"""


def waves_of(task: TaskView) -> str:
    """Name the waves of a piece of work: ``cucumber-1, -2``, or how many there are."""
    text = words.named_shortly(task.waves)
    many = len(task.waves) > 1 and len(text) > _NAMED
    return words.count(len(task.waves), "wave") if many else text


def amount_of(of: AmountView, task: TaskView) -> str:
    """Say the amount of a piece of work; of care as it is measured out: ``2 lb 4 oz``."""
    if task.routine is None:
        return words.amount(of.value, of.unit)
    from sowtide.garden.care import said

    return said(of.value, of.unit)


def _how(task: TaskView, how: str, of: WeekView, *, late: bool, must: bool) -> Iterator[str | Span]:
    amount = ""
    if task.amount is not None:
        amount = together(amount_of(task.amount, task))
    if task.part is not DayPart.ANY_TIME and of.by is not WeekBy.DAY:
        yield f"{task.part.value}: "
    yield ", ".join(text for text in (amount, words.unbroken(how)) if text)
    if task.overdue or late:
        yield "; "
        yield f"overdue since {together(words.weekday(task.due, of.setting.year))}", Style.BAD
    if task.wait_until is not None:
        yield "; "
        yield (
            f"in this heat not before {together(words.weekday(task.wait_until, of.setting.year))}",
            Style.WARN,
        )
    if task.planned is not None:
        yield f"; put off from {together(words.weekday(task.planned, of.setting.year))}"
    if task.cannot_wait:
        yield "; "
        yield "no working day, and the next is too late", Style.WARN
    if task.delay is not None:
        yield f"; {words.unbroken(_costs(task.delay))}"
    if task.blocked_until is not None and task.kind is not Kind.PICK:
        yield "; "
        yield (
            f"not picked until {together(words.weekday(task.blocked_until, of.setting.year))}",
            (Style.WARN),
        )
    yield from _mark(task)
    yield from _until(task, of, must=must)
    if not task.has_room:
        yield "; "
        yield "no room: no bed has space for this wave", Style.WARN


def _costs(delay: DelayView) -> str:
    """Say what it costs to start today: ``today 64 in 100 (83)``."""
    return f"today {in_hundred(delay.now)} in 100 ({in_hundred(delay.planned)})"


def _mark(task: TaskView) -> Iterator[str | Span]:
    """Yield what is to be thought of the wave, where it is not safe and work is still put in."""
    mark = None if task.judged is None else words.mark(task.judged)
    if task.judged is None or mark is None or task.kind in (Kind.PULL, Kind.PICK):
        return
    if task.kind is Kind.LOOK and task.last_day is None:
        return  # it says itself that it is too late to sow again
    if task.judged.verdict is Verdict.TOO_EARLY and task.kind not in _STARTING:
        return
    yield "; "
    yield together(mark[0]), mark[1]


def _until(task: TaskView, of: WeekView, *, must: bool) -> Iterator[str | Span]:
    """Yield the last safe day where it is near; a look says itself until when to sow again.

    Where it has passed or there is none, waiting costs nothing.
    """
    last, year = task.last_day, of.setting.year
    if last is None or last < task.due or last >= year.last or task.kind is Kind.LOOK:
        return
    if of.setting.today is not None and last < of.setting.today and task.overdue:
        yield f"; its last day was {together(words.day(last, year))}"
        sure = of.setting.sure.share
        if sure is not None and task.delay is not None and task.delay.now >= sure:
            yield ", safe again today"  # the days between, mostly hot weeks, are over
        return
    if must:
        yield ". "
        yield f"Last safe day {together(words.weekday(last, year))}", Style.BAD
    elif last - task.due <= _SAID_AHEAD:
        yield f"; safe until {together(words.day(last, year))}"


def _waiting(task: TaskView, sheet: SheetView, of: WeekView, *, must: bool) -> Iterator[str | Span]:
    """Yield what waiting costs: ``Waiting costs: 90 in 100, 23 Jul 68, 30 Jul 35``.

    A day no worse than the one before is left out; where none is worse, waiting costs nothing.
    """
    costs = next((each.days for each in sheet.waiting if each.task == task.id), ())
    if not must or not costs:
        return
    year, first = of.setting.year, costs[0].odds
    said = [in_hundred(first)]
    days = [f"{said[0]} in 100"]
    for each in costs[1:]:
        if in_hundred(each.odds) != said[-1]:
            said.append(in_hundred(each.odds))
            days.append(f"{words.day(each.date_, year)} {said[-1]}")
    if len(said) > 1 and min(each.odds for each in costs) < first:
        yield f". Waiting costs: {', '.join(map(together, days))}"


def _closed(picking: PickingView, of: WeekView) -> Iterator[Span]:
    """Yield why a wave is not picked on some days, and until when."""
    year = of.setting.year
    put = (f"{each.routine} on {words.weekday(each.on, year)}" for each in picking.closed_by)
    yield "x: not picked after " + words.listed(put), Style.PLAIN
    if picking.blocked_until is not None:
        yield f" until {together(words.weekday(picking.blocked_until, year))}", Style.WARN


def _grid(sheet: SheetView, of: WeekView) -> Grid:
    """Return the pickings by weekday: where, which days, until when, and what ripe looks like."""
    days = [sheet.from_ + timedelta(days=n) for n in range((sheet.to - sheet.from_).days + 1)]
    rows = []
    for number, each in enumerate(sheet.pickings):
        following = sheet.pickings[number + 1 :][:1]
        ripe: Line | None = None
        if each.ripe and not any(other.crop == each.crop for other in following):
            ripe = line(f"{each.crop}: {'; '.join((each.ripe, *_wanted(each.crop, sheet)))}")
        amount = each.of.amount
        if each.blocked_until is not None:
            ripe = line(*(() if ripe is None else (ripe, ". ")), *_closed(each, of))
        rows.append(
            GridRow(
                code=each.of.code,
                name=each.wave,
                place=each.bed,
                boxes=tuple(day in each.days for day in days),
                closed=tuple(day in each.closed for day in days),
                until=f"to {words.day(each.until, of.setting.year)}",
                amount=None if amount is None else words.amount(amount.value, amount.unit),
                note=ripe,
            )
        )
    today = of.setting.today
    return Grid(
        title="PICK",
        days=tuple(words.WEEKDAYS[day.weekday()] for day in days),
        rows=tuple(rows),
        today=days.index(today) if today in days else None,
    )


def _wanted(crop: str, sheet: SheetView) -> Iterator[str]:
    """Yield how much of a crop is wanted in the week."""
    for each in sheet.wanted:
        if each.crop == crop:
            amount = words.amount(round(each.amount.value, 1), each.amount.unit)
            of = "" if crop == each.of or crop.startswith(f"{each.of} '") else f" of {each.of}"
            yield f"{together(amount)}{of} wanted"
