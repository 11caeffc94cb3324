"""Heat in flower leaves a gap of a week or more in the picking in half of the years or more."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sowtide.days import short_span
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown, Placed
from sowtide.schedule.checks import Said, SeriesRule, named
from sowtide.schedule.waves import Conditions, PickGap
from sowtide.units import years_of_hundred

_A_WEEK = 7
"""A shorter gap in the picking passes unnoticed. [days]"""


def _check(grown: Grown, _: Conditions) -> Iterator[Said]:
    found = [(each, each.judged.pick_gap) for each in grown.waves]
    waves = [(each, gap) for each, gap in found if gap and _is_worth_saying(gap)]
    if not waves:
        return
    first, gap = waves[0]
    flowers, picks = gap.flowers, gap.picks
    names = named([each for each, _ in waves])
    flower = "flowers" if len(waves) == 1 else "flower"
    as_first = "" if len(waves) == 1 else f"; {first.planting.id}"
    among = "in an average year"
    if flowers.years is not None:
        among = f"in {years_of_hundred(flowers.share, of=flowers.years)}"
    yield Said(
        f"{names} {flower} in heat that sets no fruit{as_first} {among}, as a rule "
        f"{short_span(flowers.first, flowers.last)}: nothing to pick "
        f"{short_span(picks.first, picks.last)}",
        f"shade, water and mulch help a little; {_then(waves)}",
        first,
    )


def _then(waves: Sequence[tuple[Placed, PickGap]]) -> str:
    """Say what becomes of the plants: those that are out by then set no more."""
    if all(wave.judged.stages.pull_out.day <= gap.picks.first for wave, gap in waves):
        return "the plan pulls them out then, since their picking days end before it is cooler"
    return "keep the plants, they set again when it is cooler"


def _is_worth_saying(gap: PickGap) -> bool:
    return gap.is_usual and gap.picks.length >= _A_WEEK


RULE = SeriesRule("fruit-set", Severity.NOTE, _check)
