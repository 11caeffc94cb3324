"""Waves into beds, in order of planting day: what is planted in August never moves May."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from heapq import heappop, heappush
from typing import TYPE_CHECKING

from sowtide.garden.model import Bed, Entry
from sowtide.progress import Progress, unwatched
from sowtide.reasons import Dated
from sowtide.schedule.beds.blocked import Blocking
from sowtide.schedule.beds.overlapping import Between
from sowtide.schedule.beds.placing import Placing, bed_free
from sowtide.schedule.beds.room import Room
from sowtide.schedule.beds.rotation import Closings
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
    """A planting judged and placed, or blocked.

    Parameters
    ----------
    planting
        What was asked for.
    judged
        Dates and verdict on the worst of its beds' ground.
    stands
        Where it stands; empty if blocked or skipped.
    bed_free
        The day the last of its beds may be planted again.
    warnings
        What rotation has against beds that the grower named, as (bed, words).
    blocked
        Why it has no room, or None.
    overlap
        The wave between whose plants it is set, or None.
    account
        What happened to it, or None where nothing is noted of it.
    gone
        What took the last of its plants, or None.
    crowded
        Beds in which it was planted although they had not the room.
    """

    planting: Planting
    judged: Judged
    stands: tuple[Stand, ...]
    bed_free: Dated | None
    warnings: tuple[tuple[str, str], ...]
    blocked: Blocked | None
    overlap: Overlap | None = None
    account: Account | None = None
    gone: Happening | None = None
    crowded: tuple[str, ...] = ()


@value
class Grown:
    """An entry of the file and what became of it.

    Parameters
    ----------
    series
        The entry, with the days on which it may be planted.
    waves
        Its waves in order, placed or blocked.
    over
        Why it has no more.
    gaps
        Days between them on which nothing could be planted.
    """

    series: Series
    waves: tuple[Placed, ...]
    over: Over
    gaps: tuple[Gap, ...]

    @property
    def entry(self) -> Entry:
        """What the file asks for."""
        return self.series.entry


def place_all(
    series: tuple[Series, ...],
    beds: tuple[Bed, ...],
    conditions: Conditions,
    accounts: Accounts | None = None,
    *,
    progress: Progress = unwatched,
) -> tuple[Room, tuple[Grown, ...]]:
    """Stand the plantings of all series in order of planting day, then of the file.

    A planting that finds no room and may be moved is tried again on each following day, in its
    turn on that day; so it never takes the room of one that is planted before it. What really
    happened has the beds it stands in, before all else that is planted on its day; what is overdue
    takes its room from today on.
    The progress is told in days from the first planting to the end of the growing year.

    Returns
    -------
    tuple
        The beds as they filled up, and what became of each series.
    """
    room = Room(beds)
    closings = Closings(room, conditions.year.season)
    turns = _Turns(series, beds, accounts)
    placed: tuple[list[Placed | Planting], ...] = tuple([] for _ in series)
    begun = turns.waiting[0][0] if turns.waiting else 0
    end = conditions.year.last.toordinal()
    reached = 0
    while turns.waiting:
        day, _, index, moved, _, planting = heappop(turns.waiting)
        room.advance(day)
        progress(day - begun, max(day, end) - begun)
        asked = planting.moved(moved) if moved else planting
        account = None if accounts is None else accounts.of(asked.id)
        placing = Placing(
            asked,
            room,
            conditions,
            only_safe=moved > 0,
            account=account,
            day=day,
            gone_by=day < reached,
            closings=closings,
        )
        reached = max(reached, day)
        if account is not None and account.is_planted(asked.entry.raised):
            placed[index].append(_as_it_stands(placing, account))
            closings.forget()
            continue
        if account is not None and account.skipped is not None:
            skipped = Placed(asked, placing.best(), (), None, (), None, account=account)
            placed[index].append(skipped)
            turns.follow(index, asked, asked, day)
            continue
        on, latest = asked.planted.day, planting.latest
        chosen = placing.choose() if on <= latest else []
        inside = placing.choose_between() if not chosen and on <= latest else None
        if inside is not None:
            placed[index].append(_placed_between(placing, inside, account))
        elif not chosen and on < latest:
            turns.push(index, planting, moved + 1, day)
            continue
        else:
            placed[index].append(_placed(placing, chosen, account) if chosen else planting)
        turns.follow(index, asked if chosen or inside else planting, asked, day)
    blocking = Blocking(room, conditions, order=tuple(each.entry.name for each in series))
    # Day by day: what stands in the beds is then looked up once for all waves without room on it.
    out = [each for of_series in placed for each in of_series if isinstance(each, Planting)]
    out.sort(key=lambda planting: (planting.planted.day, planting.entry.crop.name))
    without = {each.id: _without_room(each, blocking, accounts) for each in out}
    waves = (
        tuple(
            without[each.id] if isinstance(each, Planting) else each
            for each in sorted(of_series, key=_number)
        )
        for of_series in placed
    )
    return room, tuple(map(turns.grown, range(len(series)), waves))


class _Turns:
    """Whose turn it is: by day, then what was planted before what is planned, then by the file.

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
        self.waiting: list[tuple[int, bool, int, int, int, Planting]] = []
        """Day of its turn, whether it is still to be planted, series, days moved, number."""
        self._before: tuple[list[Planting], ...] = tuple([] for _ in series)
        self._over: dict[int, Over] = {}
        for index, each in enumerate(series):
            for number, account in () if accounts is None else accounts.of_series(each.entry.name):
                if account.is_planted(each.entry.raised):
                    self._push(self._planted(each.entry, number, account), index, 0, 0)
            self._hand_out(index, tried=None, day=0)

    def follow(self, index: int, planting: Planting, tried: Planting, day: int) -> None:
        """Hand out the planting after one that had its turn on a day. [ordinal]

        Parameters
        ----------
        index
            Number of the series.
        planting
            The planting to step on from.
        tried
            The same on the last day on which room was looked for.
        day
            The day that has come.
        """
        self._before[index].append(planting)
        self._hand_out(index, tried=tried, day=day)

    def grown(self, index: int, waves: tuple[Placed, ...]) -> Grown:
        """Say what became of a series, all of whose plantings have had their turns."""
        gaps = (planting.gap for planting in self._before[index])
        return Grown(
            series=self._series[index],
            waves=waves,
            over=self._over[index],
            gaps=tuple(gap for gap in gaps if gap is not None),
        )

    def push(self, index: int, planting: Planting, moved: int, day: int) -> None:
        """Let a planting have its turn, moved by some days, on or after a day. [ordinal]"""
        self._push(planting, index, moved, day)

    def _hand_out(self, index: int, *, tried: Planting | None, day: int) -> None:
        """Let the next planting of a series that is not in the bed yet wait for its turn."""
        before = self._before[index]
        planting = self._series[index].step(before)
        while isinstance(planting, Planting) and (account := self._account(planting)) is not None:
            if not account.is_planted(planting.entry.raised):
                planting = self._raised(planting, account)
                break
            actual = self._planted(planting.entry, planting.number, account)
            before.append(replace(actual, gap=planting.gap))
            planting, tried = self._series[index].step(before), None
        if isinstance(planting, Over):
            self._over[index] = planting
            return
        late = 0
        if tried is not None and planting.beds_named and planting.beds != tried.beds:
            day = 0  # nobody looked into its own beds on the days gone by
        elif tried is not None:
            late = max((tried.planted.day - planting.planted.day).days, 0)
        self._push(planting, index, late, day)

    def _account(self, planting: Planting) -> Account | None:
        return None if self._accounts is None else self._accounts.of(planting.id)

    def _raised(self, planting: Planting, account: Account) -> Planting:
        """Return a planting on the day that its seedlings allow."""
        from sowtide.schedule.happened import planted_on

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

    def _push(self, planting: Planting, index: int, moved: int, day: int) -> None:
        account, due = self._account(planting), planting.planted.day
        turn, raised = max(due.toordinal() + moved, day), planting.entry.raised
        grows = account is not None and account.grows(raised)
        if self._accounts is not None and not grows and self._accounts.is_overdue(due):
            turn = max(turn, self._accounts.today.toordinal())
        planned = account is None or not account.is_planted(raised)
        heappush(self.waiting, (turn, planned, index, moved, planting.number, planting))


def _number(placed: Placed | Planting) -> int:
    return placed.number if isinstance(placed, Planting) else placed.planting.number


def _placed(
    placing: Placing, chosen: list[tuple[int, int]], account: Account | None = None
) -> Placed:
    warnings = placing.warnings(chosen)
    judged, stands = placing.take(chosen)
    free = bed_free(judged, stands)
    return Placed(
        placing.planting,
        judged,
        stands,
        free,
        warnings,
        None,
        account=account,
        gone=placing.gone,
    )


def _placed_between(placing: Placing, found: Between, account: Account | None = None) -> Placed:
    warnings = placing.warnings([(found.index, placing.entry.plants)])
    judged, stands = placing.take_between(found)
    free = bed_free(judged, stands)
    among = Overlap(found.wave, date.fromordinal(found.until))
    return Placed(
        placing.planting,
        judged,
        stands,
        free,
        warnings,
        None,
        among,
        account,
        placing.gone,
    )


def _as_it_stands(placing: Placing, account: Account) -> Placed:
    """Stand a wave where it was planted, room or not; if that is not noted, where it has room."""
    room, each = placing.room, placing.crop.area_per_plant
    stands = [(room.number[bed], n) for bed, n in placing.stands if bed in room.number]
    if stands and all(room.free(index) >= plants * each for index, plants in stands):
        return _placed(placing, stands, account)
    inside = placing.choose_between()
    if inside is not None:
        return _placed_between(placing, inside, account)
    chosen = stands or placing.choose() or [(next(placing.beds()), placing.entry.plants)]
    found = _placed(placing, chosen, account)
    crowded = tuple(room.beds[index].name for index, _ in chosen if room.free(index) < 0)
    return replace(found, crowded=crowded)


def _without_room(planting: Planting, blocking: Blocking, accounts: Accounts | None) -> Placed:
    judged, blocked = blocking.of(planting)
    account = None if accounts is None else accounts.of(planting.id)
    return Placed(planting, judged, (), None, (), blocked, account=account)
