"""How much a round of care takes: material, mix, water, nitrogen and minutes."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from fractions import Fraction

from sowtide.garden.care import (
    Dimension,
    Measured,
    Rate,
    Routine,
    Work,
    in_largest,
    ladder_of,
    size_of,
)
from sowtide.schedule.care.care_plan import CarePlan, Plot, Round
from sowtide.units import Units
from sowtide.values import value

_CUBIC = 10**12
"""Cubic micrometres in a millilitre."""
_PER_WEEK = 7
_MILLIMETRE = 1_000
"""[µm]"""


@value
class Taken:
    """What a round takes, or several together."""

    amount: Measured | None
    """What is put on; None where that is not said."""
    mix: Measured | None
    """Of it, what is measured into the water; None for no mix."""
    weight: Measured | None
    """What the material weighs, where it is measured by volume; None where that is not known."""
    nitrogen: float | None
    """Nitrogen that it brings; None where that is not known. [g]"""
    minutes: float | None
    """How long it takes; None where that is not said. [min]"""
    area: int
    """The ground that it is for. [µm²]"""
    rain: float = 0.0
    """Rain that is taken off the amount. [mm]"""


def taken_by(each: Round, plan: CarePlan, units: Units, today: date) -> Taken:
    """Return what a round takes; a depth of water is less by the rain since the time before."""
    routine, plots = each.routine, each.plots
    area = sum(_area(plot) for plot in plots)
    rain = _rain(each, plan, today) if routine.work is Work.WATER else 0.0
    amount = None if routine.amount is None else _amount(routine, plots, rain, units)
    strength = routine.mix
    mix = None
    if strength is not None and strength.per is not None and amount is not None:
        mix = _shown(strength.much, amount.size * strength.much.size / strength.per.size)
    material = mix or (amount if routine.work is not Work.WATER else None)
    grams = _grams(material, routine)
    weight = None
    if material is not None and material.dimension is Dimension.VOLUME and grams is not None:
        weight = _weight(grams, material, units)
    nitrogen = None
    if grams is not None and routine.analysis is not None:
        nitrogen = grams * routine.analysis[0] / 100
    return Taken(
        amount=amount,
        mix=mix,
        weight=weight,
        nitrogen=nitrogen,
        minutes=_minutes(routine, plots),
        area=area,
        rain=rain,
    )


def together(taken: Iterable[Taken]) -> Taken:
    """Return what several rounds of one routine take together."""
    each = list(taken)
    return Taken(
        amount=_sum([one.amount for one in each]),
        mix=_sum([one.mix for one in each]),
        weight=_sum([one.weight for one in each]),
        nitrogen=_added([one.nitrogen for one in each]),
        minutes=_added([one.minutes for one in each]),
        area=sum(one.area for one in each),
    )


def exceeds(routine: Routine, plot: Plot) -> tuple[Measured, Measured] | None:
    """Return what is put on and what the package allows, where that is less; else None."""
    package, asked = routine.package_rate, routine.mix or routine.amount
    if package is None or asked is None or asked.per is None or package.per is None:
        return None
    much, most = asked.much.size, package.much.size
    if asked.much.dimension is not package.much.dimension:
        if routine.weighs is None:
            return None
        density = Fraction(routine.weighs)
        if asked.much.dimension is Dimension.VOLUME:
            much = much * density
        else:
            most = most * density
    if routine.mix is not None:
        mine, allowed = much / asked.per.size, most / package.per.size
    else:
        mine = much * _times(asked.per, plot, 1)
        allowed = most * _times(package.per, plot, 1)
    return (asked.much, package.much) if mine > allowed * Fraction(1_000_001, 1_000_000) else None


def _amount(routine: Routine, plots: tuple[Plot, ...], rain: float, units: Units) -> Measured:
    rate = routine.amount
    assert rate is not None  # it is asked for only then
    if rate.per is None:
        depth = max(rate.much.size - Fraction(rain) * _MILLIMETRE, Fraction(0))
        size = sum((_area(plot) * depth / _CUBIC for plot in plots), Fraction(0))
        return _in(size, ("gal",) if units is Units.US else ("l",), Dimension.VOLUME)
    return _shown(rate.much, _of_rate(rate, plots))


def _of_rate(rate: Rate, plots: tuple[Plot, ...]) -> Fraction:
    assert rate.per is not None  # a depth is looked at apart
    times = (_times(rate.per, plot, len(plots)) for plot in plots)
    return rate.much.size * sum(times, Fraction(0))


def _times(per: Measured, plot: Plot, waves: int) -> Fraction:
    """Return how often a rate is for some plants; a bed is shared by the waves of a round."""
    crop = plot.wave.crop
    if per.dimension is Dimension.PLANTS:
        return Fraction(plot.plants) / per.size
    if per.dimension is Dimension.BEDS:
        return Fraction(1, waves) / per.size
    if per.dimension is Dimension.LENGTH:
        return Fraction(plot.plants * crop.in_row) / per.size
    return Fraction(_area(plot)) / per.size


def _area(plot: Plot) -> int:
    return plot.plants * plot.wave.crop.area_per_plant


def _rain(each: Round, plan: CarePlan, today: date) -> float:
    """Return the rain since the time before, up to the day itself. [mm]"""
    if not plan.rain:
        return 0.0
    every = each.routine.every
    days = _PER_WEEK if every is None or every.days is None else every.days
    since = each.day - timedelta(days=days)
    done = plan.days_of(each.routine, each.bed)
    since = max((day for day in done if since <= day < each.day), default=since)
    return sum(fell for on, fell in plan.rain if since <= on <= min(each.day, today))


def _grams(material: Measured | None, routine: Routine) -> float | None:
    if material is None:
        return None
    if material.dimension is Dimension.WEIGHT:
        return float(material.size)
    return None if routine.weighs is None else float(material.size) * routine.weighs


def _weight(grams: float, material: Measured, units: Units) -> Measured:
    metric = units is Units.METRIC or material.unit in ("ml", "l")
    ladder = ladder_of("g" if metric else "oz")
    return _in(Fraction(grams), ladder, Dimension.WEIGHT)


def _minutes(routine: Routine, plots: tuple[Plot, ...]) -> float | None:
    if routine.minutes is None or routine.minutes_per is None:
        return None
    times = sum((_times(routine.minutes_per, plot, len(plots)) for plot in plots), Fraction(0))
    return routine.minutes * float(times)


def _shown(like: Measured, size: Fraction) -> Measured:
    return _in(size, ladder_of(like.unit), like.dimension)


def _in(size: Fraction, ladder: tuple[str, ...], dimension: Dimension) -> Measured:
    _, unit = in_largest(size, ladder)
    return Measured(size / size_of(unit), unit, dimension, size)


def _sum(of: list[Measured | None]) -> Measured | None:
    found = [each for each in of if each is not None]
    if not found:
        return None
    size = sum((each.size for each in found), Fraction(0))
    if all(each.unit == found[0].unit for each in found) and found[0].unit in ("gal", "l"):
        return _in(size, (found[0].unit,), found[0].dimension)
    return _shown(found[0], size)


def _added(of: list[float | None]) -> float | None:
    found = [each for each in of if each is not None]
    return sum(found) if found else None
