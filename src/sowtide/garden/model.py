"""What the grower wrote, as values: beds, the entries that ask for waves, and the whole garden.

Every day is resolved, every length exact, every crop complete; nothing here depends on YAML.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from sowtide.days import DateSpan, DayRange, GrowingYear
from sowtide.diagnostics import Span
from sowtide.garden.crop import Crop, HeatMethod, Raised
from sowtide.garden.site import Site
from sowtide.garden.want import Want
from sowtide.reasons import OURS, Origin
from sowtide.units import Size, Units, show_degree_days, show_temperature
from sowtide.values import value

if TYPE_CHECKING:  # only where a file has care
    from sowtide.garden.care import Routine

EVERY_DAY = tuple(range(7))
"""All days of the week, 0 for Monday … 6 for Sunday."""


@value
class Bed:
    """A bed."""

    name: str
    """As the grower calls it."""
    size: Size
    """Width and length. [µm]"""
    span: Span
    """Where it is written."""
    rest: int
    """Days it lies between one wave and the next. [days]"""
    grew: tuple[tuple[int, str], ...]
    """Families grown in it in earlier years, as (year, family)."""
    cover: float
    """What a cover on it buys. [°C]"""
    colder_by: float
    """How much colder it is than the rest of the garden. [°C]"""
    taken: tuple[DateSpan, ...]
    """Spans of days in which it is not to be had."""

    @property
    def area(self) -> int:
        """Its area. [µm²]"""
        return self.size.area

    @property
    def colder_than_site(self) -> float:
        """How far its minimum lies under the site's; negative under a cover. [°C]"""
        return self.colder_by - self.cover


@value
class Entry:
    """One entry of the file: it asks for one wave or a series of them."""

    name: str
    """Name of the series; its waves are ``NAME-1``, ``NAME-2``, …."""
    crop: Crop
    """What is grown."""
    raised: Raised
    """Direct or trays, decided."""
    plants: int
    """Plants in each wave."""
    start: date | None
    """First planting day, or None for the earliest."""
    every: DayRange | None
    """Days from one planting to the next; None for a single wave. [days]"""
    until: date | None
    """Last possible planting day, or None for the last safe one."""
    count: int | None
    """Most waves, or None."""
    beds: tuple[Bed, ...]
    """Beds it may go to, in order; all of them if empty."""
    beds_named: bool
    """Whether the grower named the beds."""
    split: bool
    """Whether a wave may be shared out over several beds."""
    span: Span
    """Where it is written."""
    first: bool = False
    """Whether its waves take their places before all others that are not planted yet."""
    standby: int = 0
    """Seedlings raised beside each wave for a gap that may come. [1]"""
    overlap: int = 0
    """Days before another wave is pulled out that one may be set between its plants. [days]"""
    start_origin: Origin = OURS
    every_origin: Origin = OURS
    """Where its numbers are written."""
    wave_beds: tuple[tuple[int, tuple[Bed, ...]], ...] = ()
    """Beds of single waves by their numbers, in place of `beds`; no bed at all if empty."""
    pick_every: int | None = None
    """Days from one first pick to the next, where pickings are to be even; `every` then says the
    same. [days]"""

    @property
    def breathes(self) -> bool:
        """Whether its waves may be planted later than they are due, for want of room before."""
        return self.every is not None and self.every.low < self.every.high

    def beds_of(self, number: int) -> tuple[tuple[Bed, ...], bool]:
        """Return the beds that a wave of it may go to, and whether the grower named them."""
        for wave, beds in self.wave_beds:
            if wave == number:
                return beds, True
        return self.beds, self.beds_named


@value
class Watch:
    """Something to look for once so much warmth has gathered, such as the moths of a pest."""

    look_for: str
    """What to look for, in the grower's words."""
    base: float
    upper: float | None
    """Temperatures below and above which a day counts no less and no more. [°C]"""
    method: HeatMethod
    """How a day's warmth is counted."""
    total: float
    """The degree-days at which it is to be looked for. [°C·d]"""
    start: date
    """The day from which they are counted, in the growing year planned."""
    span: Span
    """Where it is written."""

    def warmth_in(self, units: Units) -> str:
        """Say the warmth at which it is looked for: ``1,000 °F·d above 50 °F``."""
        return f"{show_degree_days(self.total, units)} above {show_temperature(self.base, units)}"


@value
class Garden:
    """Everything the grower wrote."""

    label: str
    """The file, as it is named in messages."""
    year: GrowingYear
    """The growing year planned."""
    site: Site
    beds: tuple[Bed, ...]
    """In the file's order."""
    crops: tuple[Crop, ...]
    """Every crop the entries name and every crop the file defines, in order of name."""
    entries: tuple[Entry, ...]
    """What asks for waves, in the file's order."""
    watches: tuple[Watch, ...]
    """What to look for, in the file's order."""
    journal: str | None
    """The name of its journal's file; None for the usual one."""
    learn: bool
    """Whether its journal teaches the days of its crops."""
    working_days: tuple[int, ...]
    """Days of the week on which there is someone to work, 0 for Monday … 6 for Sunday."""
    away: tuple[DateSpan, ...]
    """Spans of days on which there is nobody."""
    care: tuple[Routine, ...]
    """What is done to keep the waves going, in the file's order."""
    wants: tuple[Want, ...]
    """What its household wants to pick, in the file's order."""
