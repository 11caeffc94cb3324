"""Why there is too little of a crop in a week: what no plan can change, then what another might."""

from __future__ import annotations

from datetime import date, timedelta
from enum import Enum

from sowtide.days import DateSpan
from sowtide.schedule.season import Season
from sowtide.schedule.supply.counted import CropSupply, WeekSupply
from sowtide.schedule.supply.wanted import prospects_of
from sowtide.schedule.waves import Prospects, Status, Wave, picked_in
from sowtide.values import value

_STEP = timedelta(days=3)
"""Planting days that are tried lie so far apart."""
_MIDDLE = timedelta(days=3)
"""From a Monday to the middle of its week."""
_USUAL = 0.5
"""Share of the years from which on heat is taken for usual. [0–1]"""


class Why(Enum):
    """Why there is too little of a crop in some weeks; the last three of beds that were filled."""

    TOO_EARLY = "too early"
    FROST = "frost"
    TOO_HOT = "too hot"
    LOST = "lost"
    NO_ROOM = "no room"
    SEEDLINGS_LATE = "seedlings late"
    FRUIT_SET = "fruit set"
    NOT_IN_TIME = "not planted in time"
    TOO_FEW = "too few plants"
    NOTHING_PLANTED = "nothing planted"
    BEDS_FULL = "beds full"
    ROTATION = "rotation"
    NOT_WORTH_IT = "not worth it"


AVOIDABLE = (Why.NO_ROOM, Why.TOO_FEW, Why.NOTHING_PLANTED)
"""Reasons that another plan might mend."""


@value
class Tried:
    """A safe planting day, and the days on which it would be picked."""

    planted: date
    picked: DateSpan


class Reasons:
    """Finds out why there is too little of a crop."""

    def __init__(self, season: Season, supply: CropSupply) -> None:
        self._season = season
        self._supply = supply
        self._tried: tuple[Tried, ...] | None = None

    def days_late(self, waves: tuple[str, ...]) -> int:
        """Return how many days seedlings are late for the planting planned, the latest of some.

        Parameters
        ----------
        waves
            Names of waves whose seedlings are late. [days]
        """
        late = (_late(each) for each in self._supply.waves if each.id in waves)
        return max(each.days for each in late if each is not None)

    def of(self, week: WeekSupply) -> tuple[Why, tuple[str, ...]]:
        """Return why a week has too little, and the waves whose fault it is."""
        day = week.week + _MIDDLE
        serving = [each for each in self.tried if day in each.picked]
        if not serving:
            return self._impossible(day), ()
        return self._of_waves(day) or (self._of_plan(day, serving), ())

    @property
    def tried(self) -> tuple[Tried, ...]:
        """Safe planting days of the crop, on the warmest ground, with their pickings."""
        if self._tried is None:
            self._tried = tuple(self._try())
        return self._tried

    def _try(self) -> list[Tried]:
        prospects, found = prospects_of(self._season, self._supply.crop), []
        for run in prospects.windows:
            day = run.first
            while day <= run.last:
                judged = prospects.judge_on(day)
                picked = picked_in(judged.stages)
                if picked is not None:
                    found.append(Tried(day, picked))
                day += _STEP
        return found

    def _impossible(self, day: date) -> Why:
        """Say why no safe planting is picked on a day."""
        hot = self._season.climate.weather.hot_weeks
        prospects = prospects_of(self._season, self._supply.crop)
        if hot is not None and prospects.need.heat_ends and day >= hot.first:
            later = any(each.picked.first > day for each in self.tried)
            if day in hot or later:
                return Why.TOO_HOT
        if self._sets_no_fruit(prospects, day):
            return Why.TOO_HOT
        if any(each.picked.first > day for each in self.tried):
            return Why.TOO_EARLY
        return Why.FROST

    def _sets_no_fruit(self, prospects: Prospects, day: date) -> bool:
        """Say whether heat drops the flowers whose fruit would be picked on a day."""
        heat = prospects.need.fruit_set
        if heat is None:
            return False
        opened = day - timedelta(days=heat.ripens)
        gap = self._season.climate.weather.fruit_gap(
            DateSpan(opened, opened), high=heat.high, low=heat.low
        )
        return gap is not None and gap.share >= _USUAL

    def _of_waves(self, day: date) -> tuple[Why, tuple[str, ...]] | None:
        """Say which of the crop's waves should have been picked on a day, and why they are not."""
        found: dict[Why, list[str]] = {}
        for wave in self._supply.waves:
            why = self._fault(wave, day)
            if why is not None:
                found.setdefault(why, []).append(wave.id)
        worst = next((why for why in Why if why in found), None)
        return None if worst is None else (worst, tuple(found[worst]))

    def _fault(self, wave: Wave, day: date) -> Why | None:
        if wave.status in (Status.LOST, Status.SKIPPED):
            hoped = self._season.prospects(wave).judge(wave.stages.plant).stages
            picked = picked_in(hoped)
            return Why.LOST if picked is not None and day in picked else None
        gap = wave.judged.pick_gap
        if wave.stands and gap is not None and day in gap.picks:
            return Why.FRUIT_SET
        picked = picked_in(wave.stages)
        if picked is None:
            return None
        if not wave.stands:
            return Why.NO_ROOM if day in picked else None
        if wave.planned is None or day >= picked.first or _late(wave) is None:
            return None
        meant = picked_in(self._season.prospects(wave).judge_on(wave.planned).stages)
        return Why.SEEDLINGS_LATE if meant is not None and meant.first <= day else None

    def _of_plan(self, day: date, serving: list[Tried]) -> Why:
        """Say whether it is too late for more, or whether what there is, if any, is too little.

        What a few years bring after the last pick, or before the first, is nothing planted for it.
        """
        if all(each.planted < self._season.today for each in serving):
            return Why.NOT_IN_TIME
        standing = (picked_in(each.stages) for each in self._supply.waves if each.stands)
        planted = any(picked is not None and day in picked for picked in standing)
        return Why.TOO_FEW if planted else Why.NOTHING_PLANTED


def _late(wave: Wave) -> timedelta | None:
    """Return by how much its seedlings kept a wave from being planted as planned, else None.

    How long it stood about once they were ready is not their fault.
    """
    sown, ready = wave.done and wave.done.sow, wave.stages.ready
    if wave.planned is None or sown is None or ready is None:
        return None
    late = min(ready.day, wave.stages.plant.day) - wave.planned
    return late if late > timedelta() else None
