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
    """What it costs to start a wave today instead of on its day.

    Parameters
    ----------
    days
        How many days late it is. [days]
    planned, now
        Odds on its day, and on the day it comes to if it is started today. [0–1]
    """

    days: int
    planned: float
    now: float


@value
class CareWork:
    """What a piece of care is beside what every piece of work is.

    Parameters
    ----------
    id
        What it is called.
    routine
        The routine that asks for it.
    waves
        The waves it is given to.
    mix
        What is measured into the water; None for no mix.
    weight
        What the material weighs, where it is measured by volume; None where that is not known.
    minutes
        How long it takes; None where that is not said. [min]
    overdue
        Whether its day has passed without word of it.
    not_picked_until
        The first day on which its waves may be picked again; None where it closes nothing.
    """

    id: str
    routine: str
    waves: tuple[str, ...]
    mix: Amount | None
    weight: Amount | None
    minutes: float | None
    overdue: bool
    not_picked_until: date | None


@value
class Task:
    """One piece of work.

    Parameters
    ----------
    id
        ``WAVE:KIND`` and, where a wave has several of a kind in a week, the day or the bed.
    code
        Short code to tick it off by; the same on every sheet that carries the task.
    due
        The day it is for.
    kind
        What kind of work.
    wave
        The wave it is for.
    bed
        Where; None for work on the bench.
    text
        The work in a few words, without wave, bed and day.
    amount
        How much, or None.
    last_day
        The last day it may be put off to with the wave still safe, or None.
    overdue
        Whether its day has passed without word of it.
    cautions
        Slugs of the cautions that apply.
    delay
        What its being late costs; None where that is not known, or it is not late.
    part
        The part of the day that it is for.
    planned
        The day it is planned for, where it waits for a working day; else None.
    cannot_wait
        Whether its day is no working day, and the next one is too late for it.
    care
        What it is as care; None for all other work.
    """

    id: str
    code: str
    due: date
    kind: Kind
    wave: Wave
    bed: str | None
    text: str
    amount: Amount | None
    last_day: date | None
    overdue: bool
    cautions: tuple[str, ...]
    delay: Delay | None = None
    part: DayPart = DayPart.ANY_TIME
    planned: date | None = None
    cannot_wait: bool = False
    care: CareWork | None = None


@value
class Picking:
    """A wave to be picked this week, for the grid by weekday.

    Parameters
    ----------
    task
        The picking as a task, due on its first day of the week.
    days
        The days it is to be picked on.
    until
        Last day of its picking, in half of the years.
    closed
        Days on which it would be picked and is not, since something was put on it.
    open_again
        The first day on which it may be picked again; None where no day is closed.
    closed_by
        What was put on it, and when.
    """

    task: Task
    days: tuple[date, ...]
    until: date
    closed: tuple[date, ...] = ()
    open_again: date | None = None
    closed_by: tuple[tuple[str, date], ...] = ()


@value
class Seedlings:
    """Seedlings in trays: how many, and when they are fit to plant out.

    Parameters
    ----------
    wave
        The wave that they are raised for or beside.
    plants
        How many. [1]
    sown, ready, too_old
        Their days.
    plant
        The day they are planted out; None for those that stand by.
    beds
        Where to; empty where there is no room, and for those that stand by.
    """

    wave: Wave
    plants: int
    sown: date
    ready: date
    too_old: date
    plant: date | None
    beds: tuple[str, ...]


@value
class WeekSheet:
    """A week's work.

    Parameters
    ----------
    week
        ISO week of its Monday, such as ``2026-W31``.
    first, last
        First and last day.
    cannot_slip
        Tasks whose last safe day lies within the week, by that day.
    pickings
        What is to be picked.
    tasks
        All tasks of the week but pickings, in order of day, then of the work.
    bench
        Seedlings in trays at some time of the week.
    next_week
        What the week after brings, in the same order.
    overdue
        Tasks of earlier days that are not done, the most pressing first; in the week of today only.
    """

    week: str
    first: date
    last: date
    cannot_slip: tuple[Task, ...]
    pickings: tuple[Picking, ...]
    tasks: tuple[Task, ...]
    bench: tuple[Seedlings, ...]
    next_week: tuple[Task, ...]
    overdue: tuple[Task, ...] = ()
