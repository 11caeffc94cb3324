"""The questions that the rest of sowtide asks of a place's climate, whatever it rests on.

They come in three groups: when it freezes, what the days are like, and what becomes of a wave. A
climate made of average dates, of a frost table, of normals or of recorded years answers the same
ones; nothing outside this package asks which kind it has, except to say it.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Protocol

from sowtide.climate.answers import (
    Chances,
    Left,
    Need,
    Outlook,
    Stretch,
    Warmth,
    Winter,
    YearTold,
)
from sowtide.climate.basis import Basis, SoFar
from sowtide.climate.frost import PlaceFrosts
from sowtide.climate.soil import Soil
from sowtide.days import DateSpan
from sowtide.reasons import Dated
from sowtide.values import value

if TYPE_CHECKING:  # only where temperatures are known
    from sowtide.climate.fate import Borne
    from sowtide.climate.warmth import FruitGap, HotOdds, Reached


class PlaceWeather(Protocol):
    """What the days of the growing year are like, as far as anybody knows."""

    @property
    def knows_heat(self) -> bool:
        """Whether it is known which weeks are too hot, or that none are."""

    @property
    def knows_ground(self) -> bool:
        """Whether it is known when the ground freezes."""

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

    def usual_high(self, day: date) -> float | None:
        """Return the mean maximum of a day and of the days around it. [°C]

        None where no maxima are known.
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


class Fates(Protocol):
    """What becomes of a wave."""

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

    def borne(self, planted: date, need: Need) -> tuple[Borne, ...]:
        """Return when a wave bears: in each recorded year, or in years that stand for a curve.

        The years are the same for all waves, but for recorded ones that are left out of a wave's
        odds.
        """

    def left(self, planted: date, need: Need, since: date) -> Left:
        """Return what a wave that stands on a day still has before it from then on."""

    def winter(self, planted: Dated, need: Need) -> Winter | None:
        """Return how a wave gets on that stands over the winter; None without temperatures."""

    def grown_enough(self, planted: date, need: Need, share: float) -> float | None:
        """Return the share of years in which it is grown far enough when the short days begin.

        None without temperatures, and where no day is short.

        Parameters
        ----------
        planted, need
            What is planted, and when.
        share
            How far is far enough, 1 for wholly. [0–1]
        """

    def chances(self, planted: date, need: Need) -> Chances:
        """Return the chances of `outlook` alone, for a planting day."""

    def stretches(self, need: Need, days: DateSpan) -> tuple[Stretch, ...]:
        """Split planting days, in order, into runs along which the chances only fall.

        Within a run no later day has better odds or margins than an earlier one, but for frosts of
        spring where it rises, nor is it too hot on some days and not on others. A climate that
        cannot promise it gives single days.
        """

    def least(self, need: Need, days: range) -> Chances:
        """Return chances that no day of such a stretch falls below; days are ordinals."""


@value
class Climate:
    """A place's climate."""

    basis: Basis
    """What the answers rest on, to be said."""
    frosts: PlaceFrosts
    """When it freezes."""
    weather: PlaceWeather
    """What the days are like."""
    waves: Fates
    """What becomes of a wave."""
