"""From the routines of a garden to all the care of its season."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
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
from sowtide.schedule.care.care_plan import CarePlan, Dose, Given, Plot
from sowtide.schedule.care.heat_forecast import HeatForecast, high_by, too_hot_by
from sowtide.schedule.care.kept_apart import HEAT, Asked, Evenings, Ground
from sowtide.schedule.care.nothing_noted import NothingNoted
from sowtide.schedule.care.pick_blocks import blocks_of
from sowtide.schedule.waves import Wave

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
    free = FrostFree(garden.year, *frosts)
    noted = _noted(accounts)
    plots = [Plot(wave, stand.bed, stand.plants) for wave in waves for stand in wave.stands]
    in_bed = grouped(plots, lambda plot: plot.bed.name)
    planted_in = {
        bed: sorted(plot.wave.stages.plant.day for plot in there) for bed, there in in_bed.items()
    }
    ground = Ground(
        works=works,
        high=high_by(usual_high, forecast),
        units=garden.site.units,
        too_hot=too_hot_by(forecast),
    )
    sprayed: list[Evenings] = []
    others = []
    mixed: dict[str, frozenset[tuple[str, date]]] = defaultdict(frozenset)
    for plot in plots:
        mine = [each for each in garden.care if _is_of(each, plot, planted_in)]
        sprays = [each for each in mine if each.work.on_leaves]
        if sprays:
            evenings = Evenings(plot, ground, mixed[plot.bed.name])
            for application in noted.applied(plot):
                evenings.put(application, sprays)
            wanted = (_asked(each, plot, noted, free, today) for each in sprays)
            evenings.fill([asked for asked in wanted if asked is not None])
            mixed[plot.bed.name] |= evenings.mixed
            sprayed.append(evenings)
        others += [(plot, each) for each in mine if not each.work.on_leaves]
    doses = [dose for evenings in sprayed for dose in evenings.doses]
    gives = [given for evenings in sprayed for given in evenings.gives]
    dry = _dry_days(doses)
    for plot, routine in others:
        wet = dry[plot.bed.name] if routine.overhead else frozenset()
        for each in _tended(routine, plot, noted, ground, free, today, wet):
            if isinstance(each, Given):
                gives.append(each)
            else:
                doses.append(each)
    doses.sort(key=lambda each: (each.day, each.routine.span.line))
    alike = grouped(doses, lambda dose: (dose.routine.key, dose.plot.bed.name))
    blocks = blocks_of(doses, plots)
    closing = grouped(blocks, lambda block: (block.routine.key, block.done))
    looks = [(plot.wave.id, look) for plot in plots if (look := noted.found(plot)) is not None]
    return CarePlan(
        doses=tuple(doses),
        gives=tuple(gives),
        blocks=blocks,
        unwell=frozenset(plot.bed.name for plot in plots if noted.is_unwell(plot)),
        rain=noted.rain,
        found=tuple((wave, look.on, look.found.value) for wave, look in looks if look.found),
        days={key: tuple(dose.day for dose in found) for key, found in alike.items()},
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
    if not covers(routine.on, plot.wave.crop, plot.wave.entry.name, plot.bed.name):
        return False
    start, planted = routine.start, plot.wave.stages.plant.day
    if not isinstance(start, date) or routine.every is not None or planted <= start:
        return True
    for_the_bed = plot.bed.name in routine.on.beds or routine.made_of is Made.RAW_MANURE
    return for_the_bed and planted == next(d for d in planted_in[plot.bed.name] if d > start)


def _asked(
    routine: Routine, plot: Plot, noted: NothingNoted, free: FrostFree, today: date
) -> Asked | None:
    """Return the first day that a routine asks for and that is not noted as done or left out."""
    span = span_of(routine, plot.wave, free)
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
    not_before = today if begun is not None and day < today else day
    return Asked(routine=routine, span=span, day=day, not_before=not_before, used=len(done))


def _tended(
    routine: Routine,
    plot: Plot,
    noted: NothingNoted,
    ground: Ground,
    free: FrostFree,
    today: date,
    dry: frozenset[date],
) -> Iterator[Dose | Given]:
    """Yield what is done to some plants by a routine that puts nothing on their leaves.

    What finds no day before its end gives way.
    """
    for on in noted.done(routine, plot):
        yield Dose(routine, plot, on, on, noted=True)
    asked = _asked(routine, plot, noted, free, today)
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


def _hindered(routine: Routine, day: date, ground: Ground, dry: frozenset[date]) -> str | None:
    """Return why a routine is not done on a day; None where nothing stands in its way."""
    if day in dry:
        return "leaves are to stay dry"
    if routine.work is Work.FEED and ground.too_hot(day):
        return HEAT
    return None if ground.works(day) else "no working day"


def _dry_days(doses: Iterable[Dose]) -> dict[str, frozenset[date]]:
    """Return the days on which leaves in a bed are to stay dry, by bed."""
    found: dict[str, set[date]] = defaultdict(set)
    for dose in doses:
        for days in range(1, dose.routine.keep_dry + 1):
            found[dose.plot.bed.name].add(dose.day + timedelta(days=days))
    return defaultdict(frozenset, {bed: frozenset(days) for bed, days in found.items()})
