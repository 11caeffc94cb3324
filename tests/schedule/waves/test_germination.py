"""Seed and the soil it is sown into: estimates of the soil, counts of seedlings, warnings."""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from gardens import text
from sowtide.climate.soil import HOT_WEEKS, Soil, soil_under
from sowtide.days import GrowingYear
from sowtide.garden.by_temperature import ByTemperature
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.library import builtin as library
from sowtide.garden.varieties import built_in_crop
from sowtide.schedule.sowing.seed import Doubt, doubt, doubt_of, seed_in_doubt
from sowtide.units import Units, celsius

NORTH = GrowingYear(2026, south=False)
SOUTH = GrowingYear(2026, south=True)


def built_in(name: str) -> Crop:
    found = library.find(name)
    assert found is not None
    return built_in_crop(found)


def about(fahrenheit: float, *, at_least: bool = False) -> Soil:
    return Soil(celsius(fahrenheit), at_least)


# A figure by temperature

FIGURES = ByTemperature(((0.0, None), (10.0, 4.0), (20.0, 8.0), (30.0, None)))


@pytest.mark.parametrize(
    ("temperature", "figure"),
    [
        (-5, None),  # colder than anything measured
        (0, None),
        (5, None),  # one neighbour did not come up
        (10, 4.0),
        (12.5, 5.0),  # 4 + 4 × 2.5 / 10
        (20, 8.0),
        (25, None),
        (40, None),
    ],
)
def test_a_figure_is_straight_between_its_points(temperature: float, figure: float | None) -> None:
    assert FIGURES.at(temperature) == figure
    assert FIGURES.best == 8.0


def test_beyond_the_points_a_figure_stays_level() -> None:
    assert ByTemperature(((10.0, 4.0), (20.0, 8.0))).at(3) == 4.0
    assert ByTemperature(((10.0, 4.0), (20.0, 8.0))).at(33) == 8.0


# The soil under the air


@pytest.mark.parametrize(
    ("year", "day", "warmer"),
    [
        (NORTH, date(2026, 3, 20), 0),
        (NORTH, date(2026, 3, 21), 0),
        (NORTH, date(2026, 4, 5), 1),  # 15 of 30 days
        (NORTH, date(2026, 4, 20), 2),
        (NORTH, date(2026, 8, 31), 2),
        (NORTH, date(2026, 9, 1), 0),
        (NORTH, date(2025, 8, 31), 2),  # another growing year
        (SOUTH, date(2026, 9, 21), 0),
        (SOUTH, date(2026, 9, 22), 0),
        (SOUTH, date(2026, 10, 7), 1),
        (SOUTH, date(2026, 10, 22), 2),
        (SOUTH, date(2027, 1, 1), 2),
        (SOUTH, date(2027, 2, 28), 2),
        (SOUTH, date(2027, 3, 1), 0),
    ],
)
def test_the_sun_warms_the_soil_from_the_spring_equinox_to_the_end_of_august(
    year: GrowingYear, day: date, warmer: int
) -> None:
    assert soil_under(18.0, day, year) == 18.0 + warmer


def test_soil_known_only_to_be_no_colder_may_well_be_three_degrees_warmer() -> None:
    assert Soil(24.0, at_least=True).warmest == 27.0
    assert Soil(24.0, at_least=False).warmest == 24.0


# Doubts about seed


def test_lettuce_and_spinach_come_up_poorly_where_harrington_and_minges_counted_few() -> None:
    # Harrington & Minges 1954: lettuce 99 of 100 at 77 °F and 12 at 86 °F; spinach 28 at 77 °F.
    lettuce, spinach = built_in("leaf lettuce"), built_in("spinach")
    assert lettuce.germinates is not None
    assert spinach.germinates is not None
    assert lettuce.germinates.at(celsius(86)) == 12
    assert spinach.germinates.at(celsius(77)) == 28
    assert doubt(lettuce, about(77)) is None
    for crop in (lettuce, spinach):
        found = doubt(crop, about(86))
        assert found is not None
        assert found.too_warm


def test_counts_alone_make_a_doubt_where_no_limit_is_passed() -> None:
    # Harrington & Minges 1954: snap bean 97 of 100 at 77 °F, 39 at 95 °F, 1 at 50 °F.
    bean = built_in("bush bean")
    assert doubt(bean, about(85)) is None
    found = doubt(bean, about(94.9))
    assert found is not None
    assert (found.too_warm, found.limit) == (True, None)
    cold = doubt(bean, about(50))
    assert cold is not None
    assert not cold.too_warm


def test_a_limit_that_the_grower_wrote_stands_above_the_counts() -> None:
    garden = gardens.season(text(crops=["leaf lettuce: {soil_max: 32}"]))
    lettuce = gardens.crop_called(garden, "leaf lettuce")
    assert doubt(lettuce, about(86)) is None
    assert doubt(lettuce, about(90)) is not None


def test_a_soil_known_only_from_below_is_never_too_cold() -> None:
    tomato = built_in("tomato")
    assert doubt(tomato, about(40, at_least=True)) is None
    assert doubt(tomato, about(40)) is not None
    assert doubt(tomato, None) is None


# In a plan

HOT = "07-01..08-10"


def problems(wave: str) -> list[str]:
    found = gardens.season(text(wave, too_hot=HOT)).problems
    return [problem.message for problem in found if problem.code == "poor-germination"]


def test_waves_sown_in_the_hot_weeks_are_warned_once_in_a_series() -> None:
    (message,) = problems("{crop: spinach, plants: 9, from: 06-25, every: 10, until: 07-26}")
    assert message == (
        "spinach-2 to spinach-4 are sown 5–25 Jul into soil that is likely 25.9 °C or warmer: "
        "little spinach seed comes up above 23.9 °C (of 100 seeds 28 at 25 °C, 32 at 30 °C)"
    )
    (message,) = problems("{crop: spinach, plants: 9, from: 08-10, every: 10, until: 09-12}")
    assert message.startswith("spinach-1 is sown on 10 Aug into")


@pytest.mark.parametrize(
    "wave",
    [
        "{crop: spinach, plants: 9, from: 08-11}",  # the day after
        "{crop: spinach, plants: 9, from: 06-30}",  # the day before
        "{crop: leaf lettuce, raised: trays, plants: 9, from: 07-20}",  # stands where you like
        "{crop: carrot, plants: 9, from: 07-20}",  # comes up
    ],
)
def test_other_waves_are_not_warned(wave: str) -> None:
    assert problems(wave) == []


def test_without_hot_weeks_nothing_is_known_of_the_soil() -> None:
    season = gardens.season(text("{crop: spinach, plants: 9, from: 07-20}"))
    assert season.climate.weather.soil(date(2026, 7, 20)) is None
    assert "poor-germination" not in {problem.code for problem in season.problems}


def test_hot_weeks_of_another_year_are_hot_too() -> None:
    season = gardens.season(text(too_hot=HOT))
    assert season.climate.weather.soil(date(2025, 7, 20)) == Soil(HOT_WEEKS + 2, at_least=True)
    spinach = built_in("spinach")
    july = date(2026, 7, 20)
    assert doubt_of(spinach, Raised.DIRECT, july, season.climate) is not None
    assert doubt_of(spinach, Raised.TRAYS, july, season.climate) is None


def test_waves_sown_too_cold_and_too_warm_are_warned_apart_each_by_its_worst_day() -> None:
    """In a desert beans are sown in soil that is not yet warm, and again when it is still hot."""
    found = gardens.season(
        text(
            "{crop: bush bean, plants: 6, from: earliest, every: 21, until: last safe}",
            crops=(),
            frost="{last: 02-15, first: 12-05}",
            latitude=33.4,
            warmest_month="34",
            coldest_month="12",
        )
    )
    cold, hot = (each for each in found.problems if each.code == "poor-germination")
    days = [each.stages.plant.day for each in found.waves]
    assert [each.month for each in days] == [2, 3, 8, 9]
    assert cold.message.startswith("bush-bean-1 and bush-bean-2 are sown 1")
    assert f"likely, on {days[0].day} Feb, about 1" in cold.message
    assert hot.message.startswith("bush-bean-3 and bush-bean-4 are sown 2")
    assert f"likely, on {days[2].day} Aug, about 3" in hot.message
    assert "wait for warmer soil" in str(cold.hint)
    assert "shade it" in str(hot.hint)


def test_soil_a_little_under_the_good_one_is_not_said_by_the_same_figure() -> None:
    bean = built_in("bush bean")
    # 15.4 °C is 59.7 °F, and 15.0 °C just 59 °F
    for degrees, said in (
        (15.4, "a little under 60 °F: under 60 °F"),
        (15.0, "about 59 °F: under"),
    ):
        found = Doubt(
            Soil(degrees, at_least=False), too_warm=False, limit=celsius(60), is_slow=True
        )
        text = seed_in_doubt(bean, found, Units.US).replace("\xa0", " ")
        assert text.startswith(said)
