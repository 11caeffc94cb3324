"""The place as values: its frost dates, its hot weeks, and what its grower calls safe."""

from __future__ import annotations

from datetime import date

from sowtide.days import DateSpan
from sowtide.diagnostics import Span
from sowtide.reasons import OURS, Origin
from sowtide.units import Units
from sowtide.values import value


@value
class Chance:
    """One date of a frost table: a share of years (0–1) and the day it belongs to."""

    share: float
    day: date


@value
class FrostDates:
    """Dates of the last and the first frost at one temperature.

    Parameters
    ----------
    at
        The temperature. [°C]
    last
        Share of years with such a temperature later than the day, in order of share.
    first
        Share of years with such a temperature earlier than the day, in order of share.
    last_origin, first_origin
        Where they are written.
    """

    at: float
    last: tuple[Chance, ...]
    first: tuple[Chance, ...]
    last_origin: Origin
    first_origin: Origin


@value
class YearsWanted:
    """Which growing years of a record to use; all of them unless one of the two is set.

    Parameters
    ----------
    last
        So many of the last ones. [years]
    first, to
        The first and the last one.
    """

    last: int | None = None
    first: int | None = None
    to: int | None = None


ALL_YEARS = YearsWanted()
NEWEST_YEARS = YearsWanted(last=30)
"""What is used unless the grower says: the newest 30, since climates move."""


@value
class RecordFile:
    """A file of daily temperatures that the site names.

    Parameters
    ----------
    path
        As written, from the folder of the garden's file.
    unit
        What its numbers count, ``°F``, ``°C`` or ``tenths of °C``; None where its header or its
        values say.
    years
        Which of its growing years to use.
    span
        Where it is written.
    """

    path: str
    unit: str | None
    years: YearsWanted
    span: Span

    @property
    def origin(self) -> Origin:
        """The same place as the origin of a number."""
        return Origin(self.span.file, self.span.line)


@value
class Normals:
    """Mean daily maxima and minima of the twelve months, January's first.

    Parameters
    ----------
    highs, lows
        The maxima and the minima. [°C]
    origin
        Where they are written.
    """

    highs: tuple[float, ...]
    lows: tuple[float, ...]
    origin: Origin


@value
class TwoMonths:
    """Mean temperatures of the warmest and of the coldest month.

    Parameters
    ----------
    warmest, coldest
        The two. [°C]
    origin
        Where they are written.
    """

    warmest: float
    coldest: float
    origin: Origin


@value
class Sure:
    """How often a wave must succeed, or how many days before the average frost it must end.

    Exactly one of the two is set.

    Parameters
    ----------
    share
        Share of years, 0.01–0.99.
    days
        Days before the average frost, 0–99. [days]
    origin
        Where it is written.
    """

    share: float | None
    days: int | None
    origin: Origin = OURS


@value
class FallAllowance:
    """Extra days for slower growth late in the season, where no temperatures are known.

    Parameters
    ----------
    days
        The whole allowance. [days]
    always
        Added to every wave, in place of the ramps.
    origin
        Where it is written.
    """

    days: int
    always: bool
    origin: Origin = OURS


@value
class Site:
    """The place.

    Parameters
    ----------
    name
        As the grower calls it.
    latitude
        North positive, -90 to 90. [°]
    units
        What the file is written in and results are shown in.
    frost
        Frost dates, warmest temperature first; empty where the place has no frost.
    sure
        What the grower calls safe.
    fall_allowance
        Extra days late in the season.
    colder_by
        How much colder the garden is than its frost dates on clear nights. [°C]
    too_hot
        The hot weeks in which no cool-season crop can be picked, or None.
    too_hot_origin
        Where they are written.
    heat_known
        Whether the grower said which weeks are too hot, or that none are.
    week_starts
        First day of the sheet's week, 0 for Monday … 6 for Sunday.
    record
        The record of daily temperatures that it names, or None.
    normals
        Its twelve monthly normals, or None.
    two_months
        Means of its warmest and its coldest month, or None.
    help
        Whom to call when something goes wrong, printed beside cautions.
    people
        How many eat of the garden; None where nobody said. [1]
    spare
        Share of seed and seedlings that is got beyond what is reckoned. [0–…]
    order_weeks
        Weeks before its use in which what is ordered comes. [weeks]
    tray_cells
        Cells of a tray. [1]
    """

    name: str
    latitude: float
    units: Units
    frost: tuple[FrostDates, ...]
    sure: Sure
    fall_allowance: FallAllowance
    colder_by: float = 0.0
    too_hot: DateSpan | None = None
    too_hot_origin: Origin = OURS
    heat_known: bool = False
    week_starts: int = 0
    record: RecordFile | None = None
    normals: Normals | None = None
    two_months: TwoMonths | None = None
    help: str | None = None
    people: int | None = None
    spare: float = 0.1
    order_weeks: int = 3
    tray_cells: int = 72
