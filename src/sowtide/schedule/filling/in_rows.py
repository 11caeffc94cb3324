"""Plantings rounded to whole rows across their bed: nobody likes to sow two rows and one bean."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sowtide.garden.model import Bed
from sowtide.schedule.filling.chosen import Chosen
from sowtide.schedule.stays import row_of

_LOST = 0.005
"""How much more may be left unmet for it, beside what is unmet; sowtide's own choice. [0–1]"""
_LITTLE = 1e-9

_Key = tuple[int, int]
"""An option and a bed."""


def in_whole_rows(of: Chosen, beds: Sequence[Bed]) -> None:
    """Round what was chosen to whole rows, where the bed has room or little is lost by it.

    Parameters
    ----------
    of
        The plantings.
    beds
        The beds that they stand in.
    """
    most = of.unmet * (1 + _LOST) + _LITTLE
    while True:
        for key, row, over in tuple(_broken(of, beds)):
            if row - over <= of.ground.room(*key):
                of.add(*key, row - over)
        shorter = ((_unmet_without(of, key, over), key, over) for key, _, over in _broken(of, beds))
        unmet, key, over = min(shorter, default=(most, (0, 0), 0))
        if unmet >= most:
            return
        of.add(*key, -over)
        of.weigh()


def _broken(of: Chosen, beds: Sequence[Bed]) -> Iterator[tuple[_Key, int, int]]:
    """Yield plantings that end in a part of a row: the plants of a row, and those of the part."""
    for key in sorted(of.plants):
        number, bed = key
        row = row_of(of.options[number].crop, beds[bed])
        over = of.plants[key] % row
        if over and of.plants[key] - over >= of.options[number].least:
            yield key, row, over


def _unmet_without(of: Chosen, key: _Key, plants: int) -> float:
    """Return what would be unmet with some plants fewer. [weeks]"""
    of.add(*key, -plants)
    of.weigh()
    unmet = of.unmet
    of.add(*key, plants)
    of.weigh()
    return unmet
