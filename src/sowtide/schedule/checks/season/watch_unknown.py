"""There is something to look for, and no temperatures are known."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.checks import Plan, Said, SeasonRule


def _check(plan: Plan) -> Iterator[Said]:
    for lookout in plan.lookouts:
        if lookout.reached is None:
            yield Said(
                f"nobody can say when to look for {lookout.watch.look_for}: no temperatures are "
                "known here",
                "name a record of daily temperatures, or write the monthly normals",
                span=lookout.watch.span,
            )


RULE = SeasonRule("watch-unknown", Severity.NOTE, _check)
