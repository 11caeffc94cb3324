"""Fruit that heat has dropped is not picked: days counted by hand, each year told day by day."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import date, timedelta
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from made_years import CROPS, FIRST, SEASONS, YEAR, weather
from sowtide.climate.answers import FruitSet, Need
from sowtide.climate.fate import Fate, fate_of
from sowtide.climate.growth import range_end
from sowtide.climate.medians import NEVER
from sowtide.climate.replay.ends import Ends
from sowtide.climate.replay.run import Replay, Run
from sowtide.climate.warmth.aligned import Years
from sowtide.climate.warmth.barren import Barren, LeftByHeat, left_by_heat
from sowtide.climate.warmth.fruit_set import too_hot_to_set
from sowtide.climate.warmth.heat import HeatMethod, accumulated, missing_before
from sowtide.climate.warmth.hot_weeks import centred_means, hot_spans
from sowtide.days import DayRange

RIPENS = 15
BEAN = replace(CROPS["bean"], fruit_set=FruitSet(high=33.0, low=22.0, ripens=RIPENS))
LONG = replace(CROPS["one number"], fruit_set=BEAN.fruit_set)
COOL = replace(CROPS["lettuce"], fruit_set=FruitSet(high=27.0, low=None, ripens=RIPENS))
ONCE = replace(CROPS["potato"], fruit_set=BEAN.fruit_set)
HARMED = {"bean": BEAN, "picked long": LONG, "in hot weeks too": COOL, "cut once": ONCE}


def test_days_without_fruit_are_those_of_the_flowers_and_the_ripening() -> None:
    # Flowers drop on days 3, 4 and 8; 10 days later nothing is picked: 13, 14 and 18.
    barren = Barren([3, 4, 8], 10)
    assert barren.of(0, 30) == [13, 14, 18]
    assert list(barren.spans(0, 30)) == [(13, 15), (18, 19)]
    assert barren.picked(12, 20) == 5  # 12, 15, 16, 17, 19
    assert [barren.nth(12, number) for number in (1, 2, 4, 5)] == [12, 15, 17, 19]
    assert barren.nth(13, 1) == 15
    assert barren.last(12, 19) == 17
    assert barren.last(13, 15) is None


@pytest.mark.parametrize(
    ("early", "late", "picking", "setting"),
    [
        (5, 9, 4, LeftByHeat(5, 9, NEVER)),  # picked from 5 to 12: done before them
        (14, 16, 9, LeftByHeat(15, 16, NEVER)),  # waits a day
        (10, 12, 3, LeftByHeat(10, 12, 13)),  # 13 and 14 come to nothing: 12 is the last
        (10, 13, 2, LeftByHeat(10, NEVER, 13)),  # the late end sets nothing
        (13, 13, 2, LeftByHeat(NEVER, NEVER, 13)),  # all of it dropped
    ],
)
def test_what_heat_leaves_of_a_picking(
    early: int, late: int, picking: int, setting: LeftByHeat
) -> None:
    assert left_by_heat(early, late, picking, Barren([3, 4, 8], 10)) == setting


def test_worthwhile_days_come_later_by_the_days_without_fruit() -> None:
    need = replace(BEAN, picking=10, worthwhile=5)
    fate = fate_of([100, 104, 110], need, None, Barren(range(85, 93), RIPENS))
    # Nothing from 100 to 107. From 100 two of ten days are left, from 104 six, from 110 all ten.
    assert fate.first_picks(need) == [108, 108, 110]
    # The fifth day with fruit is 112 of the second and 114 of the third: as if from 108 and 110.
    assert fate.worthwhile(need) == [108, 110]
    assert not fate.too_hot  # one of three
    assert fate_of([100, 101, 110], need, None, Barren(range(85, 93), RIPENS)).too_hot


def test_a_crop_cut_once_is_held_to_its_days_before_the_heat_where_flowers_drop_too() -> None:
    # Flowers of 75 drop, so day 90 has no fruit. Heat begins on 100: seven days before it is 93.
    need = replace(COOL, picking=1, worthwhile=7)
    fate = fate_of([90, 93, 94, 101], need, (100, 130), Barren([75], RIPENS))
    assert fate.barren is not None
    assert fate.worthwhile(need) == [93]


def test_days_that_are_one_number_have_no_early_and_no_late_end() -> None:
    one = replace(LONG, days=DayRange(50, 50), days_text="days to harvest")
    assert [range_end(one, late=late) for late in (False, True)] == ["days to harvest"] * 2
    both = replace(one, days=DayRange(50, 51))
    assert range_end(both, late=False) == "days to harvest, early end"
    assert range_end(both, late=True) == "days to harvest, late end"


def replay(lows: list[float], highs: list[float], crop: Need) -> Replay:
    assert crop.warmth is not None
    assert crop.fruit_set is not None
    years = Years(FIRST, SEASONS, YEAR)
    means = [(low + high) / 2 for low, high in zip(lows, highs, strict=True)]
    hot: tuple[tuple[int, int] | None, ...] = (None,) * len(SEASONS)
    if crop.warm_limit is not None:
        hot = hot_spans(centred_means(means), years, crop.warm_limit)
    deadly = [day for day, low in enumerate(lows) if low <= crop.killed_at]
    heat = crop.fruit_set
    dropped = too_hot_to_set(lows, highs, high=heat.high, low=heat.low)
    return Replay(
        years,
        heat=accumulated(
            lows, highs, base=crop.warmth.base, upper=crop.warmth.upper, method=HeatMethod.CLIP
        ),
        ends=Ends(deadly, years, missing=missing_before(lows, highs), later=crop.after_frost_days),
        hot=hot,
        need=crop,
        barren=Barren(dropped, heat.ripens),
    )


def hot_weather(seed: int) -> tuple[list[float], list[float]]:
    lows, highs = weather(seed=seed)
    return lows, [high + 5 for high in highs]


def told(
    lows: list[float], highs: list[float], crop: Need, season: int, day: date
) -> tuple[float, float, float]:
    """Share worth while, share not picked at all, and mean days, told day after day."""
    warmth, heat = crop.warmth, crop.fruit_set
    assert warmth is not None
    assert heat is not None
    assert heat.high is not None
    assert heat.low is not None
    assert warmth.upper is not None
    planted = (day.replace(year=season) - FIRST).days
    midsummer = (date(season, 7, 1) - FIRST).days
    end = next(at for at in range(max(midsummer, planted + 1), 99999) if lows[at] <= 0)
    worth = nothing = picking = 0.0
    for number in range(warmth.parts):
        total = warmth.low + number * (warmth.high - warmth.low) / (warmth.parts - 1)
        gathered, at = 0.0, planted
        while gathered < total - 1e-9:
            low, high = (
                min(max(each, warmth.base), warmth.upper) for each in (lows[at], highs[at])
            )
            gathered += (low + high) / 2 - warmth.base
            at += 1
        days = 0
        first = max(at, planted + warmth.least)
        for pick in range(first, min(first + crop.picking, end)):
            flower = slice(pick - heat.ripens - 3, pick - heat.ripens + 4)
            of_week = sum(highs[flower]) / 7, sum(lows[flower]) / 7
            days += of_week[0] <= heat.high + 1e-9 and of_week[1] <= heat.low + 1e-9
        worth += days >= crop.worthwhile
        nothing += not days
        picking += days
    return worth / warmth.parts, nothing / warmth.parts, picking / warmth.parts


def test_each_year_fares_as_told_day_by_day() -> None:
    lows, highs = hot_weather(6)
    found, harmed = replay(lows, highs, BEAN), 0
    for day in (date(2026, 4, 20) + timedelta(days=step) for step in range(0, 130, 9)):
        for run in found.runs((day - YEAR.first).days):
            worth, nothing, picking = told(lows, highs, BEAN, run.season, day)
            assert run.worth == pytest.approx(worth), (day, run.season)
            assert run.nothing == pytest.approx(nothing), (day, run.season)
            assert run.picking == pytest.approx(picking), (day, run.season)
            harmed += 0 < run.worth < 1
    assert harmed > 10


@pytest.mark.parametrize("name", HARMED)
def test_the_sweep_over_all_days_says_what_each_day_says(name: str) -> None:
    found = replay(*hot_weather(6), HARMED[name])
    promised, harmed = found.prospects, 0
    for day in range(70, 280, 2):
        runs = list(found.runs(day))
        if runs:
            odds = sum(run.worth for run in runs) / len(runs)
            assert promised.odds[day] == pytest.approx(odds), day
            hot = sum(run.too_hot for run in runs) / len(runs)
            assert promised.too_hot[day] == pytest.approx(hot), day
            harmed += 0 < hot < 1
    assert harmed > 10


def _picked(runs: list[Run]) -> list[tuple[float, float, float]]:
    return [(run.worth, run.picking, 1 - run.nothing) for run in runs]


@pytest.mark.parametrize("seed", range(2))
def test_a_hotter_year_never_brings_more_pickings_of_what_drops_its_flowers(seed: int) -> None:
    """Growth counts no warmth above 30 °C here, so that heat beyond it only drops flowers."""
    lows, highs = hot_weather(seed)
    chance = random.Random(seed)
    hotter = [high + chance.uniform(0, 4) if high >= 30 else high for high in highs]
    usual, hot = replay(lows, highs, BEAN), replay(lows, hotter, BEAN)
    less = 0
    for day in range(60, 270, 5):
        before, after = (_picked(list(each.runs(day))) for each in (usual, hot))
        for one, other in zip(before, after, strict=True):
            assert all(b <= a + 1e-9 for a, b in zip(one, other, strict=True)), day
            less += other < one
        assert hot.prospects.odds[day] <= usual.prospects.odds[day] + 1e-9
    assert less > 20


DAYS = st.integers(0, 80)


@given(st.sets(DAYS), st.sets(DAYS), st.lists(DAYS, min_size=1), st.integers(1, 20), DAYS)
def test_more_dropped_flowers_never_mean_more_days_with_fruit(
    dropped: set[int], more: set[int], picks: list[int], picking: int, end: int
) -> None:
    need = replace(BEAN, picking=picking, worthwhile=floor(picking / 2) + 1)
    rising = sorted(picks)
    few = fate_of(rising, need, None, Barren(sorted(dropped), 0))
    many = fate_of(rising, need, None, Barren(sorted(dropped | more), 0))

    def good(fate: Fate) -> int:
        return sum(pick + need.before_frost - 1 < end for pick in fate.worthwhile(need))

    assert good(many) <= good(few)
    assert len(many.first_picks(need)) <= len(few.first_picks(need))
