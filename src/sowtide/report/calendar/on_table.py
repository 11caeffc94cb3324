"""What comes on the table: a row for each kind that is picked, and when it is wanted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import timedelta

from sowtide.grouping import grouped
from sowtide.report.blocks import ChartBar, ChartRow, ChartWant
from sowtide.report.calendar.view import SeasonWave
from sowtide.report.calendar.wants_view import CropWantedWeeks
from sowtide.report.calendar.wave_bars import picked_bars

_A_WEEK = timedelta(days=7)


def table_rows(
    waves: Iterable[SeasonWave], wanted: Iterable[CropWantedWeeks]
) -> Iterator[ChartRow]:
    """Yield what is picked: a row for each want, and one for what else there is of each kind.

    What is wanted stands beside those waves that bring it in, and no others. A row that several
    crops share goes by the name that the grower would give them.
    """
    left = list(wanted)
    for each in grouped(waves, lambda wave: wave.kind).values():
        others = list(each)
        for want in [want for want in left if any(wave.id in want.waves for wave in each)]:
            left.remove(want)
            served = [wave for wave in each if wave.id in want.waves]
            others = [wave for wave in others if wave.id not in want.waves]
            yield ChartRow(on_the_table(served), _bars(served), wanted=tuple(_spans(want)))
        if others:
            yield ChartRow(on_the_table(others), _bars(others))
    for want in left:
        yield ChartRow(want.crop, (), wanted=tuple(_spans(want)))


def _bars(waves: Iterable[SeasonWave]) -> tuple[ChartBar, ...]:
    return tuple(bar for wave in waves for bar in picked_bars(wave))


def _spans(of: CropWantedWeeks) -> Iterator[ChartWant]:
    """Yield weeks one after another that are met alike as one."""
    at: ChartWant | None = None
    for week in of.weeks:
        if at is not None and at.met is week.met and at.beyond == week.monday:
            at = ChartWant(at.met, at.first, at.beyond + _A_WEEK)
            continue
        if at is not None:
            yield at
        at = ChartWant(week.met, week.monday, week.monday + _A_WEEK)
    if at is not None:
        yield at


def on_the_table(waves: Sequence[SeasonWave]) -> str:
    """Name what is picked as the grower does.

    Several crops of a kind go by the name of the one that is called as the kind is, such as
    lettuce for leaf lettuce, or else by the kind's.
    """
    names = {wave.crop for wave in waves}
    if len(names) == 1:
        return names.pop()
    kind = waves[0].kind
    plain = (name for name in sorted(names) if set(name.split()) <= set(kind.split()))
    return min(plain, key=len, default=kind)
