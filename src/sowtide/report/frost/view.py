"""A place's frosts and heat: when, how sure, from what, and what each recorded year had."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any

from sowtide.climate.basis import Basis
from sowtide.climate.daylight import SHORT_DAY, first_below, last_below
from sowtide.climate.frost import FrostRow, frost_table
from sowtide.climate.questions import Climate
from sowtide.days import Half
from sowtide.garden.crop import Hardiness
from sowtide.garden.site import YearsWanted
from sowtide.report.kinds import Celsius, FromTo, Share, Tenth, Unsaid
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.season import Place
from sowtide.units import FREEZING
from sowtide.values import value

if TYPE_CHECKING:  # only where a site has a record
    from sowtide.climate.frost_record import FrostYears

COLUMNS = (
    "at_c",
    *[f"spring_{share}" for share in (10, 50, 90)],
    *[f"autumn_{share}" for share in (10, 50, 90)],
    *[f"frost_free_days_{share}" for share in (10, 50, 90)],
    "years_without_frost_spring",
    "years_without_frost_autumn",
)


@value
class DaysOf:
    """Days with 10, 50 and 90 years of 100 beyond them; None where fewer have any."""

    _10: date | None
    _50: date | None
    _90: date | None


@value
class LengthsOf:
    """Lengths that 10, 50 and 90 years of 100 do not pass; None where not known. [days]"""

    _10: int | None
    _50: int | None
    _90: int | None


@value
class Without:
    """The shares of springs and of autumns without such a frost. [0–1]"""

    spring: Share
    autumn: Share


@value
class Threshold:
    """The frosts at one temperature, and the crops that it ends."""

    at_c: Celsius
    hardiness: Hardiness
    spring: DaysOf
    autumn: DaysOf
    frost_free_days: LengthsOf
    years_without_frost: Without | None


@value
class HalfLeftOut:
    """A half-year that is left out, since a missing day could hide the frost."""

    season: int
    half: Half
    reason: str


@value
class HotWeeks:
    """When the hot weeks begin, how long they last, and in how many of the years there are any."""

    begin: DaysOf
    over: DaysOf
    years_with: int
    years_used: int


@value
class YearSeen:
    """The last and the first frost of a recorded year, and whether each half is known."""

    season: int
    last_frost: date | None
    first_frost: date | None
    spring_known: bool
    autumn_known: bool


@value
class HalvesUsed:
    """How many half-years are used, and how many of them have no such frost."""

    half: Half
    used: int
    without_frost: int


@value
class TrendSeen:
    """How the frosts of one half of the year move, where it is more than chance would bring."""

    half: Half
    days_per_decade: Tenth
    years: int


@value
class ShortDays:
    """The last short day of spring and the first of autumn."""

    hours: Tenth
    until: date | None
    from_: date | None


@value
class FrostView:
    """What ``frost`` says.

    The promise of its form: docs/commands.md.
    """

    basis: Basis
    years_used: int | None
    years_left_out: tuple[HalfLeftOut, ...] | None
    hot_weeks: HotWeeks | None
    thresholds: tuple[Threshold, ...]
    hot_span: FromTo | None
    hot_span_stated: bool
    short_days: ShortDays
    years: tuple[YearSeen, ...] | None
    halves: tuple[HalvesUsed, ...] | None
    trends: tuple[TrendSeen, ...]
    wanted: Unsaid[YearsWanted | None]
    south: Unsaid[bool]
    setting: Unsaid[Setting]


def view(place: Place) -> FrostView:
    """Return the frosts and the heat of a place."""
    site, climate, year = place.garden.site, place.climate, place.garden.year
    known, hot = climate.frosts.years(FREEZING), climate.weather.hot_weeks
    return FrostView(
        basis=climate.basis,
        years_used=None if known is None else _used(known),
        years_left_out=None if known is None else tuple(_left_out(known)),
        hot_weeks=_hot_weeks(climate),
        thresholds=tuple(_threshold(row) for row in frost_table(climate.frosts)),
        hot_span=None if hot is None else FromTo.of(hot),
        hot_span_stated=site.heat_known,
        short_days=ShortDays(
            hours=float(SHORT_DAY),
            until=last_below(SHORT_DAY, site.latitude, year),
            from_=first_below(SHORT_DAY, site.latitude, year),
        ),
        years=None if known is None else _years(known),
        halves=None if known is None else tuple(_halves(known)),
        trends=() if known is None else tuple(_trends(known)),
        wanted=None if site.record is None else site.record.years,
        south=year.south,
        setting=setting_of(place.garden),
    )


def rows(of: FrostView) -> Iterator[dict[str, Any]]:
    """Yield a row for each temperature."""
    for each in of.thresholds:
        cells: dict[str, Any] = {"at_c": round(each.at_c, 1)}
        for name, days in (
            ("spring", each.spring),
            ("autumn", each.autumn),
            ("frost_free_days", each.frost_free_days),
        ):
            cells |= {f"{name}_10": days._10, f"{name}_50": days._50, f"{name}_90": days._90}
        without = each.years_without_frost
        for half in Half:
            share = None if without is None else round(getattr(without, half.value), 3)
            cells[f"years_without_frost_{half.value}"] = share
        yield cells


def _used(known: FrostYears) -> int:
    return len({each.season for half in (known.spring, known.autumn) for each in half.years})


def _left_out(known: FrostYears) -> Iterator[HalfLeftOut]:
    for half in (known.spring, known.autumn):
        for each in half.left_out:
            yield HalfLeftOut(each.season, half.half, each.reason)


def _hot_weeks(climate: Climate) -> HotWeeks | None:
    found = climate.weather.hot_odds
    if found is None:
        return None
    return HotWeeks(DaysOf(*found.begin), DaysOf(*found.over), found.with_any, found.years)


def _threshold(row: FrostRow) -> Threshold:
    return Threshold(
        at_c=row.at,
        hardiness=row.hardiness,
        spring=DaysOf(*row.spring),
        autumn=DaysOf(*row.autumn),
        frost_free_days=LengthsOf(*row.frost_free),
        years_without_frost=None if row.without is None else Without(*row.without),
    )


def _years(known: FrostYears) -> tuple[YearSeen, ...]:
    lasts = {year.season: year.day for year in known.spring.years}
    firsts = {year.season: year.day for year in known.autumn.years}
    return tuple(
        YearSeen(
            season=season,
            last_frost=lasts.get(season),
            first_frost=firsts.get(season),
            spring_known=season in lasts,
            autumn_known=season in firsts,
        )
        for season in sorted(set(lasts) | set(firsts))
    )


def _halves(known: FrostYears) -> Iterator[HalvesUsed]:
    for half in (known.spring, known.autumn):
        yield HalvesUsed(half.half, len(half.years), half.without_frost)


def _trends(known: FrostYears) -> Iterator[TrendSeen]:
    from sowtide.climate.frost_record import trend

    for half in (known.spring, known.autumn):
        found = trend(half)
        if found is not None and found.is_sure:
            yield TrendSeen(half.half, found.days_per_decade, found.years)
