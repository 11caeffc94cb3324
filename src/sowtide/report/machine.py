"""Results for other programs: JSON of a fixed form, and CSV for plan and week.

Every field is always there, null where there is nothing to say; fields are added, never removed.
Dates are ISO dates, odds and shares run from 0 to 1 with three decimals.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from sowtide.climate.outlook import Climate
from sowtide.diagnostics import Problem
from sowtide.reasons import Dated
from sowtide.report.machine_form import Object, Value, document, table
from sowtide.report.week_problems import problems_of_week
from sowtide.report.why import stages_of
from sowtide.schedule.answer import Answer, Instead, Spot
from sowtide.schedule.task import Kind, Task, WeekSheet
from sowtide.schedule.wave import Blocked, Judged, Wave
from sowtide.season import Season

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
            "problems": [_problem(problem) for problem in season.problems],
        }
    )


def fits_json(answers: tuple[Answer, ...], season: Season) -> str:
    """Write the best answer; where a crop has several varieties, all of them beside it."""
    best: Object = _answer(answers[0], season)
    crops = {answer.crop.name for answer in answers}
    waves = {wave.id for wave in season.waves if wave.crop.name in crops}
    best["problems"] = [
        _problem(each) for each in season.problems if each.wave is None or each.wave in waves
    ]
    if len(answers) > 1:
        best["varieties"] = [_answer(answer, season) for answer in answers]
    return document(best)


def why_json(wave: Wave, season: Season) -> str:
    """Write how each date of a wave was counted."""
    dates: list[Value] = [
        {"stage": stage, "date": _iso(dated.day), "steps": _steps(dated)}
        for stage, dated in stages_of(wave)
    ]
    return document({"wave": wave.id, "dates": dates})


def week_json(sheets: tuple[WeekSheet, ...], season: Season) -> str:
    """Write the tasks of the first week; where there are several weeks, all of them beside it."""
    first = _week(sheets[0], season)
    if len(sheets) > 1:
        first["weeks"] = [_week(sheet, season) for sheet in sheets]
    return document(first)


def check_json(problems: Iterable[Problem]) -> str:
    """Write what is wrong."""
    return document({"problems": [_problem(problem) for problem in problems]})


def plan_csv(season: Season) -> str:
    """Write a row for each wave; beds as ``Long 1: 40; Long 2: 20``."""
    rows = []
    for wave in season.waves:
        fields = _wave(wave)
        early, late = wave.stages.first_pick or (None, None)
        fields["beds"] = "; ".join(f"{each.bed.name}: {each.plants}" for each in wave.places)
        fields["first_pick_early"], fields["first_pick_late"] = _on(early), _on(late)
        rows.append(fields)
    return table(PLAN_COLUMNS, rows)


def week_csv(sheets: tuple[WeekSheet, ...], season: Season) -> str:
    """Write a row for each task of the weeks; cautions are parted by spaces."""
    rows = []
    for sheet in sheets:
        for task in _tasks(sheet):
            fields = _task(task)
            fields["week"] = sheet.week
            fields["amount"] = None if task.amount is None else _number(task.amount.value, 3)
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
        "sow": _iso(stages.sow.day),
        "up": _on(stages.up),
        "harden_off": _on(stages.harden_off),
        "plant": _iso(stages.plant.day),
        "flower": _on(stages.flower),
        "first_pick": [_on(first[0]), _on(first[1])] if first else None,
        "last_pick": _on(stages.last_pick),
        "pull_out": _iso(stages.pull_out.day),
        "bed_free": _on(wave.bed_free),
        "ended_by": judged.ended_by.value,
        "margin_days": judged.margin,
        "odds": _share(judged.odds),
        "expected_picking_days": _number(judged.expected_picking_days, 1),
        "odds_of_nothing": _share(judged.odds_of_nothing),
        "verdict": judged.verdict.value if judged.verdict else None,
        "sow_again_by": _iso(wave.sow_again_by),
        "status": wave.status.value,
        "blocked": _blocked(wave.blocked) if wave.blocked else None,
    }


def _blocked(blocked: Blocked) -> Object:
    opening = blocked.opening
    first = None
    if opening is not None:
        first = {
            "plant": _iso(opening.day),
            "beds": list(opening.beds),
            "odds": _share(opening.odds),
            "verdict": opening.verdict.value if opening.verdict else None,
        }
    return {
        "plants": blocked.plants,
        "held_by": [
            {"wave": each.wave, "bed": each.bed, "until": _iso(each.until)}
            for each in blocked.holders
        ],
        "more_holders": blocked.more_holders,
        "kept": [{"bed": each.bed, "last": _iso(each.last)} for each in blocked.kept],
        "rotation": blocked.rotation,
        "first_room": first,
    }


def _answer(answer: Answer, season: Season) -> Object:
    judged = answer.judged
    return {
        "crop": answer.crop.name,
        "variety": answer.crop.variety,
        "plants": answer.plants,
        "basis": basis_of(season.climate),
        "earliest_planting": _iso(answer.earliest),
        "last_safe_planting": _iso(answer.last_safe),
        "windows": [{"from": _iso(span.first), "to": _iso(span.last)} for span in answer.windows],
        "frost_limit": _iso(answer.frost_limit),
        "verdict": answer.verdict.value if answer.verdict else None,
        "odds": _share(judged.odds),
        "expected_picking_days": _number(judged.expected_picking_days, 1),
        "odds_of_nothing": _share(judged.odds_of_nothing),
        "places": [_spot(spot) for spot in answer.spots],
        "instead": [_instead(other) for other in answer.instead],
        "by_date": [_by_date(judged) for judged in answer.weekly],
    }


def _spot(spot: Spot) -> Object:
    stages = spot.judged.stages
    first = stages.first_pick
    return {
        "bed": spot.bed.name,
        "free_from": _iso(spot.free_from),
        "plant": _iso(stages.plant.day),
        "first_pick": [_on(first[0]), _on(first[1])] if first else None,
        "last_pick": _on(stages.last_pick),
        "odds": _share(spot.judged.odds),
        "verdict": spot.judged.verdict.value if spot.judged.verdict else None,
        "plants": spot.plants,
    }


def _by_date(judged: Judged) -> Object:
    first = judged.stages.first_pick
    return {
        "plant": _iso(judged.stages.plant.day),
        "first_pick": [_on(first[0]), _on(first[1])] if first else None,
        "expected_picking_days": _number(judged.expected_picking_days, 1),
        "odds": _share(judged.odds),
        "verdict": judged.verdict.value if judged.verdict else None,
    }


def _instead(other: Instead) -> Object:
    return {
        "what": other.what,
        "text": other.text,
        "plant": _iso(other.plant),
        "odds": _share(other.odds),
    }


def _week(sheet: WeekSheet, season: Season) -> Object:
    return {
        "week": sheet.week,
        "from": _iso(sheet.first),
        "to": _iso(sheet.last),
        "tasks": [_task(task) for task in _tasks(sheet)],
        "problems": [_problem(problem) for problem in problems_of_week(sheet, season)],
    }


def _tasks(sheet: WeekSheet) -> list[Task]:
    """Return all tasks of a week once, pickings too, in order of day, then of the work."""
    found = {
        task.id: task
        for task in (
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
        "due": _iso(task.due),
        "kind": task.kind.value,
        "wave": task.wave.id,
        "bed": task.bed,
        "text": task.text,
        "amount": {"value": _number(amount.value, 3), "unit": amount.unit} if amount else None,
        "overdue": task.overdue,
        "cautions": list(task.cautions),
    }


def _steps(dated: Dated) -> list[Object]:
    return [
        {
            "rule": step.rule,
            "days": step.days,
            "date": _iso(step.date),
            "text": step.text,
            "file": step.origin.file,
            "line": step.origin.line,
            "source": step.origin.source,
        }
        for step in dated.steps
    ]


def _problem(problem: Problem) -> Object:
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
    basis = climate.basis
    return {
        "frost": basis.frost,
        "warmth": basis.warmth,
        "assumed": list(basis.assumed),
        "years_used": basis.years_used,
    }


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None


def _on(dated: Dated | None) -> str | None:
    return dated.day.isoformat() if dated else None


def _share(share: float | None) -> float | None:
    """Return a share of years to three decimals. [0–1]."""
    return None if share is None else round(float(share), 3)


def _number(value: float | None, digits: int) -> float | int | None:
    """Return a number to so many decimals, a whole one without any."""
    if value is None:
        return None
    rounded = round(value, digits)
    return int(rounded) if rounded == int(rounded) else rounded
