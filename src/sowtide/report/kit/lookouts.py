"""What to look for when, as the week's sheet and the calendar say it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from sowtide.days import GrowingYear
from sowtide.report.blocks import Block, Heading, Style, Text, line, together
from sowtide.report.kinds import Celsius, Unsaid
from sowtide.report.kit import words
from sowtide.schedule.work import Lookout
from sowtide.units import Units
from sowtide.values import value


@value
class LookoutView:
    """What to look for: the day, the days of eight years of ten, and the warmth it goes by."""

    what: str
    date_: date | None
    from_: date | None
    to: date | None
    base_c: Celsius
    total_c_days: Celsius
    since: date
    years_used: int | None
    warmth: Unsaid[str]


def lookout_view(of: Lookout, units: Units) -> LookoutView:
    """Return what is to be looked for, and when."""
    watch, reached = of.watch, of.reached
    return LookoutView(
        what=watch.look_for,
        date_=None if reached is None else reached.day,
        from_=None if reached is None else reached.early,
        to=None if reached is None else reached.late,
        base_c=watch.base,
        total_c_days=watch.total,
        since=watch.start,
        years_used=None if reached is None else reached.years,
        warmth=watch.warmth_in(units),
    )


def look_for(due: Iterable[LookoutView], year: GrowingYear) -> Iterator[Block]:
    """Yield what is to be looked for soon, when to expect it, and since when it is counted."""
    listed = tuple(due)
    if listed:
        yield Heading("LOOK FOR")
    for each in listed:
        since = together(words.day(each.since, year))
        warmth = words.unbroken(each.warmth)
        said = f": {when(each, year)} ({warmth} since {since})"
        yield Text(line((each.what, Style.STRONG), said), first=" ")


def season_list(lookouts: Iterable[LookoutView], year: GrowingYear) -> Iterator[Block]:
    """Yield all that is to be looked for in the season, in order of the days."""
    said = ((each.date_, f"{each.what} {when(each, year)}") for each in lookouts)
    dated = sorted((day, text) for day, text in said if day is not None)
    if dated:
        texts = "; ".join(text for _, text in dated)
        yield Text(line(("LOOK FOR:", Style.HEADING), f" {texts}"), hang=2)


def when(of: LookoutView, year: GrowingYear) -> str:
    """Say when to look: ``about 24 Jun, in 8 years of 10 from 18 Jun to 2 Jul``."""
    if of.date_ is None:
        return "in some years only"
    day = together(words.day(of.date_, year))
    if of.years_used is None:
        return f"about {day}"
    if of.from_ == of.to:
        return f"on {day}"
    if of.from_ is None or of.to is None:
        return f"about {day}, in some years not at all"
    first, last = (together(words.day(each, year)) for each in (of.from_, of.to))
    return f"about {day}, in 8 years of 10 from {first} to {last}"
