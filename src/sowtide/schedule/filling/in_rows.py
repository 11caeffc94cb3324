"""Plantings rounded to whole rows across their bed: nobody likes to sow two rows and one bean."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.schedule.filling.chosen import Chosen
from sowtide.schedule.stays import row_of

_Key = tuple[int, int]
"""An option and a bed."""


def in_whole_rows(of: Chosen, most: float) -> None:
    """Round what was chosen to whole rows, where the bed has room or little is lost by it.

    Parameters
    ----------
    of
        The plantings.
    most
        No more may be left unmet for it, as it counts. [weeks]
    """
    while True:
        for key, row, over in tuple(_broken(of)):
            if row - over <= min(of.ground.room(*key), of.most(key[0])):
                of.add(*key, row - over)
        shorter = ((_unmet_without(of, key, over), key, over) for key, _, over in _broken(of))
        unmet, key, over = min(shorter, default=(most, (0, 0), 0))
        if unmet >= most:
            return
        of.add(*key, -over)


def _broken(of: Chosen) -> Iterator[tuple[_Key, int, int]]:
    """Yield plantings that end in a part of a row: the plants of a row, and those of the part."""
    for key in sorted(of.plants):
        number, bed = key
        row = row_of(of.options[number].crop, of.beds[bed])
        over = of.plants[key] % row
        if over and of.plants[key] - over >= of.ground.least[number]:
            yield key, row, over


def _unmet_without(of: Chosen, key: _Key, plants: int) -> float:
    """Return what would be unmet with some plants fewer, as it counts. [weeks]"""
    of.add(*key, -plants)
    unmet = of.counted
    of.add(*key, plants)
    return unmet
