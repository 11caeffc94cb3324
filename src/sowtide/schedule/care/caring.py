"""From the routines of a garden to all the care of its season."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from sowtide.garden.care import Made, Routine, Work, covers
from sowtide.garden.model import Garden
from sowtide.grouping import grouped
from sowtide.schedule.care.care_days import (
    CareSpan,
    FrostFree,
    asked_since,
    first_asked,
    next_asked,
    span_of,
)
from sowtide.schedule.care.care_plan import CarePlan, Dose, Given, Hindrance, LatestLook, Plot
from sowtide.schedule.care.heat_forecast import HeatForecast, high_by, too_hot_by
from sowtide.schedule.care.kept_apart import HEAT, NO_WORK, Asked, Evenings, Ground
from sowtide.schedule.care.nothing_noted import NothingNoted
from sowtide.schedule.care.pick_blocks import blocks_of
from sowtide.schedule.waves import Wave
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.happened import Accounts

_DAY = timedelta(days=1)


def care_plan(
    garden: Garden,
    waves: Iterable[Wave],
    today: date,
    accounts: Accounts | None,
    *,
    works: Callable[[date], bool],
    usual_high: Callable[[date], float | None],
    forecast: HeatForecast | None,
    frosts: tuple[date | None, date | None],
) -> CarePlan:
    """Return all the care of a season.

    What is noted of a routine moves its next day. A routine of which nothing is noted anywhere is
    taken for done on its days; from its first entry on it can be overdue.

    Parameters
    ----------
    garden
        What the grower wrote.
    waves
        The waves that stand, or are to stand.
    today
        The day it is looked at from.
    accounts
        What happened until then; None without a journal.
    works
        Whether there is someone to work on a day.
    usual_high
        The usual maximum of a day; None where it is not known. [°C]
    forecast
        How hot the grower expects some days to be; None where that is not said.
    frosts
        The average last and first frost; None where there is none.
    """
    plots = [Plot(wave, stand.bed, stand.plants) for wave in waves for stand in wave.stands]
    ground = Ground(
        works=works,
        high=high_by(usual_high, forecast),
        units=garden.site.units,
        too_hot=too_hot_by(forecast),
    )
    told = _Told(_noted(accounts), FrostFree(garden.year, *frosts), today)
    done = _done(_with_routines(garden, plots), ground, told)
    gives = tuple(each for each in done if isinstance(each, Given))
    doses = [each for each in done if isinstance(each, Dose)]
    doses.sort(key=lambda each: (each.day, each.routine.span.line))
    return _plan_of(doses, gives, plots, told.noted)


@value
class _Told:
    """What tells when a routine is asked for."""

    noted: NothingNoted
    """What the journal says of it."""
    free: FrostFree
    today: date


def _with_routines(garden: Garden, plots: Sequence[Plot]) -> list[tuple[Plot, tuple[Routine, ...]]]:
    """Return some plants, each with the routines that are done to them."""
    planted_in = {
        bed: sorted(plot.wave.stages.plant.day for plot in there)
        for bed, there in grouped(plots, lambda plot: plot.bed.name).items()
    }
    return [
        (plot, tuple(each for each in garden.care if _is_of(each, plot, planted_in)))
        for plot in plots
    ]


def _done(
    plots: Sequence[tuple[Plot, tuple[Routine, ...]]], ground: Ground, told: _Told
) -> list[Dose | Given]:
    """Return what is done to some plants by their routines, and what gives way.

    What is put on leaves comes first: the rest has to keep them dry.
    """
    sprayed = list(_sprayed(plots, ground, told))
    dry = _dry_days(each for each in sprayed if isinstance(each, Dose))
    others = [
        each
        for plot, routines in plots
        for routine in routines
        if not routine.work.on_leaves
        for each in _tended(
            routine, plot, ground, told, dry[plot.bed.name] if routine.overhead else frozenset()
        )
    ]
    return sprayed + others


def _sprayed(
    plots: Iterable[tuple[Plot, tuple[Routine, ...]]], ground: Ground, told: _Told
) -> Iterator[Dose | Given]:
    """Yield what is put on the leaves of some plants; those of a bed share their mixes."""
    mixed: dict[str, frozenset[tuple[str, date]]] = defaultdict(frozenset)
    for plot, routines in plots:
        sprays = [each for each in routines if each.work.on_leaves]
        if sprays:
            evenings = Evenings(plot, ground, mixed[plot.bed.name])
            for application in told.noted.applied(plot):
                evenings.put(application, sprays)
            wanted = (_asked(each, plot, told) for each in sprays)
            evenings.fill([asked for asked in wanted if asked is not None])
            mixed[plot.bed.name] |= evenings.mixed
            yield from evenings.doses
            yield from evenings.gives


def _plan_of(
    doses: Sequence[Dose], gives: tuple[Given, ...], plots: Sequence[Plot], noted: NothingNoted
) -> CarePlan:
    """Return the care of a season: what is done, in order of day, and what that stops."""
    alike = grouped(doses, lambda dose: (dose.routine.key, dose.plot.bed.name))
    blocks = blocks_of(doses, plots)
    closing = grouped(blocks, lambda block: (block.routine.key, block.done))
    looks = [(plot.wave.id, look) for plot in plots if (look := noted.found(plot)) is not None]
    return CarePlan(
        doses=tuple(doses),
        gives=gives,
        blocks=blocks,
        unwell=frozenset(plot.bed.name for plot in plots if noted.is_unwell(plot)),
        rain=noted.rain,
        looks=tuple(LatestLook(wave, look.on, look.found) for wave, look in looks if look.found),
        by_bed={key: tuple(dose.day for dose in found) for key, found in alike.items()},
        closing={key: tuple(found) for key, found in closing.items()},
    )


def _noted(accounts: Accounts | None) -> NothingNoted:
    """Return what the journal tells of care."""
    if accounts is None:
        return NothingNoted()
    from sowtide.schedule.care.care_noted import CareNoted

    return CareNoted(accounts.happenings)


def _is_of(routine: Routine, plot: Plot, planted_in: dict[str, list[date]]) -> bool:
    """Say whether a routine is done to some plants.

    What is dug in once, on a date before they are planted, is for the next wave of its bed alone,
    and only where the bed is named or it is raw manure.
    """
    if not covers(routine.on, plot.wave.crop, series=plot.wave.entry.name, bed=plot.bed.name):
        return False
    start, planted = routine.start, plot.wave.stages.plant.day
    if not isinstance(start, date) or routine.every is not None or planted <= start:
        return True
    for_the_bed = plot.bed.name in routine.on.beds or routine.made_of is Made.RAW_MANURE
    return for_the_bed and planted == next(d for d in planted_in[plot.bed.name] if d > start)


def _asked(routine: Routine, plot: Plot, told: _Told) -> Asked | None:
    """Return the first day that a routine asks for and that is not noted as done or left out."""
    noted, span = told.noted, span_of(routine, plot.wave, told.free)
    if span is None:
        return None
    done = noted.done(routine, plot)
    after = max((*done, *noted.skipped(routine, plot)), default=None)
    begun = noted.begun(routine)
    if routine.on_demand is not None:
        since = noted.wanted_since(routine, plot)
        if since is None or since > span.ends:
            return None
        span = CareSpan(max(since, span.begins), span.ends, since)
        after = after if after is not None and after >= since else None
        begun = since
    if after is not None and routine.every is None:
        return None
    day = first_asked(routine, span, after)
    if after is None and begun is not None and day is not None and day < begun:
        day = asked_since(routine, span, begun)
    if day is None:
        return None
    not_before = told.today if begun is not None and day < told.today else day
    return Asked(routine=routine, span=span, day=day, not_before=not_before, used=len(done))


def _tended(
    routine: Routine,
    plot: Plot,
    ground: Ground,
    told: _Told,
    dry: frozenset[date],
) -> Iterator[Dose | Given]:
    """Yield what is done to some plants by a routine that puts nothing on their leaves.

    What finds no day before its end gives way.
    """
    for on in told.noted.done(routine, plot):
        yield Dose(routine, plot, on, on, noted=True)
    asked = _asked(routine, plot, told)
    while asked is not None:
        day, why = max(asked.day, asked.not_before), None
        while day <= asked.span.ends and (hindered := _hindered(routine, day, ground, dry)):
            day, why = day + _DAY, HEAT if why == HEAT else hindered
        if day > asked.span.ends:
            if why is not None:
                yield Given(routine, plot, asked.day, why)
            return
        yield Dose(
            routine=routine,
            plot=plot,
            day=day,
            asked=asked.day,
            why=why,
            overdue=asked.is_late,
        )
        counted = day if routine.every is None or why is None else asked.day
        following = next_asked(routine, asked.span, max(counted, asked.not_before))
        asked = None if following is None else Asked(routine, asked.span, following, following)


def _hindered(
    routine: Routine, day: date, ground: Ground, dry: frozenset[date]
) -> Hindrance | None:
    """Return why a routine is not done on a day; None where nothing stands in its way."""
    if day in dry:
        return Hindrance("leaves are to stay dry")
    if routine.work is Work.FEED and ground.too_hot(day):
        return HEAT
    return None if ground.works(day) else NO_WORK


def _dry_days(doses: Iterable[Dose]) -> dict[str, frozenset[date]]:
    """Return the days on which leaves in a bed are to stay dry, by bed."""
    found: dict[str, set[date]] = defaultdict(set)
    for dose in doses:
        for days in range(1, dose.routine.keep_dry + 1):
            found[dose.plot.bed.name].add(dose.day + timedelta(days=days))
    return defaultdict(frozenset, {bed: frozenset(days) for bed, days in found.items()})
