"""What stands out tonight: waves that are up or set out, and seedlings that harden off."""

from __future__ import annotations

from datetime import date, timedelta

from sowtide.climate.answers import EndedBy
from sowtide.garden.crop import AfterFrost
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Status, Wave
from sowtide.values import value

_INDOORS = frozenset({"tomato", "bush tomato", "cherry tomato", "pepper", "hot pepper"})
"""Kinds whose full-size fruit ripens indoors; common practice, no source."""
_BELOW = frozenset({"potato"})
"""Kinds whose tops alone are lost: what is dug is safe below the ground for some days."""
_FULL_SIZE = timedelta(days=14)
"""How long before its first pick such fruit is full size; common practice, no source. [days]"""


@value
class Exposed:
    """What stands out in the open tonight."""

    standing: tuple[Wave, ...]
    """Waves in their beds, up or set out."""
    seedlings: tuple[Wave, ...]
    """Waves whose seedlings stand outdoors by day, to harden off."""


def exposed(season: Season) -> Exposed:
    """Return what stands out on the day that a season is looked at from, by its journal."""
    today = season.today
    standing = tuple(wave for wave in season.waves if _stands(wave, season))
    seedlings = tuple(wave for wave in season.waves if _hardens(wave, today))
    return Exposed(standing, seedlings)


def is_ripe(wave: Wave, today: date) -> bool:
    """Say whether there is anything to pick, to ripen indoors, or to be brought in."""
    first = wave.stages.first_pick
    if first is None or wave.crop.kind in _BELOW:
        return False
    early = _FULL_SIZE if ripens_indoors(wave) else timedelta()
    return first[0].day - early <= today


def is_in_leaf(wave: Wave, dawn: date) -> bool:
    """Say whether a wave has no flowers yet at a dawn: its leaf may stand more than they do."""
    flower = wave.stages.flower
    return flower is not None and flower.day > dawn


def ripens_indoors(wave: Wave) -> bool:
    """Say whether what is full size but not ripe yet ripens indoors, or keeps there."""
    return wave.crop.kind in _INDOORS or wave.crop.after_frost is AfterFrost.BRING_IN


def _stands(wave: Wave, season: Season) -> bool:
    today, stages = season.today, wave.stages
    if not wave.stands or wave.status.is_gone:
        return False
    if not wave.stands_on(today) and not _outlives_the_plan(wave, today):
        return False
    if stages.up is not None and stages.up.day > today:
        return False  # until it is up no frost harms it
    late = season.accounts is not None and season.accounts.is_overdue(stages.plant.day)
    return wave.status is not Status.PLANNED or not late


def _outlives_the_plan(wave: Wave, today: date) -> bool:
    """Say whether a wave may stand although the plan ended it, on the average day of the frost.

    Until the frost comes, or it is noted as gone, it stands as long as it would bear.
    """
    first, stages = wave.stages.first_pick, wave.stages
    if wave.judged.ended_by is not EndedBy.FROST or first is None:
        return False
    bears_until = first[1].day + timedelta(days=wave.crop.picking_days)
    return stages.pull_out.day <= today < bears_until


def _hardens(wave: Wave, today: date) -> bool:
    harden = wave.stages.harden_off
    if not wave.from_trays or harden is None or wave.is_planted:
        return False
    if wave.status.is_gone or wave.status is Status.NO_ROOM:
        return False
    begun = wave.done is not None and wave.done.harden_off is not None
    return begun or harden.day <= today < wave.stages.plant.day
