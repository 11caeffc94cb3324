"""Results for other programs: JSON of a fixed form, and CSV for plan and week.

Every field is always there, null where there is nothing to say; fields are added, never removed.
Dates are ISO dates, odds and shares run from 0 to 1 with three decimals.
"""

from __future__ import annotations

from datetime import date

from sowtide.climate.basis import RecordUsed
from sowtide.climate.questions import Climate
from sowtide.diagnostics import Problem
from sowtide.reasons import Dated
from sowtide.report.formats.csv import table
from sowtide.report.kit.form import Object, document
from sowtide.report.kit.of_waves import problems_of_week
from sowtide.schedule.beds import free_spans, full_weeks, growing_days
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Blocked, Done, Overlap, Wave
from sowtide.schedule.work import Kind, Lookout, Task, WeekSheet

_KINDS = {kind: number for number, kind in enumerate(Kind)}

PLAN_COLUMNS = (
    "id",
    "series",
    "crop",
    "family",
    "plants",
    "beds",
    "sow",
    "up",
    "harden_off",
    "plant",
    "flower",
    "first_pick_early",
    "first_pick_late",
    "last_pick",
    "pull_out",
    "bed_free",
    "ended_by",
    "margin_days",
    "odds",
    "expected_picking_days",
    "odds_of_nothing",
    "verdict",
    "sow_again_by",
    "status",
)
WEEK_COLUMNS = (
    "week",
    "id",
    "code",
    "due",
    "kind",
    "wave",
    "bed",
    "text",
    "amount",
    "unit",
    "overdue",
    "cautions",
)


def plan_json(season: Season) -> str:
    """Write every wave and every problem of the plan."""
    return document(
        {
            "season": season.garden.year.season,
            "basis": basis_of(season.climate),
            "waves": [_wave(wave) for wave in season.waves],
            **_beds(season),
            "problems": [problem_of(problem) for problem in season.problems],
        }
    )


def week_json(sheets: tuple[WeekSheet, ...], season: Season) -> str:
    """Write the tasks of the first week; where there are several weeks, all of them beside it."""
    first = _week(sheets[0], season)
    if len(sheets) > 1:
        first["weeks"] = [_week(sheet, season) for sheet in sheets]
    return document(first)


def plan_csv(season: Season) -> str:
    """Write a row for each wave; beds as ``Long 1: 40; Long 2: 20``."""
    rows = []
    for wave in season.waves:
        fields = _wave(wave)
        early, late = wave.stages.first_pick or (None, None)
        fields["beds"] = "; ".join(f"{each.bed.name}: {each.plants}" for each in wave.places)
        fields["first_pick_early"], fields["first_pick_late"] = on(early), on(late)
        rows.append(fields)
    return table(PLAN_COLUMNS, rows)


def week_csv(sheets: tuple[WeekSheet, ...], season: Season) -> str:
    """Write a row for each task of the weeks; cautions are parted by spaces."""
    rows = []
    for sheet in sheets:
        for task in _tasks(sheet):
            fields = _task(task)
            fields["week"] = sheet.week
            fields["amount"] = None if task.amount is None else number_value(task.amount.value, 3)
            fields["unit"] = None if task.amount is None else task.amount.unit
            fields["overdue"] = "yes" if task.overdue else "no"
            fields["cautions"] = " ".join(task.cautions)
            rows.append(fields)
    return table(WEEK_COLUMNS, rows)


def _wave(wave: Wave) -> Object:
    stages, judged = wave.stages, wave.judged
    first = stages.first_pick
    return {
        "id": wave.id,
        "series": wave.entry.name,
        "crop": wave.crop.name,
        "family": wave.crop.family,
        "plants": wave.plants,
        "beds": [{"bed": place.bed.name, "plants": place.plants} for place in wave.places],
        "sow": iso(stages.sow.day),
        "up": on(stages.up),
        "harden_off": on(stages.harden_off),
        "plant": iso(stages.plant.day),
        "flower": on(stages.flower),
        "first_pick": [on(first[0]), on(first[1])] if first else None,
        "last_pick": on(stages.last_pick),
        "pull_out": iso(stages.pull_out.day),
        "bed_free": on(wave.bed_free),
        "ended_by": judged.ended_by.value,
        "margin_days": judged.margin,
        "odds": share_value(judged.odds),
        "expected_picking_days": number_value(judged.expected_picking_days, 1),
        "odds_of_nothing": share_value(judged.odds_of_nothing),
        "verdict": judged.verdict.value if judged.verdict else None,
        "sow_again_by": iso(wave.sow_again_by),
        "status": wave.status.value,
        "done": _done(wave.done),
        "blocked": _blocked(wave.blocked) if wave.blocked else None,
        "overlap": _overlap(wave.overlap) if wave.overlap else None,
    }


_DONE = ("sow", "up", "harden_off", "plant", "first_pick", "last_pick", "pull_out")


def _done(done: Done | None) -> Object:
    return {stage: iso(getattr(done, stage, None)) for stage in _DONE}


def _overlap(overlap: Overlap) -> Object:
    return {"wave": overlap.wave, "until": iso(overlap.until)}


def _beds(season: Season) -> Object:
    """Return when each bed is free, and how full all are, over the days that they can grow in."""
    room, within = season.room, growing_days(season.climate, season.garden.year)
    starts = season.garden.site.week_starts
    return {
        "beds": [
            {
                "bed": bed.name,
                "free": [
                    {"from": iso(span.first), "to": iso(span.last)}
                    for span in free_spans(room, bed, within, least=bed.area)
                ],
            }
            for bed in room.beds
        ],
        "full": [
            {"from": iso(week.first), "share": share_value(week.share)}
            for week in full_weeks(room, within, starts=starts)
        ],
    }


def _blocked(blocked: Blocked) -> Object:
    opening = blocked.opening
    first = None
    if opening is not None:
        first = {
            "plant": iso(opening.day),
            "beds": list(opening.beds),
            "odds": share_value(opening.odds),
            "verdict": opening.verdict.value if opening.verdict else None,
        }
    return {
        "plants": blocked.plants,
        "held_by": [
            {"wave": each.wave, "bed": each.bed, "until": iso(each.until)}
            for each in blocked.holders
        ],
        "more_holders": blocked.more_holders,
        "kept": [{"bed": each.bed, "last": iso(each.last)} for each in blocked.kept],
        "rotation": blocked.rotation,
        "first_room": first,
    }


def _week(sheet: WeekSheet, season: Season) -> Object:
    return {
        "week": sheet.week,
        "from": iso(sheet.first),
        "to": iso(sheet.last),
        "tasks": [_task(task) for task in _tasks(sheet)],
        "look_for": _look_for(sheet, season),
        "problems": [problem_of(problem) for problem in problems_of_week(sheet, season)],
    }


def _look_for(sheet: WeekSheet, season: Season) -> list[Object]:
    if not season.lookouts:
        return []
    from sowtide.report.kit.lookouts import due_on

    return [_lookout(each) for each in due_on(sheet, season)]


def _lookout(of: Lookout) -> Object:
    watch, reached = of.watch, of.reached
    return {
        "what": watch.look_for,
        "date": None if reached is None else iso(reached.day),
        "from": None if reached is None else iso(reached.early),
        "to": None if reached is None else iso(reached.late),
        "base_c": round(watch.base, 1),
        "total_c_days": round(watch.total, 1),
        "since": iso(watch.start),
        "years_used": None if reached is None else reached.years,
    }


def _tasks(sheet: WeekSheet) -> list[Task]:
    """Return all tasks of a week once, pickings too, in order of day, then of the work."""
    found = {
        task.id: task
        for task in (
            *sheet.overdue,
            *sheet.cannot_slip,
            *(picking.task for picking in sheet.pickings),
            *sheet.tasks,
        )
    }
    return sorted(found.values(), key=lambda task: (task.due, _KINDS[task.kind], task.id))


def _task(task: Task) -> Object:
    amount = task.amount
    return {
        "id": task.id,
        "code": task.code,
        "due": iso(task.due),
        "kind": task.kind.value,
        "wave": task.wave.id,
        "bed": task.bed,
        "text": task.text,
        "amount": {"value": number_value(amount.value, 3), "unit": amount.unit} if amount else None,
        "overdue": task.overdue,
        "cautions": list(task.cautions),
    }


def problem_of(problem: Problem) -> Object:
    """Return a problem as JSON has it."""
    span = problem.span
    return {
        "severity": problem.severity.value,
        "code": problem.code,
        "message": problem.message,
        "hint": problem.hint,
        "file": span.file if span else None,
        "line": span.line if span else None,
        "column": span.column if span else None,
        "wave": problem.wave,
    }


def basis_of(climate: Climate) -> Object:
    """Return what answers rest on as JSON has it."""
    basis = climate.basis
    return {
        "frost": basis.frost,
        "warmth": basis.warmth,
        "assumed": list(basis.assumed),
        "years_used": basis.years_used,
        "record": None if basis.record is None else _record(basis.record),
    }


def _record(record: RecordUsed) -> Object:
    return {
        "file": record.file,
        "station": record.station,
        "unit": record.unit,
        "first_year": record.first_year,
        "last_year": record.last_year,
    }


def iso(day: date | None) -> str | None:
    """Return a day as JSON has it."""
    return day.isoformat() if day else None


def on(dated: Dated | None) -> str | None:
    """Return a counted day as JSON has it."""
    return dated.day.isoformat() if dated else None


def share_value(share: float | None) -> float | None:
    """Return a share of years to three decimals. [0–1]."""
    return None if share is None else round(float(share), 3)


def number_value(value: float | None, digits: int) -> float | int | None:
    """Return a number to so many decimals, a whole one without any."""
    if value is None:
        return None
    rounded = round(value, digits)
    return int(rounded) if rounded == int(rounded) else rounded
