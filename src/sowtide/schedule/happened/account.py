"""What really happened to each wave, put together from the entries of the journal."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date

from sowtide.garden.journal import PICKINGS, Did, Happening
from sowtide.values import value


@value
class Account:
    """What happened to one wave.

    Parameters
    ----------
    wave
        Its name.
    happenings
        All that is noted of it, in order of day, then of stage.
    """

    wave: str
    happenings: tuple[Happening, ...]

    def all_of(self, *stages: Did) -> Iterator[Happening]:
        """Yield what is noted of some stages, in order."""
        return (each for each in self.happenings if each.did in stages)

    def first(self, *stages: Did) -> Happening | None:
        """Return the first entry of some stages."""
        return next(self.all_of(*stages), None)

    @property
    def sown(self) -> Happening | None:
        """Its sowing."""
        return self.first(Did.SOWN)

    @property
    def first_pick(self) -> Happening | None:
        """Its first picking."""
        return self.first(*PICKINGS)

    @property
    def last_pick(self) -> Happening | None:
        """The picking that was said to be its last."""
        return self.first(Did.LAST_PICKED)

    @property
    def gone(self) -> Happening | None:
        """What took the whole of it: pulled, or lost."""
        return next((each for each in self.all_of(Did.PULLED, Did.LOST) if is_whole(each)), None)

    @property
    def skipped(self) -> Happening | None:
        """Where it was said that it is not grown at all."""
        skip = next((each for each in self.all_of(Did.SKIPPED) if each.skips is None), None)
        return None if skip is None or self.first(*_GROWING) is not None else skip

    @property
    def left(self) -> int:
        """Plants that are gone of it while the others stand. [1]"""
        return sum(each.plants or 0 for each in self.all_of(Did.PULLED, Did.LOST))

    def planting(self, *, trays: bool) -> tuple[Happening, ...]:
        """Return the entries that say when and where it took up bed space.

        Parameters
        ----------
        trays
            Whether it is raised in trays; a wave that was planted out was, whatever was planned.
        """
        out = tuple(self.all_of(Did.PLANTED_OUT))
        return out or (() if trays else tuple(self.all_of(Did.SOWN)))

    def days(self) -> tuple[date, date]:
        """Return the first and the last day of which anything is noted."""
        return self.happenings[0].on, self.happenings[-1].on


_GROWING = tuple(did for did in Did if did not in (Did.SKIPPED, Did.PREPARED, Did.SCOUTED))
_ORDER = {did: number for number, did in enumerate(Did)}


def is_whole(gone: Happening) -> bool:
    """Say whether an entry of pulling or losing tells of all plants of the wave."""
    return gone.plants is None and gone.bed is None


def accounts_of(happenings: Iterable[Happening]) -> tuple[Account, ...]:
    """Return what happened to each wave that the journal names, in order of name.

    The order of the entries makes no difference.
    """
    of_wave: dict[str, list[Happening]] = defaultdict(list)
    for each in happenings:
        if each.wave is not None:
            of_wave[each.wave].append(each)
    return tuple(
        Account(wave, tuple(sorted(found, key=_place))) for wave, found in sorted(of_wave.items())
    )


def _place(each: Happening) -> tuple[date, int, str]:
    return each.on, _ORDER[each.did], each.line
