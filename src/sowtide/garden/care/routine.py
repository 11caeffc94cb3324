"""A routine of care as the grower wrote it: what is done, to what, when, and with how much."""

from __future__ import annotations

from datetime import date
from enum import Enum

from sowtide.diagnostics import Span
from sowtide.garden.care.measured import Measured
from sowtide.values import value


class Work(Enum):
    """What is done."""

    FEED = "feed"
    SPRAY = "spray"
    DUST = "dust"
    WATER = "water"
    SCOUT = "scout"
    COVER = "cover"
    THIN = "thin"
    PRUNE = "prune"
    SUPPORT = "support"
    OWN = "tend"
    """In a word of the grower's own."""

    @property
    def on_leaves(self) -> bool:
        """Whether it puts something on the leaves."""
        return self in (Work.SPRAY, Work.DUST)

    @property
    def goes_round(self) -> bool:
        """Whether it goes round the whole garden on the same days, week after week."""
        return self in (Work.WATER, Work.SCOUT)

    @property
    def uses_up(self) -> bool:
        """Whether it takes a material, how much of it may be unsaid."""
        return self.on_leaves or self is Work.FEED


class Made(Enum):
    """What a feed is made of."""

    RAW_MANURE = "raw manure"
    COMPOSTED_MANURE = "composted manure"
    HEAT_TREATED_MANURE = "heat-treated manure"
    PLANT = "plant"
    MINERAL = "mineral"
    SYNTHETIC = "synthetic"


class TimeOfDay(Enum):
    """When on its day a thing is done."""

    MORNING = "morning"
    EVENING = "evening"


class Against(Enum):
    """What a spray or a dust is for, in the order in which they are put on."""

    INSECTS = "insects"
    MITES = "mites"
    FUNGUS = "fungus"


class OnDemand(Enum):
    """How much must have been found before a routine on demand begins."""

    SOME = "some"
    MANY = "many"


class WaveStage(Enum):
    """A stage of a wave from which days are counted."""

    SOWING = "sowing"
    UP = "up"
    HARDENING_OFF = "hardening off"
    PLANTING = "planting out"
    FLOWER = "in flower"
    FIRST_PICK = "first pick"
    LAST_PICK = "last pick"
    PULL_OUT = "pull out"


@value
class StageDay:
    """So many days after a stage, or before it where they are negative. [days]"""

    stage: WaveStage
    days: int


Moment = StageDay | date
"""A day as a routine names it."""


@value
class Every:
    """How often: every so many days, or by a rule of RFC 5545; exactly one is set. [days]"""

    days: int | None
    rule: str | None = None


@value
class Rate:
    """How much, and for how much ground or how many plants."""

    much: Measured
    """How much."""
    per: Measured | None
    """For what: plants, beds, a length of row or an area; None for a depth of water."""

    def __str__(self) -> str:
        if self.per is None:
            return str(self.much)
        per = self.per.unit if self.per.number == 1 else str(self.per)
        return f"{self.much} per {per}"


@value
class Targets:
    """What a routine is done to: whatever is in any of these."""

    everything: bool = False
    """Whether it is all that stands in a bed."""
    crops: frozenset[str] = frozenset()
    varieties: frozenset[str] = frozenset()
    families: frozenset[str] = frozenset()
    """Names without capitals."""
    series: frozenset[str] = frozenset()
    beds: frozenset[str] = frozenset()
    """Names as they are written."""


@value
class Label:
    """What the grower copied from the label of a material; None is what they did not copy."""

    days_before_harvest: int | None = None
    """Days between putting it on and picking. [days]"""
    hours_before_entry: int | None = None
    """Hours before anyone goes in. [h]"""
    most: int | None = None
    """Times in a season. [1]"""
    days_apart: int | None = None
    """Days from one time to the next. [days]"""
    not_within: tuple[tuple[str, int], ...] = ()
    """Names of routines, without capitals, with the days that must lie between. [days]"""
    hottest: float | None = None
    """The temperature above which it is not used. [°C]"""
    in_a_row: int | None = None
    """Most times in a row of one group. [1]"""
    not_in_flower: bool = False
    """Whether it is never used while flowers are open."""
    together_with: frozenset[str] = frozenset()
    """Names of routines, without capitals, that may follow on the same evening."""


@value
class Routine:
    """One routine of care."""

    name: str
    """As the grower calls it."""
    work: Work
    """What is done."""
    does: str
    """The same in the grower's word."""
    on: Targets
    """What it is done to."""
    span: Span
    """Where its name is written."""
    start: Moment | None
    until: Moment | None
    """First and last day; None for the day it takes up space, and for the last pick."""
    on_demand: OnDemand | None
    """How much must have been found before it is done; None for what waits for no note."""
    every: Every | None
    """How often; None for once."""
    time: TimeOfDay | None
    """When on its day; None for any time."""
    amount: Rate | None
    mix: Rate | None
    """How much is put on, and of what strength if it is a mix."""
    weighs: float | None
    """What the material weighs. [g/ml]"""
    analysis: tuple[float, float, float] | None
    """Nitrogen, phosphate and potash. [%]"""
    made_of: Made | None
    """What it is made of."""
    package_rate: Rate | None
    """The most that its package allows."""
    minutes: float | None
    minutes_per: Measured | None
    """How long it takes, and for what. [min]"""
    keep_dry: int
    """Days on which leaves are kept dry afterwards. [days]"""
    overhead: bool
    """Whether it is water on the leaves."""
    touches_soil: bool
    """Whether what is picked touches soil."""
    against: Against | None
    """What it is for."""
    group: str | None
    """The code of its group on the label."""
    label: Label = Label()
    """What the label says."""

    @property
    def key(self) -> str:
        """Its name without capitals, as other routines and the journal name it."""
        return self.name.casefold()
