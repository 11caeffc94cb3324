"""The tasks of a week's sheet as values, and each day's work in the order of the day."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from sowtide.garden.crop import AfterFrost, Crop
from sowtide.report.kinds import Quantity, Share, Unsaid
from sowtide.report.kit.judged import Judgement, judgement_of
from sowtide.report.kit.stands import bed_plants
from sowtide.report.kit.words import where
from sowtide.schedule.season import Season
from sowtide.schedule.work import DayPart, Delay, Kind, Picking, Task, WeekSheet
from sowtide.values import value

BENCH, NO_BED = "bench", "no room"
KINDS = {kind: number for number, kind in enumerate(Kind)}
"""The place of each kind of work in a walk through the week."""

_PARTS = {part: number for number, part in enumerate(DayPart)}
_TRAY_WORK = (Kind.SOW_IN_TRAYS, Kind.HARDEN_OFF)
_DAY = timedelta(days=1)


@value
class AmountView:
    """How much, and of what."""

    value: Quantity
    unit: str


@value
class DelayView:
    """What it costs to start a wave today: days late, odds on its day, and odds now."""

    days: int
    planned: Share
    now: Share


@value
class TaskView:
    """One piece of work.

    `wave` is null for work on a bed that belongs to none; `place` is where it is done, in words;
    `judged` what is thought of its wave.
    """

    id: str
    code: str
    due: date
    kind: Kind
    wave: str | None
    bed: str | None
    text: str
    amount: AmountView | None
    overdue: bool
    cautions: tuple[str, ...]
    last_day: date | None
    delay: DelayView | None
    has_room: bool
    part: DayPart
    place: Unsaid[str]
    judged: Unsaid[Judgement | None]


@value
class DayView:
    """A day's work by name, in the order of the day and, within a part of it, of a walk.

    What is overdue stands on no day; a picking stands on each of its days.
    """

    date_: date
    is_today: bool
    tasks: tuple[str, ...]
    work: Unsaid[tuple[TaskView, ...]]


@value
class PickingView:
    """A wave to be picked: where, on which days, until when, and what ripe looks like."""

    task: str
    wave: str
    bed: str
    days: tuple[date, ...]
    until: date
    ripe: str
    of: Unsaid[TaskView]
    crop: Unsaid[str]


def days_of(
    sheet: WeekSheet,
    season: Season,
    tasks: Iterable[TaskView],
    pickings: tuple[PickingView, ...],
) -> Iterator[DayView]:
    """Yield each day of a week with its work."""
    places = (BENCH, *(bed.name for bed in season.garden.beds), NO_BED)
    walk = {place: number for number, place in enumerate(places)}
    found: dict[date, list[TaskView]] = {
        sheet.first + number * _DAY: [] for number in range((sheet.last - sheet.first).days + 1)
    }
    for task in tasks:
        if not task.overdue and task.kind is not Kind.PICK and task.due in found:
            found[task.due].append(task)
    for picking in pickings:
        for day in picking.days:
            found[day].append(picking.of)
    for day, work in found.items():
        work.sort(
            key=lambda task: (_PARTS[task.part], walk.get(task.place, 0), KINDS[task.kind], task.id)
        )
        yield DayView(day, day == season.today, tuple(task.id for task in work), tuple(work))


def task_view(task: Task) -> TaskView:
    amount, wave = task.amount, task.wave
    return TaskView(
        id=task.id,
        code=task.code,
        due=task.due,
        kind=task.kind,
        wave=wave.id,
        bed=task.bed,
        text=task.text,
        amount=None if amount is None else AmountView(float(amount.value), amount.unit),
        overdue=task.overdue,
        cautions=task.cautions,
        last_day=task.last_day,
        delay=_delay(task.delay),
        has_room=bool(wave.stands),
        part=task.part,
        place=_place(task),
        judged=judgement_of(wave.judged, wave.crop),
    )


def _delay(of: Delay | None) -> DelayView | None:
    return None if of is None else DelayView(of.days, float(of.planned), float(of.now))


def _place(task: Task) -> str:
    """Say where a task is done: a bed, the bench, or that its wave has no room."""
    if task.bed is not None:
        return task.bed
    return BENCH if task.wave.stands or task.kind in _TRAY_WORK else NO_BED


def picking_view(of: Picking, views: dict[str, TaskView]) -> PickingView:
    wave = of.task.wave
    return PickingView(
        task=of.task.id,
        wave=wave.id,
        bed=of.task.bed or where(bed_plants(wave.stands)),
        days=of.days,
        until=of.until,
        ripe=_ripe(wave.crop),
        of=views[of.task.id],
        crop=wave.crop.title,
    )


def _ripe(crop: Crop) -> str:
    """Say when to pick a crop, and whether frost spoils what is left."""
    bring_in = "bring in before a hard frost" if crop.after_frost is AfterFrost.BRING_IN else None
    return "; ".join(text for text in (crop.pick_when, bring_in) if text)
