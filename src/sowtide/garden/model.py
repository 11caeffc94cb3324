"""What the grower wrote, as values: site, beds, crops and the entries that ask for waves.

Every day is resolved, every length exact, every crop complete; nothing here depends on YAML.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from datetime import date
from enum import Enum
from types import MappingProxyType

from sowtide.days import DateSpan, DayRange, GrowingYear, MonthDay
from sowtide.diagnostics import Span
from sowtide.reasons import OURS, Origin
from sowtide.units import Size, Units, celsius
from sowtide.values import value


class Raised(Enum):
    """How a crop is started."""

    DIRECT = "direct"
    TRAYS = "trays"
    EITHER = "either"


class CountedFrom(Enum):
    """The day that days to harvest are counted from."""

    SOWING = "sowing"
    PLANTING_OUT = "planting out"


class Weather(Enum):
    """The weather a crop wants."""

    COOL = "cool"
    WARM = "warm"


class Hardiness(Enum):
    """The air temperature that ends the part of the crop that is picked."""

    VERY_TENDER = "very tender"
    TENDER = "tender"
    HALF_HARDY = "half-hardy"
    HARDY = "hardy"
    HARDIEST = "hardiest"

    @property
    def killed_at(self) -> float:
        """The daily minimum, at or below which the part picked is lost. [°C]

        The thresholds of the national freeze-probability tables: 36, 32, 28, 24 and 20 °F.
        """
        return celsius(_KILLED_AT_F[self.value])

    @property
    def is_tender(self) -> bool:
        """Whether frost, not the calendar, sets its first planting day."""
        return self in (Hardiness.VERY_TENDER, Hardiness.TENDER)


_KILLED_AT_F = {"very tender": 36, "tender": 32, "half-hardy": 28, "hardy": 24, "hardiest": 20}


class AfterFrost(Enum):
    """What becomes of a wave on the day its killing temperature comes."""

    ENDS = "ends"
    STANDS = "stands"
    BRING_IN = "bring in"


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
    help
        Whom to call when something goes wrong, printed beside cautions.
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
    help: str | None = None


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
class Heat:
    """What a crop's growth in warmth is counted with.

    Parameters
    ----------
    base, upper
        Temperatures below and above which a day counts no less and no more. [°C]
    units
        Degree-days from planting to first pick, with `method`; None where unknown. [°C·d]
    method
        ``clip``, ``average`` or ``sine``.
    """

    base: float | None = None
    upper: float | None = None
    units: DayRange | None = None
    method: str | None = None


@value
class Crop:
    """A crop or one variety of it, every number it needs filled in.

    Parameters
    ----------
    name
        The name it goes by in the file.
    kind
        The built-in crop it is, or is like; its own name where it is wholly the grower's.
    family
        As growers say it.
    weather, raised, counted_from, hardiness, after_frost
        See the enumerations.
    days_to_harvest
        From `counted_from` to the first pick. [days]
    picking_days
        How long a wave bears well enough to keep; 1 for a crop cut once. [days]
    variety
        Name of the variety, or None.
    nursery_days
        Sowing in trays to planting out: ready – too old. [days]
    hardening_days
        Last part of the nursery days. [days]
    pick_gap
        Days from one pick to the next. [days]
    pick_when
        What ripe looks like.
    worthwhile_days
        Days it must be picked for to be worth it. [days]
    holding_days
        How long a crop cut once stands without spoiling, in warm and in cool weather. [days]
    days_before_frost
        Days before the average last frost it may be planted; None for tender crops. [days]
    days_after_frost
        Days to wait after the last frost, for tender crops. [days]
    up_days
        Days from sowing to the seedlings showing. [days]
    flower_to_pick
        Days from open flowers to the first pick; None where nobody asks. [days]
    needs_bees
        Whether bees must reach the flowers.
    soil_min, soil_max
        Soil temperatures between which seed comes up. [°C]
    warm_limit
        15-day mean above which a cool-season crop is spoilt. [°C]
    long_day
        Day length above which it bolts. [h]
    rated_at
        Daily mean at which the packet's days are right. [°C]
    heat
        Base and upper temperature and heat units.
    in_row, between_rows
        Spacing. [µm]
    sown_as
        What is put into the ground or the trays, such as seeds or cloves.
    seeds_per_plant
        Seeds sown for each plant wanted. [1]
    germination
        Share of seeds that come up, 0–1.
    yield_per_plant
        [kg]
    rotation
        Years until the family may stand in the same bed again. [years]
    overwinters
        Whether frost does not end a wave planted after midsummer.
    ready
        First and last day of the first pick of an over-wintering wave.
    origins
        Where each number comes from, by field name.
    """

    name: str
    kind: str
    family: str
    weather: Weather
    raised: Raised
    counted_from: CountedFrom
    hardiness: Hardiness
    after_frost: AfterFrost
    days_to_harvest: DayRange
    picking_days: int
    in_row: int
    between_rows: int
    worthwhile_days: int
    rotation: int
    variety: str | None = None
    nursery_days: DayRange | None = None
    hardening_days: int = 0
    pick_gap: int = 1
    pick_when: str | None = None
    holding_days: DayRange | None = None
    days_before_frost: int | None = None
    days_after_frost: int = 0
    up_days: int = 10
    flower_to_pick: int | None = None
    needs_bees: bool = False
    soil_min: float | None = None
    soil_max: float | None = None
    warm_limit: float | None = None
    long_day: float | None = None
    rated_at: float | None = None
    heat: Heat = Heat()
    sown_as: str = "seeds"
    seeds_per_plant: float = 1.0
    germination: float = 1.0
    yield_per_plant: float | None = None
    overwinters: bool = False
    ready: tuple[MonthDay, MonthDay] | None = None
    origins: Mapping[str, Origin] = field(default_factory=lambda: MappingProxyType({}))

    def origin(self, name: str) -> Origin:
        """Where a number comes from, by field name; sowtide's own default if nobody said."""
        return self.origins.get(name, OURS)

    @property
    def cut_once(self) -> bool:
        """Whether the whole wave is harvested at one time."""
        return self.picking_days == 1

    @property
    def area_per_plant(self) -> int:
        """Bed area of one plant. [µm²]"""
        return self.in_row * self.between_rows

    @property
    def title(self) -> str:
        """Crop and variety, as a grower would say them."""
        if self.variety is None or self.variety.casefold() == self.name.casefold():
            return self.name
        return f"{self.name} '{self.variety}'"


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
    until
        Last possible planting day, or None for the last safe one.
    count
        Most waves, or None.
    beds
        Beds it may go to, in order; all of them if empty.
    beds_named
        Whether the grower named the beds.
    split
        Whether a wave may be shared out over several beds.
    span
        Where it is written.
    start_origin, every_origin, until_origin, count_origin, plants_origin
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
    start_origin: Origin = OURS
    every_origin: Origin = OURS
    until_origin: Origin = OURS
    count_origin: Origin = OURS
    plants_origin: Origin = OURS


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
    """

    label: str
    year: GrowingYear
    site: Site
    beds: tuple[Bed, ...]
    crops: tuple[Crop, ...]
    entries: tuple[Entry, ...]
