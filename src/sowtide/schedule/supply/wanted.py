"""Who wants what of which crop, and which waves serve it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from sowtide.days import DateSpan
from sowtide.garden import library
from sowtide.garden.crop import Crop, Yield
from sowtide.garden.library import KnownYield
from sowtide.garden.readers import PIECES, kind_of
from sowtide.garden.want import Want, feeds, serves
from sowtide.grouping import grouped
from sowtide.reasons import OURS, Origin
from sowtide.schedule.season import Season
from sowtide.schedule.supply.pickings import monday_of_week
from sowtide.schedule.waves import Prospects, Wave
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.learning import OwnYield, OwnYields

_SPREAD = 0.25
"""How far a year's yield lies from a garden's own, either way: sowtide's own reading. [0–1]"""


@value
class Converted:
    """A unit in which some of a crop is wanted, and what one of it counts for in the other."""

    unit: str
    amount: float
    """By what a plant gives of either. [kg or 1]"""


@value
class CropWanted:
    """All that is wanted of one crop, and what one of its plants gives."""

    crop: Crop
    unit: str
    """What amounts are of: ``kg``, or what is counted."""
    wants: tuple[Want, ...]
    """What is wanted of it, in the file's order and in `unit`; empty of a crop only grown."""
    gives: Yield
    gives_from: Origin
    how: str
    """What a plant gives, where that comes from, and how it was worked out."""
    within: DateSpan | None
    """The days between which it can be picked at all, for wants that name no days."""
    converted: tuple[Converted, ...]
    """The other units in which the file wants some of it."""

    def picked(self, number: float, *, weighed: bool) -> float | None:
        """Return what was picked as it is counted here; None where nobody knows. [kg or 1]

        Parameters
        ----------
        number
            How much. [kg or 1]
        weighed
            Whether it was weighed, and not counted.
        """
        if weighed is (self.unit == "kg"):
            return number
        each = next((one for one in self.converted if weighed is (one.unit == "kg")), None)
        return None if each is None else number * each.amount

    def wanted(self, week: int) -> float:
        """Return how much is wanted in a week by its number. [kg or 1]"""
        first = monday_of_week(week)
        return self.wanted_in(DateSpan(first, date.fromordinal(first.toordinal() + 6)))

    def wanted_in(self, days: DateSpan) -> float:
        """Return how much is wanted in some days. [kg or 1]"""
        return sum(each.between(days, self.within or days) for each in self._dated)

    @property
    def _dated(self) -> tuple[Want, ...]:
        """Wants whose days are known."""
        if self.within is not None:
            return self.wants
        return tuple(each for each in self.wants if each.first and each.last)

    @property
    def is_first(self) -> bool:
        """Whether its unmet weeks count for more than those of others."""
        return any(want.is_first for want in self.wants)

    def spans(self) -> tuple[DateSpan, ...]:
        """Return the days for which something is wanted."""
        found = []
        for each in self._dated:
            first = each.first or (self.within and self.within.first)
            last = each.last or (self.within and self.within.last)
            if first and last and first <= last:
                found.append(DateSpan(first, last))
        return tuple(found)


def asked_of(season: Season, own: OwnYields | None) -> tuple[CropWanted, ...]:
    """Return what is wanted, crop by crop, then the crops that are only grown.

    Crops of which nobody knows what a plant gives are left out. One that is wanted both by weight
    and by number is counted once, as it is wanted first: a plant feeds one want only.
    """
    garden = season.garden
    together = grouped(garden.wants, lambda want: want.crop.name)
    found = [
        _asked(season, wants[0].crop, wants[0].unit, tuple(wants), own)
        for wants in together.values()
    ]
    wanted = [want.crop for want in garden.wants]
    others: dict[str, Crop] = {}
    for entry in garden.entries:
        if not any(serves(entry.crop, crop) for crop in wanted):
            others.setdefault(entry.crop.name, entry.crop)
    found += [_asked(season, crop, None, (), own) for crop in others.values()]
    return tuple(each for each in found if each is not None)


def waves_for(season: Season, asked: CropWanted) -> tuple[Wave, ...]:
    """Return the waves that serve who wants a crop; of one that nobody wants, its own.

    What is wanted by its own name is not counted again for who wants any of its kind.
    """
    crop = asked.crop
    return tuple(
        wave
        for wave in season.waves
        if wave.crop.name == crop.name
        or (asked.wants and feeds(wave.crop, crop, season.garden.wants))
    )


def wanted_together(season: Season, wants: Sequence[Want], days: DateSpan) -> tuple[float, str]:
    """Return how much is wanted in some days of one crop, as supply counts it, and its unit.

    By the grower's own pickings too, if they tell what a plant gives. Nothing is counted of a crop
    of which nobody knows that. [kg or 1]
    """
    crop, unit = wants[0].crop, wants[0].unit
    asked = _asked(season, crop, unit, tuple(wants), _own_yields(season))
    return (0.0 if asked is None else asked.wanted_in(days)), unit


def _own_yields(season: Season) -> OwnYields | None:
    journal = None if season.accounts is None else season.accounts.journal
    if journal is None:
        return None
    from sowtide.schedule.learning import OwnYields

    return OwnYields(season.garden, journal, season.today)


def prospects_of(season: Season, crop: Crop) -> Prospects:
    """Return the prospects of a crop on the warmest ground that the garden has."""
    return season.conditions.on_warmest(crop, season.garden.beds)


def _asked(
    season: Season,
    crop: Crop,
    unit: str | None,
    wants: tuple[Want, ...],
    own: OwnYields | None,
) -> CropWanted | None:
    crop = next((each for each in season.garden.crops if each.name == crop.name), crop)
    known = _known(crop, unit, own)
    if known is None:
        return None
    converted = tuple(_converted(crop, known, wants, own))
    each = {kind_of(one.unit): one.amount for one in converted}
    wants = tuple(
        replace(want, amount=want.amount * each[kind], unit=wants[0].unit)
        if (kind := kind_of(want.unit)) in each
        else want
        for want in wants
    )
    undated = any(each.first is None or each.last is None for each in wants)
    return CropWanted(
        crop=crop,
        unit=unit or known.gives.unit,
        wants=wants,
        gives=known.gives,
        gives_from=known.origin,
        how=known.how,
        within=season.conditions.picked_safely(crop, season.garden.beds) if undated else None,
        converted=converted,
    )


def _known(crop: Crop, unit: str | None, own: OwnYields | None) -> KnownYield | None:
    return (own and _own(own.of(crop), unit)) or library.yield_of(crop, unit)


def _converted(
    crop: Crop, known: KnownYield, wants: tuple[Want, ...], own: OwnYields | None
) -> Iterator[Converted]:
    """Yield the units of wants that are not counted as the first is, each kind once."""
    seen = {kind_of(known.gives.unit)}
    for want in wants:
        kind = kind_of(want.unit)
        other = None if kind in seen else _known(crop, want.unit, own)
        if other is not None:
            yield Converted(want.unit, known.gives.middle / other.gives.middle)
        seen.add(kind)


def _own(own: OwnYield | None, unit: str | None) -> KnownYield | None:
    """Return what a plant gives by the grower's own pickings, where they tell of that unit."""
    if own is None:
        return None
    middle, counted = (own.kilograms, "kg") if own.pieces is None else (own.pieces, PIECES)
    assert middle is not None
    if unit is not None and kind_of(unit) != counted:
        return None
    gives = Yield(middle * (1 - _SPREAD), middle * (1 + _SPREAD), counted)
    return KnownYield(gives, OURS, f"from {own.waves} waves that you noted the pickings of")
