"""What the journal says of care: what was done, with what, what was found, and the rain."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import date

from sowtide.garden.care import OnDemand, Routine, Work
from sowtide.garden.journal import Did, Found, Happening
from sowtide.schedule.care.care_plan import Plot
from sowtide.schedule.care.nothing_noted import Application, NothingNoted

_STAGES = {
    Work.FEED: Did.FED,
    Work.SPRAY: Did.SPRAYED,
    Work.DUST: Did.SPRAYED,
    Work.WATER: Did.WATERED,
    Work.SCOUT: Did.SCOUTED,
    Work.COVER: Did.COVERED,
    Work.THIN: Did.THINNED,
}


def stage_of_work(work: Work) -> Did:
    """Return what is noted in the journal where a kind of care is done."""
    return _STAGES.get(work, Did.TENDED)


class CareNoted(NothingNoted):
    """What the journal tells of care."""

    __slots__ = ("_by_stage", "_sick")

    def __init__(self, happenings: Iterable[Happening]) -> None:
        self._by_stage: dict[Did, list[Happening]] = defaultdict(list)
        rain: dict[date, float] = defaultdict(float)
        self._sick: set[str] = set()
        for each in happenings:
            self._by_stage[each.did].append(each)
            if each.did is Did.RAIN and each.amount is not None:
                rain[each.on] += each.amount.millimetres or 0.0
            if each.did is Did.PULLED and each.sick:
                self._sick.add(each.bed or each.wave or "")
        self.rain = tuple(sorted(rain.items()))

    def begun(self, routine: Routine) -> date | None:
        """Return the first day on which a routine is noted anywhere; None where it never is."""
        days = (each.on for each in self._of(routine))
        return min(days, default=None)

    def done(self, routine: Routine, plot: Plot) -> tuple[date, ...]:
        """Return the days on which a routine is noted as done to some plants, in order.

        What does not say with what it was done counts for every routine of its kind.
        """
        days = {each.on for each in self._of(routine) if _is_of(each, plot)}
        return tuple(sorted(days))

    def _of(self, routine: Routine) -> Iterable[Happening]:
        for each in self._by_stage.get(stage_of_work(routine.work), ()):
            if each.using is None or each.using.casefold() == routine.key:
                yield each

    def skipped(self, routine: Routine, plot: Plot) -> tuple[date, ...]:
        """Return the days on which it is noted that a routine was left out."""
        stage = stage_of_work(routine.work)
        return tuple(
            each.on
            for each in self._by_stage.get(Did.SKIPPED, ())
            if each.skips is stage
            and (each.using is None or each.using.casefold() == routine.key)
            and _is_of(each, plot)
        )

    def applied(self, plot: Plot) -> tuple[Application, ...]:
        """Return what was put on the leaves of some plants, in order of day."""
        found = [each for each in self._by_stage.get(Did.SPRAYED, ()) if _is_of(each, plot)]
        using = ((each.on, None if each.using is None else each.using.casefold()) for each in found)
        in_order = sorted(using, key=lambda each: (each[0], each[1] or ""))
        return tuple(Application(on, what) for on, what in in_order)

    def found(self, plot: Plot) -> Happening | None:
        """Return the latest look at some plants, or None."""
        looks = [each for each in self._by_stage.get(Did.SCOUTED, ()) if _is_of(each, plot)]
        return max(looks, key=lambda each: (each.on, each.span.line), default=None)

    def wanted_since(self, routine: Routine, plot: Plot) -> date | None:
        """Return the day since which a routine on demand is wanted; None where it is not."""
        since = None
        looks = [each for each in self._by_stage.get(Did.SCOUTED, ()) if _is_of(each, plot)]
        for each in sorted(looks, key=lambda each: (each.on, each.span.line)):
            enough = each.found is Found.MANY or (
                each.found is Found.SOME and routine.on_demand is OnDemand.SOME
            )
            since = (since or each.on) if enough else None
        return since

    def is_unwell(self, plot: Plot) -> bool:
        """Say whether something was found at the latest look at some plants, or pulled sick."""
        if plot.bed.name in self._sick or plot.wave.id in self._sick:
            return True
        look = self.found(plot)
        return look is not None and look.found is not Found.NONE


def _is_of(each: Happening, plot: Plot) -> bool:
    """Say whether an entry is of some plants; what is of a bed is of all that stands in it."""
    if each.bed is not None and each.bed != plot.bed.name:
        return False
    if each.wave is not None:
        return each.wave == plot.wave.id
    return each.bed is not None and plot.wave.stages.plant.day <= each.on
