"""The family of a crop stood too short a time ago in a bed that you named for it."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.waves import Conditions


def _check(placed: Placed, _: Conditions) -> Iterator[Said]:
    for bed, words in placed.warnings:
        yield Said(
            f"{placed.planting.id} in {bed}: {words}",
            "name another bed, or leave `beds` out and let sowtide pass this one over",
        )


RULE = WaveRule("rotation", Severity.WARNING, _check)
