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
    TOO_COOL = "too little warmth"
    PICKED_OUT = "picked out"
    PULLED = "pulled"
    LOST = "lost"


_HALF = 0.5

BRING_IN_DAYS = 14
"""Days after the frost on which a crop that is brought in must be off the ground. [days]"""


@value
class Response:
    """How a crop's growth answers temperature.

    Parameters
    ----------
    base
        Where growth begins. [°C]
    best_from, best_to
        Between them it is fastest. [°C]
    ceiling
        Where it stops again. [°C]
    rated
        Daily mean at which the days to harvest are right. [°C]
    light
        How much want of light holds it back: the power of the light's share; 0 for not at all.
    """

    base: float
    best_from: float
    best_to: float
    ceiling: float
    rated: float
    light: float = 0.0


@value
class Warmth:
    """The warmth that a crop needs from planting to first pick.

    Parameters
    ----------
    base, upper
        Where warmth begins to count, and where it counts no more. [°C]
    method
        How a day of it is counted; of no account where `response` says so.
    low, high
        What the quickest and the slowest need. [°C·d], by `response` [days]
    parts
        Into how many equally likely parts that range is taken. [1]
    least
        Days that it takes at the least, however warm it is. [days]
    response
        How its growth answers temperature, where it states no heat units.
    """

    base: float
    upper: float | None
    method: HeatMethod
    low: float
    high: float
    parts: int
    least: int
    response: Response | None = None

    @property
    def in_full_light(self) -> Warmth:
        """The same for a crop that no want of light holds back."""
        response = self.response
        if response is None or not response.light:
            return self
        return replace(self, response=replace(response, light=0.0))


@value
class FruitSet:
    """The heat in which a crop's flowers drop.

    Parameters
    ----------
    high, low
        Means of a week's maxima and minima above which they set no fruit; None for none. [°C]
    ripens
        Days from a flower to the pick of its fruit. [days]
    """

    high: float | None
    low: float | None
    ripens: int


@value
class Need:
    """What a wave needs of the place, apart from its planting day.

    Parameters
    ----------
    days
        Days in the bed from planting to first pick, in good weather. [days]
    days_text
        What they are, in a grower's words.
    days_origin
        Where they come from.
    cool
        Whether it is a cool-season crop.
    picking
        How long it can be picked; 1 for a crop cut once. [days]
    worthwhile
        How many of those days make it worth growing. [days]
    killed_at
        The minimum at the site's own dates that ends it, cover and cold corner counted. [°C]
    after_frost
        What that frost does to it.
    heat_ends
        Whether hot weeks spoil it.
    holds_in_heat
        How long a crop cut once keeps in the bed when it is ripe in the heat. [days]
    warmth
        The same days as warmth, for a place whose temperatures are known.
    warm_limit
        The mean of 15 days above which heat spoils it, or None. [°C]
    shows
        Days from planting from which on a frost of spring that kills it does so; None for a crop
        that is not tender. [days]
    fruit_set
        The heat in which its flowers drop; None for a crop that is not known to mind.
    """

    days: DayRange
    days_text: str
    days_origin: Origin
    cool: bool
    picking: int
    worthwhile: int
    killed_at: float
    after_frost: AfterFrost
    heat_ends: bool
    holds_in_heat: int = 0
    warmth: Warmth | None = None
    warm_limit: float | None = None
    shows: int | None = None
    fruit_set: FruitSet | None = None

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
class Chances:
    """How a wave fares over the years, without its dates.

    Parameters
    ----------
    odds
        Share of years in which it can be picked for its worthwhile days. [0–1]
    margin
        Days from the last worthwhile pick of the late end to the average frost at its own killing
        temperature; None where no frost ends it. [days]
    heat_margin
        Days from there to the hot weeks; None where they do not end it. [days]
    too_hot
        Whether its first pick falls into the hot weeks, or heat drops the flowers of most of it.
    by_frost_alone
        Whether no temperatures tell if it gets ripe in time.
    spring_loss
        Share of years in which a frost of spring kills it, counted in the odds. [0–1]
    """

    odds: float
    margin: int | None
    heat_margin: int | None
    too_hot: bool
    by_frost_alone: bool = False
    spring_loss: float = 0.0


@value
class Outlook:
    """What the place does to one wave.

    Parameters
    ----------
    first_pick
        Early and late day of the first pick.
    end
        The day that ends it in half of the years, counted; nothing is picked on it. None where
        nothing ends it.
    ended_by
        What ends it on that day: frost or heat; None with `end`.
    chances
        Its odds and margins.
    expected_picking_days
        Mean number of days it can be picked. [days]
    odds_of_nothing
        Share of years in which it cannot be picked at all. [0–1]
    years
        How many recorded years these are shares of; None where they come from a curve. [years]
    waited
        Days that the late first pick waits for flowers that set fruit: they come off its picking
        days. [days]
    """

    first_pick: tuple[Dated, Dated]
    end: Dated | None
    ended_by: EndedBy | None
    chances: Chances
    expected_picking_days: float
    odds_of_nothing: float
    years: int | None = None
    waited: int = 0


@value
class Left:
    """What a wave that stands on a day still has before it from then on.

    Parameters
    ----------
    days
        Mean number of days on which it can be picked from then on. [days]
    odds
        Share of years in which there is any such day. [0–1]
    years
        How many recorded years these are of; None where they come from a curve. [years]
    """

    days: float
    odds: float
    years: int | None


@value
class YearTold:
    """What one recorded year did to one wave, on its own days.

    Parameters
    ----------
    season
        The growing year.
    first_pick
        Early and late day of the first pick; either is None where it was not ripe before the end.
    end
        The day that ended it, or would have if it was not picked out before; None without any.
    ended_by
        What ended it: frost or heat; None with `end`.
    picking_days
        How long it could be picked, as the mean of the range of days to harvest. [days]
    worth
        Share of that range with the worthwhile days. [0–1]
    """

    season: int
    first_pick: tuple[date | None, date | None]
    end: date | None
    ended_by: EndedBy | None
    picking_days: float
    worth: float

    @property
    def is_poor(self) -> bool:
        """Whether less than half of the range has the worthwhile days."""
        return self.worth < _HALF


@value
class Winter:
    """How a wave that stands over the winter gets on, in the middle of the years.

    Parameters
    ----------
    first_pick
        Early and late day of the first pick; None where it is too small when the short days begin,
        or not ready by the midsummer after.
    short_from
        The first of the short days, or its planting day where that is later; None without any.
    grown
        How far it is grown by then. [0–1]
    grown_enough
        Share of the years in which it is grown far enough by then. [0–1]
    years
        How many recorded years these are of; None for one average year. [years]
    """

    first_pick: tuple[Dated, Dated] | None
    short_from: date | None
    grown: float
    grown_enough: float
    years: int | None

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
