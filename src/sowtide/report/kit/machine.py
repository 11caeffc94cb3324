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
from sowtide.schedule.beds import free_spans, full_weeks, growing_days
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Blocked, Done, Overlap, Wave
from sowtide.schedule.work import Kind

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
