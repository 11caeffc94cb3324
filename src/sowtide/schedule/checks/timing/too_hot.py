"""A wave would be ready in the hot weeks, sets no fruit in them, or its roots grow in them."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.waves import Conditions, HeatHarm


def _check(placed: Placed, _: Conditions) -> Iterator[Said]:
    judged, wave = placed.judged, placed.planting.id
    if judged.stages.first_pick is None:
        return
    if judged.heat is HeatHarm.PICKED_IN_IT:
        yield Said(
            f"{wave} would be ready in the hot weeks",
            "plant it earlier or later, or a crop that stands heat",
        )
    if judged.heat is HeatHarm.SPOILS_ROOT:
        yield Said(
            f"{wave} would grow in heat that makes its roots pale and tough",
            "sow it earlier or later, or a crop that stands heat",
        )
    if judged.heat is HeatHarm.DROPS_FLOWERS:
        yield Said(
            f"{wave} would be in flower in the hot weeks, and most of it sets no fruit",
            "plant it earlier or later, or a crop that stands heat",
        )


RULE = WaveRule("too-hot", Severity.WARNING, _check)
