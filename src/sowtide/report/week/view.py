"""A week's work: what is overdue or cannot slip, what to pick, each bed's work, the bench."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from enum import Enum
from typing import TYPE_CHECKING, Any

from sowtide.climate.basis import Basis, SoFar
from sowtide.days import Half
from sowtide.report.heat import HeatView
from sowtide.report.kinds import Beside, Unsaid
from sowtide.report.kit.faults import ProblemView, problem_views
from sowtide.report.kit.lookouts import LookoutView, lookout_view
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.report.kit.stands import SpaceView, StartView, space_view, start_view
from sowtide.report.week.costs_view import WaitingView, WantedView, waiting_of, wanted_of
from sowtide.report.week.frost_view import FrostRisk, risk_of
from sowtide.report.week.problems_view import GRAVE, problems_of_week
from sowtide.report.week.tasks_view import (
    KINDS,
    DayView,
    HeldView,
    PickingView,
    TaskView,
    TotalView,
    VerdictWanted,
    cautions_in,
    days_of,
    picking_view,
    task_view,
    walk_of,
)
from sowtide.schedule.only import Only
from sowtide.schedule.openings import ComingFree, opening_in
from sowtide.schedule.season import Season
from sowtide.schedule.work import Seedlings, Task, WeekSheet
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.garden.journal import Happening

COLUMNS = (
    *("week", "id", "code", "due", "kind", "wave", "bed", "text", "amount", "unit", "overdue"),
    *("cautions", "waves", "routine", "mix", "mix_unit", "blocked_until", "wait_until"),
)
_AHEAD = timedelta(days=7)


class WeekBy(Enum):
    """How the work of a week is grouped."""

    BED = "bed"
    DAY = "day"
    WORK = "work"


@value
class SeedlingsView:
    """Seedlings in trays: how many, when they are fit to plant out, and where to."""

    wave: str
    plants: int
    sown: date
    ready: date
    too_old: date
    plant: date | None
    beds: tuple[str, ...]


@value
class Coming:
    """Work that is to come: its day, its kind and its wave."""

    due: date
    kind: str
    wave: str


@value
class EarlierNote:
    """What was noted in the same week of an earlier year."""

    on: date
    what: str
    note: str


@value
class SheetView:
    """One week."""

    week: str
    from_: date
    to: date
    tasks: tuple[TaskView, ...]
    look_for: tuple[LookoutView, ...]
    problems: tuple[ProblemView, ...]
    more_problems: int
    late: tuple[str, ...]
    cannot_slip: tuple[str, ...]
    pickings: tuple[PickingView, ...]
    bench: tuple[SeedlingsView, ...]
    next_week: tuple[Coming, ...]
    coming: Coming | None
    earlier: tuple[EarlierNote, ...]
    days: tuple[DayView, ...]
    openings: tuple[SpaceView, ...]
    start_now: tuple[StartView, ...]
    totals: tuple[TotalView, ...]
    not_this_week: tuple[HeldView, ...]
    cautions: tuple[str, ...]
    decide: tuple[VerdictWanted, ...]
    unwell: tuple[str, ...]
    waiting: tuple[WaitingView, ...]
    wanted: tuple[WantedView, ...]
    frost_risk: FrostRisk | None
    heat: HeatView | None
    overdue_of: Unsaid[tuple[TaskView, ...]]
    urgent: Unsaid[tuple[TaskView, ...]]
    others: Unsaid[tuple[TaskView, ...]]


@value
class WeekView:
    """What ``week`` says: the fields of the first week, and each of several weeks beside them."""

    first: Beside[SheetView]
    weeks: tuple[SheetView, ...] | None
    average_last_frost: date | None
    average_first_frost: date | None
    so_far: SoFar | None
    basis: Basis
    only: Only | None
    sheets: Unsaid[tuple[SheetView, ...]]
    by: Unsaid[WeekBy]
    beds: Unsaid[tuple[str, ...]]
    help: Unsaid[str | None]
    quiet: Unsaid[bool]
    setting: Unsaid[Setting]


def view(
    sheets: Sequence[WeekSheet],
    season: Season,
    *,
    by: WeekBy = WeekBy.BED,
    quiet: bool = False,
    high: float | None = None,
) -> WeekView:
    """Return the work of one week or of several.

    Parameters
    ----------
    sheets
        The weeks, at least one.
    season
        The season that they belong to.
    by
        ``bed``, ``day`` or ``work``: what a page groups the work by.
    quiet
        Whether a page leaves out what it would say every week.
    high
        The highest temperature that the grower expects in the first of them. [°C]
    """
    shown = tuple(
        _sheet(sheet, season, None if number else high) for number, sheet in enumerate(sheets)
    )
    return WeekView(
        first=shown[0],
        weeks=shown if len(shown) > 1 else None,
        average_last_frost=_frost(season, Half.SPRING),
        average_first_frost=_frost(season, Half.AUTUMN),
        so_far=season.climate.weather.so_far,
        basis=season.climate.basis,
        only=season.only,
        sheets=shown,
        by=by,
        beds=walk_of(season),
        help=season.garden.site.help,
        quiet=quiet,
        setting=setting_of(season.garden, season.today),
    )


def rows(of: WeekView) -> Iterator[dict[str, Any]]:
    """Yield a row for each task of the weeks."""
    for sheet in of.sheets:
        for task in sheet.tasks:
            amount = task.amount
            yield {
                "week": sheet.week,
                "id": task.id,
                "code": task.code,
                "due": task.due,
                "kind": task.kind,
                "wave": task.wave,
                "bed": task.bed,
                "text": task.text,
                "amount": None if amount is None else _number(amount.value),
                "unit": None if amount is None else amount.unit,
                "overdue": task.overdue,
                "cautions": task.cautions,
                "waves": task.waves,
                "routine": task.routine,
                "mix": None if task.mix is None else _number(task.mix.value),
                "mix_unit": None if task.mix is None else task.mix.unit,
                "blocked_until": task.blocked_until,
                "wait_until": task.wait_until,
            }


def _number(of: float) -> float | int:
    rounded = round(of, 3)
    return int(rounded) if rounded == int(rounded) else rounded


def _frost(season: Season, half: Half) -> date | None:
    dated = season.climate.frosts.day(half, at=0.0, share=0.5)
    return None if dated is None else dated.day


def _sheet(sheet: WeekSheet, season: Season, high: float | None) -> SheetView:
    care, free = _care(sheet, season), _coming_free(sheet, season)
    heat = None if high is None else _heat(sheet, season, high)
    views = {each.id: each for each in _task_views(sheet, heat)}
    pickings = tuple(picking_view(each, views) for each in sheet.pickings)
    late = {task.id for task in (*sheet.overdue, *sheet.cannot_slip)}
    problems = problems_of_week(sheet, season)
    grave = sum(problem.severity in GRAVE for problem in season.problems)
    due = [each for each in season.lookouts if each.due(sheet.first, sheet.last + _AHEAD)]
    return SheetView(
        week=sheet.week,
        from_=sheet.first,
        to=sheet.last,
        tasks=tuple(sorted(views.values(), key=_in_order)),
        look_for=tuple(lookout_view(each, season.garden.site.units) for each in due),
        problems=problem_views(problems),
        more_problems=grave - len(problems),
        late=tuple(task.id for task in sheet.overdue),
        cannot_slip=tuple(task.id for task in sheet.cannot_slip),
        pickings=pickings,
        bench=tuple(_seedlings(each) for each in sheet.bench),
        next_week=tuple(_coming(each) for each in sheet.next_week),
        coming=None if views else _next_dated(sheet, season),
        earlier=tuple(_earlier(sheet, season)),
        days=tuple(days_of(sheet, season, views.values(), pickings)),
        openings=tuple(space_view(each) for each in free.openings),
        start_now=tuple(start_view(each) for each in free.start_now),
        totals=care.totals,
        not_this_week=care.held,
        cautions=tuple(cautions_in(views.values(), sheet, season, high)),
        decide=care.decide,
        unwell=care.unwell,
        waiting=tuple(waiting_of(sheet, season)),
        wanted=tuple(wanted_of(sheet, season)),
        frost_risk=risk_of(sheet, season),
        heat=heat,
        overdue_of=tuple(views[task.id] for task in sheet.overdue),
        urgent=tuple(views[task.id] for task in sheet.cannot_slip),
        others=tuple(views[task.id] for task in sheet.tasks if task.id not in late),
    )


def _heat(sheet: WeekSheet, season: Season, high: float) -> HeatView:
    """Return what a week means in which it gets so hot."""
    from sowtide.report.heat import view_of_heat
    from sowtide.report.week.care_view import put_off_by_heat

    care = season.care
    if care is None:
        return view_of_heat(sheet, season, high, ())
    waits = put_off_by_heat(care, sheet.first, sheet.last, today=season.today)
    return view_of_heat(sheet, season, high, tuple(waits))


def _coming_free(sheet: WeekSheet, season: Season) -> ComingFree:
    """Return what comes free in a week; nothing of crops alone, since openings are not theirs."""
    year = season.garden.year
    of_crops = season.only is not None and season.only.crops is not None
    if of_crops or sheet.first not in year or sheet.last not in year:
        return ComingFree(asked_on=sheet.first, last=sheet.last, openings=(), start_now=())
    return opening_in(season, sheet.first, sheet.last)


@value
class _Care:
    """What the care of a week comes to."""

    totals: tuple[TotalView, ...] = ()
    held: tuple[HeldView, ...] = ()
    decide: tuple[VerdictWanted, ...] = ()
    unwell: tuple[str, ...] = ()


def _care(sheet: WeekSheet, season: Season) -> _Care:
    """Return what the care of a week comes to; nothing where there is none."""
    care, first, last = season.care, sheet.first, sheet.last
    if care is None:
        return _Care()
    from sowtide.report.week.care_view import held, to_decide, totals

    return _Care(
        totals=tuple(totals(season, care, first, last)),
        held=tuple(held(care, first, last, today=season.today)),
        decide=tuple(to_decide(season, care, first, last)),
        unwell=tuple(bed for bed in walk_of(season) if bed in care.unwell),
    )


def _earlier(sheet: WeekSheet, season: Season) -> Iterator[EarlierNote]:
    """Yield the notes of earlier years of days like those of a week, the newest year first."""
    if season.accounts is None or not season.accounts.earlier:
        return
    year = season.garden.year
    named = year.holding(sheet.first).season
    noted = [
        each
        for each in season.accounts.earlier
        if sheet.first <= year.like(each.on, named) <= sheet.last and _is_of(each, season)
    ]
    for each in sorted(noted, key=lambda each: (-each.on.year, each.on, each.line)):
        what = " ".join(text for text in (each.wave or each.bed, each.did.value) if text)
        yield EarlierNote(each.on, what, each.note or "")


def _is_of(each: Happening, season: Season) -> bool:
    """Say whether a note is of the part of the garden that is looked at."""
    if season.only is None:
        return True
    if each.bed is not None and season.only.crops is None:
        return each.bed in (season.only.beds or ())
    series = (each.wave or "").rpartition("-")[0]
    return series in {entry.name for entry in season.garden.entries}


def _in_order(task: TaskView) -> tuple[date, int, str]:
    return task.due, KINDS[task.kind], task.id


def _task_views(sheet: WeekSheet, heat: HeatView | None) -> Iterator[TaskView]:
    """Yield all tasks of a week, with the day until which they are closed or had better wait."""
    closed = {each.task.id: each.open_again for each in sheet.pickings}
    for task in _tasks(sheet):
        again = None if heat is None else heat.waits_until(task.id)
        yield task_view(task, blocked_until=closed.get(task.id), wait_until=again)


def _tasks(sheet: WeekSheet) -> Iterator[Task]:
    """Yield all tasks of a week, pickings too."""
    yield from sheet.overdue
    yield from sheet.cannot_slip
    yield from (picking.task for picking in sheet.pickings)
    yield from sheet.tasks


def _seedlings(of: Seedlings) -> SeedlingsView:
    return SeedlingsView(
        wave=of.wave.id,
        plants=of.plants,
        sown=of.sown,
        ready=of.ready,
        too_old=of.too_old,
        plant=of.plant,
        beds=of.beds,
    )


def _coming(task: Task) -> Coming:
    return Coming(task.due, task.kind.value, task.wave.id)


def _next_dated(sheet: WeekSheet, season: Season) -> Coming | None:
    """Return the first work after the week, from next week's tasks or else from the waves."""
    coming = [_coming(task) for task in sheet.next_week]
    if not coming:
        for wave in (wave for wave in season.waves if wave.stands):
            stages = wave.stages
            pick = stages.first_pick[0] if stages.first_pick else None
            plant = "plant out" if wave.from_trays else "sow"
            for dated, what in (
                (stages.sow, "sow"),
                (stages.harden_off, "harden off"),
                (stages.plant, plant),
                (pick, "pick"),
                (stages.pull_out, "pull out"),
            ):
                if dated is not None and dated.day > sheet.last:
                    coming.append(Coming(dated.day, what, wave.id))
    return min(coming, default=None, key=lambda each: each.due)
