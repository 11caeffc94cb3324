"""What to look for when, as the week's sheet and the calendar say it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from sowtide.report.blocks import Line, Style, line, together
from sowtide.report.formats.terminal.cells import wrap
from sowtide.report.kit import words
from sowtide.schedule.season import Season
from sowtide.schedule.work import Lookout, WeekSheet, warmth_of

_AHEAD = timedelta(days=7)


def due_on(sheet: WeekSheet, season: Season) -> tuple[Lookout, ...]:
    """Return what is to be looked for in a week or in the week after it."""
    return tuple(each for each in season.lookouts if each.due(sheet.first, sheet.last + _AHEAD))


def look_for(sheet: WeekSheet, season: Season, *, width: int) -> Iterator[Line]:
    """Yield what is to be looked for in a week or in the week after it, and since when to expect.

    Parameters
    ----------
    sheet
        The week.
    season
        The season.
    width
        Of the screen. [cells]
    """
    due = due_on(sheet, season)
    if due:
        yield line(("LOOK FOR", Style.HEADING))
    units = season.garden.site.units
    for each in due:
        since = together(words.day(each.watch.start, season.garden.year))
        warmth = words.unbroken(warmth_of(each.watch, units))
        text = line(
            (each.watch.look_for, Style.STRONG),
            f": {when(each, season)} ({warmth} since {since})",
        )
        yield from wrap(text, width, first=" ")


def season_list(season: Season, *, width: int) -> tuple[Line, ...]:
    """Return all that is to be looked for in the season, in order of the days."""
    dated = [
        (each.reached.day, f"{each.watch.look_for} {when(each, season)}")
        for each in season.lookouts
        if each.reached is not None and each.reached.day is not None
    ]
    if not dated:
        return ()
    texts = "; ".join(text for _, text in sorted(dated))
    return wrap(line(("LOOK FOR:", Style.HEADING), f" {texts}"), width, hang=2)


def when(lookout: Lookout, season: Season) -> str:
    """Say when to look: ``about 24 Jun, in 8 years of 10 from 18 Jun to 2 Jul``."""
    year, reached = season.garden.year, lookout.reached
    if reached is None or reached.day is None:
        return "in some years only"
    day = together(words.day(reached.day, year))
    if reached.years is None:
        return f"about {day}"
    if reached.early == reached.late:
        return f"on {day}"
    if reached.early is None or reached.late is None:
        return f"about {day}, in some years not at all"
    first, last = (together(words.day(each, year)) for each in (reached.early, reached.late))
    return f"about {day}, in 8 years of 10 from {first} to {last}"
