"""The questions that the rest of sowtide asks of a place's climate, whatever it rests on.

A climate made of average dates, of a frost table, or of recorded years answers the same questions;
nothing outside this package asks which kind it has.
"""

from __future__ import annotations

from datetime import date
from enum import Enum
from typing import TYPE_CHECKING, Protocol

from sowtide.climate.basis import Basis, SoFar
from sowtide.climate.half import Half
from sowtide.climate.soil import Soil
from sowtide.days import DateSpan, DayRange
from sowtide.garden.crop import AfterFrost
from sowtide.reasons import Dated, Origin
from sowtide.values import value

if TYPE_CHECKING:  # only where temperatures are known
    from sowtide.climate.frost_years import FrostYears
    from sowtide.climate.fruit_set import FruitGap
    from sowtide.climate.hot_odds import HotOdds
    from sowtide.climate.reached import Reached
    from sowtide.climate.winter import Winter


class EndedBy(Enum):
    """What ends a wave."""

    FROST = "frost"
    HEAT = "heat"
    SHORT_DAYS = "short days"
    TOO_COOL = "too little warmth"
    PICKED_OUT = "picked out"
    PULLED = "pulled"
    NEXT_WAVE = "next wave"


_HALF = 0.5

BRING_IN_DAYS = 14
"""Days after the frost on which a crop that is brought in must be off the ground. [days]"""


@value
class Warmth:
    """The warmth that a crop needs from planting to first pick.

    Parameters
    ----------
    base, upper
        Where warmth begins to count, and where it counts no more. [°C]
    method
        ``clip``, ``average`` or ``sine``.
    low, high
        What the quickest and the slowest need. [°C·d]
    parts
        Into how many equally likely parts that range is taken. [1]
    least
        Days that it takes at the least, however warm it is. [days]
    """

    base: float
    upper: float | None
    method: str
    low: float
    high: float
    parts: int
    least: int


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
        Whether its first pick falls into the hot weeks.
    """

    odds: float
    margin: int | None
    heat_margin: int | None
    too_hot: bool


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
    """

    first_pick: tuple[Dated, Dated]
    end: Dated | None
    ended_by: EndedBy | None
    chances: Chances
    expected_picking_days: float
    odds_of_nothing: float
    years: int | None = None


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


class Climate(Protocol):
    """A place's climate."""

    @property
    def basis(self) -> Basis:
        """What the answers rest on."""

    @property
    def hot_weeks(self) -> DateSpan | None:
        """The weeks too hot for cool-season crops, or None where none are known."""

    @property
    def hot_odds(self) -> HotOdds | None:
        """How sure the hot weeks are, or None where no recorded years tell of them."""

    @property
    def so_far(self) -> SoFar | None:
        """How far the season has come, or None where its own temperatures are not known."""

    def soil(self, day: date) -> Soil | None:
        """Return what the soil is likely to be on a day, or None where nothing is known of it."""

    def mean_over(self, first: date, days: int) -> float | None:
        """Return the mean temperature of some days, averaged over the years. [°C]

        None where no temperatures are known.

        Parameters
        ----------
        first
            The first of the days.
        days
            How many. [days]
        """

    def reached(self, warmth: Warmth, start: date) -> Reached | None:
        """Return when the warmth of `low` has gathered, counted from a day of the growing year.

        None where no temperatures are known.
        """

    def fruit_gap(
        self, flowers: DateSpan, *, high: float | None, low: float | None
    ) -> FruitGap | None:
        """Return when heat lets flowers set little fruit, among the days on which they are open.

        None where it never does, or no temperatures are known.

        Parameters
        ----------
        flowers
            The days.
        high, low
            Means of a week's maxima and minima above which they set little; None for none. [°C]
        """

    def warm_from(self, *, soil: float | None, nights: float | None) -> Dated | None:
        """Return the first day with soil and nights warm enough.

        None where they always are or no temperatures are known.

        Parameters
        ----------
        soil
            The coldest soil that will do, or None. [°C]
        nights
            The coldest 11-day mean of the minima that will do, or None. [°C]
        """

    def frost_day(self, half: Half, *, at: float, share: float) -> Dated | None:
        """Return the day with that share of years beyond it, to the nearest day.

        Parameters
        ----------
        half
            Spring: the share of years with a frost later than the day. Autumn: with one earlier.
        at
            Temperature of the frost. [°C]
        share
            Share of years, between 0 and 1.

        Returns
        -------
        Dated or None
            None where the place has no such frost.
        """

    def frost_odds(self, half: Half, day: date, *, at: float) -> float:
        """Return the share of years with a frost later (spring) or earlier (autumn) than a day."""

    def frost_years(self, at: float) -> FrostYears | None:
        """Return the frosts of each recorded year at a temperature [°C]; None without a record."""

    def safe_from_frost(self, *, at: float, share: float) -> Dated | None:
        """Return the first day after which frost comes in no more than that share of years.

        None where the place has no such frost in spring.
        """

    def frost_end(self, need: Need) -> Dated | None:
        """Return the day frost ends a crop in half of the years, or None where no frost does.

        For a crop that stands it is the day on which the ground freezes; where no temperatures are
        known, the day that stops its growth: what is ripe by then stands on.
        """

    def outlook(self, planted: Dated, need: Need) -> Outlook:
        """Return what becomes of a wave planted on a day."""

    def years_of(self, planted: date, need: Need) -> tuple[YearTold, ...]:
        """Return what each recorded year does to a wave, in order; nothing without a record.

        Years that are left out of the wave's odds are left out here.
        """

    def left(self, planted: date, need: Need, since: date) -> Left:
        """Return what a wave that stands on a day still has before it from then on."""

    def winter(self, planted: Dated, need: Need) -> Winter | None:
        """Return how a wave gets on that stands over the winter; None without temperatures."""

    def chances(self, planted: date, need: Need) -> Chances:
        """Return the chances of `outlook` alone, for a planting day."""

    def stretches(self, need: Need, days: DateSpan) -> tuple[DateSpan, ...]:
        """Split planting days, in order, into runs along which the chances only fall.

        Within a run no later day has better odds or margins than an earlier one, nor is it too
        hot on some days and not on others. A climate that cannot promise it gives single days.
        """
