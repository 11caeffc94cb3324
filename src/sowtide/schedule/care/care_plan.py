"""The care of a season: what is done to which wave in which bed, when, and what that stops."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from itertools import groupby

from sowtide.garden.care import Routine
from sowtide.garden.model import Bed
from sowtide.schedule.only import Only
from sowtide.schedule.waves import Wave
from sowtide.values import value


@value
class Plot:
    """The plants of a wave in one bed, to which care is given."""

    wave: Wave
    bed: Bed
    plants: int


@value
class Dose:
    """A routine done once to a wave in a bed.

    Parameters
    ----------
    routine
        The routine.
    plot
        The plants.
    day
        The day it is for.
    asked
        The day on which its interval asks for it; earlier where it had to wait.
    why
        Why it had to wait, in a few words; None where it did not.
    overdue
        Whether its day has passed without word of it.
    noted
        Whether the journal says that it was done.
    """

    routine: Routine
    plot: Plot
    day: date
    asked: date
    why: str | None = None
    overdue: bool = False
    noted: bool = False


@value
class Given:
    """A routine that gives way: it is asked for on a day, and does not come before it ends."""

    routine: Routine
    plot: Plot
    asked: date
    why: str


@value
class PickBlock:
    """Days on which a wave is not to be picked.

    Parameters
    ----------
    wave
        Its name.
    routine
        What was put on.
    done
        The day it was.
    first
        The first day that is closed.
    until
        The first day on which it may be picked again.
    days
        The days that must lie between. [days]
    """

    wave: str
    routine: Routine
    done: date
    first: date
    until: date
    days: int


@value
class Round:
    """A routine done once in a bed: the piece of work, of one wave or several.

    Parameters
    ----------
    routine, bed
        What, and where.
    day
        The day it is for.
    plots
        The plants of each wave.
    asked
        The day it was first asked for.
    why
        Why it had to wait; None where it did not.
    overdue
        Whether its day has passed without word of it.
    """

    routine: Routine
    bed: Bed
    day: date
    plots: tuple[Plot, ...]
    asked: date
    why: str | None
    overdue: bool

    @property
    def id(self) -> str:
        """What it is called: bed, routine and the day that it was asked for."""
        return f"{self.bed.name}:{self.routine.name}:{self.asked.isoformat()}"


@value
class CarePlan:
    """All the care of a season.

    Parameters
    ----------
    doses
        What is to be done and what was, in order of day.
    gives
        What gives way, and to what.
    blocks
        Days on which a wave is not to be picked, by wave, in order of day.
    unwell
        Beds in which something was found at the latest look, or pulled as sick.
    rain
        Rain by day, as the journal tells it. [mm]
    found
        The latest look at each wave: its day, and how much was found.
    days
        The days of each routine in each bed, by its key and the bed's name, in order.
    closing
        What a routine closes to picking, by its key and the day it is done.
    """

    doses: tuple[Dose, ...]
    gives: tuple[Given, ...]
    blocks: tuple[PickBlock, ...]
    unwell: frozenset[str]
    rain: tuple[tuple[date, float], ...]
    found: tuple[tuple[str, date, str], ...]
    days: Mapping[tuple[str, str], tuple[date, ...]]
    closing: Mapping[tuple[str, date], tuple[PickBlock, ...]]

    def rounds(self, first: date, last: date) -> tuple[Round, ...]:
        """Return the work of a span of days, both ends included, what is noted as done left out."""
        wanted = [each for each in self.doses if first <= each.day <= last and not each.noted]
        return tuple(map(_round, _groups(sorted(wanted, key=_of_one_round))))

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
            found=tuple(each for each in self.found if each[0] in waves),
        )


def _of_one_round(dose: Dose) -> tuple[date, int, str, str, bool]:
    """Return what is alike for doses that are one piece of work."""
    routine = dose.routine
    return dose.day, routine.span.line, routine.key, dose.plot.bed.name, dose.overdue


def _groups(doses: list[Dose]) -> Iterator[list[Dose]]:
    for _, found in groupby(doses, key=_of_one_round):
        yield list(found)


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
