"""Packing waves into beds with all of them in sight: what fills the beds best over the season.

A wave stands whole in one bed for its whole stay, and what counts is area times days. Finding the
very best is not possible in sensible time (it is a knapsack in every bed on every day), so
beginnings are improved step by step: some waves are taken out and others, or the same in another
order, are put in, and what fills the beds no worse is kept. Chance comes from a fixed seed and work
is counted in places looked at, not in seconds: the same plan gives the same packing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from random import Random

from sowtide.progress import Progress, part, unwatched
from sowtide.schedule.stays import LONG_STAY, Level
from sowtide.values import value


@value
class Item:
    """A wave to be packed."""

    first: int
    """Its planting day. [ordinal]"""
    stays: tuple[tuple[int, int], ...]
    """For each kind of bed the days it is pulled out there and the bed may be planted again.
    [ordinal]"""
    area: int
    """[µm²]"""
    beds: tuple[int, ...]
    """The beds it may stand in, best liked first."""
    worth: int
    """Area times days on its ground. [µm² days]"""
    series: str
    family: str
    """Whose it is."""
    strict: bool
    """Whether rotation closes a bed to it: not where the grower named its beds."""


@value
class Block:
    """What stands in a bed whatever comes: area taken over a span, and whose it is."""

    bed: int
    first: int
    pulled: int
    until: int
    area: int
    series: str
    family: str


_Kin = tuple[int, int, str, bool]
"""First day, day it is pulled out, series, and whether rotation closes a bed to it."""


class Packing:
    """Items in beds, each whole or not at all.

    Parameters
    ----------
    areas, kinds
        Area of each bed, and the kind of stay that items have in it. [µm²]
    items
        What is to be packed.
    stands
        What stands there already.
    """

    def __init__(
        self,
        *,
        areas: tuple[int, ...],
        kinds: tuple[int, ...],
        items: tuple[Item, ...],
        stands: Iterable[Block],
    ) -> None:
        self.items = items
        self.kinds = kinds
        self.where: list[int | None] = [None] * len(items)
        self.worth = 0
        self.looked = 0
        """Places looked at so far: the measure of work. [1]"""
        sets: dict[tuple[int, ...], frozenset[int]] = {}
        self.allowed = tuple(sets.setdefault(each.beds, frozenset(each.beds)) for each in items)
        """The beds each item may stand in."""
        self._areas = areas
        self._ledgers = tuple(Level() for _ in areas)
        self.shared: list[Block] = []
        """Parts of items that are shared out."""
        self.inside: tuple[set[int], ...] = tuple(set() for _ in areas)
        self._kin: tuple[dict[str, list[_Kin]], ...] = tuple({} for _ in areas)
        for stand in stands:
            self._ledgers[stand.bed].add(stand.first, stand.until, stand.area)
            kin = self._kin[stand.bed].setdefault(stand.family, [])
            kin.append((stand.first, stand.pulled, stand.series, False))

    def left(self, number: int, bed: int) -> int:
        """Area that would be left in a bed beside an item, negative if it does not fit. [µm²]"""
        self.looked += 1
        return self.room(number, bed) - self.items[number].area

    def room(self, number: int, bed: int) -> int:
        """Area free in a bed over an item's whole stay; none where rotation closes it. [µm²]"""
        item = self.items[number]
        stay = item.stays[self.kinds[bed]]
        kin = self._kin[bed].get(item.family)
        if kin and _closed(item, stay[0], kin):
            return 0
        return self._areas[bed] - self._ledgers[bed].peak(item.first, stay[1])

    def room_in_turn(self, number: int, bed: int) -> int:
        """Area free in a bed when an item's turn comes, in order of planting day. [µm²]"""
        day = self.items[number].first
        later = sum(
            self.items[other].area
            for other in self.inside[bed]
            if other > number and self.items[other].first == day
        )
        return self._areas[bed] - self._ledgers[bed].on(day) + later

    def put(self, number: int, bed: int) -> None:
        """Block an item in a bed."""
        kin, stay = self._change(number, bed, 1)
        kin.append(stay)
        self.where[number] = bed
        self.inside[bed].add(number)

    def share(self, number: int, bed: int, area: int) -> None:
        """Block a part of an item in a bed, for good. [µm²]"""
        item = self.items[number]
        pulled, until = item.stays[self.kinds[bed]]
        self._ledgers[bed].add(item.first, until, area)
        kin = self._kin[bed].setdefault(item.family, [])
        kin.append((item.first, pulled, item.series, item.strict))
        stand = Block(
            bed=bed,
            first=item.first,
            pulled=pulled,
            until=until,
            area=area,
            series=item.series,
            family=item.family,
        )
        self.shared.append(stand)

    def take(self, number: int) -> None:
        """Take an item out of its bed."""
        bed = self.where[number]
        assert bed is not None
        kin, stay = self._change(number, bed, -1)
        kin.remove(stay)
        self.where[number] = None
        self.inside[bed].discard(number)

    def _change(self, number: int, bed: int, sign: int) -> tuple[list[_Kin], _Kin]:
        """Block an item's area or give it back; return its kin in the bed, and what it is there."""
        item = self.items[number]
        pulled, until = item.stays[self.kinds[bed]]
        self._ledgers[bed].add(item.first, until, sign * item.area)
        self.worth += sign * item.worth
        kin = self._kin[bed].setdefault(item.family, [])
        return kin, (item.first, pulled, item.series, item.strict)

    def fit(self, number: int, beds: Iterable[int] | None = None) -> bool:
        """Put an item where the least is left beside it, the best liked of such beds first."""
        best, least = None, None
        for bed in self.items[number].beds if beds is None else beds:
            left = self.left(number, bed)
            if left >= 0 and (least is None or left < least):
                best, least = bed, left
                if not left:
                    break
        if best is None:
            return False
        self.put(number, best)
        return True

    def set_to(self, where: list[int | None]) -> None:
        """Block every item where it is said to stand."""
        moved = [n for n, bed in enumerate(where) if bed != self.where[n]]
        for number in moved:
            if self.where[number] is not None:
                self.take(number)
        for number in moved:
            bed = where[number]
            if bed is not None:
                self.put(number, bed)


def _closed(item: Item, pulled: int, kin: list[_Kin]) -> bool:
    """Whether rotation closes a bed to an item that is pulled there on a day, beside its kin."""
    planted = item.first
    for first, gone, series, strict in kin:
        before = item.strict and gone <= planted and gone - first >= LONG_STAY
        after = strict and pulled <= first and pulled - planted >= LONG_STAY
        if (before or after) and series != item.series:
            return True
    return False


_ORDERS: tuple[Callable[[Item], tuple[float, float]], ...] = (
    lambda item: (-item.worth, item.first),
    lambda item: (item.first, -item.worth),
    lambda item: (-item.area, -item.worth),
    lambda item: (-item.worth / item.area, -item.area),
)


def pack(
    packing: Packing,
    begin: list[int | None],
    *,
    effort: int,
    progress: Progress = unwatched,
) -> list[int | None]:
    """Return where each item stands in the best packing found.

    Parameters
    ----------
    packing
        The beds with what stands in them whatever comes, and nothing else.
    begin
        A packing to begin with, as far as it is one.
    effort
        How many places may be looked at. [1]
    progress
        Told how many of them have been.
    """
    random = Random(0)
    for number, bed in enumerate(begin):
        if bed in packing.allowed[number] and packing.left(number, bed) >= 0:
            packing.put(number, bed)
    best = _improve(packing, random, effort // 2, part(progress, 0, 2))
    worth = packing.worth
    if worth == sum(item.worth for item in packing.items):
        return best
    packing.set_to(_filled_up(packing))
    other = _improve(packing, random, effort // 2, part(progress, 1, 2))
    return other if packing.worth > worth else best


def _filled_up(packing: Packing) -> list[int | None]:
    """Return the best of some packings made by filling empty beds, each in another order."""
    items = packing.items
    best: list[int | None] = []
    most = -1
    for order in _ORDERS:
        packing.set_to([None] * len(items))
        for number in sorted(range(len(items)), key=lambda n: order(items[n])):
            packing.fit(number)
        if packing.worth > most:
            best, most = list(packing.where), packing.worth
    return best


def _improve(packing: Packing, random: Random, effort: int, progress: Progress) -> list[int | None]:
    """Take some waves out and put others in, again and again; return the best packing met.

    None that is worse is gone on from: it ends on one that is worth as much.
    """
    items, limit = packing.items, packing.looked + effort
    best, best_worth = list(packing.where), packing.worth
    while packing.looked < limit:
        progress(packing.looked - limit + effort, effort)
        out = [number for number, bed in enumerate(packing.where) if bed is None]
        if not out:
            break
        packing.looked += len(out) // 8 + 1
        wanted = out[random.randrange(len(out))]
        before, worth = {}, packing.worth
        beds = items[wanted].beds
        if not beds:
            continue
        chosen = [beds[random.randrange(len(beds))] for _ in range(random.choice((1, 1, 2, 3)))]
        begin, end = _span(packing, wanted, random)
        for bed in chosen:
            for number in sorted(packing.inside[bed]):
                if _meets(packing, number, bed, begin, end) and random.random() < 0.9:
                    before[number] = bed
                    packing.take(number)
        first = random.random() < 0.5 and packing.left(wanted, chosen[0]) >= 0
        if first:
            packing.put(wanted, chosen[0])
        near = [n for n in out if items[n].first < end and items[n].stays[0][0] > begin]
        again = [n for n in (*before, *near) if packing.where[n] is None]
        noise = random.choice((0.0, 0.2, 0.6))
        again.sort(key=lambda n: -items[n].worth * (1 + noise * (random.random() - 0.5)))
        for number in again:
            anywhere = number in before or random.random() < 0.2
            allowed = packing.allowed[number]
            packing.fit(number, None if anywhere else [bed for bed in chosen if bed in allowed])
        if packing.worth < worth:
            _undo(packing, before, (wanted, *again))
        elif packing.worth > best_worth:
            best, best_worth = list(packing.where), packing.worth
    return best


def _undo(packing: Packing, before: dict[int, int], touched: Iterable[int]) -> None:
    for number in {*touched, *before}:
        if packing.where[number] is not None:
            packing.take(number)
    for number, bed in before.items():
        packing.put(number, bed)


def _span(packing: Packing, number: int, random: Random) -> tuple[int, int]:
    """The stay of an item, sometimes some weeks more on either side. [ordinal]"""
    item = packing.items[number]
    wider = random.choice((0, 0, 10, 40))
    return item.first - wider, item.stays[0][1] + wider


def _meets(packing: Packing, number: int, bed: int, begin: int, end: int) -> bool:
    item = packing.items[number]
    return item.first < end and item.stays[packing.kinds[bed]][1] > begin
