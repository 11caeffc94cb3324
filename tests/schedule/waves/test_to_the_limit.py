"""The days that bound a planting, to the day: weather that is told, and limits counted by hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from typing import cast

import pytest

import gardens
import replayed
from sowtide.climate.answers import Need
from sowtide.climate.questions import Climate, Fates
from sowtide.climate.soil import Soil
from sowtide.climate.weather import UnknownWeather
from sowtide.days import DateSpan, DayRange, GrowingYear
from sowtide.garden.crop import AfterFrost, Crop
from sowtide.garden.planting_times import planting_times, seed_time
from sowtide.reasons import Origin
from sowtide.schedule.season import Season
from sowtide.schedule.sowing import (
    autumn_limit,
    end_of_times,
    spoils_root,
    times_of,
    to_seed_of,
    too_hot_for_roots,
)
from sowtide.schedule.sowing.chill import chilled
from sowtide.units import celsius

NORTH = GrowingYear(2026, south=False)
FROST = "{last: 05-01, first: 10-01}"
MILD = celsius(45)
Means = Callable[[date, int], float | None]


class Told(UnknownWeather):
    """Weather of which only what is told is known."""

    def __init__(
        self,
        on: Season,
        means: Means = lambda _first, _days: None,
        soil: Callable[[date], Soil | None] = lambda _day: None,
    ) -> None:
        super().__init__(on.garden.site, on.garden.year)
        self._means, self._soil = means, soil
        self.knows_heat = True
        self.hot_weeks = DateSpan(date(2026, 7, 1), date(2026, 8, 1))

    def mean_over(self, first: date, days: int) -> float | None:  # type: ignore[override]
        return self._means(first, days)

    def soil(self, day: date) -> Soil | None:
        return self._soil(day)


class Growth:
    """Waves of which only the share of years that grows them far enough is told."""

    def __init__(self, share: Callable[[date, float], float]) -> None:
        self._share = share

    def grown_enough(self, planted: date, need: Need, share: float) -> float | None:
        assert need.cool or need.stands
        return self._share(planted, share)


def place(sure: str = "80%", latitude: float = 40) -> Season:
    return gardens.season(gardens.text(frost=FROST, latitude=latitude, sure=sure))


def told(on: Season, **weather: Callable[..., object]) -> Climate:
    return replace(on.climate, weather=Told(on, **weather))  # type: ignore[arg-type]


# Short days at 40° N, by the doctests of day lengths: from 15 November to 27 January, 74 days
SHORT_FROM = date(2026, 11, 15)
DARK = timedelta(days=74)


@pytest.mark.parametrize(
    ("written", "times"),
    [
        # The longest day is 21 June; 101 days before 1 October is 22 June: one time
        ("first frost -101..first frost 9", [("06-11", "10-10")]),
        ("first frost -103..first frost 9", [("06-11", "10-10")]),
        # a day later there are two, and the second waits two weeks
        ("first frost -100..first frost 9", [("06-11", "06-21"), ("07-06", "10-10")]),
        ("first frost -87..first frost 9", [("06-11", "06-21"), ("07-06", "10-10")]),
        ("first frost -86..first frost 9", [("06-11", "06-21"), ("07-07", "10-10")]),
        # which leaves a day of it, or none
        ("first frost -100..first frost -87", [("06-11", "06-21"), ("07-06", "07-06")]),
        ("first frost -100..first frost -88", [("06-11", "06-21")]),
        # to the end of the year
        ("first frost 9..first frost 100", [("06-11", "06-21"), ("10-10", "12-31")]),
    ],
)
def test_two_times_that_meet_are_one_and_others_are_two_weeks_apart(
    written: str, times: list[tuple[str, str]]
) -> None:
    crop = replace(
        replayed.crop("pea"),
        planted_in=planting_times(f"longest day -10..longest day 0, {written}"),
    )
    found = times_of(crop, place().climate, NORTH, colder_by=0)
    assert [(f"{each.first:%m-%d}", f"{each.last:%m-%d}") for each in found] == times


def test_where_no_frost_comes_a_time_from_frost_to_frost_is_the_whole_year() -> None:
    times = planting_times("last frost -45..first frost 9")
    crop, on = replace(replayed.crop("pea"), planted_in=times), gardens.text(frost="none")
    (found,) = times_of(crop, gardens.season(on).climate, NORTH, colder_by=0)
    assert found == DateSpan(NORTH.first, NORTH.last)


def test_a_time_begins_with_the_year_at_the_earliest() -> None:
    crop = replace(replayed.crop("pea"), planted_in=planting_times("last frost -130..last frost 0"))
    (found,) = times_of(crop, place().climate, NORTH, colder_by=0)
    assert found == DateSpan(date(2026, 1, 1), date(2026, 5, 1))


@pytest.mark.parametrize(
    ("killed_at", "flowers", "mean", "day"),
    [
        (-9.9, -2.0, None, SHORT_FROM),  # less hardy than broad beans: not into short days
        (-10.0, -2.0, None, date(2026, 12, 1)),
        (-9.9, None, None, date(2026, 12, 1)),  # it does not flower after the winter
        (-9.9, -2.0, MILD - 0.01, SHORT_FROM),
        (-9.9, -2.0, MILD, date(2026, 12, 1)),  # in mild ones it grows on
    ],
)
def test_what_flowers_after_the_winter_goes_into_short_days_if_hardy_or_mild(
    killed_at: float, flowers: float | None, mean: float | None, day: date
) -> None:
    on = place()

    def means(first: date, days: int) -> float | None:
        assert (first, timedelta(days=days)) == (SHORT_FROM, DARK)
        return mean

    crop = replace(replayed.crop("pea"), killed_at=killed_at, flowers_killed_at=flowers)
    times = (DateSpan(date(2026, 9, 1), date(2026, 12, 1)),)
    found = end_of_times(crop, times, told(on, means=means), on.garden.site, NORTH)
    assert found is not None
    assert found.day == day
    assert ("10 hours" in found.why) is (day == SHORT_FROM)


@pytest.mark.parametrize(
    ("last", "day"),
    [
        (SHORT_FROM, SHORT_FROM),  # over when they begin: only its own time ends it
        (date(2026, 12, 30), date(2026, 12, 30)),
        (date(2026, 12, 31), None),  # the year ends there in any case
    ],
)
def test_a_time_that_lasts_as_long_as_the_year_ends_nothing(last: date, day: date | None) -> None:
    on, crop = place(), replace(replayed.crop("pea"), killed_at=-12.0, flowers_killed_at=-2.0)
    times = DateSpan(date(2026, 3, 1), date(2026, 5, 1)), DateSpan(date(2026, 9, 1), last)
    found = end_of_times(crop, times, told(on), on.garden.site, NORTH)
    assert (None if found is None else found.day) == day
    if last == SHORT_FROM:
        less = end_of_times(replace(crop, killed_at=-5.0), times, told(on), on.garden.site, NORTH)
        assert less is not None
        assert less.why == "is planted after its time"


def need(on: Season, name: str) -> Need:
    return replayed.prospects(on, name).need


@pytest.mark.parametrize(
    ("sure", "good", "poor", "name"),
    [
        ("80%", 0.8, 0.79, "carrot"),
        ("65%", 0.65, 0.64, "carrot"),
        ("7 days", 0.5, 0.49, "spinach"),  # it stands no frost, but is cool
    ],
)
def test_it_is_grown_by_the_short_days_in_as_many_years_as_are_asked(
    sure: str, good: float, poor: float, name: str
) -> None:
    on, last = place(sure), date(2026, 8, 20)
    waves = Growth(lambda day, _share: good if day <= last else poor)
    climate = replace(on.climate, waves=cast("Fates", waves))
    crop, site = replayed.crop(name), on.garden.site
    found = autumn_limit(crop, need(on, name), climate, site, NORTH, sown=False)
    assert found is not None
    assert found.day == last
    assert "three quarters grown" in found.why


def test_a_quarter_is_asked_where_the_short_days_are_mild() -> None:
    on, asked = place(), set()

    def share(day: date, grown: float) -> float:
        asked.add(grown)
        return float(day <= date(2026, 10, 31))

    for mean, grown in ((MILD, 0.25), (MILD - 0.01, 0.75)):
        asked.clear()
        climate = replace(
            told(on, means=lambda _first, _days, mean=mean: mean),
            waves=cast("Fates", Growth(share)),
        )
        site, carrot = on.garden.site, replayed.crop("carrot")
        found = autumn_limit(carrot, need(on, "carrot"), climate, site, NORTH, sown=True)
        assert found is not None
        assert (found.day, asked) == (date(2026, 10, 31), {grown})
        assert ("a quarter" in found.why) is (grown == 0.25)


@pytest.mark.parametrize(
    ("last", "day"),
    [
        (date(2026, 2, 3), date(2026, 2, 3)),  # before midsummer, too
        (date(2026, 7, 1), date(2026, 7, 1)),
        (date(2025, 12, 31), date(2025, 12, 31)),  # no day of the year is early enough
        (date(2026, 11, 15), date(2026, 11, 15)),
        (date(2027, 1, 1), date(2026, 11, 15)),  # the first short day at the latest
    ],
)
def test_any_day_of_the_year_may_be_the_last(last: date, day: date) -> None:
    on = place()
    climate = replace(
        on.climate, waves=cast("Fates", Growth(lambda each, _share: float(each <= last)))
    )
    found = autumn_limit(
        replayed.crop("leek"), need(on, "leek"), climate, on.garden.site, NORTH, sown=False
    )
    assert found is not None
    assert found.day == day


def test_what_wants_warmth_is_ended_by_frost_alone_unless_it_stands() -> None:
    on = place()
    climate = replace(on.climate, waves=cast("Fates", Growth(lambda _day, _share: 1.0)))
    bean, asked = replayed.crop("bush bean"), need(on, "bush bean")
    site = on.garden.site
    assert autumn_limit(bean, asked, climate, site, NORTH, sown=False) is None
    stands = replace(asked, after_frost=AfterFrost.STANDS)
    assert autumn_limit(bean, stands, climate, site, NORTH, sown=False) is not None
    assert (
        autumn_limit(bean, stands, climate, replace(site, latitude=20.0), NORTH, sown=False) is None
    )


def soils(warm_until: date, *, at: float = 10.0) -> Callable[[date], Soil | None]:
    return lambda day: Soil(at if day <= warm_until else at - 0.1, at_least=False)


@pytest.mark.parametrize(
    ("warm_until", "day"),
    [
        (date(2026, 12, 31), None),  # it comes up to the end
        (date(2026, 12, 30), date(2026, 12, 30)),
        (date(2026, 8, 9), date(2026, 8, 9)),
        (date(2026, 7, 1), date(2026, 7, 1)),
        (date(2026, 5, 1), date(2026, 7, 1)),  # midsummer at the earliest
    ],
)
def test_seed_is_sown_as_long_as_the_soil_brings_it_up(warm_until: date, day: date | None) -> None:
    on = place()
    bean = replace(replayed.crop("bush bean"), soil_min=10.0)
    climate, site = told(on, soil=soils(warm_until)), on.garden.site
    asked = need(on, "bush bean")
    found = autumn_limit(bean, asked, climate, site, NORTH, sown=True)
    assert (None if found is None else found.day) == day
    if found is not None:
        assert found.why == "is sown into soil too cold for its seed"
    # Plants mind no cold soil, nor does what is sown for the winter or not known to mind
    assert autumn_limit(bean, asked, climate, site, NORTH, sown=False) is None
    winter = replace(bean, overwinters=True)
    assert autumn_limit(winter, asked, climate, site, NORTH, sown=True) is None
    assert (
        autumn_limit(replace(bean, soil_min=None), asked, climate, site, NORTH, sown=True) is None
    )


@pytest.mark.parametrize("soil", [None, Soil(20.0, at_least=True), Soil(5.0, at_least=True)])
def test_where_the_soil_is_not_known_nothing_ends_the_sowing(soil: Soil | None) -> None:
    on = place()
    bean = replace(replayed.crop("bush bean"), soil_min=10.0)
    climate, site = told(on, soil=lambda _day: soil), on.garden.site
    assert autumn_limit(bean, need(on, "bush bean"), climate, site, NORTH, sown=True) is None


def test_the_first_of_two_limits_holds() -> None:
    on = place()
    carrot = replace(replayed.crop("carrot"), soil_min=10.0)
    for warm_until, why in ((date(2026, 8, 1), "soil"), (date(2026, 10, 1), "hours")):
        waves = Growth(lambda day, _share: float(day <= date(2026, 9, 1)))
        climate = replace(told(on, soil=soils(warm_until)), waves=cast("Fates", waves))
        asked, site = need(on, "carrot"), on.garden.site
        found = autumn_limit(carrot, asked, climate, site, NORTH, sown=True)
        assert found is not None
        assert found.day == min(warm_until, date(2026, 9, 1))
        assert why in found.why


# Growing from its planting day for 35 days, the middle of 30 and 40
def beet(limit: float | None = 24.0) -> Need:
    return replace(need(place(), "beet"), days=DayRange(30, 40), warm_limit=limit)


@pytest.mark.parametrize(
    ("hot", "expected"),
    [
        ((), None),
        ((0, 364), (0, 364)),
        ((0, 0), (0, 0)),  # its first day alone, and its last: both are looked at
        ((364, 364), (364, 364)),
        ((0, 6), (0, 6)),
        ((1, 7), (1, 7)),
        ((3, 10), (3, 10)),
        ((180, 230), (180, 230)),
        ((181, 231), (181, 231)),
        ((351, 364), (351, 364)),
        ((355, 363), (355, 363)),
    ],
)
def test_the_run_of_days_whose_roots_spoil_is_found_to_the_day(
    hot: tuple[int, ...], expected: tuple[int, int] | None
) -> None:
    on = place()

    def means(first: date, days: int) -> float:
        assert days == 35
        return 24.1 if hot and hot[0] <= (first - NORTH.first).days <= hot[1] else 24.0

    crop, climate = replayed.crop("beet"), told(on, means=means)
    found = too_hot_for_roots(crop, beet(), climate, NORTH)
    days = [tuple((day - NORTH.first).days for day in (each.first, each.last)) for each in found]
    assert days == ([] if expected is None else [expected])
    if hot:
        assert spoils_root(crop, beet(), NORTH.first + timedelta(days=hot[0]), climate)
    assert not spoils_root(crop, beet(None), NORTH.first, climate)
    assert not spoils_root(replace(crop, root=False), beet(), NORTH.first, climate)
    assert too_hot_for_roots(replace(crop, root=False), beet(), climate, NORTH) == ()
    for unknown in ("hot_weeks", "knows_heat"):
        weather = told(on, means=means).weather
        setattr(weather, unknown, None)
        assert too_hot_for_roots(crop, beet(), replace(climate, weather=weather), NORTH) == ()


def test_where_it_is_always_too_hot_no_day_of_the_year_will_do() -> None:
    climate = told(place(), means=lambda _first, _days: 30.0)
    found = too_hot_for_roots(replayed.crop("beet"), beet(), climate, NORTH)
    assert found == (DateSpan(NORTH.first, NORTH.last),)


KALE = replace(replayed.crop("kale"), runs_to_seed=seed_time("longest day -50"))


def seeds(
    means: Means, crop: Crop = KALE, year: GrowingYear = NORTH
) -> tuple[date, date | None] | None:
    on = place()
    found = to_seed_of(crop, told(on, means=means), on.garden.site, year)
    return None if found is None else (found.day.day, found.short_from)


def eleven(warm_from: date, mean: float = MILD) -> Means:
    """Means of eleven days, warm from that on in whose middle a day lies; January is cold."""

    def means(first: date, days: int) -> float:
        if days == 31:
            assert first == date(2026, 1, 1)
            return 15.0
        assert days == 11
        return mean if first + timedelta(days=5) >= warm_from else MILD - 0.01

    return means


@pytest.mark.parametrize(
    ("warm_from", "day"),
    [
        # 50 days before 21 June 2027; it is asked of the year planned
        (date(2026, 5, 1), date(2027, 5, 2)),
        (date(2026, 5, 2), date(2027, 5, 2)),
        (date(2026, 5, 3), date(2027, 5, 3)),
        (date(2026, 6, 12), date(2027, 6, 12)),
        (date(2026, 6, 30), date(2027, 6, 30)),
        (date(2026, 8, 1), date(2027, 7, 1)),  # by midsummer it does in any case
    ],
)
def test_it_runs_to_seed_when_the_days_are_warm_enough(warm_from: date, day: date) -> None:
    assert seeds(eleven(warm_from)) == (day, SHORT_FROM)
    on = place()
    found = to_seed_of(KALE, told(on, means=eleven(warm_from)), on.garden.site, NORTH)
    assert found is not None
    waits = [step.days for step in found.day.steps if "colder" in step.text]
    assert waits == ([] if day == date(2027, 5, 2) else [(day - date(2027, 5, 2)).days])


def test_a_winter_of_fifteen_degrees_is_none() -> None:
    assert seeds(lambda _first, _days: 15.0) == (date(2027, 5, 2), SHORT_FROM)
    assert seeds(lambda _first, _days: 15.1) is None
    assert seeds(lambda _first, _days: None) == (date(2027, 5, 2), SHORT_FROM)
    assert seeds(lambda _first, _days: None, replace(KALE, runs_to_seed=None)) is None


@pytest.mark.parametrize(
    ("changes", "stands"),
    [
        ({}, True),
        ({"origins": {"picking_days": Origin("garden.yaml", 3)}}, False),  # the grower's own days
        ({"origins": {"holding_days": Origin("garden.yaml", 3)}}, True),
        ({"picking_days": 1, "killed_at": -12.0}, True),
        ({"picking_days": 1, "killed_at": None}, False),  # nobody knows whether it stands it
        (
            {
                "picking_days": 1,
                "killed_at": -12.0,
                "origins": {"holding_days": Origin("garden.yaml", 3)},
            },
            False,
        ),
    ],
)
def test_what_the_grower_gave_days_does_not_stand_on(
    changes: dict[str, object], stands: bool
) -> None:
    crop = replace(KALE, **{"origins": {}, **changes})  # type: ignore[arg-type]
    found = seeds(lambda _first, _days: None, crop)
    assert found == (date(2027, 5, 2), SHORT_FROM if stands else None)


def test_it_stands_from_the_short_days_until_it_runs_to_seed() -> None:
    on = place()
    found = to_seed_of(KALE, told(on), on.garden.site, NORTH)
    assert found is not None
    days = (date(2026, 11, 14), SHORT_FROM, date(2027, 5, 1), date(2027, 5, 2))
    assert [found.stands_from(day) for day in days] == [False, True, True, False]
    later = found.later(365)
    assert (later.short_from, later.day.day) == (date(2027, 11, 15), date(2028, 5, 1))
    assert found.later(0) == found
    never = replace(found, short_from=None)
    assert not never.stands_from(SHORT_FROM)
    assert never.later(365).short_from is None


@pytest.mark.parametrize(
    ("planted", "mean", "cold"),
    [
        (date(2026, 4, 1), 9.9, True),
        (date(2026, 4, 1), 10.0, False),
        (date(2026, 4, 1), None, False),
        (date(2026, 6, 30), 9.9, True),
        (date(2026, 7, 1), 9.9, False),  # from midsummer on it grows into the warm
        (date(2027, 6, 30), 9.9, True),
        (date(2027, 7, 1), 9.9, False),
    ],
)
def test_spring_chills_plants_and_autumn_does_not(
    planted: date, mean: float | None, cold: bool
) -> None:
    on = place()
    celery = replace(replayed.crop("celery"), chill_limit=10.0, chill_days=14)

    def means(first: date, days: int) -> float | None:
        assert (first, days) == (planted, 14)
        return mean

    climate = told(on, means=means)
    assert chilled(celery, planted, climate, NORTH) == (mean if cold else None)
    for unknown in ({"chill_limit": None}, {"chill_days": None}):
        assert chilled(replace(celery, **unknown), planted, climate, NORTH) is None
