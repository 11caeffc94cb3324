"""The years of a record that are used, and what is worked out from them once."""

from __future__ import annotations

from datetime import date, timedelta

from sowtide.climate.frost_record.frost_years import FrostYears, HalfYears
from sowtide.climate.frost_record.search import FrostSearch
from sowtide.climate.record import Record
from sowtide.days import GrowingYear, Half
from sowtide.diagnostics import Problem, Severity, Span
from sowtide.garden.crop import Hardiness
from sowtide.garden.site import ALL_YEARS, NEWEST_YEARS, YearsWanted
from sowtide.units import FREEZING

FEW_YEARS = 15
"""Under so many recorded years, odds are rough: the standard error of a 90 % date is 13 days."""

_MOST_TOLD = 3
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
        self._all = wanted in (ALL_YEARS, NEWEST_YEARS)
        self.span = _span(record, south=south, wanted=wanted, before=before)
        self._before = before
        self._search = FrostSearch(
            record,
            south=south,
            years=self.span,
            springs=_springs(record, self.span, wanted=wanted, before=before),
            until=before.first - timedelta(days=1),
        )
        self._frosts: dict[float, FrostYears] = {}

    @property
    def seasons(self) -> tuple[int, ...]:
        """The growing years that are used, as far as the record reaches into them."""
        return tuple(range(self.span[0], self.span[1] + 1))

    @property
    def there(self) -> int:
        """How many growing years before the one planned the record reaches into."""
        first, last = _span(self.record, south=self.south, wanted=ALL_YEARS, before=self._before)
        return last - first + 1

    def frosts(self, at: float) -> FrostYears:
        """Return what the record says about frost at a temperature. [°C]"""
        if at not in self._frosts:
            self._frosts[at] = self._search.at(at)
        return self._frosts[at]

    def nearest_known(self, half: Half, at: float) -> FrostYears:
        """Return the frosts at a temperature [°C], or where no half-year tells of them at another.

        That is the coldest class of hardiness above it that any half-year tells of: such frosts
        come no later in autumn and no earlier in spring than the colder ones.
        """
        if self.frosts(at).of(half).years:
            return self.frosts(at)
        known = [each for each in map(self.frosts, _CLASSES) if each.of(half).years]
        warmer = [each for each in known if each.at > at]
        return min(warmer, key=lambda each: each.at) if warmer else self.frosts(FREEZING)

    def untold(self, span: Span) -> Problem | None:
        """Return what is wrong with a record that tells of no spring or of no autumn."""
        for half in Half:
            known = self.frosts(FREEZING).of(half)
            if not known.years:
                return Problem(
                    severity=Severity.ERROR,
                    code="record-years",
                    message=f"no {half.value} of the record can be used for frost"
                    f"{self._why(known)}",
                    hint="take a longer record, or write the average frost dates in its place"
                    if self._all
                    else "choose other years, take a longer record, or write the average frost "
                    "dates in its place",
                    span=span,
                )
        return None

    def _why(self, known: HalfYears) -> str:
        """Say why the half-years are left out."""
        if not known.left_out:
            if not self._all:
                return ": it has none among the years wanted"
            return f": it reaches from {self.record.first} to {self.record.last}"
        told = [f"{each.season} ({each.reason})" for each in known.left_out[:_MOST_TOLD]]
        more = ", …" if len(known.left_out) > _MOST_TOLD else ""
        return f": {', '.join(told)}{more}"


def _span(
    record: Record, *, south: bool, wanted: YearsWanted, before: GrowingYear
) -> tuple[int, int]:
    """First and last growing year to use."""
    holding = GrowingYear(before.season, south).holding
    first, last = holding(record.first).season, _last_season(record, before)
    if wanted.last is not None:
        return max(first, last - wanted.last + 1), last
    if wanted.first is not None and wanted.to is not None:
        return max(first, wanted.first), min(last, wanted.to)
    return first, last


def _springs(
    record: Record, span: tuple[int, int], *, wanted: YearsWanted, before: GrowingYear
) -> tuple[int, int]:
    """First and last growing year whose spring to use: it may be known before its autumn is."""
    first, last = span
    end = min(record.last, before.first - timedelta(days=1))
    year = before.holding(end)
    if year.season <= last or end < year.midsummer - timedelta(days=1):
        return span
    if wanted.to is not None and year.season > wanted.to:
        return span
    newest = first if wanted.last is None else max(first, year.season - wanted.last + 1)
    return newest, year.season


def _last_season(record: Record, before: GrowingYear) -> int:
    end: date = min(record.last, before.first - timedelta(days=1))
    year = before.holding(end)
    # A year whose autumn the record does not reach says nothing of first frosts.
    return year.season if end >= year.autumn_anchor else year.season - 1
