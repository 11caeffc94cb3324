"""How each date of a wave was counted, its odds, and what each recorded year does to it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from enum import Enum

from sowtide.climate.answers import EndedBy, YearTold
from sowtide.climate.basis import Basis
from sowtide.days import Half
from sowtide.garden.crop import Crop, Raised
from sowtide.reasons import Dated, Origin, Step
from sowtide.report.kinds import Celsius, FromTo, Quantity, Share, Tenth, Unsaid
from sowtide.report.kit.judged import Judgement, judgement_of
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.report.kit.stands import BedPlants, bed_plants
from sowtide.report.why.care_of_wave import CareOfWave, care_of_wave
from sowtide.schedule.season import Season
from sowtide.schedule.stays import barred
from sowtide.schedule.waves import Overlap, Status, Wave
from sowtide.units import FREEZING
from sowtide.values import value


class Milestone(Enum):
    """A date of a wave that is counted, in order of the work."""

    SOW = "sow"
    UP = "up"
    READY = "ready"
    TOO_OLD = "too_old"
    HARDEN_OFF = "harden_off"
    PLANT = "plant"
    FLOWER = "flower"
    FIRST_PICK_EARLY = "first_pick_early"
    FIRST_PICK_LATE = "first_pick_late"
    END = "end"
    LAST_PICK = "last_pick"
    PULL_OUT = "pull_out"
    BED_FREE = "bed_free"


@value
class StepView:
    """One step of counting: its rule, what it adds, the day reached, and where it is from."""

    rule: str
    days: int
    date: date
    text: str
    file: str | None
    line: int | None
    source: str | None
    origin: Unsaid[Origin]


@value
class DateView:
    """A date and the steps that it is the sum of."""

    stage: Milestone
    date: date
    steps: tuple[StepView, ...]


@value
class YearView:
    """What one recorded year does to the wave."""

    year: int
    first_pick: tuple[date | None, date | None]
    end: date | None
    ended_by: EndedBy | None
    picking_days: Tenth
    worth: Share
    is_poor: Unsaid[bool]


@value
class SpringFrost:
    """How often the frost that ends it still comes after it is planted or up."""

    at_c: Celsius
    after: date
    odds: Share


@value
class FruitGapView:
    """Heat in flower: in how many years, on which days, and when there is nothing to pick."""

    share: Share
    years: int | None
    flowers: FromTo
    picks: FromTo


@value
class WinterView:
    """How far the wave is grown when the short days begin."""

    short_from: date | None
    grown: Share
    grown_enough: Share
    years: int | None


@value
class DaysLearned:
    """What the grower's own pickings made of the days to harvest, and what the packet says."""

    pickings: int
    factor: Quantity
    days_to_harvest: tuple[int, int]
    packet: tuple[int, int]


@value
class BarredBed:
    """A bed that it may not stand in, and what of its family was pulled there as sick."""

    bed: str
    said: str


@value
class WhyView:
    """What ``why`` says."""

    wave: str
    dates: tuple[DateView, ...]
    years: tuple[YearView, ...] | None
    crop: str
    plants: int
    raised: Raised
    beds: tuple[BedPlants, ...]
    judged: Judgement
    earliest: date
    last_safe: date | None
    spring_frost: SpringFrost | None
    spring_loss: Share
    fruit_gap: FruitGapView | None
    winter: WinterView | None
    overlap: Overlap | None
    learned: DaysLearned | None
    barred: tuple[BarredBed, ...]
    care: tuple[CareOfWave, ...]
    basis: Basis
    family: Unsaid[str]
    title: Unsaid[str]
    status: Unsaid[Status]
    worthwhile_from: Unsaid[Origin]
    by_year: Unsaid[bool]
    setting: Unsaid[Setting]


def view(wave: Wave, season: Season, *, by_year: bool = False) -> WhyView:
    """Return how the dates and the odds of a wave come about."""
    judged, crop = wave.judged, wave.crop
    told = season.years_of(wave)
    return WhyView(
        wave=wave.id,
        dates=tuple(_date(stage, dated) for stage, dated in stages_of(wave)),
        years=tuple(year_view(each) for each in told) if told else None,
        crop=crop.name,
        plants=wave.plants,
        raised=wave.entry.raised,
        beds=bed_plants(wave.stands),
        judged=judgement_of(judged, crop),
        earliest=judged.earliest,
        last_safe=judged.last_safe,
        spring_frost=_spring_frost(wave, season),
        spring_loss=judged.spring_loss,
        fruit_gap=_fruit_gap(wave),
        winter=_winter(wave),
        overlap=wave.overlap,
        learned=_learned(crop),
        barred=tuple(_barred(wave, season)),
        care=tuple(care_of_wave(wave, season)),
        basis=season.climate.basis,
        family=crop.family,
        title=crop.title,
        status=wave.status,
        worthwhile_from=crop.origin("worthwhile_days"),
        by_year=by_year,
        setting=setting_of(season.garden),
    )


def stages_of(wave: Wave) -> Iterator[tuple[Milestone, Dated]]:
    """Yield every counted date of a wave with what it is, in order of the work.

    Of a wave whose seedlings are lost, those that it lived to.
    """
    stages = wave.stages
    until = stages.pull_out.day if wave.status is Status.LOST and not wave.stands else date.max
    first = stages.first_pick
    named = (
        (Milestone.SOW, stages.sow),
        (Milestone.UP, stages.up),
        (Milestone.READY, stages.ready),
        (Milestone.TOO_OLD, stages.too_old),
        (Milestone.HARDEN_OFF, stages.harden_off),
        (Milestone.PLANT, stages.plant),
        (Milestone.FLOWER, stages.flower),
        (Milestone.FIRST_PICK_EARLY, first[0] if first else None),
        (Milestone.FIRST_PICK_LATE, first[1] if first else None),
        (Milestone.END, wave.judged.end),
        (Milestone.LAST_PICK, stages.last_pick),
        (Milestone.PULL_OUT, stages.pull_out),
        (Milestone.BED_FREE, wave.bed_free),
    )
    for stage, dated in named:
        if dated is not None and dated.day <= until:
            yield stage, dated


def _date(stage: Milestone, dated: Dated) -> DateView:
    return DateView(stage, dated.day, tuple(_step(each) for each in dated.steps))


def _step(step: Step) -> StepView:
    return StepView(
        rule=step.rule,
        days=step.days,
        date=step.date,
        text=step.text,
        file=step.origin.file,
        line=step.origin.line,
        source=step.origin.source,
        origin=step.origin,
    )


def year_view(told: YearTold) -> YearView:
    """Return what one recorded year does to a wave."""
    return YearView(
        year=told.season,
        first_pick=told.first_pick,
        end=told.end,
        ended_by=told.ended_by,
        picking_days=float(told.picking_days),
        worth=float(told.worth),
        is_poor=told.is_poor,
    )


def _spring_frost(wave: Wave, season: Season) -> SpringFrost | None:
    """Return the spring frosts of a hardier crop planted before the average last frost.

    A direct sowing is not harmed before it is up.
    """
    year, climate, stages = season.garden.year, season.climate, wave.stages
    years_on = timedelta(days=year.days_to(stages.plant.day))
    last = climate.frosts.day(Half.SPRING, at=FREEZING, share=0.5)
    if wave.crop.hardiness.is_tender or last is None or stages.plant.day - years_on >= last.day:
        return None
    killed_at = season.prospects(wave).need.killed_at
    since = (stages.up or stages.plant).day
    odds = climate.frosts.odds(Half.SPRING, since - years_on, at=killed_at)
    return SpringFrost(killed_at, since, odds)


def _fruit_gap(wave: Wave) -> FruitGapView | None:
    gap = wave.judged.pick_gap
    if gap is None:
        return None
    flowers = gap.flowers
    return FruitGapView(
        share=flowers.share,
        years=flowers.years,
        flowers=FromTo(flowers.first, flowers.last),
        picks=FromTo.of(gap.picks),
    )


def _learned(crop: Crop) -> DaysLearned | None:
    found, days = crop.learned, crop.days_to_harvest
    if found is None:
        return None
    packet = found.packet.low, found.packet.high
    return DaysLearned(found.pickings, found.factor, (days.low, days.high), packet)


def _barred(wave: Wave, season: Season) -> Iterator[BarredBed]:
    """Yield the beds that a wave still to be planted is kept out of."""
    if wave.is_planted or not season.room.sick:
        return
    day = max(wave.stages.plant.day, season.today).toordinal()
    for bed in wave.entry.beds_of(wave.number)[0]:
        said = barred(season.room, season.room.number[bed.name], wave.crop, day)
        if said is not None:
            yield BarredBed(bed.name, said)


def _winter(wave: Wave) -> WinterView | None:
    found = wave.judged.winter
    if found is None:
        return None
    return WinterView(
        short_from=found.short_from,
        grown=found.grown,
        grown_enough=found.grown_enough,
        years=found.years,
    )
