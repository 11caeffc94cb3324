"""What really happened to each wave, put together from the entries of the journal."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date
from fractions import Fraction

from sowtide.garden.crop import Raised
from sowtide.garden.journal import PICKINGS, Did, Happening, Journal
from sowtide.grouping import grouped


class Account:
    """What happened to one wave.

    Parameters
    ----------
    wave
        Its name.
    happenings
        All that is noted of it, in order of day, then of stage.
    """

    __slots__ = ("_of", "happenings", "wave")

    def __init__(self, wave: str, happenings: tuple[Happening, ...]) -> None:
        self.wave, self.happenings = wave, happenings
        self._of = grouped(happenings, lambda each: each.did)

    def all_of(self, *stages: Did) -> Iterator[Happening]:
        """Yield what is noted of some stages, in order."""
        if len(stages) == 1:
            return iter(self._of.get(stages[0], ()))
        noted = [stage for stage in stages if stage in self._of]
        if len(noted) < 2:
            return iter(self._of[noted[0]] if noted else ())
        return (each for each in self.happenings if each.did in noted)

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

    def planting(self, raised: Raised) -> tuple[Happening, ...]:
        """Return the entries that say when and where it took up bed space.

        Parameters
        ----------
        raised
            How it is raised; a wave that was planted out was raised in trays, whatever was planned.
        """
        out = tuple(self.all_of(Did.PLANTED_OUT))
        return out or (() if raised is Raised.TRAYS else tuple(self.all_of(Did.SOWN)))

    def is_planted(self, raised: Raised) -> bool:
        """Say whether it is noted when it took up bed space."""
        return bool(self.planting(raised))

    def grows(self, raised: Raised) -> bool:
        """Say whether it stands in its bed, or stood there, whatever is noted of its planting."""
        tray = (Did.SOWN, Did.UP, Did.THINNED, Did.HARDENED) if raised is Raised.TRAYS else ()
        return any(each.did in _GROWING and each.did not in tray for each in self.happenings)


_GROWING = tuple(did for did in Did if did not in (Did.SKIPPED, Did.PREPARED, Did.SCOUTED))
_ORDER = {did: number for number, did in enumerate(Did)}


def is_whole(gone: Happening) -> bool:
    """Say whether an entry of pulling or losing tells of all plants of the wave."""
    return gone.plants is None and gone.bed is None


def accounts_of(happenings: Iterable[Happening]) -> tuple[Account, ...]:
    """Return what happened to each wave that the journal names, in order of name.

    The order of the entries makes no difference.
    """
    of_wave = grouped(
        (each for each in happenings if each.wave is not None), lambda each: each.wave or ""
    )
    return tuple(
        Account(wave, tuple(sorted(found, key=_place))) for wave, found in sorted(of_wave.items())
    )


class Accounts:
    """What happened of a season, wave by wave.

    Parameters
    ----------
    happenings
        The entries of the season up to today.
    today
        The day it is looked at from.
    earlier
        Entries with a note of earlier seasons.
    journal
        What happened in all seasons; None where it is not asked for.
    """

    __slots__ = ("_numbers", "_of", "begun", "earlier", "happenings", "journal", "today")

    def __init__(
        self,
        happenings: tuple[Happening, ...],
        today: date,
        earlier: tuple[Happening, ...] = (),
        journal: Journal | None = None,
    ) -> None:
        self.happenings, self.today, self.earlier = happenings, today, earlier
        self.journal = journal
        self.begun = min((each.on for each in happenings), default=None)
        """The day of the first entry: before it nothing can be overdue."""
        self._of = {account.wave: account for account in accounts_of(happenings)}
        self._numbers: dict[str, list[int]] = defaultdict(list)
        for wave in self._of:
            series, _, number = wave.rpartition("-")
            self._numbers[series].append(int(number))

    def of(self, wave: str) -> Account | None:
        """Return what happened to a wave, or None where nothing is noted of it."""
        return self._of.get(wave)

    def of_series(self, series: str) -> Iterator[tuple[int, Account]]:
        """Yield number and account of the waves of a series that the journal names."""
        for number in sorted(self._numbers.get(series, ())):
            yield number, self._of[f"{series}-{number}"]

    def is_overdue(self, day: date) -> bool:
        """Say whether what was due on a day and is not noted is still to be done."""
        return self.begun is not None and self.begun <= day < self.today


def _place(each: Happening) -> tuple[date, int, str, int, Fraction, str]:
    amount = _NONE if each.amount is None else each.amount.number
    return each.on, _ORDER[each.did], each.bed or "", each.plants or 0, amount, each.note or ""


_NONE = Fraction(0)
