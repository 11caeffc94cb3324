"""What to sow in trays for the spaces that come free, crop by crop and day by day."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from sowtide.days import GrowingYear
from sowtide.report.blocks import Line, Style, line, together
from sowtide.report.kit import words
from sowtide.report.kit.stands import BedPlants, StartView


def start_lines(starts: Iterable[StartView], year: GrowingYear) -> list[Line]:
    """Say of each crop and day how many seedlings to raise, and where to they go."""
    groups: dict[tuple[str, date, date], list[StartView]] = {}
    for start in starts:
        groups.setdefault((start.title, start.sow, start.for_.plant), []).append(start)
    return [_start_line(each, year) for each in groups.values()]


def _start_line(of: Sequence[StartView], year: GrowingYear) -> Line:
    what = f"{sum(each.plants for each in of):,} {of[0].title}"
    beds = [BedPlants(each.for_.bed, each.plants) for each in of]
    sown, out = words.weekday(of[0].sow, year), words.day(of[0].for_.plant, year)
    said = f": sow {together(sown)}, plant out {together(out)} in {words.stands(beds)}"
    return line((what, Style.STRONG), said)
