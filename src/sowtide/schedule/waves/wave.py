"""A wave: one planting of one crop, dated, judged and given its place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from enum import Enum
from functools import cached_property
from typing import TYPE_CHECKING

from sowtide.climate.answers import EndedBy, Winter
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed, Entry
from sowtide.reasons import Dated
from sowtide.schedule.sowing import ToSeed
from sowtide.values import value

if TYPE_CHECKING:  # only where temperatures are known
    from sowtide.schedule.waves.pick_gap import HeatHarm, PickGap

LOOK_AFTER_UP = timedelta(days=5)
"""How long after a sowing should be up to look whether it is."""
_A_WEEK = timedelta(days=7)


class Verdict(Enum):
    """What is to be thought of planting on a day; the first that holds."""

    TOO_EARLY = "too early"
    TOO_HOT = "too hot"
    SAFE = "safe"
    SAFE_FROM_FROST = "safe from frost"
    """Where no temperatures are known: whether it gets ripe, nobody can say."""
    CHANCY = "chancy"
    NOT_ITS_TIME = "not its time"
    """Frost and warmth would let it be, but it is planted at other times of the year."""
    WINTER = "risky over winter"
    """It would be picked after the winter, but frosts of that end it in most years; no later day of
    the growing year is worse."""
    TOO_LATE = "too late"


SAFE = (Verdict.SAFE, Verdict.SAFE_FROM_FROST)
"""The verdicts that a wave is planted with: as sure as the grower asks, as far as is known."""


SURER = "a cover, or a sowing at the end of winter, is surer"
"""What is advised where the verdict is that winter."""


class Status(Enum):
    """How far a wave has come."""

    PLANNED = "planned"
    PAST = "past"
    """Its day has gone, and no journal says more."""
    SOWN = "sown"
    PLANTED = "planted"
    PICKING = "picking"
    OVER = "over"
    LOST = "lost"
    SKIPPED = "skipped"
    NO_ROOM = "no room"

    @property
    def is_gone(self) -> bool:
        """Whether it was said that nothing of it stands any more, or ever will."""
        return self in (Status.OVER, Status.LOST, Status.SKIPPED)


@value
class Done:
    """The days on which stages of a wave were done; None where that is not noted."""

    sow: date | None
    up: date | None
    harden_off: date | None
    plant: date | None
    first_pick: date | None
    last_pick: date | None
    pull_out: date | None
    """As in `Stages`; `plant` is planting out, and `pull_out` the day it was gone."""


@value
class Stages:
    """The stages of a wave in order, each a counted date; None where the wave has no such stage."""

    sow: Dated
    """Sowing, in trays or in the bed."""
    up: Dated | None
    """The seedlings of a direct sowing show."""
    ready: Dated | None
    too_old: Dated | None
    """First and last day its seedlings in trays are fit to plant out."""
    harden_off: Dated | None
    """First day of hardening off."""
    plant: Dated
    """The day it takes up bed space: sown direct or planted out."""
    flower: Dated | None
    """Flowers open."""
    first_pick: tuple[Dated, Dated] | None
    """Early and late day of the first pick; None where it comes to nothing."""
    last_pick: Dated | None
    """None where it comes to nothing."""
    pull_out: Dated
    """The bed is free of it from this day on."""

    def counted_anew(self, onto: Dated) -> Stages:
        """Return the same stages, counted on from another way to the planting day."""
        begin, first = self.plant, self.first_pick

        def anew(stage: Dated | None) -> Dated | None:
            return None if stage is None else stage.counted_anew(begin, onto)

        return Stages(
            sow=self.sow.counted_anew(begin, onto),
            up=anew(self.up),
            ready=anew(self.ready),
            too_old=anew(self.too_old),
            harden_off=anew(self.harden_off),
            plant=onto,
            flower=anew(self.flower),
            first_pick=None
            if first is None
            else (first[0].counted_anew(begin, onto), first[1].counted_anew(begin, onto)),
            last_pick=anew(self.last_pick),
            pull_out=self.pull_out.counted_anew(begin, onto),
        )


class NoDate(Enum):
    """Why nobody can say when a wave is ready that needs its winter."""

    OUT_OF_TIME = "planted too late for one harvest and too early for the next"
    KILLED = "the winters kill it"


class LastSafe:
    """A last safe day, looked for along the year when it is asked for; equal are two of one day.

    Parameters
    ----------
    of, planted
        What finds it for a planting day, and that day.
    """

    def __init__(self, of: Callable[[date], date | None], planted: date) -> None:
        self._of, self._planted = of, planted

    @cached_property
    def day(self) -> date | None:
        """The last day of the safe run that the planting day lies in, or would have to lie in."""
        return self._of(self._planted)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, LastSafe) and self.day == other.day

    def __hash__(self) -> int:
        return hash(self.day)


@value
class Judged:
    """A planting of a crop on a day, dated and judged, wherever it may stand."""

    stages: Stages
    """Its dates."""
    ended_by: EndedBy
    """What ends it."""
    end: Dated | None
    """The day frost or heat ends it in half of the years; None where neither does."""
    odds: float | None
    expected_picking_days: float | None
    odds_of_nothing: float | None
    """As in the outlook; None for a wave that stands over the winter. [0–1], [days], [0–1]"""
    margin: int | None
    """Days from its last worthwhile pick to the average frost at its killing temperature. [days]"""
    verdict: Verdict | None
    """None for a wave that stands over the winter."""
    earliest: date
    """First day it should be planted, counted."""
    safe_until: LastSafe | None
    """The last day on which it would be safe; None for a wave that stands over the winter."""
    may_bolt: bool = False
    """Whether it is a cool-season crop picked in high summer where nobody knows how hot it gets."""
    years: int | None = None
    """How many recorded years the odds are of; None where they come from a curve. [years]"""
    winter: Winter | None = None
    """How it gets on over the winter; None where it does not, states when it is ready, or no
    temperatures are known."""
    no_date: NoDate | None = None
    """Why one that needs its winter has no date; None where it has, or needs none."""
    spring_loss: float = 0.0
    """As in its chances. [0–1]"""
    heat: HeatHarm | None = None
    """What heat does where the verdict is too hot; None elsewhere."""
    pick_gap: PickGap | None = None
    """Days of its picking without fruit, since heat drops their flowers."""
    winter_kills: bool = False
    """Whether it is not safe, since frosts of a winter that it would stand in leaf may end it."""
    to_seed: ToSeed | None = None
    """When it runs to seed if it stands the winter; None for what does not."""

    @property
    def last_safe(self) -> date | None:
        """Last day of the safe run its planting day lies in, or would have to lie in.

        None where there is none.
        """
        return None if self.safe_until is None else self.safe_until.day

    @property
    def through_winter(self) -> ToSeed | None:
        """When it runs to seed, unless frost ends it before in half of the years; else None."""
        return None if self.ended_by is EndedBy.FROST else self.to_seed

    def counted_anew(self, onto: Dated) -> Judged:
        """Return the same judgement of a planting whose day was reached in another way."""
        begin, end, winter = self.stages.plant, self.end, self.winter
        return replace(
            self,
            stages=self.stages.counted_anew(onto),
            end=None if end is None else end.counted_anew(begin, onto),
            winter=None if winter is None else winter.counted_anew(begin, onto),
        )


@value
class Stand:
    """Plants of a wave in one bed."""

    bed: Bed
    plants: int


@value
class Opening:
    """A day on which a wave would have room."""

    day: date
    """The planting day."""
    beds: tuple[str, ...]
    """Where it would stand."""
    verdict: Verdict | None
    odds: float | None
    """What would be thought of planting there on that day; None over the winter. [0–1]"""


@value
class Holder:
    """A wave in a bed, the day that is free of it, and the day it comes if it is not there yet."""

    wave: str
    bed: str
    until: date
    comes: date | None = None


@value
class Kept:
    """A bed that the grower keeps for something else, and the last day of that."""

    bed: str
    last: date


@value
class Blocked:
    """Why a wave has no room."""

    plants: int
    """Plants there would have been room for. [1]"""
    holders: tuple[Holder, ...]
    """Waves that hold the space: those there by when they leave, then those to come."""
    more_holders: int
    """How many there are beside them. [1]"""
    kept: tuple[Kept, ...]
    """Beds of its own that the grower keeps for something else during its stay."""
    rotation: str | None
    """A bed with room that rotation closes, in a few words, or None."""
    sick: tuple[str, ...]
    """Beds that are barred to its family, each with what was pulled there as sick."""
    opening: Opening | None
    """The first later day of the year on which it would have room, all else in its place, or
    None."""


@value
class Overlap:
    """A wave between whose plants another one is set before it is pulled out."""

    wave: str
    """Its name."""
    until: date
    """The day it is pulled out."""


@value
class Wave:
    """One planting of one crop."""

    id: str
    """``NAME-1``, ``NAME-2``, … of its series."""
    entry: Entry
    """The entry of the file that asks for it."""
    number: int
    """Its number in the series, from 1."""
    judged: Judged
    """Its dates and verdict, those of the worst of its beds."""
    stands: tuple[Stand, ...]
    """Where it stands; empty where there is no room."""
    bed_free: Dated | None
    """The day the last of its beds may be planted again; None where there is no room."""
    status: Status
    """How far it has come."""
    next_planting: date | None
    """The day the next wave of its series is planted; None for the last."""
    blocked: Blocked | None
    """Why it has no room; None where it has."""
    overlap: Overlap | None
    """The wave between whose plants it is set; None where it has a space of its own."""
    done: Done | None
    """What was done and when; None where nothing is noted of it."""
    planned: date | None
    """The day it was planned to be planted where something is noted of it, whenever it was or will
    be; None where nothing is noted, or its series was over before it."""

    @property
    def crop(self) -> Crop:
        """What is grown."""
        return self.entry.crop

    @property
    def plants(self) -> int:
        """How many plants; of a wave of which some are gone, those that still stand. [1]"""
        if self.done is None or not self.stands:
            return self.entry.plants
        return sum(stand.plants for stand in self.stands)

    @property
    def stages(self) -> Stages:
        """Its dates."""
        return self.judged.stages

    @property
    def bed_names(self) -> tuple[str, ...]:
        """The beds it stands in, by name; none where there is no room."""
        return tuple(stand.bed.name for stand in self.stands)

    @property
    def from_trays(self) -> bool:
        """Whether it is raised in trays."""
        return self.entry.raised is Raised.TRAYS

    @property
    def is_planted(self) -> bool:
        """Whether the journal says that it takes up bed space."""
        done = self.done
        return done is not None and (
            done.plant is not None or (done.sow is not None and not self.from_trays)
        )

    @property
    def sow_again_by(self) -> date | None:
        """Last day to sow a direct sowing again: safe, and before the next wave takes its part.

        The next wave leaves a week after the day to look whether the sowing is up.
        """
        last, up = self.judged.last_safe, self.stages.up
        if up is None or last is None or last < self.stages.plant.day:
            return None
        if self.next_planting is None:
            return last
        return min(last, max(self.next_planting, up.day + LOOK_AFTER_UP + _A_WEEK))

    def stands_on(self, day: date) -> bool:
        """Say whether it takes up bed space on a day."""
        return self.stages.plant.day <= day < self.stages.pull_out.day


@value
class Gap:
    """Days on which a series is not planted although it runs on afterwards."""

    series: str
    """Name of the series."""
    first: date
    last: date
    """First and last day without a safe planting."""
    why: str
    """In a few words, such as "too hot"."""
