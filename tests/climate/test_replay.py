"""Recorded years replayed: against an independent replay, day by day and without any shortcut."""

from __future__ import annotations

from array import array
from datetime import date, timedelta

import pytest

from made_years import CROPS, FIRST, SEASONS, YEAR, weather
from sowtide.climate.answers import Need
from sowtide.climate.frost_record.record_years import RecordYears
from sowtide.climate.medians import NEVER, median
from sowtide.climate.record.record import Record
from sowtide.climate.replay.ends import Ends
from sowtide.climate.replay.run import Replay
from sowtide.climate.warmth.aligned import Years
from sowtide.climate.warmth.gathered import totals_of
from sowtide.climate.warmth.hot_weeks import DAYS, centred_means, hot_spans
from sowtide.days import GrowingYear
from sowtide.garden.site import YearsWanted


class Brute:
    """The same, told one day after another."""

    def __init__(self, lows: list[float], highs: list[float], crop: Need) -> None:
        self.lows, self.highs, self.crop = lows, highs, crop
        means = [(low + high) / 2 for low, high in zip(lows, highs, strict=True)]
        half = DAYS // 2
        self.around = [
            sum(means[day - half : day + half + 1]) / DAYS
            if half <= day < len(means) - half
            else None
            for day in range(len(means))
        ]

    def first_pick(self, planted: int, total: float) -> int | None:
        warmth = self.crop.warmth
        assert warmth is not None
        heat, day = 0.0, planted
        while heat < total - 1e-9:
            if day >= len(self.lows):
                return None
            low, high = (
                min(max(each, warmth.base), warmth.upper or 99.0)
                for each in (self.lows[day], self.highs[day])
            )
            heat += (low + high) / 2 - warmth.base
            day += 1
        return max(day, planted + warmth.least)

    def end(self, planted: int, season: int) -> int:
        midsummer = (date(season, 7, 1) - FIRST).days
        for day in range(max(midsummer, planted + 1), midsummer + 366):
            if day < len(self.lows) and self.lows[day] <= self.crop.killed_at + 1e-12:
                return day + self.crop.after_frost_days
        return NEVER

    def hot(self, season: int) -> tuple[int, int] | None:
        first = (date(season, 1, 1) - FIRST).days
        limit = self.crop.warm_limit
        if not self.crop.heat_ends or limit is None:
            return None
        days = [
            day for day in range(first, first + 366) if (self.around[day] or -99.0) > limit + 1e-6
        ]
        return (days[0], days[-1] + 1) if days else None

    def early(self, season: int, day: date) -> int:
        """Days to the first pick at the early end, the hot weeks waited for."""
        warmth = self.crop.warmth
        assert warmth is not None
        planted = (day.replace(year=season) - FIRST).days
        pick, hot = self.first_pick(planted, warmth.low), self.hot(season)
        late = self.first_pick(planted, warmth.high)
        until = min(self.end(planted, season), (date(season, 7, 1) - FIRST).days + 366)
        if pick is None or pick > until:
            return NEVER
        late = late if late is not None and late <= until else NEVER
        if hot is not None and hot[0] <= pick < hot[1] and (late or NEVER) >= hot[1]:
            pick = hot[1]
        return pick - planted

    def fares(self, season: int, day: date) -> tuple[float, float, float]:
        """Shares of the range worth while and not picked at all, and the mean of picking days."""
        crop = self.crop
        assert crop.warmth is not None
        planted = (day.replace(year=season) - FIRST).days
        end, hot = self.end(planted, season), self.hot(season)
        worth = nothing = picking = 0.0
        picks = [self.first_pick(planted, total) for total in totals_of(crop.warmth)]
        early = picks[0]
        for pick in picks:
            left = crop.picking
            if pick is not None and hot is not None and early is not None and early < hot[1]:
                begins, over = hot
                if early < begins:
                    left = min(left, begins - pick)
                elif (picks[-1] or NEVER) < over:
                    left = 0
                elif pick < over:
                    waits = over - pick
                    if crop.picking > 1:
                        left -= waits
                    elif waits > crop.holds_in_heat:
                        left = 0
                    pick = over
            if pick is None or left <= 0 or pick >= end:
                nothing += 1
                continue
            stays = min(left, end - pick) if crop.picking > 1 else 1
            picking += stays
            enough = pick + crop.worthwhile <= end
            if hot is not None and early is not None and early < hot[0]:
                enough = enough and pick + crop.worthwhile <= hot[0]
            elif crop.picking > 1:
                enough = enough and left >= crop.worthwhile
            worth += enough
        parts = len(picks)
        return worth / parts, nothing / parts, picking / parts


def replay(
    lows: list[float],
    highs: list[float],
    crop: Need,
    hot: tuple[tuple[int, int] | None, ...] | None = None,
) -> Replay:
    from sowtide.climate.warmth.heat import HeatMethod, accumulated, missing_before

    years = Years(FIRST, SEASONS, YEAR)
    assert crop.warmth is not None
    means = [(low + high) / 2 for low, high in zip(lows, highs, strict=True)]
    hot = hot or (
        hot_spans(centred_means(means), years, crop.warm_limit)
        if crop.heat_ends and crop.warm_limit is not None
        else (None,) * len(SEASONS)
    )
    deadly = [day for day, low in enumerate(lows) if low <= crop.killed_at]
    ends = Ends(deadly, years, missing=missing_before(lows, highs), later=crop.after_frost_days)
    return Replay(
        years,
        heat=accumulated(
            lows, highs, base=crop.warmth.base, upper=crop.warmth.upper, method=HeatMethod.CLIP
        ),
        ends=ends,
        hot=hot,
        need=crop,
    )


def offset(day: date) -> int:
    return (day - YEAR.first).days


@pytest.mark.parametrize("name", CROPS)
def test_each_year_fares_as_in_a_replay_day_by_day(name: str) -> None:
    lows, highs = weather()
    brute, found = Brute(lows, highs, CROPS[name]), replay(lows, highs, CROPS[name])
    for day in (date(2026, 3, 20) + timedelta(days=step) for step in range(0, 230, 9)):
        runs = list(found.runs(offset(day)))
        assert len(runs) == len(SEASONS)
        for run in runs:
            worth, nothing, picking = brute.fares(run.season, day)
            assert run.early == brute.early(run.season, day), (day, run.season)
            assert run.worth == pytest.approx(worth), (day, run.season)
            assert run.nothing == pytest.approx(nothing), (day, run.season)
            assert run.picking == pytest.approx(picking), (day, run.season)


@pytest.mark.parametrize("name", CROPS)
@pytest.mark.parametrize(
    ("seed", "gaps"), [(9, ()), (9, (1500,)), (5, (700, 1891, 1892, 3300)), (6, ()), (7, ())]
)
def test_the_sweep_over_all_days_says_what_each_day_says(
    name: str, seed: int, gaps: tuple[int, ...]
) -> None:
    lows, highs = weather(seed=seed)
    for day in gaps:
        lows[day] = float("nan")
    found = replay(lows, highs, CROPS[name])
    promised = found.prospects
    different = 0
    for day in range(365):
        runs = list(found.runs(day))
        assert promised.used[day] == len(runs)
        if runs:
            odds = sum(run.worth for run in runs) / len(runs)
            assert promised.odds[day] == pytest.approx(odds), day
            hot = sum(run.too_hot for run in runs) / len(runs)
            assert promised.too_hot[day] == pytest.approx(hot), day
        different += len(runs) < len(SEASONS)
    assert bool(different) == bool(gaps)


@pytest.mark.parametrize("name", [name for name, crop in CROPS.items() if crop.heat_ends])
@pytest.mark.parametrize("stop", [4800, 4272, 4268])
def test_frost_that_comes_before_hot_weeks_or_within_them_ends_what_they_would_spoil(
    name: str, stop: int
) -> None:
    """A polar station whose grower wrote hot weeks: frosts in summer, and a record that ends then.

    Day 4258 is 1 July of the last year; of its hot weeks all are recorded, or two, or ten days.
    """
    lows, highs = weather(seed=8)
    colder = 16 - CROPS[name].killed_at
    lows, highs = [low - colder for low in lows[:stop]], [high + 12 for high in highs[:stop]]
    written = [date(season, 7, 1) - FIRST for season in SEASONS]
    hot = tuple((first.days, first.days + 51) for first in written)
    found = replay(lows, highs, CROPS[name], hot)
    told = 0
    for day in range(365):
        runs = list(found.runs(day))
        told += len(runs)
        if runs:
            odds = sum(run.worth for run in runs) / len(runs)
            assert found.prospects.odds[day] == pytest.approx(odds), day
            too_hot = sum(run.too_hot for run in runs) / len(runs)
            assert found.prospects.too_hot[day] == pytest.approx(too_hot), day
    assert told > 365 * 10


def test_the_median_is_the_middle_and_never_beside_a_day_is_never() -> None:
    assert median([7]) == 7
    assert median([1, NEVER, NEVER]) == NEVER
    assert median([-NEVER, 4]) == -NEVER
    assert median([1, 4]) == 3  # halves up


@pytest.mark.parametrize(
    ("wanted", "seasons"),
    [
        (YearsWanted(), (2009, 2022)),
        (YearsWanted(last=5), (2018, 2022)),
        (YearsWanted(first=2012, to=2014), (2012, 2014)),
        (YearsWanted(first=1990, to=2050), (2009, 2022)),
    ],
)
def test_the_years_wanted_are_used(wanted: YearsWanted, seasons: tuple[int, int]) -> None:
    lows, _ = weather()
    record = Record("x", None, FIRST, array("d", lows), None, 0.1, False)
    assert RecordYears(record, south=False, wanted=wanted, before=YEAR).span == seasons


def test_the_year_that_is_planned_is_no_year_to_learn_from() -> None:
    lows, _ = weather()
    record = Record("x", None, FIRST, array("d", lows), None, 0.1, False)
    planned = GrowingYear(2020, south=False)
    years = RecordYears(record, south=False, wanted=YearsWanted(), before=planned)
    assert years.span == (2009, 2019)
    assert max(each.season for each in years.frosts(0.0).spring.years) == 2019


@pytest.mark.parametrize("south", [False, True])
def test_the_same_day_of_each_year_is_found_across_leap_days(south: bool) -> None:
    year = GrowingYear(2027, south)  # south: its February is that of 2028
    years = Years(date(2000, 1, 1), tuple(range(2001, 2020)), year)
    for day in range(years.days):
        planned = year.first + timedelta(days=day)
        for season, index in zip(years.seasons, years.indices(day), strict=True):
            found = date(2000, 1, 1) + timedelta(days=index)
            if (planned.month, planned.day) == (2, 29):
                assert (found.month, found.day) in ((2, 29), (3, 1))
            else:
                assert (found.month, found.day) == (planned.month, planned.day)
                assert found in GrowingYear(season, south)
