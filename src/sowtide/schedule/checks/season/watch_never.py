"""There is something to look for whose warmth is not reached in most years."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.checks import Plan, Said, SeasonRule


def _check(plan: Plan) -> Iterator[Said]:
    for lookout in plan.lookouts:
        if lookout.reached is not None and lookout.reached.day is None:
            warmth = lookout.watch.warmth_in(plan.garden.site.units)
            yield Said(
                f"{lookout.watch.look_for}: in most years less than {warmth} gathers here",
                "are base and total in the units of the site?",
                span=lookout.watch.span,
            )


RULE = SeasonRule("watch-never", Severity.NOTE, _check)
