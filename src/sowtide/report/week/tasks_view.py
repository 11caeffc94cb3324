"""The tasks of a week's sheet as values, and each day's work in the order of the day."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from sowtide.garden.crop import AfterFrost
from sowtide.report.kinds import AmountView, Mean, Share, Unsaid
from sowtide.report.kit.judged import Judgement, judgement_of
from sowtide.report.kit.stands import bed_plants
from sowtide.report.kit.words import where
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.schedule.work import Amount, DayPart, Delay, Kind, Picking, Task, WeekSheet
from sowtide.units import TOO_HOT
from sowtide.values import value

BENCH, NO_BED = "bench", "no room"
KINDS = {kind: number for number, kind in enumerate(Kind)}
"""The place of each kind of work in a walk through the week."""

_PARTS = {part: number for number, part in enumerate(DayPart)}
_TRAY_WORK = (Kind.SOW_IN_TRAYS, Kind.HARDEN_OFF)
_DAY = timedelta(days=1)
_SOON = timedelta(weeks=4)
"""How long before a frost it is told what the frost would spoil: ours."""


@value
class DelayView:
    """What it costs to start a wave today: days late, odds on its day, and odds now.

    `over` says that next to nothing is to be hoped of it now, and no safe day is left this season.
    """

    days: int
    planned: Share
    now: Share
    over: bool


@value
class TaskView:
    """One piece of work.

    `wave` is null for work on a bed that belongs to none or to several; `waves` are all of them;
    `routine` is the care that asks for it, `mix` what is measured into the water, `weight` what its
    amount weighs, `blocked_until` the first day on which picking may begin again. `place` is where
    it is done, in words; `judged` what is thought of its wave. `wait_until`
    proposes a day to look again, where it had better not be done in the heat that is forecast.
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
    waves: tuple[str, ...]
    routine: str | None
    mix: AmountView | None
    weight: AmountView | None
    minutes: Mean | None
    blocked_until: date | None
    planned: date | None
    cannot_wait: bool
    wait_until: date | None
    place: Unsaid[str]
    judged: Unsaid[Judgement | None]


@value
class TotalView:
    """What a routine of care takes in a week: what is put on, and what is measured into it."""

    routine: str
    does: str
    rounds: int
    amount: AmountView | None
    mix: AmountView | None
    weight: AmountView | None
    nitrogen: AmountView | None
    nitrogen_per_area: AmountView | None
    minutes: Mean | None


@value
class HeldView:
    """Care that a week asks for and does not get, why, and when it comes; null for not at all."""

    routine: str
    does: str
    bed: str
    waves: tuple[str, ...]
    asked: date
    why: str
    until: date | None


@value
class VerdictWanted:
    """A wave on which something was found: to keep or to replace."""

    wave: str
    crop: str
    on: date
    found: str


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
class ClosedBy:
    """What was put on a wave, and when, so that it is not picked for a while."""

    routine: str
    on: date


@value
class PickingView:
    """A wave to be picked: where, on which days, until when, and what ripe looks like.

    `closed` are days on which it would be picked and is not; `blocked_until` is the first day after
    them on which it may be.
    """

    task: str
    wave: str
    bed: str
    days: tuple[date, ...]
    until: date
    ripe: str
    closed: tuple[date, ...]
    blocked_until: date | None
    closed_by: tuple[ClosedBy, ...]
    of: Unsaid[TaskView]
    crop: Unsaid[str]


def days_of(
    sheet: WeekSheet,
    season: Season,
    tasks: Iterable[TaskView],
    pickings: tuple[PickingView, ...],
) -> Iterator[DayView]:
    """Yield each day of a week with its work."""
    places = (BENCH, *walk_of(season), NO_BED)
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


def walk_of(season: Season) -> tuple[str, ...]:
    """Return the beds as one walks: in the file's order, those in which something is sick last."""
    beds = tuple(bed.name for bed in season.garden.beds)
    unwell = frozenset() if season.care is None else season.care.unwell
    return tuple(sorted(beds, key=lambda bed: bed in unwell))


def task_view(task: Task, *, blocked_until: date | None, wait_until: date | None) -> TaskView:
    """Return a task as a view.

    Parameters
    ----------
    task
        The task.
    blocked_until
        Of a picking the day until which it waits, where it does.
    wait_until
        The day to look again, where it had better not be done in the heat.
    """
    wave, care = task.wave, task.care
    waves = (wave.id,) if care is None else care.waves
    return TaskView(
        id=task.id,
        code=task.code,
        due=task.due,
        kind=task.kind,
        wave=waves[0] if len(waves) == 1 else None,
        bed=task.bed,
        text=task.text,
        amount=_amount(task.amount),
        overdue=task.overdue,
        cautions=task.cautions,
        last_day=task.last_day,
        delay=_delay(task.delay),
        has_room=bool(wave.stands),
        part=task.part,
        waves=waves,
        routine=None if care is None else care.routine,
        mix=None if care is None else _amount(care.mix),
        weight=None if care is None else _amount(care.weight),
        minutes=None if care is None else care.minutes,
        blocked_until=blocked_until if care is None else care.not_picked_until,
        planned=task.planned,
        cannot_wait=task.cannot_wait,
        wait_until=wait_until,
        place=_place(task),
        judged=judgement_of(wave.judged, wave.crop) if care is None else None,
    )


def _amount(of: Amount | None) -> AmountView | None:
    return None if of is None else AmountView(float(of.value), of.unit)


def _delay(of: Delay | None) -> DelayView | None:
    if of is None:
        return None
    return DelayView(days=of.days, planned=float(of.planned), now=float(of.now), over=of.over)


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
        ripe=_ripe(wave, of.until),
        closed=of.closed,
        blocked_until=of.open_again,
        closed_by=tuple(ClosedBy(routine, on) for routine, on in of.closed_by),
        of=views[of.task.id],
        crop=wave.crop.title,
    )


def _ripe(wave: Wave, until: date) -> str:
    """Say when to pick a wave, and whether frost may soon spoil what is left."""
    crop, end, bring_in = wave.crop, wave.judged.end, None
    if crop.after_frost is AfterFrost.BRING_IN and end is not None and end.day - until < _SOON:
        bring_in = "bring in before a hard frost"
    return "; ".join(text for text in (crop.pick_when, bring_in) if text)


def cautions_in(
    tasks: Iterable[TaskView],
    sheet: WeekSheet,
    season: Season,
    high: float | None,
) -> Iterator[str]:
    """Yield the slugs of the cautions of a week, each once.

    Parameters
    ----------
    tasks, sheet, season
        The week.
    high
        The highest temperature that the grower expects in it; None for the usual one. [°C]
    """
    tasks = tuple(tasks)
    unwell = frozenset() if season.care is None else season.care.unwell
    slugs = dict.fromkeys(slug for task in tasks for slug in task.cautions)
    yield from slugs
    if any(task.kind is Kind.PULL and task.bed in unwell for task in tasks):
        yield "sick"
    usual = season.climate.weather.usual_high
    expected = high if high is not None else max(usual(sheet.first) or 0, usual(sheet.last) or 0)
    if tasks and expected >= TOO_HOT:
        yield "heat"
