"""What a week of heat means, as values: what to do for what stands, and what had better wait."""

from __future__ import annotations

from datetime import date

from sowtide.report.kinds import AmountView, Celsius
from sowtide.schedule.work import HeatAction
from sowtide.values import value


@value
class WaveInHeat:
    """A wave that stands in the heat, what to do for it, and why."""

    wave: str
    crop: str
    plants: int
    action: HeatAction
    why: str


@value
class BedInHeat:
    """A bed, whether a cover is to be taken off it, and what stands there."""

    bed: str
    uncover: bool
    waves: tuple[WaveInHeat, ...]


@value
class HeatGapView:
    """Days with little to pick, since flowers set little in the heat, and the days between."""

    wave: str
    flowers_from: date
    flowers_to: date
    from_: date
    to: date
    ripens_days: int


@value
class CoolSowing:
    """A sowing for the cool of the day.

    `poor` is whether little of its seed comes up in soil that warm; `until` the day it may wait for
    then; null where it cannot.
    """

    task: str
    code: str
    wave: str
    bed: str | None
    due: date
    poor: bool
    until: date | None
    text: str


@value
class PutOffView:
    """Work that had better not be done in the heat, and the day to look again.

    `cannot_wait` is whether its last day has passed by then; `until` is null for care that is given
    up for this wave.
    """

    what: str
    kind: str
    bed: str | None
    waves: tuple[str, ...]
    due: date
    until: date | None
    cannot_wait: bool
    task: str | None


@value
class WaterNowView:
    """A watering that had better come before the heat: when it is due, and when instead."""

    routine: str
    bed: str
    waves: tuple[str, ...]
    due: date
    on: date
    amount: AmountView | None


@value
class HeatView:
    """What a week means in which it gets so hot; nothing of it is moved until it is noted."""

    high_c: Celsius
    from_: date
    to: date
    beds: tuple[BedInHeat, ...]
    water_now: tuple[WaterNowView, ...]
    sow_in_the_cool: tuple[CoolSowing, ...]
    put_off: tuple[PutOffView, ...]
    gaps: tuple[HeatGapView, ...]

    def waits_until(self, task: str) -> date | None:
        """Return the day to look again at a task that had better wait and can; else None."""
        put_off = ((each.task, each.until) for each in self.put_off if not each.cannot_wait)
        sown = ((each.task, each.until) for each in self.sow_in_the_cool)
        again = (until for name, until in (*put_off, *sown) if name == task)
        return next((day for day in again if day is not None), None)

    @property
    def asks_for_nothing(self) -> bool:
        """Whether it is not hot enough for anything to be done about it."""
        waves = (wave for bed in self.beds for wave in bed.waves)
        return not (
            self.water_now
            or self.sow_in_the_cool
            or self.put_off
            or self.gaps
            or any(bed.uncover for bed in self.beds)
            or any(wave.action is not HeatAction.LEAVE for wave in waves)
        )
