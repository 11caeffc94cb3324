"""What the results of several commands have in common, for other programs.

Every field is always there, null where there is nothing to say; fields are added, never removed.
Dates are ISO dates, odds and shares run from 0 to 1 with three decimals.
"""

from __future__ import annotations

from datetime import date

from sowtide.climate.basis import RecordUsed
from sowtide.climate.questions import Climate
from sowtide.diagnostics import Problem
from sowtide.reasons import Dated
from sowtide.report.formats.json import Object


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
