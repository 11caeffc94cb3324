"""What is thought of a planting day, where its odds are told: by its time, its season and the heat.

The crops are invented; a tender one may be planted from the average last frost of 10 May on, the
odds being even.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from typing import cast

import pytest

import gardens
import replayed
from sowtide.climate.answers import Chances, Need, Stretch
from sowtide.climate.questions import Fates
from sowtide.climate.soil import Soil
from sowtide.climate.weather import UnknownWeather
from sowtide.days import DateSpan
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.planting_times import planting_times, ready_time
from sowtide.schedule.season import Season
from sowtide.schedule.waves import HeatHarm, Prospects, Verdict
from sowtide.schedule.waves.conditions import Conditions

LAST_FROST = date(2026, 5, 10)
Odds = Callable[[date], float]


class Told:
    """What becomes of waves by their planting day alone."""

    def __init__(self, odds: Odds, too_hot: Callable[[date], bool]) -> None:
        self._odds, self._too_hot = odds, too_hot

    def chances(self, planted: date, need: Need) -> Chances:
        return Chances(self._odds(planted), None, None, self._too_hot(planted), False, 0.0)

    def stretches(self, need: Need, days: DateSpan) -> tuple[Stretch, ...]:
        """Each day alone."""
        ordinals = range(days.first.toordinal(), days.last.toordinal() + 1)
        return tuple(Stretch(range(day, day + 1), False) for day in ordinals)

    def grown_enough(self, planted: date, need: Need, share: float) -> None:
        """Nobody knows."""

    def least(self, need: Need, days: range) -> Chances:
        return self.chances(date.fromordinal(days[-1]), need)


class Ground(UnknownWeather):
    """Soil of which the temperature is told."""

    def __init__(self, on: Season, warm: Callable[[date], float | None]) -> None:
        super().__init__(on.garden.site, on.garden.year)
        self._warm = warm

    def soil(self, day: date) -> Soil | None:
        about = self._warm(day)
        return None if about is None else Soil(about, at_least=False)


def always(_day: date) -> float:
    return 1.0


def prospects(
    odds: Odds = always,
    *,
    line: str = gardens.crop(),
    too_hot: Callable[[date], bool] = lambda _day: False,
    soil: Callable[[date], float | None] = lambda _day: None,
    change: Callable[[Crop], Crop] = lambda crop: crop,
    raised: Raised | None = None,
    sure: str = "50%",
) -> Prospects:
    on = gardens.season(gardens.text(crops=[line], sure=sure, latitude=40))
    climate = replace(
        on.climate, waves=cast("Fates", Told(odds, too_hot)), weather=Ground(on, soil)
    )
    crop = change(on.garden.crops[0])
    conditions = Conditions(climate, on.garden.site, on.garden.year)
    return conditions.prospects(crop, raised or crop.raised)


def verdicts(found: Prospects, *days: date) -> list[Verdict | None]:
    return [found.promise(day)[1] for day in days]


def day(month: int, number: int) -> date:
    return date(2026, month, number)


def test_a_day_is_judged_by_its_odds_from_the_earliest_on() -> None:
    def odds(on: date) -> float:
        return {day(6, 2): 0.5, day(6, 3): 0.49}.get(on, 1.0)

    found = prospects(odds, raised=Raised.TRAYS)
    assert found.earliest.day == LAST_FROST
    assert verdicts(found, day(5, 9), LAST_FROST) == [Verdict.TOO_EARLY, Verdict.SAFE]
    assert verdicts(found, day(6, 2), day(6, 3)) == [Verdict.SAFE, Verdict.TOO_LATE]
    # A day of another growing year is judged as its like
    assert verdicts(found, date(2027, 5, 9), date(2027, 5, 10)) == [
        Verdict.TOO_EARLY,
        Verdict.SAFE,
    ]
    surer = prospects(odds, raised=Raised.TRAYS, sure="80%")
    assert verdicts(surer, day(6, 12), day(6, 2)) == [Verdict.SAFE, Verdict.CHANCY]


@pytest.mark.parametrize(("wait", "begins"), [(0, 0), (1, 1), (21, 21), (22, 0), (60, 0)])
def test_a_series_of_what_is_tender_begins_with_its_first_safe_day_if_that_is_soon(
    wait: int, begins: int
) -> None:
    first = LAST_FROST + timedelta(days=wait)
    found = prospects(lambda on: float(on >= first), raised=Raised.TRAYS)
    assert found.windows[0].first == first
    assert found.begins.day == LAST_FROST + timedelta(days=begins)
    if wait:  # before it frosts of spring and autumn leave too few years: it is early, not late
        before = Verdict.TOO_EARLY if begins else Verdict.TOO_LATE
        assert verdicts(found, LAST_FROST, first) == [before, Verdict.SAFE]
    never = prospects(lambda _on: 0.0, raised=Raised.TRAYS)
    assert (never.windows, never.begins) == ((), never.earliest)


def test_a_hardy_crop_begins_on_its_earliest_day_whatever_is_safe() -> None:
    found = prospects(lambda on: float(on >= day(4, 20)), line=gardens.leaf())
    # 28 days before the last frost
    assert found.earliest.day == day(4, 12)
    assert found.begins == found.earliest


TIMES = "longest day -20..longest day -10, longest day 30..longest day 40"
"""1 to 11 June and 21 to 31 July."""


def timed(crop: Crop) -> Crop:
    return replace(crop, planted_in=planting_times(TIMES))


def test_out_of_its_times_it_is_not_its_time_or_too_late_by_its_odds() -> None:
    def odds(on: date) -> float:
        return 0.4 if on in (day(7, 1), day(7, 25)) else 1.0

    found = prospects(odds, change=timed)
    assert found.windows == (
        DateSpan(day(6, 1), day(6, 11)),
        DateSpan(day(7, 21), day(7, 24)),
        DateSpan(day(7, 26), day(7, 31)),
    )
    early, safe, late = Verdict.TOO_EARLY, Verdict.SAFE, Verdict.TOO_LATE
    other = Verdict.NOT_ITS_TIME
    assert verdicts(found, day(5, 31), day(6, 1), day(6, 11)) == [early, safe, safe]
    assert verdicts(found, day(6, 12), day(7, 1), day(7, 20)) == [other, late, other]
    assert verdicts(found, day(7, 21), day(7, 25), day(7, 31)) == [safe, late, safe]
    assert verdicts(found, day(8, 1), day(11, 1)) == [other, other]


def test_heat_goes_before_its_time() -> None:
    found = prospects(change=timed, too_hot=lambda on: on.month == 6)
    assert verdicts(found, day(6, 5), day(6, 20)) == [Verdict.TOO_HOT] * 2
    assert found.windows == (DateSpan(day(7, 21), day(7, 31)),)


def test_what_would_not_be_grown_by_the_short_days_is_too_late() -> None:
    # By days alone, 50 of them, three quarters are 38: on 15 November days are short at 40° N
    found = prospects(line=gardens.leaf())
    assert found.autumn is not None
    assert found.autumn.day == day(11, 15) - timedelta(days=38) == day(10, 8)
    assert verdicts(found, day(10, 8), day(10, 9)) == [Verdict.SAFE, Verdict.TOO_LATE]
    assert found.windows[-1].last == day(10, 8)
    assert found.window_of(day(10, 9)) == found.windows[-1]


def test_few_days_that_counting_alone_makes_part_no_run() -> None:
    # Asked for 80 %: as sure in whole years of a hundred are 79.6, but not 79.4
    def odds(on: date) -> float:
        near = {day(7, 1): 0.796, day(7, 2): 0.796, day(7, 3): 0.796, day(8, 1): 0.794}
        return near.get(on, 0.796 if on > day(9, 1) else 1.0)

    found = prospects(odds, sure="80%", raised=Raised.TRAYS)
    assert found.windows == (
        DateSpan(day(5, 20), day(7, 31)),  # four of five springs have no later frost
        DateSpan(day(8, 2), day(9, 1)),
    )
    assert verdicts(found, day(7, 2), day(8, 1)) == [Verdict.SAFE, Verdict.CHANCY]
    # After the last run nearly is not enough
    assert verdicts(found, day(9, 1), day(9, 2)) == [Verdict.SAFE, Verdict.CHANCY]


def test_the_window_of_a_day_is_its_own_or_the_last_before_it() -> None:
    found = prospects(lambda on: float(on.day > 10), raised=Raised.TRAYS)
    assert found.windows[:2] == (DateSpan(day(5, 11), day(5, 31)), DateSpan(day(6, 11), day(6, 30)))
    for asked, window in (
        (day(1, 1), 0),  # before the first that one
        (day(5, 11), 0),
        (day(6, 10), 0),
        (day(6, 11), 1),
        (day(6, 30), 1),
        (day(7, 5), 1),
        (date(2027, 6, 11), 1),
        (date(2027, 6, 10), 0),
    ):
        assert found.window_of(asked) == found.windows[window]
    assert prospects(lambda _on: 0.0).window_of(day(6, 1)) is None


def test_soil_too_warm_for_its_seed_is_too_hot_for_a_sowing_alone() -> None:
    def warm(on: date) -> float:
        return 35.1 if on.month == 7 else 35.0

    line = gardens.crop(soil_max="35")
    found = prospects(line=line, soil=warm)
    assert verdicts(found, day(6, 30), day(7, 1), day(7, 31), day(8, 1)) == [
        Verdict.SAFE,
        Verdict.TOO_HOT,
        Verdict.TOO_HOT,
        Verdict.SAFE,
    ]
    assert found.windows[0].last == day(6, 30)
    assert found.windows[1].first == day(8, 1)
    assert found.hot_soil == (DateSpan(day(7, 1), day(7, 31)),)
    assert found._heat(day(7, 1)) is HeatHarm.SPOILS_SEED
    assert found.minds_heat
    plants = prospects(line=line, soil=warm, raised=Raised.TRAYS)
    assert verdicts(plants, day(7, 1)) == [Verdict.SAFE]
    assert (plants.hot_soil, plants.minds_heat) == ((), False)


def test_what_is_picked_in_the_short_days_is_picked_until_it_runs_to_seed() -> None:
    on = gardens.season(gardens.text(latitude=40, fall_allowance="0"))
    kale = replayed.prospects(on, "kale", Raised.DIRECT)
    crop, to_seed = kale.crop, kale.to_seed(day(8, 1))
    assert to_seed is not None
    assert to_seed.short_from == day(11, 15)
    # Sown so that its last picking day, by the late end, is the first short day: a sowing of early
    # April takes ten days more
    over = day(11, 15) - timedelta(days=10 + kale.need.days.high + crop.picking_days - 1)
    assert over < day(4, 10)
    longer = kale.need.picking + (to_seed.day.day - day(11, 15)).days
    assert kale.need_on(over).picking == longer
    assert kale.need_on(over - timedelta(days=1)) == kale.need
    # A day of the next growing year is asked of that year's winter
    assert kale.need_on(over.replace(year=2027)).picking == longer
    cut = replayed.prospects(on, "cabbage", Raised.TRAYS)
    assert cut.crop.cut_once
    assert cut.need_on(day(9, 1)) == cut.need


@pytest.mark.parametrize(
    ("days", "planted", "stands"),
    [
        ("200", day(6, 14), False),  # ripe on 31 December
        ("200", day(6, 15), True),
        ("200", day(1, 1), False),
        ("200-260", day(6, 14), False),  # by its fewest days
        ("50", day(6, 30), False),
        ("50", day(7, 1), True),  # from midsummer on
        ("200", date(2027, 6, 14), False),
        ("200", date(2027, 6, 15), True),
    ],
)
def test_it_stands_the_winter_from_midsummer_on_or_by_its_days(
    days: str, planted: date, stands: bool
) -> None:
    line = gardens.leaf(days_to_harvest=days, overwinters="yes")
    found = prospects(line=line)
    assert found.overwinters(planted) is stands
    assert found.promise(planted)[1] is not None or stands
    ready = prospects(
        line=line,
        change=lambda crop: replace(
            crop, ready_about=ready_time("longest day +11..longest day +31")
        ),
    )
    assert ready.overwinters(planted)
    assert not prospects(line=gardens.leaf(days_to_harvest=days)).overwinters(planted)
