"""The care of a season: what is done to which wave in which bed, when, and what that stops."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from itertools import groupby
from typing import TYPE_CHECKING

from sowtide.garden.care import Routine
from sowtide.garden.model import Bed
from sowtide.schedule.only import Only
from sowtide.schedule.waves import Wave
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.garden.journal import Found


@value
class Plot:
    """The plants of a wave in one bed, to which care is given."""

    wave: Wave
    bed: Bed
    plants: int


@value
class Hindrance:
    """What stands in the way of care on a day."""

    said: str
    """In a few words."""
    is_heat: bool = False
    """Whether it is the heat of a week of which the grower says that it gets too hot for it."""


@value
class Dose:
    """A routine done once to a wave in a bed."""

    routine: Routine
    plot: Plot
    """The plants."""
    day: date
    """The day it is for."""
    asked: date
    """The day on which its interval asks for it; earlier where it had to wait."""
    why: Hindrance | None = None
    """Why it had to wait; None where it did not."""
    overdue: bool = False
    """Whether its day has passed without word of it."""
    noted: bool = False
    """Whether the journal says that it was done."""


@value
class Given:
    """A routine that gives way: it is asked for on a day, and does not come before it ends."""

    routine: Routine
    plot: Plot
    asked: date
    why: Hindrance


@value
class LatestLook:
    """The latest look at a wave."""

    wave: str
    """Its name."""
    on: date
    found: Found
    """How much was found."""


@value
class PickBlock:
    """Days on which a wave is not to be picked."""

    wave: str
    """Its name."""
    routine: Routine
    """What was put on."""
    done: date
    """The day it was."""
    first: date
    """The first day that is closed."""
    until: date
    """The first day on which it may be picked again."""
    days: int
    """The days that must lie between. [days]"""


@value
class Round:
    """A routine done once in a bed: the piece of work, of one wave or several."""

    routine: Routine
    bed: Bed
    """What, and where."""
    day: date
    """The day it is for."""
    plots: tuple[Plot, ...]
    """The plants of each wave."""
    asked: date
    """The day it was first asked for."""
    why: Hindrance | None
    """Why it had to wait; None where it did not."""
    overdue: bool
    """Whether its day has passed without word of it."""

    @property
    def id(self) -> str:
        """What it is called: bed, routine and the day that it was asked for."""
        return f"{self.bed.name}:{self.routine.name}:{self.asked.isoformat()}"


@value
class CarePlan:
    """All the care of a season."""

    doses: tuple[Dose, ...]
    """What is to be done and what was, in order of day."""
    gives: tuple[Given, ...]
    """What gives way, and to what."""
    blocks: tuple[PickBlock, ...]
    """Days on which a wave is not to be picked, by wave, in order of day."""
    unwell: frozenset[str]
    """Beds in which something was found at the latest look, or pulled as sick."""
    rain: tuple[tuple[date, float], ...]
    """Rain by day, as the journal tells it. [mm]"""
    looks: tuple[LatestLook, ...]
    """The latest look at each wave at which it is said how much was found."""
    by_bed: Mapping[tuple[str, str], tuple[date, ...]]
    """The days of each routine in each bed, by its key and the bed's name, in order."""
    closing: Mapping[tuple[str, date], tuple[PickBlock, ...]]
    """What a routine closes to picking, by its key and the day it is done."""

    def days_of(self, routine: Routine, bed: Bed) -> tuple[date, ...]:
        """Return the days of a routine in a bed, in order."""
        return self.by_bed.get((routine.key, bed.name), ())

    def closed_by(self, routine: Routine, done: date) -> tuple[PickBlock, ...]:
        """Return the days that a routine done on a day closes to picking."""
        return self.closing.get((routine.key, done), ())

    def rounds(self, first: date, last: date) -> tuple[Round, ...]:
        """Return the work of a span of days, both ends included, what is noted as done left out."""
        wanted = [each for each in self.doses if first <= each.day <= last and not each.noted]
        wanted.sort(key=_of_one_round)
        return tuple(_round(list(doses)) for _, doses in groupby(wanted, key=_of_one_round))

    def part(self, only: Only) -> CarePlan:
        """Return the care of a part of the garden."""

        def has(plot: Plot) -> bool:
            return only.has(plot.wave) and only.has_bed(plot.bed.name)

        doses = tuple(each for each in self.doses if has(each.plot))
        waves = {each.plot.wave.id for each in doses}
        return replace(
            self,
            doses=doses,
            gives=tuple(each for each in self.gives if has(each.plot)),
            looks=tuple(each for each in self.looks if each.wave in waves),
        )


def _of_one_round(dose: Dose) -> tuple[date, int, str, str, bool]:
    """Return what is alike for doses that are one piece of work."""
    routine = dose.routine
    return dose.day, routine.span.line, routine.key, dose.plot.bed.name, dose.overdue


def _round(doses: list[Dose]) -> Round:
    first = min(doses, key=lambda each: each.asked)
    return Round(
        routine=first.routine,
        bed=first.plot.bed,
        day=first.day,
        plots=tuple(each.plot for each in doses),
        asked=first.asked,
        why=next((each.why for each in doses if each.why), None),
        overdue=first.overdue,
    )
