"""From what a site's file says of the place to its climate."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from sowtide.climate.basis import Basis, FrostFrom, Lacks, RecordUsed, WarmthFrom
from sowtide.climate.by_frosts import FatesByFrosts
from sowtide.climate.frost import (
    ASSUMED_SPREAD,
    DAYS_PER_DEGREE_F,
    FrostDepth,
    FrostHalf,
    PlaceFrosts,
)
from sowtide.climate.questions import Climate
from sowtide.climate.weather import UnknownWeather
from sowtide.days import GrowingYear, Half
from sowtide.garden.crop import Hardiness
from sowtide.garden.site import Normals, RecordFile, Site
from sowtide.units import (
    FREEZING,
    Units,
    celsius,
    show_temperature,
    show_temperature_difference,
)

if TYPE_CHECKING:  # most gardens have neither, and pay for none of their modules
    from sowtide.climate.average import NormalYear
    from sowtide.climate.frost_record import RecordYears
    from sowtide.climate.record import Record


KNOWN_TO = celsius(24)
"""Frosts that are colder are not run on to from dates of milder ones in confidence. [°C]"""


def climate_of(
    site: Site, year: GrowingYear, record: RecordYears | None = None, today: date | None = None
) -> Climate:
    """Return the climate that a site's file describes.

    Parameters
    ----------
    site
        The place.
    year
        The growing year planned.
    record
        The record that the site names, with the years to use; None where it names none.
    today
        The day from which on nothing of the growing year planned is known; None: whatever the
        record has.
    """
    if record is not None and site.record is not None:
        return _recorded(site, site.record, year, record, today)
    depth = _depth(site)
    spring, autumn = (FrostHalf(half, site.frost, depth) if site.frost else None for half in Half)
    return _by_frosts(site, year, PlaceFrosts(spring, autumn), _basis_of_dates(site))


def _depth(site: Site) -> FrostDepth | None:
    """How hard it freezes, from what is known of the warmest and the coldest month."""
    if site.normals is not None:
        pairs = zip(site.normals.highs, site.normals.lows, strict=True)
        means = [(high + low) / 2 for high, low in pairs]
        return FrostDepth.of_months(warmest=max(means), coldest=min(means))
    if site.two_months is not None:
        return FrostDepth.of_months(
            warmest=site.two_months.warmest, coldest=site.two_months.coldest
        )
    return None


def _by_frosts(site: Site, year: GrowingYear, frosts: PlaceFrosts, basis: Basis) -> Climate:
    normal = _normal_year(site, year, frosts)
    weather = UnknownWeather(site, year) if normal is None else normal.days
    return Climate(basis, frosts, weather, FatesByFrosts(frosts, year, site=site, normal=normal))


def _recorded(
    site: Site, named: RecordFile, year: GrowingYear, years: RecordYears, today: date | None
) -> Climate:
    from sowtide.climate.frost_record import RecordedFrosts

    spring, autumn = (RecordedFrosts(half, years, year, named.origin) for half in Half)
    frosts = PlaceFrosts(spring, autumn, years.frosts)
    basis = _basis_of_record(site, named, years)
    if years.record.tmax is None:
        return _by_frosts(site, year, frosts, basis)
    from sowtide.climate.replay import ReplayedFates, recorded_days

    days = recorded_days(years, year, site=site, origin=named.origin, today=today)
    by_frosts = FatesByFrosts(frosts, year, site=site)
    fates = ReplayedFates(days, year, by_frosts=by_frosts, site=site, origin=named.origin)
    return Climate(basis, frosts, days, fates)


def _normal_year(site: Site, year: GrowingYear, frosts: PlaceFrosts) -> NormalYear | None:
    if site.normals is None and site.two_months is None:
        return None
    from sowtide.climate.average import NormalDays, NormalYear, twelve_months

    normals = site.normals
    if normals is None and site.two_months is not None:
        two, middle = site.two_months, _middle(frosts)
        highs, lows = twelve_months(
            warmest=two.warmest, coldest=two.coldest, middle=middle, south=year.south
        )
        normals = Normals(highs, lows, two.origin)
    assert normals is not None
    return NormalYear(NormalDays(normals, year, site), year, site)


def _middle(frosts: PlaceFrosts) -> float | None:
    """Day of the year in the middle of the frost-free season; None where no frost bounds it."""
    spring, autumn = frosts.spring, frosts.autumn
    if spring is None or autumn is None:
        return None
    last, first = (each.nearest_day(at=FREEZING, share=0.5) for each in (spring, autumn))
    if last is None or first is None:
        return None
    return date.fromordinal((last + first) // 2).timetuple().tm_yday


def _basis_of_record(site: Site, named: RecordFile, years: RecordYears) -> Basis:
    from sowtide.climate.frost_record import FEW_YEARS

    autumns = years.frosts(FREEZING).autumn.years
    used = len(autumns)
    warmth = WarmthFrom.RECORD if years.record.tmax is not None else _warmth_known(site)
    assumed = []
    if used < FEW_YEARS:
        assumed.append(f"{used} years stand for all: odds from so few are rough")
    if any(not years.frosts(each.killed_at).of(half).years for each in Hardiness for half in Half):
        assumed.append("hard frosts that no recorded year tells of come when milder ones do")
    if warmth is not WarmthFrom.RECORD:
        assumed += _of_warmth(site, frost=True)
    record = RecordUsed(
        file=named.path,
        station=years.record.station,
        unit="°F" if years.record.fahrenheit else "°C",
        first_year=autumns[0].season,
        last_year=autumns[-1].season,
        unit_from=years.record.unit_from,
        years_there=years.there,
        lacks=_lacks(years.record),
    )
    return Basis(
        frost=FrostFrom.RECORD,
        warmth=warmth,
        assumed=tuple(assumed),
        years_used=used,
        record=record,
    )


def _lacks(record: Record) -> Lacks:
    longest = max(record.gaps, key=lambda gap: gap.length, default=None)
    return Lacks(
        days=len(record.tmin),
        missing=record.missing,
        gap_from=None if longest is None else longest.first,
        gap_to=None if longest is None else longest.last,
        doubted=record.flagged,
        impossible=record.wild,
    )


def _basis_of_dates(site: Site) -> Basis:
    assumed = []
    kind = FrostFrom.NONE
    if site.frost:
        lengths = [len(side) for entry in site.frost for side in (entry.last, entry.first)]
        kind = FrostFrom.AVERAGES if max(lengths) == 1 else FrostFrom.TABLE
        if 1 in lengths:
            assumed.append(f"frost dates spread by {ASSUMED_SPREAD:g} days")
        us = site.units is Units.US
        days, degree = (DAYS_PER_DEGREE_F, "°F") if us else (DAYS_PER_DEGREE_F * 9 / 5, "°C")
        beyond = f"{days:g} days for each {degree} beyond the temperatures given"
        if _depth(site) is None and min(each.at for each in site.frost) > KNOWN_TO:
            beyond += f", and below {show_temperature(KNOWN_TO, site.units)} nobody knows"
        assumed.append(beyond)
    assumed += _of_warmth(site, frost=bool(site.frost))
    return Basis(frost=kind, warmth=_warmth_known(site), assumed=tuple(assumed), years_used=None)


def _warmth_known(site: Site) -> WarmthFrom:
    if site.normals is not None:
        return WarmthFrom.NORMALS
    return WarmthFrom.NONE if site.two_months is None else WarmthFrom.TWO_MONTHS


def _of_warmth(site: Site, *, frost: bool) -> list[str]:
    """Return what is assumed of warmth, where no record tells of it."""
    if site.normals is not None or site.two_months is not None:
        from sowtide.climate.average import SPREAD

        spread = show_temperature_difference(SPREAD, site.units)
        assumed = [f"seasons as warm as the average one, give or take {spread}"]
        if site.normals is None:
            assumed.insert(0, "a smooth year between the warmest and the coldest month")
        return assumed
    assumed = [_allowance(site)] if frost else []
    return assumed if site.heat_known else [*assumed, "no hot weeks known"]


def _allowance(site: Site) -> str:
    allowance = site.fall_allowance
    if allowance.always:
        return f"{allowance.days} days of fall allowance on every wave"
    return f"a fall allowance of up to {allowance.days} days"
