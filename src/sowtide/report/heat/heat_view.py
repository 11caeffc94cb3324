"""From what a week of heat means for a season to what its sheet says of it."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.grouping import grouped
from sowtide.report.heat.heat_values import (
    BedInHeat,
    CoolSowing,
    HeatGapView,
    HeatView,
    PutOffView,
    WaterNowView,
    WaveInHeat,
)
from sowtide.report.kinds import AmountView
from sowtide.schedule.hot_week import (
    HeatDelay,
    HeatGap,
    HotSowing,
    HotWeek,
    InHeat,
    WaterForward,
    hot_week_of,
)
from sowtide.schedule.season import Season
from sowtide.schedule.waves import seed_in_doubt
from sowtide.schedule.work import HeatAction, Kind, WeekSheet
from sowtide.units import Units, show_temperature


def view_of_heat(
    sheet: WeekSheet, season: Season, high: float, care: tuple[PutOffView, ...]
) -> HeatView:
    """Return what a week of heat means.

    Parameters
    ----------
    sheet, season
        The week.
    high
        The highest temperature that the grower expects in it. [°C]
    care
        Care that waits for the heat.
    """
    found, units = hot_week_of(season, sheet, high), season.garden.site.units
    return HeatView(
        high_c=found.high,
        from_=found.begins,
        to=found.last,
        beds=tuple(_beds(found, units)),
        water_now=tuple(map(_water, found.forward)),
        sow_in_the_cool=tuple(_sowing(each, units) for each in found.sowings),
        put_off=(*care, *map(_delay, found.delays)),
        gaps=tuple(map(_gap, found.gaps)),
    )


def _beds(of: HotWeek, units: Units) -> Iterator[BedInHeat]:
    for name, waves in grouped(of.waves, lambda each: each.bed.name).items():
        yield BedInHeat(
            bed=name,
            uncover=waves[0].bed in of.covered,
            waves=tuple(_wave(each, of, units) for each in waves),
        )


def _wave(each: InHeat, of: HotWeek, units: Units) -> WaveInHeat:
    return WaveInHeat(
        wave=each.wave.id,
        crop=each.wave.crop.title,
        plants=each.plants,
        action=each.action,
        why=_why(each, of, units),
    )


def _why(each: InHeat, of: HotWeek, units: Units) -> str:
    """Say why something is to be done for a wave; nothing of what is left alone."""
    limit = each.wave.crop.warm_limit
    if each.action is HeatAction.LEAVE:
        return ""
    if each.action is HeatAction.PICK:
        first = each.wave.stages.first_pick
        young = first is not None and first[0].day > of.last
        return "before it bolts or turns bitter" + (", young as it is" if young else "")
    if not each.up:
        return "not up yet: keep the seedbed damp"
    if limit is not None:
        return f"spoilt by days with a mean above {show_temperature(limit, units)}"
    if each.young:
        return "just set out: short roots" if each.wave.from_trays else "just up: short roots"
    return "in flower" if each.in_flower else "at the soil"


def _sowing(of: HotSowing, units: Units) -> CoolSowing:
    task, doubt = of.task, of.doubt
    said = [] if doubt is None else [seed_in_doubt(task.wave.crop, doubt, units)]
    if task.kind is Kind.SOW_IN_TRAYS:
        said.append("keep the trays where it is cool till it is up")
    else:
        said.append("in the evening, into a wetted row; shade it till it is up")
        if doubt is not None and of.until is None:
            said.append("it cannot wait till the heat is over")
    return CoolSowing(
        task=task.id,
        code=task.code,
        wave=task.wave.id,
        bed=task.bed,
        due=task.due,
        poor=doubt is not None,
        until=of.until,
        text="; ".join(said),
    )


def _water(of: WaterForward) -> WaterNowView:
    amount = of.taken.amount
    return WaterNowView(
        routine=of.round.routine.name,
        bed=of.round.bed.name,
        waves=tuple(plot.wave.id for plot in of.round.plots),
        due=of.due,
        on=of.round.day,
        amount=None if amount is None else AmountView(float(amount.number), amount.unit),
    )


def _delay(of: HeatDelay) -> PutOffView:
    task = of.task
    return PutOffView(
        what=task.kind.value,
        kind=task.kind.value,
        bed=task.bed,
        waves=(task.wave.id,),
        due=task.due,
        until=of.until,
        cannot_wait=of.cannot_wait,
        task=task.id,
    )


def _gap(of: HeatGap) -> HeatGapView:
    return HeatGapView(
        wave=of.wave.id,
        flowers_from=of.flowers.first,
        flowers_to=of.flowers.last,
        from_=of.picks.first,
        to=of.picks.last,
        ripens_days=of.ripens,
    )
