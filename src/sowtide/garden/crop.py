"""A crop as a value: every figure that its waves are planned with, and where each comes from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from enum import Enum
from types import MappingProxyType

from sowtide.days import DayRange, MonthDay
from sowtide.garden.by_temperature import ByTemperature
from sowtide.garden.planting_times import PlantingTime, ReadyTime, SeedTime
from sowtide.reasons import OURS, Origin
from sowtide.units import celsius
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


class Sort(Enum):
    """Which of a crop's varieties are grown, where its days to harvest span all of them."""

    EARLY = "early"
    MAIN = "main"
    LATE = "late"


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


class HeatMethod(Enum):
    """How the warmth of a day is counted from its two temperatures."""

    CLIP = "clip"
    """Both brought inside base and upper, then averaged.

    McMaster and Wilhelm's (1997) second method, as corn's 86/50 method has it, with an upper limit.
    """
    AVERAGE = "average"
    """The mean, brought inside base and upper.

    McMaster and Wilhelm's (1997) first method, with an upper limit for the mean.
    """
    SINE = "sine"
    """The area between base and upper under a sine from the minimum to the maximum.

    The single sine of Baskerville and Emin (Ecology 50:514–517, 1969) with the horizontal cut-off:
    what lies over base less what lies over upper.
    """


@value
class Heat:
    """What a crop's growth in warmth is counted with."""

    base: float | None = None
    upper: float | None = None
    """Temperatures below and above which a day counts no less and no more. [°C]"""
    units: DayRange | None = None
    """Degree-days from planting to first pick, with `method`; None where unknown. [°C·d]"""
    method: HeatMethod | None = None
    """How a day of it is counted; None where no units are known."""


@value
class Yield:
    """What one plant gives over its whole picking: the least and the most to reckon with."""

    low: float
    high: float
    """How much. [kg], or [1] where it is counted"""
    unit: str
    """``kg``, or what is counted, in the plural: ``heads``, ``ears``, ``bunches``."""

    @property
    def is_weight(self) -> bool:
        """Whether it is weighed, not counted."""
        return self.unit == "kg"

    @property
    def middle(self) -> float:
        """Halfway between the least and the most. [kg or 1]"""
        return (self.low + self.high) / 2


@value
class Learned:
    """What a grower's own pickings taught of a crop's days to harvest."""

    factor: float
    """Its days here over the packet's. [1]"""
    pickings: int
    """How many pickings that rests on. [1]"""
    packet: DayRange
    """The packet's days. [days]"""


@value
class Crop:
    """A crop or one variety of it, every number it needs filled in."""

    name: str
    """The name it goes by in the file."""
    kind: str
    """The built-in crop it is, or is like; its own name where it is wholly the grower's."""
    family: str
    """As growers say it."""
    weather: Weather
    raised: Raised
    counted_from: CountedFrom
    hardiness: Hardiness
    after_frost: AfterFrost
    """Each as its enumeration says."""
    days_to_harvest: DayRange
    """From `counted_from` to the first pick. [days]"""
    picking_days: int
    """How long a wave bears well enough to keep; 1 for a crop cut once. [days]"""
    in_row: int
    between_rows: int
    """Spacing. [µm]"""
    worthwhile_days: int
    """Days it must be picked for to be worth it. [days]"""
    rotation: int
    """Years until the family may stand in the same bed again. [years]"""
    killed_at: float | None = None
    """The daily minimum that the part picked is lost at once cold has hardened it; None where that
    of its hardiness is all that is known. [°C]"""
    flowers_killed_at: float | None = None
    """The daily minimum that its flowers and pods are lost at, where young plants stand more; None
    where frost does the same to both. [°C]"""
    sorts: bool = False
    """Whether its days to harvest span early and late varieties."""
    sort: Sort = Sort.MAIN
    """Which of them are grown."""
    days_by_sort: tuple[tuple[Sort, DayRange], ...] = ()
    """Days to harvest of single sorts, where they are published. [days]"""
    variety: str | None = None
    """Name of the variety, or None."""
    nursery_days: DayRange | None = None
    """Sowing in trays to planting out: ready – too old. [days]"""
    nursery_share: float = 1.0
    """Of days to harvest that are counted from sowing, the share of the nursery days that a plant
    is ahead of one sown direct on the day it is planted out. [0–1]"""
    hardening_days: int = 0
    """Last part of the nursery days. [days]"""
    pick_gap: int = 1
    """Days from one pick to the next. [days]"""
    pick_when: str | None = None
    """What ripe looks like."""
    holding_days: DayRange | None = None
    """How long a crop cut once stands without spoiling, in warm and in cool weather. [days]"""
    days_before_frost: int | None = None
    """Days before the average last frost it may be planted; None for tender crops. [days]"""
    days_after_frost: int = 0
    """Days to wait after the last frost, for tender crops. [days]"""
    planted_in: tuple[PlantingTime, ...] = ()
    """The times of the year in which it is planted; none where frost and warmth alone tell."""
    nights_min: float | None = None
    """Mean minimum of 11 days that it waits for; None where it does not. [°C]"""
    up_days: int = 10
    """Days from sowing to the seedlings showing. [days]"""
    emergence: ByTemperature | None = None
    """The same by soil temperature, where it was measured. [days]"""
    germinates: ByTemperature | None = None
    """Seeds of a hundred that make a sound seedling, by soil temperature. [1]"""
    root: bool = False
    """Whether its root is eaten, which heat spoils as it grows."""
    flower_to_pick: int | None = None
    """Days from open flowers to the first pick; None where nobody asks. [days]"""
    needs_bees: bool = False
    """Whether bees must reach the flowers."""
    soil_min: float | None = None
    """Soil temperature under which no seed comes up. [°C]"""
    soil_good: float | None = None
    """Soil temperature from which on it comes up well; None where `soil_min` is that. [°C]"""
    soil_max: float | None = None
    """Soil temperature over which no seed comes up. [°C]"""
    warm_limit: float | None = None
    """15-day mean above which a cool-season crop is spoilt. [°C]"""
    long_day: float | None = None
    """Day length above which it bolts. [h]"""
    chill_limit: float | None = None
    chill_days: int | None = None
    """Daily mean below which young plants are chilled and may run to seed, and about how many such
    days it takes. [°C, days]"""
    fruit_set_high: float | None = None
    fruit_set_low: float | None = None
    """Means of a week's maxima and minima above which its flowers set little fruit. [°C]"""
    rated_at: float | None = None
    """Daily mean at which the packet's days are right. [°C]"""
    curve_base: float | None = None
    """Where its growth begins. [°C]"""
    curve_best: tuple[float, float] | None = None
    """Temperatures between which it grows fastest. [°C]"""
    curve_ceiling: float | None = None
    """Where its growth stops again. [°C]"""
    light: float = 0.0
    """How much want of light in autumn holds its growth back: the power of its share. [1]"""
    heat: Heat = Heat()
    """Base and upper temperature and heat units."""
    sown_as: str = "seeds"
    """What is put into the ground or the trays, such as seeds or cloves."""
    seeds_per_plant: float = 1.0
    """Seeds sown for each plant wanted. [1]"""
    germination: float = 1.0
    """Share of seeds that come up, 0–1."""
    yield_per_plant: Yield | None = None
    """What a plant gives, in the grower's own words; None where the built-in yields stand."""
    overwinters: bool = False
    """Whether frost does not end a wave planted after midsummer."""
    ready: tuple[MonthDay, MonthDay] | None = None
    """First and last day of the first pick of an over-wintering wave."""
    ready_about: ReadyTime | None = None
    """When one is ready that needs its winter; None for others, and where `ready` is written."""
    runs_to_seed: SeedTime | None = None
    """When one that has stood the winter is over; None for a crop that frost or heat ends."""
    origins: Mapping[str, Origin] = field(default_factory=lambda: MappingProxyType({}))
    """Where each number comes from, by field name."""
    learned: Learned | None = None
    """What pickings noted in the journal made of `days_to_harvest`; None for nothing."""

    def origin(self, name: str) -> Origin:
        """Where a number comes from, by field name; sowtide's own default if nobody said."""
        return self.origins.get(name, OURS)

    @property
    def killing_temperature(self) -> float:
        """The daily minimum, at or below which the part picked is lost. [°C]"""
        plants, flowers = self.plants_killed_at, self.flowers_killed_at
        return plants if flowers is None else max(plants, flowers)

    @property
    def plants_killed_at(self) -> float:
        """The daily minimum, at or below which it is lost before it flowers, too. [°C]"""
        return self.hardiness.killed_at if self.killed_at is None else self.killed_at

    def lost_at(self, *, in_leaf: bool) -> float:
        """The daily minimum, at or below which a night ends it, in leaf or from its flowers on."""
        return self.plants_killed_at if in_leaf else self.killing_temperature

    @property
    def pulled_again(self) -> bool:
        """Whether it stands in frozen ground until it thaws: it is known what kills it there."""
        return self.after_frost is AfterFrost.STANDS and self.killed_at is not None

    @property
    def raised_unless_said(self) -> Raised:
        """How it is raised where a wave does not say: what may be either is sown direct."""
        return Raised.DIRECT if self.raised is Raised.EITHER else self.raised

    @property
    def spans_sorts(self) -> bool:
        """Whether early, main and late sorts of it are told apart."""
        return self.sorts or bool(self.days_by_sort)

    @property
    def days_of_sort(self) -> DayRange:
        """Days to harvest of the sort that is grown. [days]

        Those published for it; else a third of those that span all sorts. Days that the grower
        wrote stand as they are.
        """
        days = self.days_to_harvest
        if self.origin("days_to_harvest").file is not None:
            return days
        for sort, published in self.days_by_sort:
            if sort is self.sort:
                return published
        if not self.sorts:
            return days
        part = list(Sort).index(self.sort)
        low, high = (days.low + round((days.high - days.low) * end / 3) for end in (part, part + 1))
        return DayRange(low, high)

    def of_sort(self, sort: Sort) -> Crop | None:
        """Return the crop as another sort than is grown as a rule; None where it is of one.

        It goes by a name of its own, such as ``sweet corn (early)``.
        """
        if not self.spans_sorts or self.origin("days_to_harvest").file is not None:
            return None
        if sort is self.sort:
            return self
        return replace(self, name=f"{self.sortless} ({sort.value})", sort=sort)

    @property
    def sortless(self) -> str:
        """Its name without the sort that is grown, such as ``sweet corn``."""
        return self.name.removesuffix(f" ({self.sort.value})")

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
