"""A season drawn from left to right: what stands in each bed, and when it is picked."""

from __future__ import annotations

from datetime import date
from enum import Enum

from sowtide.days import DateSpan
from sowtide.values import value


@value
class ChartBar:
    """Days with a name: those it stands, and of these the days on which it is picked.

    Parameters
    ----------
    name
        Its name.
    first, beyond
        Its first day, and the day after its last.
    picked
        The first of the days of picking and the day after the last; None without any.
    ended
        What is written behind it where something ends it.
    note
        The same in a word, where there is room for one.
    """

    name: str
    first: date
    beyond: date
    picked: tuple[date, date] | None = None
    ended: str = ""
    note: str = ""


@value
class ChartSpace:
    """How much ground nothing stands on, from a day to the day after its last."""

    said: str
    first: date
    beyond: date


class Met(Enum):
    """How much of what is wanted comes."""

    ENOUGH = "enough"
    SOME = "half or more"
    LESS = "less than half"


@value
class ChartWant:
    """Days in which something is wanted, and how much of it comes, up to the day after the last."""

    met: Met
    first: date
    beyond: date


@value
class ChartRow:
    """Bars under one name, with what is said below the name where there is room.

    Parameters
    ----------
    name
        The name.
    bars
        What stands there.
    below
        What is said below the name.
    free
        How much of it is still free, stretches of days in order, for a form that can draw it.
    wanted
        When what is picked there is wanted, in order.
    """

    name: str
    bars: tuple[ChartBar, ...]
    below: str = ""
    free: tuple[ChartSpace, ...] = ()
    wanted: tuple[ChartWant, ...] = ()


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
    """Odds of a frost on a day.

    Parameters
    ----------
    day
        The day.
    share
        Of years with a frost after it, or before it. [0–1]
    coming
        Whether the frost is still to come, in spring, or has already come.
    """

    day: date
    share: float
    coming: bool


@value
class SeasonChart:
    """A season of a garden, its beds and their waves.

    Parameters
    ----------
    title, what
        Whose it is, and of which season.
    caption
        What is said under that; how many days a column has is said behind it.
    days
        The days shown.
    weekday
        What the first day of a week is called.
    heads
        Rows above the columns.
    odds
        Frost odds, for a form that can draw more than a sign over a day.
    frosts
        The average frosts, marked in the rows of the beds.
    beds
        A row for each bed with anything in it.
    names
        Every name that may stand before a row.
    bench
        Seedlings in trays, a row for each series.
    table
        What is picked, a row for each kind.
    ends
        What the signs behind bars mean, those that are used.
    trays
        Whether anything is raised in trays.
    """

    title: str
    what: str
    caption: str
    days: DateSpan
    weekday: str
    heads: tuple[ChartHead, ...]
    odds: tuple[ChartOdds, ...]
    frosts: tuple[date | None, date | None]
    beds: tuple[ChartRow, ...]
    names: tuple[tuple[str, ...], tuple[str, ...]]
    bench: tuple[ChartRow, ...]
    table: tuple[ChartRow, ...]
    ends: tuple[tuple[str, str], ...]
    trays: bool


@value
class AbreastTable:
    """A narrow table of names and days, in as many blocks beside each other as have room."""

    titles: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
