"""The file of a first season: what its place is too cold for stands in it as a remark."""

from __future__ import annotations

from datetime import date

from sowtide.diagnostics import Problem, Severity
from sowtide.garden.read import read_garden
from sowtide.garden.starter import Start, starter_text
from sowtide.season import season_of


def first_file(start: Start, label: str) -> tuple[str, tuple[Problem, ...]]:
    """Return a file to start from, and the problems of what it was written with.

    A crop that cannot come true there, since no day is safe for it, is left out of its waves.
    """
    without: tuple[str, ...] = ()
    while True:
        text = starter_text(start, without=without)
        reading = read_garden(text.encode(), label)
        if reading.garden is None:
            return text, reading.problems
        found = season_of(reading.garden, date(start.season, 1, 1)).problems
        lines = {each.span.line for each in found if each.span and each.severity is Severity.ERROR}
        crops = [entry.crop.name for entry in reading.garden.entries if entry.span.line in lines]
        if not crops:
            return text, ()
        without = (*without, crops[-1])
