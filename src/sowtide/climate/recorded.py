"""A climate known by a daily record of minima and maxima: every recorded year is replayed."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from datetime import date, timedelta
from functools import cached_property
from itertools import pairwise

from sowtide.climate.average_year import AverageYear
from sowtide.climate.dates import DatesClimate
from sowtide.climate.ends import Ends
from sowtide.climate.frost_years import FrostYears
from sowtide.climate.gathered import Gathered
from sowtide.climate.growth import UNRIPE_DAYS, range_end
from sowtide.climate.half import Half
from sowtide.climate.heat import missing_before
from sowtide.climate.hot import centred_means, hot_spans
from sowtide.climate.medians import NEVER, median
from sowtide.climate.middle import Middle, middle_of
from sowtide.climate.outlook import Basis, Chances, EndedBy, Need, Outlook, SoFar
from sowtide.climate.record_years import RecordYears
from sowtide.climate.replay import HALF, Replay
from sowtide.climate.running import running_mean
from sowtide.climate.so_far import cut_out, known_until, lay_out, so_far
from sowtide.climate.soil import GROUND_DAYS, HOT_WEEKS, Soil, soil_under
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.site import Site
from sowtide.reasons import OURS, Dated, Origin
from sowtide.units import FREEZING, show_degree_days, show_temperature

_MISSING = 0.3


class RecordClimate:
    """A climate whose recorded years are replayed whole: their warmth and their frosts.

    Parameters
    ----------
    frosts
        The frosts of the same record.
    years
        The record's years; its record has maxima.
    year
        The growing year planned.
    site
        The place.
    origin
        Where the record is named.
    today
        The day from which on nothing of the planned year is known; None: whatever the record has.
    """

    def __init__(
        self,
        frosts: DatesClimate,
        years: RecordYears,
        year: GrowingYear,
        *,
        site: Site,
        origin: Origin,
        today: date | None = None,
    ) -> None:
        record = years.record
        assert record.tmax is not None
        self._so_far: SoFar | None = None
        self._frosts = frosts
        self._year = year
        self._site = site
        self._origin = origin
        self._record = record
        until = known_until(record, year, today)
        if until is None:
            laid = cut_out(record, years.seasons, year)
        else:
            laid = lay_out(record, years.seasons, year, until)
            self._so_far = so_far(record, years.seasons, year, until)
        self._tmin, self._tmax, self._years = laid.tmin, laid.tmax, laid.years
        self._gathered = Gathered(self._tmin, self._tmax)
        self._ends: dict[tuple[float | None, int], Ends] = {}
        self._spans: dict[float, tuple[tuple[int, int] | None, ...]] = {}
        self._soils: dict[date, Soil | None] = {}
        self._mean_over: dict[tuple[int, int], float | None] = {}
        self._replays: dict[int, tuple[Need, Replay]] = {}

    @cached_property
    def _missing(self) -> array[int]:
        return missing_before(self._tmin, self._tmax)

    @cached_property
    def _means(self) -> list[float]:
        return [(low + high) / 2 for low, high in zip(self._tmin, self._tmax, strict=True)]

    @cached_property
    def _centred(self) -> Sequence[float]:
        return centred_means(self._means)

    @cached_property
    def _ground(self) -> Sequence[float]:
        return running_mean(self._means, GROUND_DAYS, missing=_MISSING)

    @property
    def basis(self) -> Basis:
        """What the answers rest on."""
        return self._frosts.basis

    @property
    def hot_weeks(self) -> DateSpan | None:
        """The weeks too hot for cool-season crops: the grower's, else those of most years."""
        return self._site.too_hot if self._site.heat_known else self._usual_hot_weeks

    @property
    def so_far(self) -> SoFar | None:
        """How far the season has come, where the record reaches into it."""
        return self._so_far

    def soil(self, day: date) -> Soil | None:
        """Return what the soil is on a day, from the average of the years."""
        if day not in self._soils:
            air = self._average_year.ground[self._year.offset(day)]
            soil = Soil(soil_under(air, day, self._year), at_least=False)
            self._soils[day] = None if air != air else soil
        return self._soils[day]

    def mean_over(self, first: date, days: int) -> float | None:
        """Return the mean temperature of some days, averaged over the years. [°C]"""
        key = self._year.offset(first), days
        if key not in self._mean_over:
            spans = (self._means[at : at + days] for at in self._years.indices(key[0]))
            known = [mean for span in spans for mean in span if mean == mean]
            self._mean_over[key] = sum(known) / len(known) if known else None
        return self._mean_over[key]

    def warm_from(self, *, soil: float | None, nights: float | None) -> Dated | None:
        """Return the first day with soil and nights warm enough, or None where they always are."""
        return self._average_year.warm_from(soil=soil, nights=nights, origin=self._origin)

    def frost_day(self, half: Half, *, at: float, share: float) -> Dated | None:
        """Return the day with that share of years beyond it, to the nearest day."""
        return self._frosts.frost_day(half, at=at, share=share)

    def frost_odds(self, half: Half, day: date, *, at: float) -> float:
        """Return the share of years with a frost later (spring) or earlier (autumn) than a day."""
        return self._frosts.frost_odds(half, day, at=at)

    def frost_years(self, at: float) -> FrostYears | None:
        """Return the frosts of each recorded year at a temperature. [°C]"""
        return self._frosts.frost_years(at)

    def safe_from_frost(self, *, at: float, share: float) -> Dated | None:
        """Return the first day after which frost comes in no more than that share of years."""
        return self._frosts.safe_from_frost(at=at, share=share)

    def frost_end(self, need: Need) -> Dated | None:
        """Return the day frost ends a crop in half of the years, or None where no frost does."""
        if not need.stands:
            return self._frosts.frost_end(need)
        return None

    def outlook(self, planted: Dated, need: Need) -> Outlook:
        """Return what becomes of a wave planted on a day, over all recorded years."""
        runs = tuple(self._replay(need).runs(self._year.offset(planted.day)))
        if not runs:
            return self._frosts.outlook(planted, need)
        middle = middle_of(runs)
        early, late = (
            self._first_pick(planted, need, middle, len(runs), late=late) for late in (False, True)
        )
        end, ended_by = self._end(planted, middle, len(runs), ripens=early[1])
        return Outlook(
            (early[0], late[0]),
            end,
            ended_by,
            middle.chances(runs, need),
            sum([run.picking for run in runs]) / len(runs),
            sum([run.nothing for run in runs]) / len(runs),
            len(runs),
        )

    def chances(self, planted: date, need: Need) -> Chances:
        """Return the chances of `outlook` alone, for a planting day."""
        replay, offset = self._replay(need), self._year.offset(planted)
        if self._site.sure.days is not None:  # margins decide
            runs = tuple(replay.runs(offset))
            return (
                middle_of(runs).chances(runs, need) if runs else self._frosts.chances(planted, need)
            )
        found = replay.prospects
        if not found.used[offset]:
            return self._frosts.chances(planted, need)
        return Chances(found.odds[offset], None, None, found.too_hot[offset] > HALF)

    def stretches(self, need: Need, days: DateSpan) -> tuple[DateSpan, ...]:
        """Split planting days, in order, into runs along which the odds only fall.

        Margins keep no such order: where they decide, each day stands alone.
        """
        first = days.first.toordinal()
        alone = self._site.sure.days is not None
        found = self._replay(need).prospects
        offset, count = self._year.offset(days.first), (days.last - days.first).days + 1
        if alone:
            turns: Sequence[int] = range(count)
        else:
            turns = [0, *found.turns(offset, offset + count)]
        return tuple(
            DateSpan(date.fromordinal(first + begin), date.fromordinal(first + over - 1))
            for begin, over in pairwise([*turns, count])
            if begin < over
        )

    @cached_property
    def _average_year(self) -> AverageYear:
        lows = running_mean(self._tmin, GROUND_DAYS, missing=_MISSING)
        return AverageYear(self._ground, lows, self._years, self._year)

    def _replay(self, need: Need) -> Replay:
        found = self._replays.get(id(need))  # its need is kept with it: no other has its id
        if found is None:
            warmth = need.warmth
            assert warmth is not None
            replay = Replay(
                self._years,
                heat=self._gathered.of(warmth),
                ends=self._ends_of(need),
                hot=self._hot_of(need),
                need=need,
            )
            found = self._replays[id(need)] = (need, replay)
        return found[1]

    def _ends_of(self, need: Need) -> Ends:
        """When such a crop is ended in each year."""
        key = None if need.stands else need.killed_at, need.after_frost_days
        ends = self._ends.get(key)
        if ends is None:
            readings: Sequence[float] = self._ground if need.stands else self._tmin
            limit = FREEZING if need.stands else self._record.threshold(need.killed_at)
            days = [day for day, reading in enumerate(readings) if reading <= limit]
            ends = self._ends[key] = Ends(
                days, self._years, missing=self._missing, later=need.after_frost_days
            )
        return ends

    def _hot_of(self, need: Need) -> tuple[tuple[int, int] | None, ...]:
        if not need.heat_ends or need.warm_limit is None:
            return (None,) * len(self._years.seasons)
        if self._site.heat_known:
            return self._written_hot()
        return self._spans_over(need.warm_limit)

    def _written_hot(self) -> tuple[tuple[int, int] | None, ...]:
        hot = self._site.too_hot
        if hot is None:
            return (None,) * len(self._years.seasons)
        firsts = self._years.indices(self._year.offset(hot.first))
        lasts = self._years.indices(self._year.offset(hot.last))
        return tuple((first, last + 1) for first, last in zip(firsts, lasts, strict=True))

    def _spans_over(self, limit: float) -> tuple[tuple[int, int] | None, ...]:
        spans = self._spans.get(limit)
        if spans is None:
            spans = self._spans[limit] = hot_spans(self._centred, self._years, limit)
        return spans

    @cached_property
    def _usual_hot_weeks(self) -> DateSpan | None:
        pairs = list(zip(self._spans_over(HOT_WEEKS), self._years.bases, strict=True))
        begin = median([NEVER if span is None else span[0] - base for span, base in pairs])
        over = median([-NEVER if span is None else span[1] - base for span, base in pairs])
        if begin >= over:
            return None
        first = self._year.first
        return DateSpan(first + timedelta(days=begin), first + timedelta(days=over - 1))

    def _first_pick(
        self, planted: Dated, need: Need, middle: Middle, years: int, *, late: bool
    ) -> tuple[Dated, bool]:
        """Count the median first pick; whether it ripens at all in half of the years.

        What does not is dated on the day that ends it, or a year on where nothing does.
        """
        warmth = need.warmth
        assert warmth is not None
        found = middle.late if late else middle.early
        total = warmth.high if late else warmth.low
        units = self._site.units
        text = (
            f"{range_end(need, late=late)}, as warmth: {show_degree_days(total, units)} above "
            f"{show_temperature(warmth.base, units)}, median of {years} years"
        )
        if found >= NEVER:
            text += ": not ripe before it ends"
            return planted.then(middle.stops, "heat", text, OURS), False
        return planted.then(found, "heat", text, need.days_origin), True

    def _end(
        self, planted: Dated, middle: Middle, years: int, *, ripens: bool
    ) -> tuple[Dated | None, EndedBy | None]:
        frost, heat = middle.frost_end, middle.hot_end
        if heat < frost:
            text = f"heat spoils it in half of {years} years"
            return planted.then(heat, "too-hot", text, self._origin), EndedBy.HEAT
        if frost < NEVER:
            text = f"frost ends it in half of {years} years"
            return planted.then(frost, "frost-end", text, self._origin), EndedBy.FROST
        if ripens:
            return None, None
        text = "it is not ripe within the year"
        return planted.then(UNRIPE_DAYS, "heat", text, self._origin), EndedBy.TOO_COOL
