"""A wave is dated wholly in another growing year than the one that is planned."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown, Placed
from sowtide.schedule.checks import Said, SeriesRule, named
from sowtide.schedule.waves import Conditions


def _check(grown: Grown, conditions: Conditions) -> Iterator[Said]:
    """Leave alone what the year has a part in.

    Such are a crop of last autumn that is picked in it, seedlings raised in it, the later waves
    of a series that runs on into the next year, and what still stood in it as the journal says.
    """
    year, start, waves = conditions.year, grown.entry.start, grown.waves
    if start is None or not waves:
        return
    gone = [each for each in waves if _stay(each)[1] < year.first]
    first, _ = _stay(waves[0])
    if gone:
        over = max(_stay(each)[1] for each in gone)
        said = f"over by {_in_full(over)}, before the growing year {year.season} begins"
        said = f"{named(gone)} would be {said}"
    elif first > year.last:
        gone = list(waves)
        said = f"after the growing year {year.season} has ended"
        said = f"{named(gone)} would begin on {_in_full(first)}, {said}"
    else:
        return
    meant, season = year.like(start, year.season), year.holding(start).season
    hint = f"write `from: {meant:%m-%d}` for {_in_full(meant)}"
    if season != year.season:
        hint += f"; `season: {season}` plans that year"
    yield Said(said, hint, gone[0])


def _stay(of: Placed) -> tuple[date, date]:
    """Return the day that the work on a wave begins, and the one that nothing is left of it."""
    stages = of.judged.stages
    return min(stages.sow.day, stages.plant.day), stages.pull_out.day


def _in_full(day: date) -> str:
    return f"{short_day(day)} {day.year}"


RULE = SeriesRule("other-year", Severity.WARNING, _check)
