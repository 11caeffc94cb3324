"""Waves would be ready in the hot weeks, set no fruit in them, or their roots grow in them."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown
from sowtide.schedule.checks import Said, SeriesRule, named
from sowtide.schedule.waves import Conditions, HeatHarm

_LATER = "earlier or later, or a crop that stands heat"
_SAID = {
    HeatHarm.PICKED_IN_IT: ("be ready in the hot weeks", "plant"),
    HeatHarm.SPOILS_ROOT: ("grow in heat that makes roots pale and tough", "sow"),
    HeatHarm.DROPS_FLOWERS: (
        "be in flower in the hot weeks, and most of the flowers set no fruit",
        "plant",
    ),
}
"""What the heat does to waves, and what the grower would do at another time."""


def _check(grown: Grown, _: Conditions) -> Iterator[Said]:
    # Of one that is gone nothing can come true any more.
    waves = [each for each in grown.waves if each.gone is None and each.judged.stages.first_pick]
    for harm, (text, act) in _SAID.items():
        alike = [each for each in waves if each.judged.heat is harm]
        if alike:
            names = named(alike)
            yield Said(f"{names} would {text}", f"{act} {_LATER}", alike[0], about=names)


RULE = SeriesRule("too-hot", Severity.WARNING, _check)
