"""The evening when frost is forecast: by bed, what to pick, cover, water or leave."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from sowtide.climate.basis import Basis
from sowtide.days import Half
from sowtide.garden.crop import AfterFrost
from sowtide.grouping import grouped
from sowtide.report.kinds import Celsius, Mean, Share, Tenth, Unsaid
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.report.kit.words import count
from sowtide.schedule.season import Season
from sowtide.schedule.tonight import Action, Forecast, Put, Sky, Threatened, evening_of
from sowtide.units import FREEZING, Units, show_temperature
from sowtide.values import value

if TYPE_CHECKING:  # only where there is a record
    from sowtide.climate.frost_record import RecordYears

HARD = -20 / 9
"""28 °F: what ends half-hardy crops. [°C]"""

COLUMNS = (
    *("bed", "wave", "crop", "plants", "air_c", "action", "saves_days", "odds", "beyond_cover"),
    *("why", "cover_on"),
)


@value
class WaveTonight:
    """A wave that stands out, what to do for it, and why."""

    wave: str
    crop: str
    plants: int
    """Which, and how many."""
    action: Action
    """What to do."""
    saves_days: Mean | None
    odds: Share | None
    """Picking days before it on average if it lives through the night, and the share of years in
    which it is picked at all then; None where they cannot be counted."""
    beyond_cover: bool
    """Whether it is colder than a cover can hold."""
    why: str
    """In words."""


@value
class BedTonight:
    """A bed, how cold it may get in it, whether its own cover must be on, what stands there."""

    bed: str
    air_c: Celsius
    cover_on: bool
    waves: tuple[WaveTonight, ...]


@value
class WaitView:
    """A wave that had better not be planted out yet: its day, and the day to look again."""

    wave: str
    due: date
    until: date


@value
class AfterFirst:
    """Days from the first night at 0 °C to the next one, and to the first at −2.2 °C.

    `next_c0` and `years` are None where no record tells of it; then the other is the difference of
    the average dates.
    """

    next_frost_days: Tenth | None
    hard_frost_days: Tenth | None
    years: int | None


@value
class TonightView:
    """What ``frost --tonight`` says."""

    night_of: date
    low_c: Celsius
    sky: Sky
    cover_holds_c: Celsius
    beds: tuple[BedTonight, ...]
    seedlings: tuple[str, ...]
    put_off: tuple[WaitView, ...]
    after_first: AfterFirst
    is_spring: bool
    basis: Basis
    setting: Unsaid[Setting]


def view(season: Season, forecast: Forecast, record: RecordYears | None = None) -> TonightView:
    """Return what tonight's forecast means for a season as it stands."""
    garden, today = season.garden, season.today
    found = evening_of(season, forecast)
    beds = grouped(found.threatened, lambda each: each.bed.name)
    units = garden.site.units
    return TonightView(
        night_of=today,
        low_c=forecast.low,
        sky=forecast.sky,
        cover_holds_c=forecast.holds,
        beds=tuple(
            _bed(waves, closed=waves[0].bed in found.closed, units=units) for waves in beds.values()
        ),
        seedlings=tuple(wave.id for wave in found.seedlings),
        put_off=tuple(map(_wait, found.put_off)),
        after_first=_after_first(season, record),
        is_spring=today < garden.year.midsummer,
        basis=season.climate.basis,
        setting=setting_of(garden, today),
    )


def rows(of: TonightView) -> Iterator[dict[str, Any]]:
    """Yield a row for each wave of each bed."""
    from sowtide.report.formats.json import encoded

    for bed in of.beds:
        for wave in bed.waves:
            fields: dict[str, Any] = dict(encoded(wave))
            of_bed = {"bed": bed.bed, "air_c": round(bed.air_c, 1), "cover_on": bed.cover_on}
            yield fields | of_bed


def _bed(waves: list[Threatened], *, closed: bool, units: Units) -> BedTonight:
    return BedTonight(
        bed=waves[0].bed.name,
        air_c=waves[0].air,
        cover_on=closed,
        waves=tuple(_wave(each, units) for each in waves),
    )


def _wait(of: Put) -> WaitView:
    return WaitView(of.wave.id, of.due, of.until)


def _wave(of: Threatened, units: Units) -> WaveTonight:
    return WaveTonight(
        wave=of.wave.id,
        crop=of.wave.crop.title,
        plants=of.plants,
        action=of.action,
        saves_days=of.saves,
        odds=of.odds,
        beyond_cover=of.beyond,
        why="; ".join(_why(of, units)),
    )


def _why(of: Threatened, units: Units) -> Iterator[str]:
    crop = of.wave.crop
    lost_at = crop.lost_at(in_leaf=of.in_leaf)
    figure = show_temperature(lost_at, units)
    if crop.after_frost is AfterFrost.STANDS:
        yield "stands frost until the ground freezes"
        return
    leaf = " in leaf" if lost_at < crop.killing_temperature else ""
    yield f"{crop.hardiness.value}, lost{leaf} at {figure}"
    if of.action is Action.LEAVE:
        if of.saves is not None and of.air - lost_at <= 0:
            yield "nearly done"
        return
    if of.beyond:
        yield "colder than a cover holds"
    if of.action is Action.PICK:
        yield _to_pick(of)
    elif of.ripe and of.action is Action.COVER:
        yield "pick what is ripe before you cover it"
    if of.action is Action.COVER and of.bed.cover:
        yield "a second cover, below the bed's own"
    if of.action is Action.WATER:
        yield "damp ground holds the day's warmth"
    if of.saves is not None and of.saves >= 1 and of.action is not Action.WATER:
        verb = "a cover would save" if of.action is Action.COVER else "it had before it"
        yield f"{verb} {count(round(of.saves), 'picking day')} on average"


def _to_pick(of: Threatened) -> str:
    if of.wave.crop.after_frost is AfterFrost.BRING_IN:
        return "bring in what has its full colour and a hard skin, with its stem"
    if of.ripens_indoors:
        return "what is full size ripens indoors"
    return "pick all that is fit to eat"


def _after_first(season: Season, record: RecordYears | None) -> AfterFirst:
    """Return how long after the first frost others come: by the record, or the average dates."""
    if record is not None:
        from sowtide.climate.frost_record import next_night

        years = record.seasons[:-1] if len(record.seasons) > 1 else record.seasons
        near, hard = (
            next_night(record.record, years, south=record.south, at=FREEZING, then=then)
            for then in (FREEZING, HARD)
        )
        if near is not None:
            return AfterFirst(near.days, None if hard is None else hard.days, near.years)
    dates = [season.climate.frosts.day(Half.AUTUMN, at=at, share=0.5) for at in (FREEZING, HARD)]
    if dates[0] is None or dates[1] is None:
        return AfterFirst(None, None, None)
    between: timedelta = dates[1].day - dates[0].day
    return AfterFirst(None, float(between.days), None)
