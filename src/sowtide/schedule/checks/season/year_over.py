"""The growing year that is planned has ended."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.checks import Plan, Said, SeasonRule


def _check(plan: Plan) -> Iterator[Said]:
    year = plan.garden.year
    if plan.today > year.last:
        yield Said(
            f"the growing year {year.season} ended on {short_day(year.last)} {year.last.year}",
            f"plan the next one: `season: {year.season + 1}`",
        )


RULE = SeasonRule("year-over", Severity.NOTE, _check)
