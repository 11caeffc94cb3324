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

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from sowtide.garden.model import Bed, Entry
from sowtide.progress import Progress, unwatched
from sowtide.reasons import Dated, Origin
from sowtide.schedule.beds.blocked import Blocking
from sowtide.schedule.beds.open_beds import OpenBeds
from sowtide.schedule.beds.overlapping import Between
from sowtide.schedule.beds.placing import Placing
from sowtide.schedule.beds.turns import Rank, Turn, Turns
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
    account: Account | None
    """What happened to it, or None where nothing is noted of it."""
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
    gone: Happening | None = None
    """What took the last of its plants, or None."""
    crowded: tuple[str, ...] = ()
    """Beds in which it was planted although they had not the room."""
    planned: date | None = None
    """The day it was planned for where something is noted of it, else None."""


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


def place_all(
    series: tuple[Series, ...],
    beds: tuple[Bed, ...],
    conditions: Conditions,
    accounts: Accounts | None,
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
    turns = Turns(series, beds, accounts)
    passes = _Passes(room, turns, conditions, accounts)
    number = 0
    while turns:
        progress(number, number + len(turns))
        number += 1
        passes.have(turns.next(), number)
    placed, planned = passes.all_placed(), turns.planned.get
    return room, tuple(
        Grown(
            series=each,
            waves=tuple(
                wave if wave.account is None else replace(wave, planned=planned(wave.planting.id))
                for wave in sorted(placed[index], key=_number)
            ),
            over=turns.over(index),
            gaps=turns.gaps(index),
        )
        for index, each in enumerate(series)
    )


class _Passes:
    """The passes in which plantings have their turns, and what became of each."""

    def __init__(
        self, room: Room, turns: Turns, conditions: Conditions, accounts: Accounts | None
    ) -> None:
        self._room, self._turns = room, turns
        self._conditions, self._accounts = conditions, accounts
        self._closings = Closings(room, conditions.year.season)
        self._open_beds = OpenBeds(room, self._closings)
        self._rank = Rank.PLANTED
        self._placed: dict[int, list[Placed]] = defaultdict(list)
        self._out: list[tuple[int, int, Planting, str | None]] = []
        """Series, turn, planting, and the bed that rotation closes to it, of those without room."""

    def have(self, turn: Turn, number: int) -> None:
        """Let a planting take its place, move on by a day, or do without room."""
        if turn.rank > self._rank:
            self._rank = turn.rank
            self._open_beds.begin()
        index, planting = turn.index, turn.planting
        asked = planting.moved(turn.moved) if turn.moved else planting
        account = None if self._accounts is None else self._accounts.of(asked.id)
        placing = Placing(
            asked,
            self._room,
            self._conditions,
            only_safe=turn.moved > 0,
            account=account,
            day=turn.day,
            turn=number,
            closings=self._closings,
            open_beds=self._open_beds,
        )
        found = _as_noted(placing, account) or _where_there_is_room(placing, account)
        if found is None and asked.planted.day < planting.latest:
            self._turns.push(index, planting, turn.moved + 1)
            return
        if found is None and placing.gone is not None:  # it wants no room any more
            found = Placed(asked, placing.best(), account=account, gone=placing.gone)
        if found is None:
            self._out.append((index, number, planting, placing.shut_between))
        else:
            self._placed[index].append(found)
        if turn.rank not in (Rank.PLANTED, Rank.SOMEWHERE):
            self._turns.follow(index, planting if found is None else asked)

    def all_placed(self) -> Mapping[int, list[Placed]]:
        """Return what became of the plantings by series, those without room among them."""
        blocking = Blocking(self._room, self._conditions)
        # Day by day, crop by crop: what stands in the beds is then looked up once for all of them.
        self._out.sort(key=lambda each: (each[2].planted.day, each[2].entry.crop.name, each[1]))
        for index, turn, planting, shut in self._out:
            found = _without_room(planting, turn, blocking, self._accounts, shut=shut)
            self._placed[index].append(found)
        return self._placed


def _as_noted(placing: Placing, account: Account | None) -> Placed | None:
    """Return what became of a planting that is noted as planted, skipped or gone, or None."""
    if account is None:
        return None
    asked, gone = placing.planting, placing.gone
    if account.is_planted(asked.entry.raised):
        return _as_it_stands(placing, account)
    if account.skipped is not None:
        return Placed(asked, placing.best(), account=account)
    if gone is not None and gone.on <= asked.planted.day:  # its seedlings: it wants no room
        return Placed(asked, placing.best(), account=account, gone=gone)
    return None


def _where_there_is_room(placing: Placing, account: Account | None) -> Placed | None:
    """Place a planting in its beds, or between the plants of another wave; None without room."""
    chosen = placing.choose()
    if chosen:
        return _placed(placing, chosen, account)
    inside = placing.choose_between()
    return None if inside is None else _placed_between(placing, inside, account)


def _number(placed: Placed) -> int:
    return placed.planting.number


def _placed(
    placing: Placing, chosen: list[tuple[int, int]], account: Account | None = None
) -> Placed:
    warnings = placing.warnings(chosen)
    return _taken(placing, *placing.take(chosen), warnings=warnings, account=account)


def _placed_between(placing: Placing, found: Between, account: Account | None) -> Placed:
    warnings = placing.warnings([(found.index, placing.entry.plants)])
    taken = _taken(placing, *placing.take_between(found), warnings=warnings, account=account)
    return replace(taken, overlap=Overlap(found.wave, date.fromordinal(found.until)))


def _taken(
    placing: Placing,
    judged: Judged,
    stands: tuple[Stand, ...],
    *,
    warnings: tuple[tuple[str, str], ...],
    account: Account | None,
) -> Placed:
    return Placed(
        planting=placing.planting,
        judged=judged,
        stands=stands,
        bed_free=_bed_free(judged, stands),
        warnings=warnings,
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


def _bed_free(judged: Judged, stands: tuple[Stand, ...]) -> Dated:
    """Return the day on which the last of a wave's beds may be planted again."""
    free = judged.stages.pull_out
    rested = stands[0].bed
    if len(stands) > 1:
        rested = max((stand.bed for stand in stands), key=lambda bed: bed.rest)
    if rested.rest:
        origin = Origin(rested.span.file, rested.span.line)
        free = free.then(rested.rest, "pull-out", f"days of rest for {rested.name}", origin)
    return free
