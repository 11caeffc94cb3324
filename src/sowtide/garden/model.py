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
    """A bed.

    Parameters
    ----------
    name
        As the grower calls it.
    size
        Width and length. [µm]
    span
        Where it is written.
    rest
        Days it lies between one wave and the next. [days]
    grew
        Families grown in it in earlier years, as (year, family).
    cover
        What a cover on it buys. [°C]
    colder_by
        How much colder it is than the rest of the garden. [°C]
    taken
        Spans of days in which it is not to be had.
    """

    name: str
    size: Size
    span: Span
    rest: int = 0
    grew: tuple[tuple[int, str], ...] = ()
    cover: float = 0.0
    colder_by: float = 0.0
    taken: tuple[DateSpan, ...] = ()

    @property
    def area(self) -> int:
        """Its area. [µm²]"""
        return self.size.area

    @property
    def colder_than_site(self) -> float:
        """Its bed's minimum lies so much under the site's; negative under a cover. [°C]"""
        return self.colder_by - self.cover


@value
class Entry:
    """One entry of the file: it asks for one wave or a series of them.

    Parameters
    ----------
    name
        Name of the series; its waves are ``NAME-1``, ``NAME-2``, ….
    crop
        What is grown.
    raised
        Direct or trays, decided.
    plants
        Plants in each wave.
    start
        First planting day, or None for the earliest.
    every
        Days from one planting to the next; None for a single wave. [days]
    pick_every
        Days from one first pick to the next, where pickings are to be even; `every` then says
        the same. [days]
    until
        Last possible planting day, or None for the last safe one.
    count
        Most waves, or None.
    beds
        Beds it may go to, in order; all of them if empty.
    beds_named
        Whether the grower named the beds.
    wave_beds
        Beds of single waves by their numbers, in place of `beds`; no bed at all if empty.
    split
        Whether a wave may be shared out over several beds.
    first
        Whether its waves take their places before all others that are not planted yet.
    standby
        Seedlings raised beside each wave for a gap that may come. [1]
    overlap
        Days before another wave is pulled out that one may be set between its plants. [days]
    span
        Where it is written.
    start_origin, every_origin
        Where its numbers are written.
    """

    name: str
    crop: Crop
    raised: Raised
    plants: int
    start: date | None
    every: DayRange | None
    until: date | None
    count: int | None
    beds: tuple[Bed, ...]
    beds_named: bool
    split: bool
    span: Span
    first: bool = False
    standby: int = 0
    overlap: int = 0
    start_origin: Origin = OURS
    every_origin: Origin = OURS
    wave_beds: tuple[tuple[int, tuple[Bed, ...]], ...] = ()
    pick_every: int | None = None

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
    """Something to look for once so much warmth has gathered, such as the moths of a pest.

    Parameters
    ----------
    look_for
        What to look for, in the grower's words.
    base, upper
        Temperatures below and above which a day counts no less and no more. [°C]
    method
        How a day's warmth is counted.
    total
        The degree-days at which it is to be looked for. [°C·d]
    start
        The day from which they are counted, in the growing year planned.
    span
        Where it is written.
    """

    look_for: str
    base: float
    upper: float | None
    method: HeatMethod
    total: float
    start: date
    span: Span

    def warmth_in(self, units: Units) -> str:
        """Say the warmth at which it is looked for: ``1,000 °F·d above 50 °F``."""
        return f"{show_degree_days(self.total, units)} above {show_temperature(self.base, units)}"


@value
class Garden:
    """Everything the grower wrote.

    Parameters
    ----------
    label
        The file, as it is named in messages.
    year
        The growing year planned.
    site, beds, entries
        The file's sections, in its order.
    crops
        Every crop the entries name and every crop the file defines, in order of name.
    watches
        What to look for, in the file's order.
    journal
        The name of its journal's file; None for the usual one.
    learn
        Whether its journal teaches the days of its crops.
    working_days
        Days of the week on which there is someone to work, 0 for Monday … 6 for Sunday.
    away
        Spans of days on which there is nobody.
    care
        What is done to keep the waves going, in the file's order.
    wants
        What its household wants to pick, in the file's order.
    """

    label: str
    year: GrowingYear
    site: Site
    beds: tuple[Bed, ...]
    crops: tuple[Crop, ...]
    entries: tuple[Entry, ...]
    watches: tuple[Watch, ...] = ()
    journal: str | None = None
    learn: bool = True
    working_days: tuple[int, ...] = EVERY_DAY
    away: tuple[DateSpan, ...] = ()
    care: tuple[Routine, ...] = ()
    wants: tuple[Want, ...] = ()
