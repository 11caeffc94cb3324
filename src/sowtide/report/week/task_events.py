"""The tasks of some weeks as events of a calendar."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.report.events import DayEvent, SeasonEvents
from sowtide.report.kit import words
from sowtide.report.week.tasks_view import TaskView
from sowtide.report.week.view import SheetView, WeekView
from sowtide.report.week.work import amount_of, waves_of
from sowtide.schedule.work import Kind

_A_DAY = timedelta(days=1)


def events(of: WeekView) -> SeasonEvents:
    """Return every task of some weeks on its day; a picking on each of its days.

    What is overdue is for the day it is looked at from.
    """
    setting = of.setting
    assert setting.today is not None  # a week is looked at from a day
    found = {event.key: event for sheet in of.sheets for event in _of_week(sheet, setting.today)}
    in_order = sorted(found.values(), key=lambda event: (event.first, event.key))
    return SeasonEvents(setting.name, setting.year.season, setting.today, tuple(in_order))


def _of_week(sheet: SheetView, today: date) -> Iterator[DayEvent]:
    must = set(sheet.cannot_slip)
    for task in sheet.tasks:
        if task.kind is not Kind.PICK:
            day = max(task.due, today) if task.overdue else task.due
            yield _event(task, task.id, day, must=task.id in must)
    for picking in sheet.pickings:
        for day in picking.days:
            wave = picking.wave
            yield _event(picking.of, f"{wave}:pick:{day}", day, ripe=picking.ripe)


def _event(task: TaskView, key: str, day: date, *, must: bool = False, ripe: str = "") -> DayEvent:
    amount = task.amount
    said = [ripe or task.text]
    if amount is not None:
        said.insert(0, amount_of(amount, task))
    if task.kind is not Kind.PICK and task.blocked_until is not None:
        said.append(f"not picked until {task.blocked_until}")
    if task.wait_until is not None:
        said.append(f"in this heat not before {task.wait_until}")
    if task.kind in (Kind.SPRAY, Kind.DUST):
        said.append("read the label again first")
    if task.overdue:
        said.append(f"overdue since {task.due}")
    text = words.sentence(", ".join(each for each in said if each))
    return DayEvent(
        key=key,
        first=day,
        beyond=day + _A_DAY,
        kind=task.kind.value,
        title=f"{task.kind.value} {waves_of(task) or task.place}",
        place=task.bed or "",
        words=f"{text} When it is done: sowtide did {task.code}",
        must=must,
    )
