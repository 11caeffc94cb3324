"""Pickings of which the journal tells how long they took: of this season and of earlier ones."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date

from sowtide.garden.crop import Crop, Raised
from sowtide.garden.journal import Did, Happening, Journal
from sowtide.garden.model import Entry, Garden
from sowtide.grouping import grouped
from sowtide.reasons import OURS, Dated
from sowtide.schedule.happened import Account, accounts_of
from sowtide.schedule.waves import Conditions
from sowtide.values import value

NEWEST = 12
"""Pickings of a crop that are looked at, the newest: a garden changes. [1]"""


@value
class Observed:
    """One wave whose planting and first picking are noted."""

    planted: date
    picked: date
    """Its days."""
    expected: float
    """Days from planting to the first pick by the packet, in this place and at that time of the
    year: the middle of the range. [days]"""

    @property
    def ratio(self) -> float:
        """How many times the expected days it took. [1]"""
        return (self.picked - self.planted).days / self.expected


def observed_in(
    garden: Garden, journal: Journal, conditions: Conditions, today: date, *, fewest: int
) -> Iterator[tuple[Crop, list[Observed]]]:
    """Yield crops with what was seen of them, those alone of which enough was seen.

    Parameters
    ----------
    garden
        The garden, its crops as the packet has them.
    journal
        What happened, in all seasons.
    conditions
        The place.
    today
        Nothing later counts.
    fewest
        How many pickings are enough. [1]
    """
    of_series = crops_of_series(garden)
    seen: dict[int, list[tuple[Happening, Happening, Raised]]] = defaultdict(list)
    known: dict[int, Crop] = {}
    for account in _of_all_seasons(garden, journal, today):
        entry, crop = of_series.get(account.wave.rpartition("-")[0], (None, None))
        first = account.first(Did.FIRST_PICKED)
        if crop is None or first is None:
            continue
        raised = _raised(account, crop, entry)
        planting = account.planting(raised)
        if planting and planting[0].on < first.on:
            known[id(crop)] = crop
            seen[id(crop)].append((planting[0], first, raised))
    for number, found in seen.items():
        if len(found) >= fewest:
            found.sort(key=lambda each: (each[1].on, each[0].on), reverse=True)
            crop = known[number]
            yield crop, list(_expected(crop, found[:NEWEST], conditions))


def crops_of_series(garden: Garden) -> dict[str, tuple[Entry | None, Crop]]:
    """Return the crop of each series that a journal may name, with the entry if there still is one.

    A series of an earlier season that was named after its crop is taken to be of that crop.
    """
    named_after = {
        crop.name.replace(" ", "-"): (None, crop) for crop in garden.crops if crop.variety is None
    }
    return named_after | {entry.name: (entry, entry.crop) for entry in garden.entries}


def _of_all_seasons(garden: Garden, journal: Journal, today: date) -> Iterator[Account]:
    telling = (
        each
        for each in journal.happenings
        if each.on <= today and each.did in (Did.SOWN, Did.PLANTED_OUT, Did.FIRST_PICKED)
    )
    seasons = grouped(telling, lambda each: each.season or garden.year.holding(each.on).season)
    for season in sorted(seasons):
        yield from accounts_of(seasons[season])


def _raised(account: Account, crop: Crop, entry: Entry | None) -> Raised:
    if account.first(Did.PLANTED_OUT) is not None:
        return Raised.TRAYS
    if entry is not None:
        return entry.raised
    return crop.raised_unless_said


def _expected(
    crop: Crop, found: list[tuple[Happening, Happening, Raised]], conditions: Conditions
) -> Iterator[Observed]:
    known: dict[tuple[date, Raised], float] = {}  # series of a crop are often planted together
    for planted, first, raised in found:
        days = known.get((planted.on, raised))
        if days is None:
            need = conditions.prospects(crop, raised).need
            begun = Dated.on(planted.on, "journal", "planted", OURS)
            early, late = conditions.climate.waves.outlook(begun, need).first_pick
            days = ((early.day - planted.on).days + (late.day - planted.on).days) / 2
            known[planted.on, raised] = days
        yield Observed(planted.on, first.on, days)
