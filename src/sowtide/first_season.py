"""The file of a first season: what its place does not suit stands in it as a remark, or not."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from itertools import groupby

from sowtide.diagnostics import Problem, Severity
from sowtide.garden.model import Entry
from sowtide.garden.read import read_garden
from sowtide.garden.starter import Start, Suited, starter_text
from sowtide.schedule.season import Season
from sowtide.season import season_of


def first_file(start: Start, label: str) -> tuple[str, tuple[Problem, ...]]:
    """Return a file to start from, and the problems of what it was written with.

    Nothing stands in it that `sowtide check` would warn of: waves that it would are not written. A
    crop that cannot come true there, since no day is safe for it, is left as a remark.
    """
    suited: dict[str, Suited] = {}
    while True:
        text = starter_text(start, suited.values())
        reading = read_garden(text.encode(), label)
        if reading.garden is None:
            return text, reading.problems
        found = season_of(reading.garden, date(start.season, 1, 1))
        changed = tuple(_suited_better(found, suited))
        if not changed:
            return text, ()
        suited.update((each.crop, each) for each in changed)


def _suited_better(season: Season, suited: dict[str, Suited]) -> Iterator[Suited]:
    """Yield how to write the crops otherwise of which something is said.

    Of those that cannot come true the last goes first: it may have been in the way of the others.
    """
    grave: Entry | None = None
    warned: dict[str, list[Problem]] = {}
    for entry in season.garden.entries:
        for each in season.problems:
            if each.span is None or each.span.line != entry.span.line:
                continue
            if each.severity is Severity.ERROR:
                grave = entry
            elif each.severity is Severity.WARNING:
                warned.setdefault(entry.crop.name, []).append(each)
    if grave is not None:
        yield Suited(grave.crop.name, too_cold=True)
        return
    for crop, problems in warned.items():
        yield _without_warned(season, suited.get(crop) or Suited(crop), problems)


def _without_warned(season: Season, now: Suited, problems: list[Problem]) -> Suited:
    """Return how to write a crop so that the waves that are warned of are not there."""
    waves = [wave for wave in season.waves if wave.crop.name == now.crop]
    bad = {each.wave for each in problems if each.wave is not None}
    runs = [list(run) for good, run in groupby(waves, lambda wave: wave.id not in bad) if good]
    best = max(runs, key=len, default=[])
    if best:
        begins, ends = (_written(wave.stages.plant.day, season) for wave in (best[0], best[-1]))
        start = now.start if best[0] is waves[0] else begins
        if (start, ends) != (now.start, now.until):
            return replace(now, start=start, until=ends, count=len(best))
    elif now.start is None:
        return replace(now, start="earliest")
    late = any(each.code == "too-late" for each in problems)
    return replace(now, too_cold=late, warned_of=not late)


def _written(day: date, season: Season) -> str:
    """Write a day as the file takes it."""
    return day.strftime("%m-%d") if day in season.conditions.year else day.isoformat()
