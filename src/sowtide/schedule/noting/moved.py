"""What an entry of the journal moves: a wave's own dates and odds, and the rest of its series."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from sowtide.garden.journal import PICKINGS, Did, Happening
from sowtide.reasons import Dated
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.values import value


@value
class Shift:
    """A later wave of the series that is planted on another day now."""

    wave: str
    """Its name."""
    before: date | None
    now: date | None
    """Its planting day; None where there is no such wave."""


@value
class Moved:
    """What was written, and what it moved."""

    happening: Happening
    """What was written."""
    late: int | None
    """By how many days it is later than planned, negative if earlier; None if it was not planned.
    [days]"""
    before: Wave | None
    now: Wave | None
    """The wave with and without the entry; None where it is of none."""
    shifts: tuple[Shift, ...] = ()
    """Later waves of the series that it moved."""


def moved(happening: Happening, before: Season, after: Season) -> Moved:
    """Return what an entry moved."""
    old, new = _wave(before, happening.wave), _wave(after, happening.wave)
    if old is None or new is None:
        return Moved(happening, None, old, new)
    planned = _planned(old, happening.did)
    late = None if planned is None else (happening.on - planned.day).days
    return Moved(
        happening=happening, late=late, before=old, now=new, shifts=_shifts(old, before, after)
    )


@value
class RoomMoved:
    """Waves still to be planted that other entries moved to other beds, or out of all."""

    elsewhere: tuple[Wave, ...]
    """Those that stand in other beds than before."""
    lost: tuple[Wave, ...]
    found: tuple[Wave, ...]
    """Those that have no room any more, and those that have some now."""


def room_moved(before: Season, after: Season) -> RoomMoved:
    """Return the waves whose beds are others with some entries than without."""
    beds = {wave.id: wave.bed_names for wave in before.waves}
    moved = [
        wave
        for wave in after.waves
        if wave.id in beds
        and beds[wave.id] != wave.bed_names
        and not wave.is_planted
        and not wave.status.is_gone
    ]
    return RoomMoved(
        elsewhere=tuple(wave for wave in moved if beds[wave.id] and wave.stands),
        lost=tuple(wave for wave in moved if not wave.stands),
        found=tuple(wave for wave in moved if not beds[wave.id]),
    )


def all_moved(happenings: Sequence[Happening], before: Season, after: Season) -> tuple[Moved, ...]:
    """Return what some entries moved; what a series moved is said once, of what began it."""
    found = [moved(each, before, after) for each in happenings]
    begun: dict[str, tuple[int, int, int]] = {}
    for place, each in enumerate(found):
        if each.now is not None:
            turn = _moving(each.happening.did), each.now.number, place
            begun[each.now.entry.name] = min(turn, begun.get(each.now.entry.name, turn))
    said = {place for _, _, place in begun.values()}
    return tuple(
        each if place in said else replace(each, shifts=()) for place, each in enumerate(found)
    )


def _moving(did: Did) -> int:
    """Rank a stage by how much it moves of the waves behind it, most first."""
    return 0 if did in _PLANTS else 2 if did in _MOVES_NOTHING else 1


_PLANTS = (Did.SOWN, Did.PLANTED_OUT, Did.SKIPPED)
_MOVES_NOTHING = (
    *(Did.PREPARED, Did.UP, Did.THINNED, Did.COVERED, Did.WATERED, Did.FED, Did.SPRAYED),
    *(Did.SCOUTED, *PICKINGS),
)
"""What does not move the planting of the waves behind it."""


def _wave(season: Season, name: str | None) -> Wave | None:
    return next((wave for wave in season.waves if wave.id == name), None)


def _planned(wave: Wave, did: Did) -> Dated | None:
    """Return the day on which a stage was planned."""
    stages = wave.stages
    first = stages.first_pick
    return {
        Did.SOWN: stages.sow,
        Did.UP: stages.up,
        Did.HARDENED: stages.harden_off,
        Did.PLANTED_OUT: stages.plant,
        Did.FIRST_PICKED: None if first is None else first[0],
        Did.LAST_PICKED: stages.last_pick,
        Did.PULLED: stages.pull_out,
    }.get(did)


def _shifts(wave: Wave, before: Season, after: Season) -> tuple[Shift, ...]:
    days = [
        {
            each.id: each.stages.plant.day
            for each in season.waves
            if each.entry.name == wave.entry.name and each.number > wave.number
        }
        for season in (before, after)
    ]
    names = [*days[0], *(name for name in days[1] if name not in days[0])]
    pairs = ((name, days[0].get(name), days[1].get(name)) for name in names)
    return tuple(Shift(name, old, new) for name, old, new in pairs if old != new)
