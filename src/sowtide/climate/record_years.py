"""The years of a record that are used, and what is worked out from them once."""

from __future__ import annotations

from datetime import date, timedelta

from sowtide.climate.frost_years import FrostYears, frosts_of
from sowtide.climate.record import Record
from sowtide.days import GrowingYear
from sowtide.garden.crop import Hardiness
from sowtide.garden.site import YearsWanted

FEW_YEARS = 15
"""Under so many recorded years, odds are rough: the standard error of a 90 % date is 13 days."""

_CLASSES = tuple(hardiness.killed_at for hardiness in Hardiness)


class RecordYears:
    """A record with the growing years to use.

    Parameters
    ----------
    record
        The place's daily temperatures.
    south
        Whether the place lies south of the equator.
    wanted
        Which years the grower wants used.
    before
        The growing year planned: it is no year to learn from.
    """

    def __init__(
        self, record: Record, *, south: bool, wanted: YearsWanted, before: GrowingYear
    ) -> None:
        self.record = record
        self.south = south
        self.span = _span(record, south=south, wanted=wanted, before=before)
        self._until = before.first - timedelta(days=1)
        self._frosts: dict[float, FrostYears] = {}

    @property
    def seasons(self) -> tuple[int, ...]:
        """The growing years that are used, as far as the record reaches into them."""
        return tuple(range(self.span[0], self.span[1] + 1))

    def frosts(self, at: float) -> FrostYears:
        """Return what the record says about frost at a temperature. [°C]"""
        if at not in self._frosts:
            # The classes of hardiness share the search for days that could hide a frost.
            wanted = _CLASSES if at in _CLASSES else (at,)
            found = frosts_of(
                self.record, at=wanted, south=self.south, years=self.span, until=self._until
            )
            self._frosts.update(zip(wanted, found, strict=True))
        return self._frosts[at]


def _span(
    record: Record, *, south: bool, wanted: YearsWanted, before: GrowingYear
) -> tuple[int, int]:
    """First and last growing year to use."""
    holding = GrowingYear(before.season, south).holding
    first, last = holding(record.first).season, _last_season(record, south, before)
    if wanted.last is not None:
        return max(first, last - wanted.last + 1), last
    if wanted.first is not None and wanted.to is not None:
        return max(first, wanted.first), min(last, wanted.to)
    return first, last


def _last_season(record: Record, south: bool, before: GrowingYear) -> int:
    end: date = min(record.last, before.first - timedelta(days=1))
    year = before.holding(end)
    # A year whose autumn the record does not reach says nothing of first frosts.
    return year.season if end >= year.autumn_anchor else year.season - 1
