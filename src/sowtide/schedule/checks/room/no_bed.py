"""`wave_beds` gives a wave no bed."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.waves import Conditions


def _check(placed: Placed, _: Conditions) -> Iterator[Said]:
    if not placed.planting.beds:
        wave = placed.planting.id
        yield Said(f"{wave} is given no bed", "give it one in `wave_beds`", about=wave)


RULE = WaveRule("no-bed", Severity.NOTE, _check)
