"""The days on which waves are picked, where something that was put on them closes some."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from sowtide.grouping import grouped
from sowtide.schedule.waves import Wave
from sowtide.schedule.work.working import WorkingDays
from sowtide.values import value

if TYPE_CHECKING:  # only where there is care
    from sowtide.schedule.care import CarePlan, PickBlock

_DAY = timedelta(days=1)


@value
class OpenPicks:
    """The days of a span on which a wave is picked."""

    days: tuple[date, ...]
    """Those days."""
    closed: tuple[date, ...] = ()
    """Days on which it would be picked, had nothing been put on it."""
    open_again: date | None = None
    """The first day on which it may be picked again; None where no day is closed."""
    closed_by: tuple[tuple[str, date], ...] = ()
    """What was put on it, and when."""


class ClosedPicks:
    """Tells on which days waves are picked."""

    def __init__(self, working: WorkingDays, care: CarePlan | None) -> None:
        self._working = working
        blocks = () if care is None else care.blocks
        self._blocks = grouped(blocks, lambda block: block.wave)

    def picks(self, wave: Wave, first: date, last: date) -> OpenPicks:
        """Return the days of a span, both ends included, on which a wave is picked.

        What would be picked on a closed day is picked on the first open one, and before anything is
        put on a wave that is being picked it is picked clean.
        """
        planned = self._working.picks(wave, first, last)
        blocks = self._blocks.get(wave.id, ())
        end = wave.stages.last_pick
        if not blocks or end is None:
            return OpenPicks(planned)
        shut = [day for day in planned if _closing(day, blocks)]
        days = {day for day in planned if day not in shut}
        for block in blocks:  # one before the span may open in it, where nobody works in between
            if self._working.picks(wave, block.first, block.until - _DAY):
                days.add(self._open(block.until, blocks))
            if self._is_picked_before(block, wave) and not _closing(block.done, blocks):
                days.add(block.done)
        found = tuple(sorted(day for day in days if first <= day <= min(last, end.day)))
        why = {(b.routine.name, b.done): None for day in shut for b in _closing(day, blocks)}
        again = self._open(shut[-1], blocks) if shut else None
        return OpenPicks(found, tuple(shut), again, tuple(why))

    def first_pick(self, wave: Wave) -> date | None:
        """Return the day on which picking begins; None where it comes to nothing."""
        day, end = self._working.first_pick(wave), wave.stages.last_pick
        blocks = self._blocks.get(wave.id, ())
        if day is None or end is None or not _closing(day, blocks):
            return day
        again = self._open(day, blocks)
        return again if again <= end.day else None

    def _is_picked_before(self, block: PickBlock, wave: Wave) -> bool:
        """Say whether a wave is picked clean on the day on which something is put on it."""
        begins, end = self._working.first_pick(wave), wave.stages.last_pick
        if begins is None or end is None or wave.crop.cut_once or not block.routine.work.on_leaves:
            return False
        return begins <= block.done <= end.day

    def _open(self, day: date, blocks: Sequence[PickBlock]) -> date:
        """Return the first working day on or after a day on which nothing closes the picking."""
        day = self._working.next(day)
        while closing := _closing(day, blocks):
            day = self._working.next(closing[0].until)
        return day


def _closing(day: date, blocks: Sequence[PickBlock]) -> list[PickBlock]:
    return [block for block in blocks if block.first <= day < block.until]
