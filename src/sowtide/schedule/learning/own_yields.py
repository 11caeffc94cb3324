"""What a plant of a crop bore in the grower's own hands, by the pickings that are noted.

A wave counts once it is over, picked out or pulled in health, and each of its pickings is noted
with its amount: what was picked over the plants that were planted. Three and more of a crop are
used, as of its days. Where the crop has a published yield, the logarithm of the factor to it is
normal around 0 with a spread of `YIELD_PRIOR`, and each wave tells it with a spread of
`YIELD_NOISE`; where it has none, what was seen stands alone. Both numbers are sowtide's own.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from math import exp, log
from statistics import fmean, median

from sowtide.garden.crop import Crop
from sowtide.garden.journal import PICKINGS, Did, Journal
from sowtide.garden.library import yield_of
from sowtide.garden.model import Entry, Garden
from sowtide.schedule.learning.observed import crops_of_series
from sowtide.schedule.learning.posterior import FEWEST, posterior_of
from sowtide.values import value

YIELD_PRIOR = 0.4
"""Spread of the logarithm of a garden's yield over the published one. [1]"""
YIELD_NOISE = 0.3
"""Spread of the logarithm of one wave's yield around its garden's. [1]"""
YIELD_FAR = 0.7
"""How far from the median a wave may count, as a logarithm: about twice or half. [1]"""


@value
class OwnYield:
    """What a plant bears, by the grower's own pickings."""

    waves: int
    """How many waves it rests on. [1]"""
    kilograms: float | None
    """Of one plant over its whole picking; None where pieces were noted. [kg]"""
    pieces: float | None
    """The same, counted; None where weights were noted. [1]"""


class OwnYields:
    """The yields that a journal tells of, by crop and variety.

    Parameters
    ----------
    garden
        The garden.
    journal
        What happened, in all seasons; None where nothing is noted.
    today
        Nothing later counts.
    """

    def __init__(self, garden: Garden, journal: Journal | None, today: date) -> None:
        found: dict[tuple[str, str | None], tuple[Crop, list[_Borne]]] = {}
        for crop, borne in _borne(garden, journal, today) if journal and garden.learn else ():
            found.setdefault(_key(crop), (crop, []))[1].append(borne)
        self._of = {key: _yield(crop, seen) for key, (crop, seen) in found.items()}

    def of(self, crop: Crop) -> OwnYield | None:
        """Return what a crop bears here; None where too little is noted to say so."""
        return self._of.get(_key(crop))


@value
class _Borne:
    """What each plant of one wave bore: so many kilograms, or pieces."""

    each: float
    weighed: bool


class _Picked:
    """What is noted of one wave while its entries are gone through."""

    __slots__ = ("kilograms", "over", "pieces", "plants", "unsaid")

    def __init__(self) -> None:
        self.plants: dict[Did, list[int | None]] = {}
        self.kilograms = self.pieces = 0.0
        self.over = self.unsaid = False

    def borne(self, entry: Entry | None) -> _Borne | None:
        """Return what each plant bore, if that can be said."""
        planted = self.plants.get(Did.PLANTED_OUT) or self.plants.get(Did.SOWN) or [None]
        counted = [plants for plants in planted if plants]
        plants = sum(counted) if len(counted) == len(planted) else entry.plants if entry else 0
        if not (self.over and plants) or self.unsaid or bool(self.kilograms) == bool(self.pieces):
            return None
        return _Borne((self.kilograms or self.pieces) / plants, bool(self.kilograms))


def _borne(garden: Garden, journal: Journal, today: date) -> Iterator[tuple[Crop, _Borne]]:
    of_series = crops_of_series(garden)
    for (season, wave), picked in _waves(garden, journal, today).items():
        entry, crop = of_series.get(wave.rpartition("-")[0], (None, None))
        borne = picked.borne(entry if season == garden.year.season else None)
        if crop is not None and borne is not None:
            yield crop, borne


def _waves(garden: Garden, journal: Journal, today: date) -> dict[tuple[int, str], _Picked]:
    waves: dict[tuple[int, str], _Picked] = {}
    for each in journal.happenings:
        if each.wave is None or each.on > today:
            continue
        season = each.season or garden.year.holding(each.on).season
        of = waves.setdefault((season, each.wave), _Picked())
        if each.did in (Did.SOWN, Did.PLANTED_OUT):
            of.plants.setdefault(each.did, []).append(each.plants)
        elif each.did in PICKINGS:
            of.over |= each.did is Did.LAST_PICKED
            if each.amount is None:
                of.unsaid = True
            elif each.amount.kilograms is None:
                of.pieces += float(each.amount.number)
            else:
                of.kilograms += each.amount.kilograms
        elif each.did is Did.PULLED:
            of.over |= each.plants is None and each.bed is None
            of.unsaid |= each.sick
        elif each.did is Did.LOST:
            of.unsaid = True
    return waves


def _yield(crop: Crop, seen: list[_Borne]) -> OwnYield | None:
    """Return what is to be thought of a crop's yield; pieces only where more waves tell those."""
    weighed = [each.each for each in seen if each.weighed]
    counted = [each.each for each in seen if not each.weighed]
    known = yield_of(crop, "kg")
    published = None if known is None else known.gives.middle
    if len(weighed) >= max(FEWEST, len(counted)):
        return OwnYield(len(weighed), _in_kilograms(weighed, published), None)
    if len(counted) >= FEWEST:
        return OwnYield(len(counted), None, _middle(counted))
    return None


def _in_kilograms(seen: list[float], published: float | None) -> float:
    if published is None:
        return _middle(seen)
    factors = (each / published for each in seen)
    found = posterior_of(factors, prior=YIELD_PRIOR, noise=YIELD_NOISE, far=YIELD_FAR)
    return published * found.factor


def _middle(seen: list[float]) -> float:
    """Return the geometric mean, no wave counted as further than `YIELD_FAR` from the median."""
    logs = [log(each) for each in seen]
    middle = median(logs)
    return exp(fmean(min(max(each, middle - YIELD_FAR), middle + YIELD_FAR) for each in logs))


def _key(crop: Crop) -> tuple[str, str | None]:
    return crop.name, crop.variety
