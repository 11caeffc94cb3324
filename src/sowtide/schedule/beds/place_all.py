"""Waves into beds, in passes by rank, and in each in order of planting day.

What is planted already has its beds, before all that is only planned. Then comes what asks to be
first, then what names its beds, then what may go anywhere. Within a pass waves take their places in
order of planting day, then of the file: among equals, August never moves May. Each is given room
for its whole stay beside all that had its turn before, whenever that is planted.

A series steps on from its waves as they were placed only where its days breathe: then all its waves
wait for their turns one after another, in the pass of the foremost of them. The days of any other
series are known beforehand, so each of its waves has its turn in the pass of its own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from enum import IntEnum
from heapq import heappop, heappush
from typing import TYPE_CHECKING

from sowtide.garden.model import Bed, Entry
from sowtide.progress import Progress, unwatched
from sowtide.reasons import Dated
from sowtide.schedule.beds.blocked import Blocking
from sowtide.schedule.beds.open_beds import OpenBeds
from sowtide.schedule.beds.overlapping import Between
from sowtide.schedule.beds.placing import Placing, bed_free
from sowtide.schedule.stays import Closings, Room, Sick
from sowtide.schedule.waves import (
    Blocked,
    Conditions,
    Gap,
    Judged,
    Over,
    Overlap,
    Planting,
    Series,
    Stand,
)
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.garden.journal import Happening
    from sowtide.schedule.happened import Account, Accounts


@value
class Placed:
    """A planting judged and placed, or blocked."""

    planting: Planting
    """What was asked for."""
    judged: Judged
    """Dates and verdict on the worst of its beds' ground."""
    stands: tuple[Stand, ...] = ()
    """Where it stands; empty if blocked or skipped."""
    bed_free: Dated | None = None
    """The day the last of its beds may be planted again."""
    warnings: tuple[tuple[str, str], ...] = ()
    """What rotation has against beds that the grower named, as (bed, words)."""
    blocked: Blocked | None = None
    """Why it has no room, or None."""
    overlap: Overlap | None = None
    """The wave between whose plants it is set, or None."""
    account: Account | None = None
    """What happened to it, or None where nothing is noted of it."""
    gone: Happening | None = None
    """What took the last of its plants, or None."""
    crowded: tuple[str, ...] = ()
    """Beds in which it was planted although they had not the room."""


@value
class Grown:
    """An entry of the file and what became of it."""

    series: Series
    """The entry, with the days on which it may be planted."""
    waves: tuple[Placed, ...]
    """Its waves in order, placed or blocked."""
    over: Over
    """Why it has no more."""
    gaps: tuple[Gap, ...]
    """Days between them on which nothing could be planted."""

    @property
    def entry(self) -> Entry:
        """What the file asks for."""
        return self.series.entry


class Rank(IntEnum):
    """Whose turn comes before whose."""

    PLANTED = 0
    FIRST = 1
    NAMES_BEDS = 2
    OPEN = 3


def place_all(
    series: tuple[Series, ...],
    beds: tuple[Bed, ...],
    conditions: Conditions,
    accounts: Accounts | None = None,
    *,
    sick: Mapping[tuple[int, str], Sick] | None = None,
    progress: Progress = unwatched,
) -> tuple[Room, tuple[Grown, ...]]:
    """Stand the plantings of all series, in passes by rank, by planting day, then by the file.

    A planting that finds no room and may be moved is tried again on each following day, in its
    turn on that day; so it never takes the room of an equal that is planted before it. What is
    overdue takes its room from today on. What is said to be sick bars its beds from the start.
    The progress is told in plantings that have had their turn, and those known to wait for it.

    Returns
    -------
    tuple
        The beds as they filled up, and what became of each series.
    """
    room = Room(beds)
    room.sick.update(sick or {})
    closings = Closings(room, conditions.year.season)
    open_beds = OpenBeds(room, closings)
    turns = _Turns(series, beds, accounts)
    placed: tuple[list[Placed], ...] = tuple([] for _ in series)
    out: list[tuple[int, int, Planting, str | None]] = []
    number, rank = 0, Rank.PLANTED
    while turns.waiting:
        turn_of, day, index, moved, _, planting = heappop(turns.waiting)
        if turn_of > rank:
            rank = turn_of
            open_beds.begin()
        progress(number, number + len(turns.waiting) + 1)
        number += 1
        asked = planting.moved(moved) if moved else planting
        account = None if accounts is None else accounts.of(asked.id)
        placing = Placing(
            asked,
            room,
            conditions,
            only_safe=moved > 0,
            account=account,
            day=day,
            turn=number,
            closings=closings,
            open_beds=open_beds,
        )
        if account is not None and account.is_planted(asked.entry.raised):
            placed[index].append(_as_it_stands(placing, account))
            continue
        if account is not None and account.skipped is not None:
            skipped = Placed(asked, placing.best(), account=account)
            placed[index].append(skipped)
            turns.follow(index, asked)
            continue
        gone = placing.gone
        if gone is not None and gone.on <= asked.planted.day:  # its seedlings: it wants no room
            placed[index].append(Placed(asked, placing.best(), account=account, gone=gone))
            turns.follow(index, asked)
            continue
        chosen = placing.choose()
        inside = None if chosen else placing.choose_between()
        if inside is not None:
            placed[index].append(_placed_between(placing, inside, account))
        elif not chosen and asked.planted.day < planting.latest:
            turns.push(index, planting, moved + 1)
            continue
        elif chosen:
            placed[index].append(_placed(placing, chosen, account))
        elif gone is not None:  # it wants no room any more
            placed[index].append(Placed(asked, placing.best(), account=account, gone=gone))
        else:
            out.append((index, number, planting, placing.shut_between))
            turns.follow(index, planting)
            continue
        turns.follow(index, asked)
    blocking = Blocking(room, conditions)
    # Day by day, crop by crop: what stands in the beds is then looked up once for all of them.
    out.sort(key=lambda each: (each[2].planted.day, each[2].entry.crop.name, each[1]))
    for index, turn, planting, shut in out:
        placed[index].append(_without_room(planting, turn, blocking, accounts, shut=shut))
    waves = (tuple(sorted(of_series, key=_number)) for of_series in placed)
    return room, tuple(map(turns.grown, range(len(series)), waves))


class _Turns:
    """Whose turn it is: by rank, then by day, then by the file.

    Parameters
    ----------
    series
        What asks for plantings.
    beds
        All beds.
    accounts
        What happened, or None.
    """

    def __init__(
        self, series: tuple[Series, ...], beds: tuple[Bed, ...], accounts: Accounts | None
    ) -> None:
        self._series, self._accounts = series, accounts
        self._beds = {bed.name: bed for bed in beds} if accounts is not None else {}
        self._planted_before: dict[str, Planting] = {}
        self.waiting: list[tuple[Rank, int, int, int, int, Planting]] = []
        """Rank and day of its turn, series, days moved, number."""
        self._before: tuple[list[Planting], ...] = tuple([] for _ in series)
        self._over: dict[int, Over] = {}
        for index, each in enumerate(series):
            for number, account in () if accounts is None else accounts.of_series(each.entry.name):
                if account.is_planted(each.entry.raised):
                    self.push(index, self._planted(each.entry, number, account), 0)
            planting = self._next(index)
            while planting is not None:
                self.push(index, planting, 0)
                if each.entry.breathes:
                    break
                self._before[index].append(planting)
                planting = self._next(index)

    def follow(self, index: int, planting: Planting) -> None:
        """Let the planting after one wait for its turn, where it is not known yet."""
        if not self._series[index].entry.breathes:
            return
        self._before[index].append(planting)
        following = self._next(index)
        if following is not None:
            self.push(index, following, 0)

    def grown(self, index: int, waves: tuple[Placed, ...]) -> Grown:
        """Say what became of a series, all of whose plantings have had their turns."""
        gaps = (planting.gap for planting in self._before[index])
        return Grown(
            series=self._series[index],
            waves=waves,
            over=self._over[index],
            gaps=tuple(gap for gap in gaps if gap is not None),
        )

    def push(self, index: int, planting: Planting, moved: int) -> None:
        """Let a planting, moved by some days, wait for its turn."""
        account, due = self._account(planting), planting.planted.day
        turn, raised = due.toordinal() + moved, planting.entry.raised
        grows = account is not None and account.grows(raised)
        if self._accounts is not None and not grows and self._accounts.is_overdue(due):
            turn = max(turn, self._accounts.today.toordinal())
        rank = _rank(planting)
        if account is not None and account.is_planted(raised):
            rank = Rank.PLANTED
        heappush(self.waiting, (rank, turn, index, moved, planting.number, planting))

    def _next(self, index: int) -> Planting | None:
        """Return the next planting of a series that is not in the bed yet, or None."""
        before = self._before[index]
        planting = self._step(index)
        while isinstance(planting, Planting) and (account := self._account(planting)) is not None:
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

    def _account(self, planting: Planting) -> Account | None:
        return None if self._accounts is None else self._accounts.of(planting.id)

    def _raised(self, planting: Planting, account: Account, before: Sequence[Planting]) -> Planting:
        """Return a planting on the day that its seedlings allow."""
        from sowtide.schedule.happened import planted_on

        if planting.gap is not None and account.sown is not None and before:
            # Seedlings that are there are not kept over a gap: they go out as they would without.
            planting = before[-1].followed_by(planting.entry, planting.number)
        planted = planted_on(planting.planted, account, planting.entry)
        latest = max(planting.latest, planted.day)
        if planted is planting.planted:
            return replace(planting, latest=latest)
        return replace(planting, planted=planted, latest=latest, begun=planted, times=0)

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


def _number(placed: Placed) -> int:
    return placed.planting.number


def _placed(
    placing: Placing, chosen: list[tuple[int, int]], account: Account | None = None
) -> Placed:
    warnings = placing.warnings(chosen)
    judged, stands = placing.take(chosen)
    free = bed_free(judged, stands)
    return Placed(
        planting=placing.planting,
        judged=judged,
        stands=stands,
        bed_free=free,
        warnings=warnings,
        account=account,
        gone=placing.gone,
    )


def _placed_between(placing: Placing, found: Between, account: Account | None = None) -> Placed:
    warnings = placing.warnings([(found.index, placing.entry.plants)])
    judged, stands = placing.take_between(found)
    free = bed_free(judged, stands)
    among = Overlap(found.wave, date.fromordinal(found.until))
    return Placed(
        planting=placing.planting,
        judged=judged,
        stands=stands,
        bed_free=free,
        warnings=warnings,
        overlap=among,
        account=account,
        gone=placing.gone,
    )


def _as_it_stands(placing: Placing, account: Account) -> Placed:
    """Stand a wave where it was planted, room or not; if that is not noted, where it has room."""
    room, each = placing.room, placing.crop.area_per_plant
    stands = [(room.number[bed], n) for bed, n in placing.stands if bed in room.number]
    if stands and all(placing.free(index) >= plants * each for index, plants in stands):
        return _placed(placing, stands, account)
    inside = placing.choose_between()
    if inside is not None:
        return _placed_between(placing, inside, account)
    chosen = stands or placing.choose() or [(next(placing.beds()), placing.entry.plants)]
    found = _placed(placing, chosen, account)
    crowded = tuple(room.beds[index].name for index, _ in chosen if placing.free(index) < 0)
    return replace(found, crowded=crowded)


def _without_room(
    planting: Planting,
    turn: int,
    blocking: Blocking,
    accounts: Accounts | None,
    *,
    shut: str | None,
) -> Placed:
    """Say why a wave has no room; where it was to stand between others, what closes that bed."""
    judged, blocked = blocking.of(planting, turn)
    blocked = replace(blocked, rotation=blocked.rotation or shut)
    account = None if accounts is None else accounts.of(planting.id)
    return Placed(planting, judged, blocked=blocked, account=account)
