"""What comes on the table: a row for each kind that is picked, and when it is wanted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import timedelta

from sowtide.grouping import grouped
from sowtide.report.blocks import ChartRow, ChartWant
from sowtide.report.calendar.view import SeasonWave
from sowtide.report.calendar.wants_view import CropWantedWeeks
from sowtide.report.calendar.wave_bars import picked_bars

_A_WEEK = timedelta(days=7)


def table_rows(
    waves: Iterable[SeasonWave], wanted: Iterable[CropWantedWeeks]
) -> Iterator[ChartRow]:
    """Yield a row for each kind that stands, with what is wanted of it; then what is only wanted.

    Of several crops of a kind that are wanted the first stands beside what is picked of them all.
    """
    left = list(wanted)
    for each in grouped(waves, lambda wave: wave.kind).values():
        bars = tuple(bar for wave in each for bar in picked_bars(wave))
        of = next((want for want in left if want.kind == each[0].kind), None)
        if of is not None:
            left.remove(of)
        spans = () if of is None else tuple(_spans(of))
        yield ChartRow(on_the_table(each), bars, wanted=spans)
    for want in left:
        yield ChartRow(want.crop, (), wanted=tuple(_spans(want)))


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
