"""A season drawn from left to right: what stands in each bed, and when it is picked."""

from __future__ import annotations

from datetime import date

from sowtide.days import DateSpan
from sowtide.garden.want import Met
from sowtide.values import value


@value
class ChartBar:
    """Days with a name: those it stands, and of these the days on which it is picked."""

    name: str
    first: date
    beyond: date
    """Its first day, and the day after its last."""
    picked: tuple[date, date] | None = None
    """The first of the days of picking and the day after the last; None without any."""
    ended: str = ""
    """What is written behind it where something ends it."""
    note: str = ""
    """The same in a word, where there is room for one."""


@value
class ChartSpace:
    """How much ground nothing stands on, from a day to the day after its last."""

    said: str
    first: date
    beyond: date


@value
class ChartWant:
    """Days in which something is wanted, and how much of it comes, up to the day after the last."""

    met: Met
    first: date
    beyond: date


@value
class ChartRow:
    """Bars under one name, with what is said below the name where there is room."""

    name: str
    bars: tuple[ChartBar, ...]
    """What stands there."""
    below: str = ""
    """What is said below the name."""
    free: tuple[ChartSpace, ...] = ()
    """How much of it is still free, stretches of days in order, for a form that can draw it."""
    wanted: tuple[ChartWant, ...] = ()
    """When what is picked there is wanted, in order."""


@value
class ChartMark:
    """A sign over a day, or over the days of a span."""

    sign: str
    days: DateSpan


@value
class ChartHead:
    """A row above the columns: what it is, its marks, and whether these are odds of a season."""

    name: str
    marks: tuple[ChartMark, ...]
    is_odds: bool = False


@value
class ChartOdds:
    """Odds of a frost on a day."""

    day: date
    share: float
    """Of years with a frost after it, or before it. [0–1]"""
    coming: bool
    """Whether the frost is still to come, in spring, or has already come."""


@value
class SeasonChart:
    """A season of a garden, its beds and their waves."""

    title: str
    what: str
    """Whose it is, and of which season."""
    caption: str
    """What is said under that; how many days a column has is said behind it."""
    days: DateSpan
    """The days shown."""
    weekday: str
    """What the first day of a week is called."""
    heads: tuple[ChartHead, ...]
    """Rows above the columns."""
    odds: tuple[ChartOdds, ...]
    """Frost odds, for a form that can draw more than a sign over a day."""
    frosts: tuple[date | None, date | None]
    """The average frosts, marked in the rows of the beds."""
    beds: tuple[ChartRow, ...]
    """A row for each bed with anything in it."""
    names: tuple[tuple[str, ...], tuple[str, ...]]
    """Every name that may stand before a row."""
    bench: tuple[ChartRow, ...]
    """Seedlings in trays, a row for each series."""
    table: tuple[ChartRow, ...]
    """What is picked, a row for each kind."""
    ends: tuple[tuple[str, str], ...]
    """What the signs behind bars mean, those that are used."""
    trays: bool
    """Whether anything is raised in trays."""


@value
class AbreastTable:
    """A narrow table of names and days, in as many blocks beside each other as have room."""

    titles: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
