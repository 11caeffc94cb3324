"""The work that one wave makes, each piece on its day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from math import ceil

from sowtide.days import short_day
from sowtide.schedule.waves import LOOK_AFTER_UP, Wave, picked_in, picked_spans, seeds_of
from sowtide.schedule.work.task import Amount, CareWork, DayPart, Delay, Kind
from sowtide.units import Units, length_in, show_spacing
from sowtide.values import value

THIN_AFTER_UP = 10
"""Days after a sowing is up at which it is thinned; common practice, no source. [days]"""

THINNED_FROM = 1.5
"""Seeds sown for each plant from which a row is thinned; common practice, no source. [1]"""

PREPARE_AHEAD = 7
"""Days before planting from which a free bed can be prepared; common practice. [days]"""


@value
class Job:
    """A piece of work before it has a code and a place on a sheet; its fields as in a task."""

    kind: Kind
    due: date
    wave: Wave
    bed: str | None
    text: str
    amount: Amount | None = None
    last_day: date | None = None
    cautions: tuple[str, ...] = ()
    delay: Delay | None = None
    planned: date | None = None
    cannot_wait: bool = False
    part: DayPart = DayPart.ANY_TIME
    care: CareWork | None = None

    @property
    def begins(self) -> date:
        """The day it is planned for, whatever day there is someone to do it."""
        return self.planned or self.due


def jobs_of(wave: Wave, units: Units, *, since: date = date.min) -> Iterator[Job]:
    """Yield all the work of a wave but its picking, in no order.

    One without room has none, but that its seedlings are cared for where they are sown. Of one that
    was planted and has come up before a day the work until then is left out.
    """
    if not wave.stands and not is_sown_in_trays(wave):
        return
    if _young_until(wave) >= since:
        yield from _bench_jobs(wave) if wave.from_trays else _sowing_jobs(wave, units)
    yield from _pull_jobs(wave)


def _young_until(wave: Wave) -> date:
    """Return the last day on which the work of sowing and planting may be due."""
    stages = wave.stages
    up = stages.plant.day if stages.up is None else stages.up.day
    return max(stages.plant.day, up + timedelta(days=THIN_AFTER_UP))


def is_sown_in_trays(wave: Wave) -> bool:
    """Say whether the journal says that the seedlings of a wave are sown."""
    return wave.from_trays and wave.done is not None and wave.done.sow is not None


def _bench_jobs(wave: Wave) -> Iterator[Job]:
    stages, crop = wave.stages, wave.crop
    last = wave.judged.last_safe
    nursery = (stages.plant.day - stages.sow.day).days
    yield Job(
        kind=Kind.SOW_IN_TRAYS,
        due=stages.sow.day,
        wave=wave,
        bed=None,
        text=f"for {_seedlings(wave)}, out on {short_day(stages.plant.day)}",
        amount=Amount(seeds_of(wave), crop.sown_as),
        last_day=_no_earlier(
            None if last is None else last - timedelta(days=nursery), stages.sow.day
        ),
    )
    if stages.harden_off is not None and crop.hardening_days:
        yield Job(
            kind=Kind.HARDEN_OFF,
            due=stages.harden_off.day,
            wave=wave,
            bed=None,
            text=f"out by day, in by night, {crop.hardening_days} days",
            amount=Amount(wave.plants, "plants"),
        )
    for stand in wave.stands:
        yield Job(
            kind=Kind.PLANT_OUT,
            due=stages.plant.day,
            wave=wave,
            bed=stand.bed.name,
            text="water in well",
            amount=Amount(stand.plants, "plants"),
            last_day=last_to_plant(wave),
        )


def _sowing_jobs(wave: Wave, units: Units) -> Iterator[Job]:
    stages, crop = wave.stages, wave.crop
    assert stages.up is not None  # every direct sowing comes up
    again = wave.sow_again_by
    for stand in wave.stands:
        bed = stand.bed.name
        row = length_in(stand.plants * crop.in_row, units.long_unit)
        share = stand.plants / wave.plants
        seeds = ceil(seeds_of(wave) * share)
        yield Job(
            kind=Kind.SOW,
            due=stages.sow.day,
            wave=wave,
            bed=bed,
            text=f"{row:.0f} {units.long_unit} of row, {stand.plants:,} plants, "
            f"rows {show_spacing(crop.between_rows, units)} apart",
            amount=Amount(seeds, crop.sown_as),
            last_day=last_to_plant(wave),
        )
        look = stages.up.day + LOOK_AFTER_UP
        yield Job(
            kind=Kind.LOOK,
            due=look,
            wave=wave,
            bed=bed,
            text=_if_not_up(again, look),
            amount=None,
            last_day=_no_earlier(again, look),
        )
        if crop.seeds_per_plant >= THINNED_FROM:
            yield Job(
                kind=Kind.THIN,
                due=stages.up.day + timedelta(days=THIN_AFTER_UP),
                wave=wave,
                bed=bed,
                text=f"to {show_spacing(crop.in_row, units)}",
                amount=Amount(stand.plants, "plants"),
            )


def last_to_plant(wave: Wave) -> date | None:
    """Return the last day to sow a wave direct or to plant it out, safe and not too old.

    None where no last day is known, or its own is later.
    """
    stages = wave.stages
    too_old = None if stages.too_old is None else stages.too_old.day
    days = [day for day in (wave.judged.last_safe, too_old) if day is not None]
    return _no_earlier(min(days, default=None), stages.plant.day)


def prepare_jobs(wave: Wave, neighbours: Mapping[str, Sequence[Wave]]) -> Iterator[Job]:
    """Yield the preparing of a wave's beds: a week ahead, or when the space opens.

    Parameters
    ----------
    wave
        The wave.
    neighbours
        Waves by bed, among them all that are pulled out in the week before the planting.
    """
    planted = wave.stages.plant.day
    ahead = planted - timedelta(days=PREPARE_AHEAD)
    for stand in wave.stands:
        leaving = (
            other.stages.pull_out.day
            for other in neighbours.get(stand.bed.name, ())
            if other.stages.plant.day < ahead < other.stages.pull_out.day <= planted
        )
        yield Job(
            kind=Kind.PREPARE,
            due=max((ahead, *leaving)),
            wave=wave,
            bed=stand.bed.name,
            text=f"for {stand.plants:,} plants on {short_day(planted)}",
        )


def _pull_jobs(wave: Wave) -> Iterator[Job]:
    for stand in wave.stands:
        yield Job(
            kind=Kind.PULL,
            due=wave.stages.pull_out.day,
            wave=wave,
            bed=stand.bed.name,
            text=wave.judged.ended_by.value,
            amount=Amount(stand.plants, "plants"),
        )


def _seedlings(wave: Wave) -> str:
    """Say for how many plants seedlings are raised: ``12 plants and 3 to stand by``."""
    standby = wave.entry.standby
    return f"{wave.plants:,} plants" + (f" and {standby} to stand by" if standby else "")


def _if_not_up(again: date | None, look: date) -> str:
    if again is None or again < look:
        return "is it up? It is too late to sow it again and be safe"
    return f"is it up? Fewer than half: sow again by {short_day(again)}"


def _no_earlier(day: date | None, than: date) -> date | None:
    """The day, or None if it lies before another: there is no last day left to speak of."""
    return None if day is None or day < than else day


def picking_days(wave: Wave, first: date, last: date) -> tuple[date, ...]:
    """Return the days of a span, both ends included, on which a wave is to be picked.

    Picking begins with the early end of the first pick and goes on every `pick_gap` days, but not
    while heat has left no fruit; a crop cut once is offered on the first day of the span on which
    it stands ready.
    """
    picked, crop = picked_in(wave.stages), wave.crop
    if picked is None or not wave.stands:
        return ()
    begins, ends = picked.first, min(picked.last, last)
    if crop.cut_once:
        ready = max(begins, first)
        return (ready,) if ready <= ends else ()
    spans = tuple(picked_spans(wave))
    missed = max(0, -((begins - first).days // crop.pick_gap))
    day = begins + timedelta(days=missed * crop.pick_gap)
    days = []
    while day <= ends:
        if any(day in span for span in spans):
            days.append(day)
        day += timedelta(days=crop.pick_gap)
    return tuple(days)
