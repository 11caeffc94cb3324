"""What a place's climate answers, as values: what a wave needs, and what becomes of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from enum import Enum

from sowtide.days import DayRange
from sowtide.garden.crop import AfterFrost, HeatMethod
from sowtide.reasons import Dated, Origin
from sowtide.values import value

GROWN_ENOUGH = 0.75
"""Share of its growth with which a wave may go into the short days. [0–1]"""


class EndedBy(Enum):
    """What ends a wave."""

    FROST = "frost"
    HEAT = "heat"
    SEED = "going to seed"
    TOO_COOL = "too little warmth"
    PICKED_OUT = "picked out"
    PULLED = "pulled"
    LOST = "lost"


_HALF = 0.5

BRING_IN_DAYS = 14
"""Days after the frost on which a crop that is brought in must be off the ground. [days]"""


@value
class Response:
    """How a crop's growth answers temperature."""

    base: float
    """Where growth begins. [°C]"""
    best_from: float
    best_to: float
    """Between them it is fastest. [°C]"""
    ceiling: float
    """Where it stops again. [°C]"""
    rated: float
    """Daily mean at which the days to harvest are right. [°C]"""
    light: float
    """How much want of light holds it back: the power of the light's share; 0 for not at all."""


@value
class Warmth:
    """The warmth that a crop needs from planting to first pick."""

    base: float
    upper: float | None
    """Where warmth begins to count, and where it counts no more. [°C]"""
    method: HeatMethod
    """How a day of it is counted; of no account where `response` says so."""
    low: float
    high: float
    """What the quickest and the slowest need. [°C·d], by `response` [days]"""
    parts: int
    """Into how many equally likely parts that range is taken. [1]"""
    least: int
    """Days that it takes at the least, however warm it is. [days]"""
    response: Response | None = None
    """How its growth answers temperature, where it states no heat units."""

    @property
    def in_full_light(self) -> Warmth:
        """The same for a crop that no want of light holds back."""
        response = self.response
        if response is None or not response.light:
            return self
        return replace(self, response=replace(response, light=0.0))


@value
class FruitSet:
    """The heat in which a crop's flowers drop."""

    high: float | None
    low: float | None
    """Means of a week's maxima and minima above which they set no fruit; None for none. [°C]"""
    ripens: int
    """Days from a flower to the pick of its fruit. [days]"""


@value
class Green:
    """What a crop stands before it flowers, where its flowers stand less."""

    killed_at: float
    """The minimum at the site's own dates that kills the young plant. [°C]"""
    ripens: int
    """Days from a flower to the pick of its fruit. [days]"""


@value
class Need:
    """What a wave needs of the place, apart from its planting day."""

    days: DayRange
    """Days in the bed from planting to first pick, in good weather. [days]"""
    days_text: str
    """What they are, in a grower's words."""
    days_origin: Origin
    """Where they come from."""
    cool: bool
    """Whether it is a cool-season crop."""
    picking: int
    """How long it can be picked; 1 for a crop cut once. [days]"""
    worthwhile: int
    """How many of those days make it worth growing. [days]"""
    killed_at: float
    """The minimum at the site's own dates that ends it, cover and cold corner counted. [°C]"""
    after_frost: AfterFrost
    """What that frost does to it."""
    heat_ends: bool
    """Whether hot weeks spoil it."""
    holds_in_heat: int
    """How long a crop cut once keeps in the bed when it is ripe in the heat. [days]"""
    warmth: Warmth | None
    """The same days as warmth, for a place whose temperatures are known."""
    warm_limit: float | None
    """The mean of 15 days above which heat spoils it, or None. [°C]"""
    minds_written: bool = True
    """Whether weeks written as too hot spoil it; not where it stands more heat than most."""
    shows: int | None = None
    """Days from planting from which on a frost of spring that kills it does so; None for a crop
    that is not tender. [days]"""
    fruit_set: FruitSet | None = None
    """The heat in which its flowers drop; None for a crop that is not known to mind."""
    green: Green | None = None
    """The frost that it stands until it flowers, after which `killed_at` ends it; None where that
    always does."""
    thaws: bool = False
    """Whether what is ripe when the ground freezes is picked again when it thaws, until it is
    killed at `killed_at`."""
    seeds: Dated | None = None
    """The day of the next growing year on which it runs to seed, planted in the one planned; None
    for a crop of which frost and heat tell all."""

    @property
    def stands(self) -> bool:
        """Whether it stands on after the frost, as far as it is ripe by then."""
        return self.after_frost is AfterFrost.STANDS

    @property
    def after_frost_days(self) -> int:
        """Days from the frost to the end: those in which it is brought in. [days]"""
        return BRING_IN_DAYS if self.after_frost is AfterFrost.BRING_IN else 0

    @property
    def before_frost(self) -> int:
        """Days from its first pick that must come before the frost to make it worth growing."""
        return 1 if self.stands else self.worthwhile


@value
class Stretch:
    """Planting days along which the chances only fall."""

    days: range
    """The days, as ordinals."""
    rises: bool = False
    """Whether frosts of spring spare more of a later planting: what they leave of it falls."""


@value
class Chances:
    """How a wave fares over the years, without its dates."""

    odds: float
    """Share of years in which it can be picked for its worthwhile days. [0–1]"""
    margin: int | None
    """Days from the last worthwhile pick of the late end to the average frost at its own killing
    temperature; None where no frost ends it. [days]"""
    heat_margin: int | None
    """Days from there to the hot weeks; None where they do not end it. [days]"""
    too_hot: bool
    """Whether its first pick falls into the hot weeks, or heat drops the flowers of most of it."""
    by_frost_alone: bool = False
    """Whether no temperatures tell if it gets ripe in time."""
    spring_loss: float = 0.0
    """Share of years in which a frost of spring kills it, counted in the odds. [0–1]"""


@value
class Outlook:
    """What the place does to one wave."""

    first_pick: tuple[Dated, Dated]
    """Early and late day of the first pick."""
    end: Dated | None
    """The day that ends it in half of the years, counted; nothing is picked on it. None where
    nothing ends it."""
    ended_by: EndedBy | None
    """What ends it on that day: frost or heat; None with `end`."""
    chances: Chances
    """Its odds and margins."""
    expected_picking_days: float
    """Mean number of days it can be picked. [days]"""
    odds_of_nothing: float
    """Share of years in which it cannot be picked at all. [0–1]"""
    waited: int
    """Days that the late first pick waits for flowers that set fruit: they come off its picking
    days. [days]"""
    years: int | None = None
    """How many recorded years these are shares of; None where they come from a curve. [years]"""


@value
class Left:
    """What a wave that stands on a day still has before it from then on."""

    days: float
    """Mean number of days on which it can be picked from then on. [days]"""
    odds: float
    """Share of years in which there is any such day. [0–1]"""
    years: int | None
    """How many recorded years these are of; None where they come from a curve. [years]"""


@value
class YearTold:
    """What one recorded year did to one wave, on its own days."""

    season: int
    """The growing year."""
    first_pick: tuple[date | None, date | None]
    """Early and late day of the first pick; either is None where it was not ripe before the end."""
    end: date | None
    """The day that ended it, or would have if it was not picked out before; None without any."""
    ended_by: EndedBy | None
    """What ended it: frost or heat; None with `end`."""
    picking_days: float
    """How long it could be picked, as the mean of the range of days to harvest. [days]"""
    worth: float
    """Share of that range with the worthwhile days. [0–1]"""

    @property
    def is_poor(self) -> bool:
        """Whether less than half of the range has the worthwhile days."""
        return self.worth < _HALF


@value
class Winter:
    """How a wave that stands over the winter gets on, in the middle of the years."""

    first_pick: tuple[Dated, Dated] | None
    """Early and late day of the first pick; None where it is too small when the short days begin,
    or not ready by the midsummer after."""
    short_from: date | None
    """The first of the short days, or its planting day where that is later; None without any."""
    grown: float
    """How far it is grown by then. [0–1]"""
    grown_enough: float
    """Share of the years in which it is grown far enough by then. [0–1]"""
    years: int | None
    """How many recorded years these are of; None for one average year. [years]"""

    def counted_anew(self, begin: Dated, onto: Dated) -> Winter:
        """Return the same winter, counted on from another way to the planting day."""
        first = self.first_pick
        if first is None:
            return self
        anew = first[0].counted_anew(begin, onto), first[1].counted_anew(begin, onto)
        return replace(self, first_pick=anew)

    @property
    def enough(self) -> bool:
        """Whether it is grown far enough when the short days begin, in the middle of the years."""
        return self.grown >= GROWN_ENOUGH
