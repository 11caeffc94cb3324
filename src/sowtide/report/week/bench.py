"""The bench of a week's sheet, and the week after in brief."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import groupby

from sowtide.days import GrowingYear
from sowtide.report.blocks import Block, Span, Style, Text, TrailingTable, line, together
from sowtide.report.kit import words
from sowtide.report.week.view import Coming, SeedlingsView, SheetView
from sowtide.schedule.work import Kind

_MOST_NAMED = 16
"""Tasks of the week after that are named one by one; more are counted by kind. [1]"""


def bench_table(sheet: SheetView, year: GrowingYear) -> Iterator[Block]:
    """Yield the seedlings in trays: how many, when they are fit to plant out, and for what."""
    if sheet.bench:
        yield TrailingTable(
            ("SEEDLINGS", "how many", "ready from", "too old after", "for"),
            tuple(
                (
                    each.wave,
                    (
                        f"{each.plants:,}",
                        words.day(each.ready, year),
                        words.day(each.too_old, year),
                    ),
                    _destination(each, year),
                )
                for each in sheet.bench
            ),
        )


def _destination(seedlings: SeedlingsView, year: GrowingYear) -> Span:
    if seedlings.plant is None:
        return "stand by for a gap", Style.DIM
    day = words.day(seedlings.plant, year)
    if not seedlings.beds:
        return f"no room on {day}", Style.WARN
    text = f"{words.listed(seedlings.beds)}, {day}"
    if seedlings.plant > seedlings.too_old:
        return f"{text}: too old", Style.WARN
    return text, Style.PLAIN


def next_week(sheet: SheetView, year: GrowingYear) -> Iterator[Block]:
    """Yield the week after in brief, day by day."""
    if not sheet.next_week:
        return
    count_them = len(sheet.next_week) > _MOST_NAMED
    days = []
    for day, found in groupby(sheet.next_week, key=lambda each: each.due):
        tasks = tuple(found)
        if count_them:
            kinds = Counter(task.kind for task in tasks)
            what = [f"{kind.value} {kinds[kind.value]}" for kind in Kind if kinds[kind.value]]
        else:
            what = list(_by_kind(tasks))
        days.append(f"{together(words.weekday(day, year))}: {', '.join(what)}")
    yield Text(line(("NEXT WEEK:", Style.HEADING), " " + "; ".join(days)), hang=2)


def _by_kind(tasks: Iterable[Coming]) -> Iterator[str]:
    """Yield each kind of a day's work with its waves, each said once."""
    waves: dict[str, dict[str, None]] = {}
    for task in tasks:
        waves.setdefault(task.kind, {})[together(task.wave)] = None
    for kind, names in waves.items():
        yield f"{kind} {words.listed(names)}"
