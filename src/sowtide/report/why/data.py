"""How each date of a wave was counted, and what each recorded year does to it, for programs."""

from __future__ import annotations

from sowtide.climate.answers import YearTold
from sowtide.reasons import Dated
from sowtide.report.kit.form import Object, Value, document
from sowtide.report.kit.machine import iso
from sowtide.report.why.page import stages_of
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave


def why_json(wave: Wave, season: Season) -> str:
    """Write how each date of a wave was counted."""
    dates: list[Value] = [
        {"stage": stage, "date": dated.day.isoformat(), "steps": _steps(dated)}
        for stage, dated in stages_of(wave)
    ]
    return document({"wave": wave.id, "dates": dates, "years": _years(wave, season)})


def _steps(dated: Dated) -> list[Object]:
    return [
        {
            "rule": step.rule,
            "days": step.days,
            "date": iso(step.date),
            "text": step.text,
            "file": step.origin.file,
            "line": step.origin.line,
            "source": step.origin.source,
        }
        for step in dated.steps
    ]


def _years(wave: Wave, season: Season) -> list[Value] | None:
    """Return every recorded year; None where there is none."""
    told = season.years_of(wave)
    return [_year(each) for each in told] if told else None


def _year(told: YearTold) -> Object:
    early, late = told.first_pick
    return {
        "year": told.season,
        "first_pick": [iso(early), iso(late)],
        "end": iso(told.end),
        "ended_by": None if told.ended_by is None else told.ended_by.value,
        "picking_days": round(told.picking_days, 1),
        "worth": round(told.worth, 3),
    }
