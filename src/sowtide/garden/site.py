"""The place as values: its frost dates, its hot weeks, and what its grower calls safe."""

from __future__ import annotations

from dataclasses import replace
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
    """Dates of the last and the first frost at one temperature."""

    at: float
    """The temperature. [°C]"""
    last: tuple[Chance, ...]
    """Share of years with such a temperature later than the day, in order of share."""
    first: tuple[Chance, ...]
    """Share of years with such a temperature earlier than the day, in order of share."""
    last_origin: Origin
    first_origin: Origin
    """Where they are written."""


@value
class YearsWanted:
    """Which growing years of a record to use; all of them unless one of the two is set."""

    last: int | None = None
    """So many of the last ones. [years]"""
    first: int | None = None
    to: int | None = None
    """The first and the last one."""


ALL_YEARS = YearsWanted()
NEWEST_YEARS = YearsWanted(last=30)
"""What is used unless the grower says: the newest 30, since climates move."""


@value
class RecordFile:
    """A file of daily temperatures that the site names."""

    path: str
    """As written, from the folder of the garden's file."""
    unit: str | None
    """What its numbers count, ``°F``, ``°C`` or ``tenths of °C``; None where its header or its
    values say."""
    years: YearsWanted
    """Which of its growing years to use."""
    span: Span
    """Where it is written."""

    @property
    def origin(self) -> Origin:
        """The same place as the origin of a number."""
        return Origin(self.span.file, self.span.line)


@value
class Normals:
    """Mean daily maxima and minima of the twelve months, January's first."""

    highs: tuple[float, ...]
    lows: tuple[float, ...]
    """The maxima and the minima. [°C]"""
    origin: Origin
    """Where they are written."""


@value
class TwoMonths:
    """Mean temperatures of the warmest and of the coldest month."""

    warmest: float
    coldest: float
    """The two. [°C]"""
    origin: Origin
    """Where they are written."""


_A_HAIR = 0.005
"""What rounds up to a whole year of a hundred. [1]"""


@value
class Sure:
    """How often a wave must succeed, or how many days before the average frost it must end.

    Exactly one of the two is set.
    """

    share: float | None
    """Share of years, 0.01–0.99."""
    days: int | None
    """Days before the average frost, 0–99. [days]"""
    origin: Origin = OURS
    """Where it is written."""

    @property
    def nearly(self) -> Sure:
        """What is said as so sure in whole years of a hundred: counting makes no more of it."""
        return self if self.share is None else replace(self, share=self.share - _A_HAIR)


@value
class FallAllowance:
    """Extra days for slower growth late in the season, where no temperatures are known."""

    days: int
    """The whole allowance. [days]"""
    always: bool
    """Added to every wave, in place of the ramps."""
    origin: Origin
    """Where it is written."""


@value
class Site:
    """The place."""

    name: str
    """As the grower calls it."""
    latitude: float
    """North positive, -90 to 90. [°]"""
    units: Units
    """What the file is written in and results are shown in."""
    frost: tuple[FrostDates, ...]
    """Frost dates, warmest temperature first; empty where the place has no frost."""
    sure: Sure
    """What the grower calls safe."""
    fall_allowance: FallAllowance
    """Extra days late in the season."""
    colder_by: float
    """How much colder the garden is than its frost dates on clear nights. [°C]"""
    too_hot: DateSpan | None
    """The hot weeks in which no cool-season crop can be picked, or None."""
    too_hot_origin: Origin
    """Where they are written."""
    heat_known: bool
    """Whether the grower said which weeks are too hot, or that none are."""
    week_starts: int
    """First day of the sheet's week, 0 for Monday … 6 for Sunday."""
    record: RecordFile | None
    """The record of daily temperatures that it names, or None."""
    normals: Normals | None
    """Its twelve monthly normals, or None."""
    two_months: TwoMonths | None
    """Means of its warmest and its coldest month, or None."""
    help: str | None
    """Whom to call when something goes wrong, printed beside cautions."""
    people: int | None
    """How many eat of the garden; None where nobody said. [1]"""
    spare: float
    """Share of seed and seedlings that is got beyond what is reckoned. [0–…]"""
    order_weeks: int
    """Weeks before its use in which what is ordered comes. [weeks]"""
    tray_cells: int
    """Cells of a tray. [1]"""
