"""The evening's answer: every wave that stands out, with what to do, and what else to put off."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.garden.model import Bed
from sowtide.schedule.fits import left_of
from sowtide.schedule.season import Season
from sowtide.schedule.tonight.action import Action, action_of
from sowtide.schedule.tonight.exposed import exposed, is_in_leaf, is_ripe, ripens_indoors
from sowtide.schedule.tonight.forecast import Forecast, air_at
from sowtide.schedule.waves import Wave
from sowtide.values import value

_DAY = timedelta(days=1)
_SOON = 2 * _DAY
"""How soon after a frost nothing tender is set out: sowtide's own. [days]"""


@value
class Threatened:
    """A wave in a bed, and what to do for it this evening."""

    wave: Wave
    bed: Bed
    """Which, and where."""
    plants: int
    """How many stand there. [1]"""
    air: float
    """How cold it may get among them. [°C]"""
    action: Action
    """What to do."""
    beyond: bool
    """Whether it is colder than a cover can hold."""
    in_leaf: bool
    """Whether it has no flowers yet at dawn."""
    ripe: bool
    ripens_indoors: bool
    """Whether there is anything to pick, and whether what is not ripe yet ripens indoors."""
    saves: float | None
    """Picking days that it has before it on average if it lives through the night; None where they
    cannot be counted. [days]"""
    odds: float | None
    """Share of years in which it is picked at all from then on; None likewise. [0–1]"""


@value
class Put:
    """Work that had better wait: a wave to be planted out in the days after the night."""

    wave: Wave
    due: date
    until: date


@value
class Evening:
    """What a night's forecast means."""

    threatened: tuple[Threatened, ...]
    """What stands out, in order of the beds."""
    closed: tuple[Bed, ...]
    """Beds whose own cover has to be on tonight for what stands below it."""
    seedlings: tuple[Wave, ...]
    """Waves whose seedlings come indoors tonight."""
    put_off: tuple[Put, ...]
    """Planting out that had better wait."""


def evening_of(season: Season, forecast: Forecast) -> Evening:
    """Return what a forecast for tonight means for what stands where."""
    out = exposed(season)
    put_off = tuple(_put_off(season, forecast))
    on_bench = tuple(put.wave for put in put_off if put.due == season.today)
    order = {bed.name: number for number, bed in enumerate(season.garden.beds)}
    found = [
        _threatened(wave, stand.bed, stand.plants, season, forecast)
        for wave in out.standing
        for stand in wave.stands
        if wave not in on_bench
    ]
    found.sort(key=lambda each: order[each.bed.name])
    covered = dict.fromkeys(each.bed for each in found if _needs_its_cover(each, forecast))
    return Evening(
        threatened=tuple(found),
        closed=tuple(covered),
        seedlings=(*(w for w in out.seedlings if _is_cold(w, season, forecast)), *on_bench),
        put_off=put_off,
    )


def _put_off(season: Season, forecast: Forecast) -> Iterator[Put]:
    """Yield what is to be planted out today or soon and is too tender for the night."""
    for wave in season.waves:
        due = wave.stages.plant.day
        if (
            wave.stands
            and wave.from_trays
            and not wave.is_planted
            and season.today <= due <= season.today + _SOON
            and _is_cold(wave, season, forecast)
        ):
            yield Put(wave, due, season.today + _SOON + _DAY)


def _threatened(
    wave: Wave, bed: Bed, plants: int, season: Season, forecast: Forecast
) -> Threatened:
    air = air_at(forecast, bed, colder_by=season.garden.site.colder_by)
    left = left_of(wave, season.conditions, season.today + _DAY)
    ripe = is_ripe(wave, season.today)
    saves = None if left is None else left.days
    in_leaf = is_in_leaf(wave, season.today + _DAY)
    action, beyond = action_of(
        wave.crop, air, ripe=ripe, saves=saves, holds=forecast.holds, in_leaf=in_leaf
    )
    return Threatened(
        wave=wave,
        bed=bed,
        plants=plants,
        air=air,
        action=action,
        beyond=beyond,
        in_leaf=in_leaf,
        ripe=ripe,
        ripens_indoors=ripens_indoors(wave),
        saves=saves,
        odds=None if left is None else left.odds,
    )


def _needs_its_cover(of: Threatened, forecast: Forecast) -> bool:
    """Say whether plants would need something tonight, were the cover of their bed off."""
    if not of.bed.cover:
        return False
    bare = of.air - of.bed.cover
    action, _ = action_of(
        of.wave.crop,
        bare,
        ripe=of.ripe,
        saves=of.saves,
        holds=forecast.holds,
        in_leaf=of.in_leaf,
    )
    return action is not Action.LEAVE


def _is_cold(wave: Wave, season: Season, forecast: Forecast) -> bool:
    """Say whether the night is too cold for plants of a wave without any cover."""
    bed = wave.stands[0].bed if wave.stands else season.garden.beds[0]
    air = air_at(forecast, bed, colder_by=season.garden.site.colder_by) - bed.cover
    action, _ = action_of(
        wave.crop, air, ripe=False, saves=None, holds=forecast.holds, in_leaf=True
    )
    return action is not Action.LEAVE
