"""A plan tidied: no plant that meets nothing, fewer sowings where little is lost, whole rows."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.schedule.filling.chosen import Chosen
from sowtide.schedule.filling.growing import grow
from sowtide.schedule.filling.in_one_bed import gathered
from sowtide.schedule.filling.in_rows import in_whole_rows

_LOST, _OF_ALL = 0.005, 0.0005
"""How much more may be left unmet: of what is, and of all that lacked; our own choice. [0–1]"""
_SOWING, _STAND = 0.05, 0.05
"""What a day of sowing less may leave unmet, and a bed less on that day. [weeks]"""
_NEAR = 22
"""Sowings of a want fewer days apart than this may be made one; our own. [days]"""
_LITTLE = 1e-9

_Key = tuple[int, int]
"""An option and a bed."""


def tidied(of: Chosen) -> Chosen:
    """Return a plan tidied, which leaves about as much unmet."""
    made = of.copy()
    _trim(made)
    most = made.counted * (1 + _LOST) + _OF_ALL * made.lacked + _LITTLE
    for key in sorted(made.plants, key=lambda key: (made.plants[key], key)):
        if key in made.plants:
            fewer = (each for each in _without(made, key) if each.counted <= most)
            best = min(fewer, key=_worth, default=made)
            if _worth(best) < _worth(made):
                made = best
    made = gathered(made)
    in_whole_rows(made, most)
    return made


def _worth(of: Chosen) -> float:
    """Return what is left unmet and what its sowings may cost. [weeks]"""
    return round(of.cost + _SOWING * len(of.sown) + _STAND * len(of.plants), 9)


def _without(of: Chosen, key: _Key) -> Iterator[Chosen]:
    """Yield plans without a planting: its plants left out, or sown with others of its crop."""
    number, bed = key
    options, plants = of.options, of.plants[key]
    bare = of.copy()
    bare.add(number, bed, -plants)
    near = {
        other
        for other in bare.plants
        if options[other[0]].want == options[number].want
        and abs(options[other[0]].first - options[number].first) < _NEAR
    }
    near |= {(other, bed) for other, _ in near if bed in of.ground.places[other]}
    for place in [None, *sorted(near - {key})]:
        made = bare.copy()
        if place is not None:
            room = min(made.ground.room(*place), plants, max(made.most(place[0]), 0))
            if room < max(1, 1 if place in made.plants else made.ground.least[place[0]]):
                continue
            made.add(*place, room)
        grow(made)
        yield made


def _trim(of: Chosen) -> None:
    """Take away plants that meet nothing, of the largest waves first."""
    for number, bed in sorted(of.plants, key=lambda key: (-of.plants[key], key)):
        least, plants = of.ground.least[number], of.plants[number, bed]
        spare = of.spare(number)
        if spare >= plants:
            of.add(number, bed, -plants)
        elif spare > 0 and plants > least:
            of.add(number, bed, -min(spare, plants - least))
