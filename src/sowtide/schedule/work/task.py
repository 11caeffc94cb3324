"""A task: one piece of work on one day, and the sheet of a week's tasks."""

from __future__ import annotations

from datetime import date
from enum import Enum

from sowtide.schedule.waves import Wave
from sowtide.values import value


class Kind(Enum):
    """Kinds of work, in the order of a walk through the week."""

    SOW_IN_TRAYS = "sow in trays"
    HARDEN_OFF = "harden off"
    PICK = "pick"
    LOOK = "look"
    SCOUT = "scout"
    PULL = "pull out"
    PREPARE = "prepare"
    SOW = "sow"
    PLANT_OUT = "plant out"
    THIN = "thin"
    PRUNE = "prune"
    SUPPORT = "support"
    TEND = "tend"
    COVER = "cover"
    FEED = "feed"
    WATER = "water"
    DUST = "dust"
    SPRAY = "spray"

    @property
    def starts_a_wave(self) -> bool:
        """Whether a wave begins with it, or takes up its bed space."""
        return self in (Kind.SOW_IN_TRAYS, Kind.SOW, Kind.PLANT_OUT)


class DayPart(Enum):
    """Parts of a day, in its order; what has its hour is the grower's to say, not the engine's."""

    MORNING = "morning"
    ANY_TIME = "any time"
    EVENING = "evening"


class HeatAction(Enum):
    """What to do for a wave, from the least to the most."""

    LEAVE = "leave"
    WATER = "water early"
    SHADE = "shade and water"
    PICK = "pick now"

    @property
    def much(self) -> int:
        """How much is asked for: more for a hotter week. [1]"""
        return list(HeatAction).index(self)


@value
class Amount:
    """How much: a number and its unit, such as 80 seeds."""

    value: float
    unit: str


@value
class Delay:
    """What it costs to start a wave today instead of on its day."""

    days: int
    """How many days late it is. [days]"""
    planned: float
    now: float
    """Odds on its day, and on the day it comes to if it is started today. [0–1]"""
    over: bool
    """Whether next to nothing is to be hoped of it now, and no safe day is left this season."""


@value
class CareWork:
    """What a piece of care is beside what every piece of work is."""

    id: str
    """What it is called."""
    routine: str
    """The routine that asks for it."""
    waves: tuple[str, ...]
    """The waves it is given to."""
    mix: Amount | None
    """What is measured into the water; None for no mix."""
    weight: Amount | None
    """What the material weighs, where it is measured by volume; None where that is not known."""
    minutes: float | None
    """How long it takes; None where that is not said. [min]"""
    overdue: bool
    """Whether its day has passed without word of it."""
    not_picked_until: date | None
    """The first day on which its waves may be picked again; None where it closes nothing."""


@value
class Task:
    """One piece of work."""

    id: str
    """``WAVE:KIND`` and, where a wave has several of a kind in a week, the day or the bed."""
    code: str
    """Short code to tick it off by; the same on every sheet that carries the task."""
    due: date
    """The day it is for."""
    kind: Kind
    """What kind of work."""
    wave: Wave
    """The wave it is for."""
    bed: str | None
    """Where; None for work on the bench."""
    text: str
    """The work in a few words, without wave, bed and day."""
    amount: Amount | None
    """How much, or None."""
    last_day: date | None
    """The last day it may be put off to with the wave still safe, or None."""
    overdue: bool
    """Whether its day has passed without word of it."""
    cautions: tuple[str, ...]
    """Slugs of the cautions that apply."""
    delay: Delay | None
    """What its being late costs; None where that is not known, or it is not late."""
    part: DayPart
    """The part of the day that it is for."""
    planned: date | None
    """The day it is planned for, where it waits for a working day; else None."""
    cannot_wait: bool
    """Whether its day is no working day, and the next one is too late for it."""
    care: CareWork | None
    """What it is as care; None for all other work."""


@value
class Picking:
    """A wave to be picked this week, for the grid by weekday."""

    task: Task
    """The picking as a task, due on its first day of the week."""
    days: tuple[date, ...]
    """The days it is to be picked on."""
    until: date
    """Last day of its picking, in half of the years."""
    closed: tuple[date, ...] = ()
    """Days on which it would be picked and is not, since something was put on it."""
    open_again: date | None = None
    """The first day on which it may be picked again; None where no day is closed."""
    closed_by: tuple[tuple[str, date], ...] = ()
    """What was put on it, and when."""


@value
class Seedlings:
    """Seedlings in trays: how many, and when they are fit to plant out."""

    wave: Wave
    """The wave that they are raised for or beside."""
    plants: int
    """How many. [1]"""
    sown: date
    ready: date
    too_old: date
    """Their days."""
    plant: date | None
    """The day they are planted out; None for those that stand by."""
    beds: tuple[str, ...]
    """Where to; empty where there is no room, and for those that stand by."""


@value
class WeekSheet:
    """A week's work."""

    week: str
    """ISO week of its Monday, such as ``2026-W31``."""
    first: date
    last: date
    """First and last day."""
    cannot_slip: tuple[Task, ...]
    """Tasks whose last safe day lies within the week, by that day."""
    pickings: tuple[Picking, ...]
    """What is to be picked."""
    tasks: tuple[Task, ...]
    """All tasks of the week but pickings, in order of day, then of the work."""
    bench: tuple[Seedlings, ...]
    """Seedlings in trays at some time of the week."""
    next_week: tuple[Task, ...]
    """What the week after brings, in the same order."""
    overdue: tuple[Task, ...]
    """Tasks of earlier days that are not done, the most pressing first; in the week of today
    only."""
