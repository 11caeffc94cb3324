"""Pickings of a series are to be even, and no temperatures are known to space them with."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown
from sowtide.schedule.checks import Said, SeriesRule
from sowtide.schedule.waves import Conditions


def _check(grown: Grown, _: Conditions) -> Iterator[Said]:
    entry = grown.entry
    if entry.pick_every is not None and grown.series.even is None:
        yield Said(
            f"{entry.name} is to be picked every {entry.pick_every} days, and no temperatures are "
            "known here: only its sowings can be so many days apart",
            "write the means of the warmest and the coldest month, or name a record",
        )


RULE = SeriesRule("pickings-unspaced", Severity.WARNING, _check)
