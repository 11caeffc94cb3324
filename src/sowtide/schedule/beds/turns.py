"""Whose turn it is to find its place in the beds: by rank, then by day, then by the file."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from enum import IntEnum
from heapq import heappop, heappush
from typing import TYPE_CHECKING

from sowtide.garden.model import Bed, Entry
from sowtide.reasons import Dated
from sowtide.schedule.waves import Gap, Over, Planting, Series
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.happened import Account, Accounts


class Rank(IntEnum):
    """Whose turn comes before whose."""

    PLANTED = 0
    TAKEN_AS_PLANTED = 1
    """It names its beds, and its day is gone by; apart only before `SOMEWHERE`."""
    SOMEWHERE = 2
    """Planted, and nobody said in which bed."""
    FIRST = 3
    NAMES_BEDS = 4
    OPEN = 5


@value
class Turn:
    """A planting that has its turn."""

    rank: Rank
    day: int
    """The day of the turn. [ordinal]"""
    index: int
    """Its series."""
    moved: int
    """Days that it was moved for want of room. [days]"""
    planting: Planting
    """As it was first asked for."""


class Turns:
    """Whose turn it is: by rank, then by day, then by the file."""

    def __init__(
        self, series: tuple[Series, ...], beds: tuple[Bed, ...], accounts: Accounts | None
    ) -> None:
        self._series, self._accounts = series, accounts
        self._beds = {bed.name: bed for bed in beds} if accounts is not None else {}
        self._planted_before: dict[str, Planting] = {}
        self._somewhere = False
        """Whether any is noted as planted of which nobody said in which bed."""
        self._waiting: list[tuple[Rank, int, int, int, int, Planting]] = []
        """Rank and day of its turn, series, days moved, number."""
        self._before: tuple[list[Planting], ...] = tuple([] for _ in series)
        self._over: dict[int, Over] = {}
        self.planned: dict[str, date] = {}
        """The days that waves were planned for of which something is noted, by wave."""
        for index, each in enumerate(series):
            for number, account in () if accounts is None else accounts.of_series(each.entry.name):
                if account.is_planted(each.entry.raised):
                    planted = self._planted(each.entry, number, account)
                    self._somewhere |= not planted.beds_named
                    self.push(index, planted, 0)
        for index, each in enumerate(series):
            planting = self._next(index)
            while planting is not None:
                self.push(index, planting, 0)
                if each.entry.breathes:
                    break
                self._before[index].append(planting)
                planting = self._next(index)

    def __len__(self) -> int:
        return len(self._waiting)

    def next(self) -> Turn:
        """Return whose turn it is, which then waits no more."""
        rank, day, index, moved, _, planting = heappop(self._waiting)
        return Turn(rank=rank, day=day, index=index, moved=moved, planting=planting)

    def follow(self, index: int, planting: Planting) -> None:
        """Let the planting after one wait for its turn, where it is not known yet."""
        if not self._series[index].entry.breathes:
            return
        self._before[index].append(planting)
        following = self._next(index)
        if following is not None:
            self.push(index, following, 0)

    def over(self, index: int) -> Over:
        """Return why a series has no more plantings, all of whose have had their turns."""
        return self._over[index]

    def gaps(self, index: int) -> tuple[Gap, ...]:
        """Return the days between the plantings of a series on which nothing could be planted."""
        gaps = (planting.gap for planting in self._before[index])
        return tuple(gap for gap in gaps if gap is not None)

    def push(self, index: int, planting: Planting, moved: int) -> None:
        """Let a planting, moved by some days, wait for its turn."""
        account, due = self._account(planting), planting.planted.day
        turn, raised = due.toordinal() + moved, planting.entry.raised
        grows = account is not None and account.grows(raised)
        if self._accounts is not None and not grows and self._accounts.is_overdue(due):
            turn = max(turn, self._accounts.today.toordinal())
        rank = _rank(planting)
        if account is not None and account.is_planted(raised):
            rank = Rank.PLANTED if planting.beds_named else Rank.SOMEWHERE
        elif self._somewhere and self._is_taken_as_planted(planting):
            rank = Rank.TAKEN_AS_PLANTED
        heappush(self._waiting, (rank, turn, index, moved, planting.number, planting))

    def _next(self, index: int) -> Planting | None:
        """Return the next planting of a series that is not in the bed yet, or None."""
        before = self._before[index]
        planting = self._step(index)
        while isinstance(planting, Planting) and (account := self._account(planting)) is not None:
            self.planned[planting.id] = planting.planted.day
            if not account.is_planted(planting.entry.raised):
                return self._raised(planting, account, before)
            actual = self._planted(planting.entry, planting.number, account)
            before.append(replace(actual, gap=planting.gap))
            planting = self._step(index)
        if isinstance(planting, Over):
            self._over[index] = planting
            return None
        return planting

    def _step(self, index: int) -> Planting | Over:
        """Return the next planting of a series; one more than it has if its seedlings are sown."""
        series, before = self._series[index], self._before[index]
        found = series.step(before)
        if not isinstance(found, Over) or self._accounts is None or not before:
            return found
        entry, number = series.entry, len(before) + 1
        account = self._accounts.of(f"{entry.name}-{number}")
        if account is None or account.sown is None or entry.every is None:
            return found
        return before[-1].followed_by(entry, number)

    def _is_taken_as_planted(self, planting: Planting) -> bool:
        """Say whether it stands in beds that it names, for all that is known."""
        due, accounts = planting.planted.day, self._accounts
        if accounts is None or due >= accounts.today or accounts.is_overdue(due):
            return False
        return planting.beds_named and self._account(planting) is None

    def _account(self, planting: Planting) -> Account | None:
        return None if self._accounts is None else self._accounts.of(planting.id)

    def _raised(self, planting: Planting, account: Account, before: Sequence[Planting]) -> Planting:
        """Return a planting on the day that its seedlings allow."""
        from sowtide.schedule.happened import planted_on

        if planting.gap is not None and account.sown is not None and before:
            # Seedlings that are there are not kept over a gap: they go out as they would without.
            planting = before[-1].followed_by(planting.entry, planting.number)
            self.planned[planting.id] = planting.planted.day
        planted = planted_on(planting.planted, account, planting.entry)
        latest = max(planting.latest, planted.day)
        if planted is planting.planted:
            return replace(planting, latest=latest)
        first, *rest = planted.steps[len(planting.planted.steps) :]
        begun = Dated((replace(first, days=0), *rest), planted.day)
        return replace(planting, planted=planted, latest=latest, begun=begun, times=0)

    def _planted(self, entry: Entry, number: int, account: Account) -> Planting:
        """Return a planting as it happened."""
        found = self._planted_before.get(account.wave)
        if found is not None:
            return found
        from sowtide.schedule.happened import as_planted, noted

        planted = noted(account.planting(entry.raised)[0])
        stood = as_planted(entry, account, self._beds)
        asked = Planting(stood, number, planted, latest=planted.day, begun=planted)
        first = account.first_pick
        found = asked.done(planted, None if first is None else first.on)
        self._planted_before[account.wave] = found
        return found


def _rank(planting: Planting) -> Rank:
    """Return when a planting that is not in the bed yet has its turn."""
    entry = planting.entry
    if entry.first:
        return Rank.FIRST
    named = planting.beds_named
    if entry.breathes:  # one after another, so all in the pass of the foremost
        named = entry.beds_named or bool(entry.wave_beds)
    return Rank.NAMES_BEDS if named else Rank.OPEN
