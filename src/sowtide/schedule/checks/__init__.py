"""Problems of the plan."""

from __future__ import annotations

from sowtide.schedule.checks.frost_dates import frost_dates_differ
from sowtide.schedule.checks.problems import (
    bolting,
    gap_note,
    long_days,
    may_run_to_seed,
    no_wave,
    poor_germination,
    problems_of,
    sets_little_fruit,
    too_many,
    year_over,
)

__all__ = [
    "bolting",
    "frost_dates_differ",
    "gap_note",
    "long_days",
    "may_run_to_seed",
    "no_wave",
    "poor_germination",
    "problems_of",
    "sets_little_fruit",
    "too_many",
    "year_over",
]
