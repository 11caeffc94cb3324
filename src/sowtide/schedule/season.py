"""A growing year of a garden, dated and placed: what every question about it is asked of."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from sowtide.climate.answers import YearTold
from sowtide.climate.questions import Climate
from sowtide.diagnostics import Problem
from sowtide.garden.model import Bed, Garden
from sowtide.schedule.only import Only
from sowtide.schedule.stays import Room
from sowtide.schedule.waves import Conditions, Gap, Prospects, Wave
from sowtide.schedule.work import Lookout, WeekSheet, week_sheets
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.care import CarePlan
    from sowtide.schedule.happened import Accounts


@value
class Season:
    """A growing year of a garden, dated and placed."""

    garden: Garden
    """What the grower wrote."""
    conditions: Conditions
    """The place in that year: prospects of every crop on every kind of ground."""
    room: Room
    """The beds as they fill up."""
    today: date
    """The day it is looked at from."""
    waves: tuple[Wave, ...]
    """All waves, in the order of the file's entries and of their numbers."""
    gaps: tuple[Gap, ...]
    """Named gaps in series."""
    problems: tuple[Problem, ...]
    """Problems of the plan, in file order."""
    lookouts: tuple[Lookout, ...]
    """What to look for when, in the file's order."""
    accounts: Accounts | None
    """What happened until today; None without a journal."""
    care: CarePlan | None
    """What is done to the waves that stand; None where the file says nothing of it."""
    only: Only | None = None
    """The part of the garden that is looked at; None for all of it."""

    @property
    def climate(self) -> Climate:
        """What the place does."""
        return self.conditions.climate

    def years_of(self, wave: Wave) -> tuple[YearTold, ...]:
        """Return what each recorded year does to a wave.

        Nothing without a record, or for a wave that stands over the winter.
        """
        if wave.judged.odds is None:
            return ()
        planted = wave.stages.plant.day
        return self.climate.waves.years_of(planted, self.prospects(wave).need_on(planted))

    def sheets(self, first: date, *, weeks: int = 1) -> tuple[WeekSheet, ...]:
        """Return the sheets of some weeks from a first day on, with all that is known today."""
        return week_sheets(
            self.garden,
            self.waves,
            first,
            weeks=weeks,
            accounts=self.accounts,
            conditions=self.conditions,
            care=self.care,
            today=self.today,
        )

    def by_bed(self) -> Iterator[tuple[Bed, list[Wave]]]:
        """Yield the beds in the order of the file, each with the waves that stand in it."""
        waves: dict[str, list[Wave]] = {bed.name: [] for bed in self.garden.beds}
        for wave in self.waves:
            for stand in wave.stands:
                if stand.bed.name in waves:
                    waves[stand.bed.name].append(wave)
        for bed in self.garden.beds:
            yield bed, waves[bed.name]

    def prospects(self, wave: Wave) -> Prospects:
        """Return the prospects of a wave's crop on the ground that it is judged by.

        Where it stands that is the worst of its beds; without room the best it may go to.
        """
        planted, crop, raised = wave.stages.plant.day, wave.crop, wave.entry.raised
        beds = tuple(stand.bed for stand in wave.stands) or wave.entry.beds_of(wave.number)[0]
        grounds = sorted({bed.colder_than_site for bed in beds} or {0.0})
        if len(grounds) == 1:
            return self.conditions.prospects(crop, raised, colder_by=grounds[0])
        found = [self.conditions.prospects(crop, raised, colder_by=each) for each in grounds]
        if wave.stands:
            found.reverse()  # of two as good the colder, as in `Placing`
        pick = min if wave.stands else max
        return pick(found, key=lambda prospects: prospects.promise(planted)[0])
