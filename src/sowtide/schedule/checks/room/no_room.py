"""The beds of a wave are full, closed by rotation or kept for something else."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Placed
from sowtide.schedule.checks import Said, WaveRule
from sowtide.schedule.waves import Blocked, Conditions, Holder

_MOST_NAMED = 3
"""How many waves or beds a message names before it counts them. [1]"""


def _check(placed: Placed, _: Conditions) -> Iterator[Said]:
    planting = placed.planting
    if placed.blocked is None or not planting.beds:
        return
    first, latest = planting.planted.day, planting.latest
    when = f"on {short_day(first)}"
    if latest > first:
        when = f"from {short_day(first)} to {short_day(latest)}"
    plants = planting.entry.plants
    yield Said(
        f"no room for {planting.id} ({plants:,} plant{'s' if plants > 1 else ''}) {when}: "
        f"{_what_blocks(placed.blocked, plants)}",
        _where_next(placed.blocked, plants),
    )


def _what_blocks(blocked: Blocked, plants: int) -> str:
    reasons = []
    if blocked.plants >= plants:
        reasons.append("they would only fit in parts, one of them shorter than a row")
    elif blocked.plants:
        reasons.append(f"only {blocked.plants:,} would fit")
    holders = blocked.holders[:_MOST_NAMED]
    reasons += map(_holds, holders)
    more = len(blocked.holders) + blocked.more_holders - len(holders)
    if more:
        reasons.append(f"and {more} more wave{'s' if more > 1 else ''}")
    reasons += [
        f"{each.bed} is kept until {short_day(each.last)}" for each in blocked.kept[:_MOST_NAMED]
    ]
    if blocked.rotation:
        reasons.append(f"rotation closes {blocked.rotation}")
    reasons += [f"barred is {each}" for each in blocked.sick[:_MOST_NAMED]]
    return "; ".join(reasons) or "its beds are taken"


def _holds(holder: Holder) -> str:
    if holder.comes is None:
        return f"{holder.wave} holds {holder.bed} until {short_day(holder.until)}"
    return f"{holder.wave} comes into {holder.bed} on {short_day(holder.comes)}"


def _where_next(blocked: Blocked, plants: int) -> str:
    opening = blocked.opening
    if opening is None:
        fewer = ", or plant fewer" if plants > 1 else ""
        return f"no later day of the year has room for it: name another bed{fewer}"
    beds = opening.beds[0]
    if len(opening.beds) > 1:
        beds = f"{', '.join(opening.beds[:-1])} and {opening.beds[-1]}"
    if len(opening.beds) > _MOST_NAMED:
        beds = f"{len(opening.beds)} beds"
    then = "" if opening.verdict is None else f" ({opening.verdict.value} then)"
    return f"the first day with room is {short_day(opening.day)}, in {beds}{then}"


RULE = WaveRule("no-room", Severity.ERROR, _check)
