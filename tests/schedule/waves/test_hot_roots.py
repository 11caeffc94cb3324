"""Roots that would grow in great heat are not sown, whenever they would be lifted."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

import gardens
import replayed
from sowtide.days import DateSpan, DayRange
from sowtide.garden.crop import Raised
from sowtide.reasons import OURS, Dated
from sowtide.report.week.problems_view import problems_of_week
from sowtide.schedule.season import Season
from sowtide.schedule.sowing import spoils_root
from sowtide.schedule.waves import HeatHarm, Prospects, Verdict
from sowtide.schedule.work import week_sheets

# One temperature day and night in each month: 28 °C from June to August, 20 °C around it
MONTHS = "[8, 8, 12, 16, 20, 28, 28, 28, 20, 16, 12, 8]"


def hot_summer(wave: str = "") -> Season:
    frost = f"{{last: 03-15, first: 11-15, normals: {{max: {MONTHS}, min: {MONTHS}}}}}"
    return gardens.season(gardens.text(*([wave] if wave else []), frost=frost, latitude=33.0))


def roots(of: Season, name: str) -> Prospects:
    return of.conditions.prospects(replayed.crop(name), Raised.DIRECT)


def mean(of: Season, planted: date, days: int) -> float:
    found = of.climate.weather.mean_over(planted, days)
    assert found is not None
    return found


def test_a_root_is_too_hot_where_the_mean_of_its_growth_is_above_its_limit() -> None:
    of = hot_summer()
    beet = roots(of, "beet")
    # 55 to 65 days: the middle is 60; 75 °F is 23.9 °C
    assert (beet.need.days.low, beet.need.days.high) == (55, 65)
    gap = DateSpan(beet.windows[-2].last, beet.windows[-1].first)
    last_hot = gap.last - timedelta(days=1)
    assert mean(of, last_hot, 60) > 23.89 > mean(of, gap.last, 60)
    assert date(2026, 8, 1) < last_hot < date(2026, 9, 1)
    judged = beet.judge(Dated.on(last_hot, "written", "planted", OURS))
    assert (judged.verdict, judged.heat) == (Verdict.TOO_HOT, HeatHarm.SPOILS_ROOT)


def test_a_mean_that_just_reaches_a_roots_limit_spoils_none() -> None:
    # 28 °C night and day from June to August, so 35 days of July have a mean of 28.
    of = hot_summer()
    need = roots(of, "carrot").need
    july = replace(need, days=DayRange(30, 40))
    carrot, planted = replayed.crop("carrot"), date(2026, 7, 1)
    found = mean(of, planted, 35)
    assert found == pytest.approx(28, abs=0.2)
    at, below = (replace(july, warm_limit=limit) for limit in (found, found - 0.1))
    assert not spoils_root(carrot, at, planted, of.climate)
    assert spoils_root(carrot, below, planted, of.climate)


def test_a_leaf_that_is_picked_after_the_heat_may_grow_in_it() -> None:
    # Broccoli of 26 July is headed after the heat: 50 to 70 days, half of them in it
    of = hot_summer()
    broccoli = of.conditions.prospects(replayed.crop("broccoli"), Raised.TRAYS)
    planted = Dated.on(date(2026, 7, 26), "written", "planted", OURS)
    assert broccoli.judge(planted).verdict is Verdict.SAFE
    assert mean(of, planted.day, 60) > 23.89


def test_carrots_bear_more_heat_than_beets() -> None:
    # 80 °F, 26.7 °C, is less than June to August's 28 alone: sown again weeks before beets
    of = hot_summer()
    carrot, beet = (roots(of, name).windows[-1].first for name in ("carrot", "beet"))
    assert carrot < beet - timedelta(days=7)


def test_weeks_that_are_written_as_too_hot_do_not_end_carrots() -> None:
    frost = "{last: 04-20, first: 10-15}"
    of = gardens.season(gardens.text(frost=frost, latitude=38, too_hot="07-01..08-20"))
    assert roots(of, "carrot").minds_heat is False
    assert roots(of, "beet").minds_heat is True


def test_check_says_what_the_heat_does() -> None:
    of = hot_summer("{crop: beet, plants: 20, from: 07-25}")
    (said,) = (each for each in of.problems if each.code == "too-hot")
    assert said.message == "beet-1 would grow in heat that makes roots pale and tough"


def test_check_says_once_of_a_series_what_the_heat_does() -> None:
    of = hot_summer("{crop: beet, plants: 20, from: 07-15, every: 5, count: 3, until: 07-31}")
    (said,) = (each for each in of.problems if each.code == "too-hot")
    assert (said.wave, said.message, said.hint) == (
        "beet-1",
        "beet-1 to beet-3 would grow in heat that makes roots pale and tough",
        "sow earlier or later, or a crop that stands heat",
    )
    # The sheet of 20–26 July is about beet-2, sown on the 20th, as that of the 13th is of beet-1.
    for monday in (date(2026, 7, 13), date(2026, 7, 20)):
        (sheet,) = week_sheets(of.garden, of.waves, monday, weeks=1)
        assert said in problems_of_week(sheet, of)


def test_a_gap_in_which_only_seed_suffers_says_so() -> None:
    wave = "{crop: spinach, plants: 20, from: earliest, every: 14}"
    (gap,) = hot_summer(wave).gaps
    assert gap.why == "too hot, and the soil for its seed"
