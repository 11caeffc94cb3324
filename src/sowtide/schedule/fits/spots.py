"""The beds with room for one more wave: from when to when, and between which waves."""

from __future__ import annotations

from datetime import date, timedelta

from sowtide.days import Half
from sowtide.garden.crop import Raised
from sowtide.garden.model import Bed
from sowtide.schedule.fits.answer import Neighbour, Spot
from sowtide.schedule.fits.question import Question
from sowtide.schedule.season import Season
from sowtide.schedule.stays import barred, too_soon
from sowtide.schedule.waves import SAFE, Conditions, Judged, Prospects, Verdict, Wave
from sowtide.units import FREEZING

_ANY_STAY = timedelta(days=2 * 366)
"""No wave that is planted in a growing year stands longer than to the end of the one after it."""

_STRIDE = 4
"""Days from one planting day that is looked at to the next, where room runs out. [days]"""


def first_day(season: Season, question: Question, prospects: Prospects, last: Wave | None) -> date:
    """Return today, or when seedlings sown today are ready; later if too early or too hot."""
    first = today = season.today
    nursery = question.crop.nursery_days
    if prospects.raised is Raised.TRAYS and not question.seedlings and nursery is not None:
        first = today + timedelta(days=nursery.low)
    if question.crop.overwinters:
        return max(first, _winter_day(season.conditions, last))
    first = max(first, prospects.begins.day)
    if prospects.judge_on(first).verdict is Verdict.TOO_HOT:
        later = (window.first for window in prospects.windows if window.first > first)
        return next(later, first)
    return first


def _winter_day(conditions: Conditions, last: Wave | None) -> date:
    """When to plant what stands over the winter: as its last wave, else about the first frost.

    About the average first frost is common practice, no source.
    """
    year = conditions.year
    if last is not None and last.judged.verdict is None:
        planted = last.stages.plant.day
        return planted - timedelta(days=year.days_to(planted))
    frost = conditions.climate.frosts.day(Half.AUTUMN, at=FREEZING, share=0.5)
    return year.midsummer if frost is None else frost.day


class Spots:
    """Looks for room in beds, each with what is planned in it."""

    def __init__(
        self, season: Season, question: Question, *, raised: Raised, last: Wave | None
    ) -> None:
        self.season = season
        self.question = question
        self.crop = question.crop
        self.conditions = season.conditions
        self.room = season.room
        self.raised = raised
        self.last = last
        self._first: dict[float, date] = {}
        self._own = {w.entry.name for w in season.waves if w.crop.sortless == self.crop.sortless}
        self._judged: dict[tuple[float, date], Judged] = {}

    def spots(
        self, beds: tuple[Bed, ...], wanted: int | None, *, usual: float = 0.0
    ) -> tuple[Spot, ...]:
        """Return the beds with room, best first: safe, all the plants, soon, in file order.

        Among equals those come first that are as much colder than the site as `usual` [°C].
        """
        spots = [spot for bed in beds if (spot := self._spot(bed, wanted)) is not None]
        return tuple(
            sorted(
                spots,
                key=lambda spot: (
                    spot.judged.verdict not in (*SAFE, None),
                    self.question.on is not None and spot.free_from != self.question.on,
                    -spot.plants,
                    spot.free_from,
                    spot.bed.colder_than_site != usual,
                ),
            )
        )

    def _spot(self, bed: Bed, wanted: int | None) -> Spot | None:
        prospects = self.conditions.prospects(
            self.crop, self.raised, colder_by=bed.colder_than_site
        )
        best: tuple[int, date, Judged] | None = None
        for day in self._days(bed, self.first(prospects)):
            if self.rotation_closes(bed, day):
                continue
            judged = self._judge(prospects, day)
            if best is not None and judged.verdict not in SAFE:
                break
            if judged.verdict is not None and judged.stages.first_pick is None:
                continue
            plants = self._plants(bed, judged)
            if wanted is not None:
                plants = min(plants, wanted)
            if plants > (0 if best is None else best[0]):
                best = (plants, day, judged)
            if plants and (wanted is None or plants == wanted):
                break
        if best is None:
            return None
        plants, day, judged = best
        until = self._until(bed, plants, day, prospects)
        area = plants * self.crop.area_per_plant
        before = self._before(bed, day, area)
        return Spot(
            bed=bed,
            free_from=day,
            free_until=until,
            plants=plants,
            judged=judged,
            after=self._after(bed, day, area),
            before=before,
        )

    def _after(self, bed: Bed, day: date, area: int) -> Neighbour | None:
        """Return what last left the bed by a day, if so much was not free before it did.

        Of several that leave at once the largest.
        """
        index, ordinal = self.room.number[bed.name], day.toordinal()
        gone = [
            *((stay.until, stay.area, stay.wave) for stay in self.room.stays[index]),
            *((span.last.toordinal() + 1, bed.area, "") for span in bed.taken),
        ]
        left = [each for each in gone if each[0] <= ordinal]
        if not left:
            return None
        until, _, wave = max(left)
        if self.room.free_over(index, first=until - 1, until=until - bed.rest) >= area:
            return None
        return Neighbour(wave or None, date.fromordinal(until))

    def _before(self, bed: Bed, day: date, area: int) -> Neighbour | None:
        """Return the first to come after a day that leaves less than so much area."""
        index, first = self.room.number[bed.name], day.toordinal()
        coming = [
            *((stay.first, stay.wave) for stay in self.room.stays[index] if stay.first > first),
            *((span.first.toordinal(), None) for span in bed.taken if span.first > day),
        ]
        for comes, wave in sorted(coming, key=lambda each: each[0]):
            if self.room.free_over(index, first=first, until=comes + 1 - bed.rest) < area:
                return Neighbour(wave, date.fromordinal(comes))
        return None

    def first(self, prospects: Prospects) -> date:
        """Return the day asked about, or the first that comes into question on some ground."""
        if self.question.on is not None:
            return self.question.on
        found = self._first.get(prospects.ground)
        if found is None:
            found = first_day(self.season, self.question, prospects, self.last)
            self._first[prospects.ground] = found
        return found

    def _days(self, bed: Bed, begin: date) -> list[date]:
        """A day, and every later one on which something leaves the bed."""
        index = self.room.number[bed.name]
        first = begin.toordinal()
        leaving = {stay.until for stay in self.room.stays[index] if stay.until > first}
        leaving |= {span.last.toordinal() + 1 for span in bed.taken if span.last >= begin}
        last = self.conditions.year.last.toordinal()
        return [date.fromordinal(day) for day in sorted({first, *leaving}) if day <= last]

    def rotation_closes(self, bed: Bed, day: date) -> bool:
        """Say whether rotation keeps the crop out of a bed that was not asked for by name.

        Where its family was pulled as sick it is kept out of one that was, too.
        """
        index = self.room.number[bed.name]
        if barred(self.room, index, self.crop, day.toordinal()):
            return True
        if self.question.bed is not None:
            return False
        stays = self.room.stays[index]
        words = too_soon(
            bed,
            [stay for stay in stays if stay.series not in self._own],
            self.crop,
            series="",
            planted=day.toordinal(),
            season=self.conditions.year.season,
        )
        return words is not None

    def _plants(self, bed: Bed, judged: Judged) -> int:
        """Plants that have room for the whole stay of a wave. [1]"""
        stages = judged.stages
        return self.free(bed, stages.plant.day, stages.pull_out.day) // self.crop.area_per_plant

    def free(self, bed: Bed, first: date, until: date) -> int:
        """Least area free in a bed from a day until another one, half-open. [µm²]"""
        return self.room.free_over(
            self.room.number[bed.name], first=first.toordinal(), until=until.toordinal()
        )

    def _until(self, bed: Bed, plants: int, day: date, prospects: Prospects) -> date | None:
        """The last safe day up to which so many plants have their room without a break."""
        window = prospects.window_of(day)
        if window is None or day not in window:
            return None
        if self.free(bed, day, window.last + _ANY_STAY) >= plants * self.crop.area_per_plant:
            return window.last

        def lacks_room(later: int) -> bool:
            judged = self._judge(prospects, day + timedelta(days=later))
            return self._plants(bed, judged) < plants

        span = range(1, (window.last - day).days + 1)
        lost = next((later for later in span[::_STRIDE] if lacks_room(later)), span.stop)
        near = range(max(lost - _STRIDE, 0) + 1, lost)
        lost = next((later for later in near if lacks_room(later)), lost)
        return day + timedelta(days=lost - 1)

    def _judge(self, prospects: Prospects, day: date) -> Judged:
        """Judge a planting day, once for all the beds on the same ground."""
        key = (prospects.need.killed_at, day)
        judged = self._judged.get(key)
        if judged is None:
            judged = self._judged[key] = prospects.judge_on(day)
        return judged
