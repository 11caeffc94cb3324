"""The frosts of one half of the growing year, counted over the years of a record."""

from __future__ import annotations

from datetime import date
from math import floor, isinf

from sowtide.climate.frost_record.frost_years import HalfYears, counted_from
from sowtide.climate.frost_record.record_years import RecordYears
from sowtide.days import GrowingYear, Half
from sowtide.reasons import Dated, Origin
from sowtide.units import ROUNDING_OF_SUMS, fahrenheit


class RecordedFrosts:
    """What recorded years say of the frosts of one half of the growing year planned.

    Where no half-year tells of a frost, what is said of it is that of `RecordYears.nearest_known`.

    Parameters
    ----------
    half
        Spring: last frosts. Autumn: first frosts.
    years
        The record's years.
    year
        The growing year planned.
    origin
        Where the record is named.
    """

    def __init__(self, half: Half, years: RecordYears, year: GrowingYear, origin: Origin) -> None:
        self._half = half
        self._years = years
        self._start = counted_from(half, year.season, south=year.south).toordinal()
        self._origin = origin

    def odds(self, day: int, *, at: float) -> float:
        """Return the share of years with a frost beyond a day: later in spring, else earlier."""
        known, counted = self._of(at), day - self._start
        if self._half is Half.SPRING:
            return known.odds_later(counted)
        return known.odds_earlier(counted)

    def first_safe(self, *, at: float, share: float) -> int | None:
        """Return the first day with no more than that share of years beyond it, as an ordinal."""
        counted = self._of(at).counted
        allowed = floor(share * len(counted) + ROUNDING_OF_SUMS)
        day = counted[max(len(counted) - 1 - allowed, 0)]
        return None if isinf(day) else self._start + int(day)

    def nearest_day(self, *, at: float, share: float) -> int | None:
        """Return the day with that share of years beyond it, to the nearest day, as an ordinal."""
        day = self._of(at).quantile(1 - share if self._half is Half.SPRING else share)
        return None if isinf(day) else self._start + floor(day + 0.5)

    def reach(self, at: float) -> tuple[int, int]:
        """Return the days before which and from which on the odds stay as they are, as ordinals."""
        days = [int(day) for day in self._of(at).counted if not isinf(day)]
        if not days:
            return self._start, self._start
        return self._start + days[0] - 1, self._start + days[-1] + 1

    def dated(self, day: int, *, at: float, share: float) -> Dated:
        """Explain a day that was found."""
        which = "last" if self._half is Half.SPRING else "first"
        beyond = "later" if self._half is Half.SPRING else "earlier"
        known = self._years.nearest_known(self._half, at)
        years = f"{round(100 * share)} % of {len(known.of(self._half).years)} years"
        text = f"{which} frost ({_degrees(known.at)}), {beyond} in {years}"
        if known.at != at:
            text += f"; no year tells of {_degrees(at)}"
        return Dated.on(date.fromordinal(day), "frost-odds", text, self._origin)

    def _of(self, at: float) -> HalfYears:
        return self._years.nearest_known(self._half, at).of(self._half)


def _degrees(celsius: float) -> str:
    return f"{round(fahrenheit(celsius)):d} °F, {celsius:.1f} °C".replace("-0.0", "0.0")
