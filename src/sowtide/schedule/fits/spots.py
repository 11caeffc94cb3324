"""The beds with room for one more wave: from when to when, and between which waves."""

from __future__ import annotations

from datetime import date, timedelta

from sowtide.garden.crop import Raised
from sowtide.garden.model import Bed
from sowtide.reasons import OURS, Dated
from sowtide.schedule.beds import too_soon
from sowtide.schedule.fits.answer import Neighbour, Spot
from sowtide.schedule.fits.question import Question
from sowtide.schedule.season import Season
from sowtide.schedule.waves import SAFE, Judged, Prospects


def planted_on(day: date) -> Dated:
    """Begin counting on the planting day that is asked about."""
    return Dated.on(day, "written", "planting day asked about", OURS)


class Spots:
    """Looks for room in beds, each with what is planned in it.

    Parameters
    ----------
    season
        The plan that fills the beds.
    question
        What the grower asks.
    raised
        Direct or trays.
    asked_on
        The first day that comes into question.
    """

    def __init__(
        self, season: Season, question: Question, *, raised: Raised, asked_on: date
    ) -> None:
        self.question = question
        self.crop = question.crop
        self.conditions = season.conditions
        self.room = season.room
        self.raised = raised
        self.asked_on = asked_on
        self._own = {w.entry.name for w in season.waves if w.crop.name == self.crop.name}
        self._judged: dict[tuple[float, date], Judged] = {}

    def spots(self, beds: tuple[Bed, ...], wanted: int | None) -> tuple[Spot, ...]:
        """Return the beds with room, best first: safe, all the plants, soon, in file order."""
        spots = [spot for bed in beds if (spot := self._spot(bed, wanted)) is not None]
        return tuple(
            sorted(
                spots,
                key=lambda spot: (
                    spot.judged.verdict not in (*SAFE, None),
                    spot.free_from != self.asked_on and self.question.on is not None,
                    -spot.plants,
                    spot.free_from,
                ),
            )
        )

    def _spot(self, bed: Bed, wanted: int | None) -> Spot | None:
        prospects = self.conditions.prospects(
            self.crop, self.raised, colder_by=bed.colder_than_site
        )
        best: tuple[int, date, Judged] | None = None
        for day in self._days(bed):
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
        return Spot(bed, day, until, plants, judged, self._after(bed, day, area), before)

    def _after(self, bed: Bed, day: date, area: int) -> Neighbour | None:
        """Return what last left the bed by a day, if so much was not free before it did.

        Of several that leave at once the largest.
        """
        index, ordinal = self.room.number[bed.name], day.toordinal()
        gone = [
            *((stay.until, stay.area, stay.wave) for stay in self.room.stays[index]),
            *((span.last.toordinal() + 1, bed.area, "") for span in bed.taken),
        ]
        until, _, wave = max((each for each in gone if each[0] <= ordinal), default=(0, 0, ""))
        if not until or self.room.free_over(index, first=until - 1, until=until - bed.rest) >= area:
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

    def _days(self, bed: Bed) -> list[date]:
        """The day asked about, and every later one on which something leaves the bed."""
        index = self.room.number[bed.name]
        first = self.asked_on.toordinal()
        leaving = {stay.until for stay in self.room.stays[index] if stay.until > first}
        leaving |= {span.last.toordinal() + 1 for span in bed.taken if span.last >= self.asked_on}
        last = self.conditions.year.last.toordinal()
        return [date.fromordinal(day) for day in sorted({first, *leaving}) if day <= last]

    def rotation_closes(self, bed: Bed, day: date) -> bool:
        """Say whether rotation keeps the crop out of a bed that was not asked for by name."""
        if self.question.bed is not None:
            return False
        stays = self.room.stays[self.room.number[bed.name]]
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
        if not self._filled_later(bed, day):
            return window.last
        while day < window.last:
            following = day + timedelta(days=1)
            if self._plants(bed, self._judge(prospects, following)) < plants:
                break
            day = following
        return day

    def _filled_later(self, bed: Bed, day: date) -> bool:
        """Whether anything comes into the bed after a day."""
        stays = self.room.stays[self.room.number[bed.name]]
        planted = any(stay.first > day.toordinal() for stay in stays)
        return planted or any(span.last > day for span in bed.taken)

    def _judge(self, prospects: Prospects, day: date) -> Judged:
        """Judge a planting day, once for all the beds on the same ground."""
        key = (prospects.need.killed_at, day)
        judged = self._judged.get(key)
        if judged is None:
            judged = self._judged[key] = prospects.judge(planted_on(day))
        return judged
