"""Sprays and dusts of one wave in one bed, placed so that what is to be kept apart is.

Each is asked for by its own interval. The one asked for first is placed first, on the first day on
which nothing that is placed already stands in its way, before it or after it; so none is held off
for ever by one that comes more often. What finds no day gives way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date, timedelta

from sowtide.garden.care import Against, Routine, TimeOfDay, Work, days_between
from sowtide.schedule.care.care_days import CareSpan, next_asked
from sowtide.schedule.care.care_plan import Dose, Given, Hindrance, Plot
from sowtide.schedule.care.nothing_noted import Application
from sowtide.units import Units, show_temperature
from sowtide.values import value

_DAY = timedelta(days=1)
_ORDER = list(Against)
_NEAR = 2
"""Days by which a spray moves to the evening on which it is mixed for the same bed: sowtide's own.

Not more than a third of its interval. [days]
"""
HEAT = Hindrance("the heat", is_heat=True)
NO_WORK = Hindrance("no working day")
_NO_DAY = Hindrance("no day is left")


@value
class Asked:
    """A routine that asks for its next day."""

    routine: Routine
    span: CareSpan
    """Its days."""
    day: date
    """The day asked for."""
    not_before: date
    """It cannot come earlier: today, where that day has gone."""
    used: int = 0
    """How often it was put on so far. [1]"""

    @property
    def is_late(self) -> bool:
        """Whether its day has gone."""
        return self.not_before > self.day


@value
class Ground:
    """What the place says of a day."""

    works: Callable[[date], bool]
    """Whether there is someone to work."""
    high: Callable[[date], float | None]
    """The usual maximum, or None where it is not known. [°C]"""
    units: Units
    """What temperatures are said in."""
    too_hot: Callable[[date], bool]
    """Whether the grower expects a day too hot to spray or feed."""


@value
class _Put:
    """Something put on the leaves on a day; the routine is None for what only the journal names."""

    on: date
    name: str | None
    routine: Routine | None


class Evenings:
    """The evenings of a wave in a bed as they fill up with sprays and dusts."""

    def __init__(
        self, plot: Plot, ground: Ground, mixed: frozenset[tuple[str, date]] = frozenset()
    ) -> None:
        self._plot, self._ground, self._mixed = plot, ground, mixed
        self._put: list[_Put] = []
        self.doses: list[Dose] = []
        self.gives: list[Given] = []

    @property
    def mixed(self) -> frozenset[tuple[str, date]]:
        """What is to be mixed on which evening: routines by their keys."""
        return frozenset((each.routine.key, each.day) for each in self.doses if not each.noted)

    def put(self, application: Application, routines: Sequence[Routine]) -> None:
        """Add what the journal says was put on: with what it says, else with any routine."""
        using = application.using
        matching = [each for each in routines if using is None or each.key == using]
        for routine in matching:
            self._put.append(_Put(application.on, routine.key, routine))
            self.doses.append(Dose(routine, self._plot, application.on, application.on, noted=True))
        if not matching:
            self._put.append(_Put(application.on, using, None))

    def fill(self, asked: Sequence[Asked]) -> None:
        """Place all that is asked for, what is asked for first before the rest."""
        waiting = list(asked)
        while waiting:
            first = min(waiting, key=_by_day)
            waiting.remove(first)
            following = self._place(first)
            if following is not None:
                waiting.append(following)

    def _place(self, asked: Asked) -> Asked | None:
        routine, most = asked.routine, asked.routine.label.most
        if most is not None and asked.used >= most:
            used_up = Hindrance(f"used {asked.used} times, the most that its label allows")
            self.gives.append(Given(routine, self._plot, asked.day, used_up))
            return None
        day, why = self._first_day(asked)
        if day is None:
            self.gives.append(Given(routine, self._plot, asked.day, why or _NO_DAY))
            return None
        self._put.append(_Put(day, routine.key, routine))
        self.doses.append(
            Dose(
                routine=routine,
                plot=self._plot,
                day=day,
                asked=asked.day,
                why=why,
                overdue=asked.is_late,
            )
        )
        following = next_asked(routine, asked.span, day)
        if following is None:
            return None
        return Asked(
            routine=routine,
            span=asked.span,
            day=following,
            not_before=following,
            used=asked.used + 1,
        )

    def _first_day(self, asked: Asked) -> tuple[date | None, Hindrance | None]:
        """Return the first day on which nothing stands in its way, and what it waited for."""
        for near in self._one_mix(asked):
            if self._hindrance(asked.routine, near) is None:
                return near, None
        day = max(asked.day, asked.not_before)
        why: Hindrance | None = None
        while day <= asked.span.ends:
            hindrance = self._hindrance(asked.routine, day)
            if hindrance is None:
                return day, why
            day, why = hindrance[0], HEAT if why == HEAT else hindrance[1]
        return None, why

    def _one_mix(self, asked: Asked) -> Iterator[date]:
        """Yield days near its own on which it is mixed for a neighbour in the bed, nearest first.

        None where it is mixed on its own day, or by a rule that names its days.
        """
        every = asked.routine.every
        if every is None:
            near = _NEAR
        elif every.days is None:
            return
        else:
            near = min(_NEAR, every.days // 3)
        wanted = max(asked.day, asked.not_before)
        for days in range(near + 1):
            for day in (wanted + days * _DAY, wanted - days * _DAY):
                if (
                    asked.span.begins <= day <= asked.span.ends
                    and (asked.routine.key, day) in self._mixed
                ):
                    yield day

    def _hindrance(self, routine: Routine, day: date) -> tuple[date, Hindrance] | None:
        """Return what stands in the way on a day, with the next day to try."""
        for put in self._put:
            days, why = _apart(put, routine, day)
            if abs((day - put.on).days) < days:
                return put.on + timedelta(days=days), Hindrance(why)
        if in_flower(self._plot, day) and not goes_on_open_flowers(routine, self._plot):
            last = self._plot.wave.stages.last_pick
            assert last is not None  # it is in flower till then
            return last.day + _DAY, Hindrance("flowers open: not now")
        if self._ground.too_hot(day):
            return day + _DAY, HEAT
        hottest, high = routine.label.hottest, self._ground.high(day)
        if hottest is not None and high is not None and high > hottest:
            limit = show_temperature(hottest, self._ground.units)
            return day + _DAY, Hindrance(f"days above {limit}")
        if not self._ground.works(day):
            return day + _DAY, NO_WORK
        return None


def _by_day(asked: Asked) -> tuple[date, int, int]:
    return asked.day, order_of(asked.routine), asked.routine.span.line


def order_of(routine: Routine) -> int:
    """Return the place of a routine in an evening: what is for insects first, undersides up."""
    return len(_ORDER) if routine.against is None else _ORDER.index(routine.against)


def in_flower(plot: Plot, day: date) -> bool:
    """Say whether flowers of a wave are open on a day, as far as anyone knows when they open."""
    flower, last = plot.wave.stages.flower, plot.wave.stages.last_pick
    return flower is not None and last is not None and flower.day <= day <= last.day


def goes_on_open_flowers(routine: Routine, plot: Plot) -> bool:
    """Say whether a material may go on a wave in flower, once the flowers are shut."""
    if routine.label.not_in_flower or routine.time is TimeOfDay.MORNING:
        return False
    return not (routine.work is Work.DUST and plot.wave.crop.needs_bees)


def _apart(put: _Put, routine: Routine, day: date) -> tuple[int, str]:
    """Return the days that must lie between what was put on and a routine, and why. [days]"""
    name = put.name or "a spray"
    if put.routine is None:
        asked = [days for other, days in routine.label.not_within if other == put.name]
        days = max(asked, default=0)
        return days, f"{days} days from {name}"
    if put.routine is routine:
        days = max(routine.label.days_apart or 0, 1)
        return days, f"{days} days from the time before"
    days, said = days_between(put.routine, routine), put.routine.name
    drying = 0 if _go_together(put.routine, routine) else _drying(put, routine, day)
    if drying > days:
        return drying, f"leaves dry after {said} first"
    return days, f"{days} days from {said}"


def _drying(put: _Put, routine: Routine, day: date) -> int:
    """Return the evenings that drying takes, of whichever is put on first. [days]"""
    assert put.routine is not None
    if day == put.on:
        return min(max(put.routine.keep_dry, routine.keep_dry), 1)
    return put.routine.keep_dry if put.on < day else routine.keep_dry


def _go_together(one: Routine, other: Routine) -> bool:
    """Say whether both labels let two materials follow on one evening."""
    return other.key in one.label.together_with and one.key in other.label.together_with
