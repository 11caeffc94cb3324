"""Figures of a crop and of a household that hang on a day, a latitude or a temperature."""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from sowtide.days import DateSpan
from sowtide.garden.by_temperature import ByTemperature
from sowtide.garden.model import Garden
from sowtide.garden.planting_times import planting_times, ready_time, seed_time
from sowtide.garden.read import read_garden
from sowtide.garden.starter import season_ahead
from sowtide.garden.varieties import worthwhile_of
from sowtide.garden.want import feeds, serves

UP = ByTemperature(((5.0, None), (10.0, 17.0), (15.0, 10.0), (20.0, 6.0), (40.0, None)))
"""Days to come up: none at 5 and at 40 °C, and straight between the others."""


@pytest.mark.parametrize(
    ("temperature", "days"),
    [
        (4.0, None),
        (5.0, None),
        (7.5, None),  # between none and some: none
        (10.0, 17.0),
        (11.0, 15.6),  # 17 - 7 * 1/5
        (12.5, 13.5),
        (15.0, 10.0),
        (17.5, 8.0),  # 10 - 4 / 2
        (20.0, 6.0),
        (20.5, None),
        (40.0, None),
        (41.0, None),
    ],
)
def test_between_two_measured_temperatures_a_figure_lies_straight(
    temperature: float, days: float | None
) -> None:
    assert UP.at(temperature) == (None if days is None else pytest.approx(days))


def test_beyond_what_was_measured_a_figure_stays() -> None:
    level = ByTemperature(((10.0, 17.0), (20.0, 6.0)))
    assert [level.at(each) for each in (-5.0, 10.0, 20.0, 35.0)] == [17.0, 17.0, 6.0, 6.0]


def test_the_best_of_the_figures_is_the_highest() -> None:
    assert UP.best == 17.0
    assert ByTemperature(((5.0, None), (9.0, None))).best == 0.0


@pytest.mark.parametrize(
    ("latitude", "days"),
    [
        (60.0, (11, 31)),
        (43.0, (11, 31)),
        (42.9, (11, 31)),  # 0.4 days
        (42.0, (7, 27)),
        (-42.0, (7, 27)),
        (37.5, (-11, 9)),  # 5.5 degrees, 22 days
        (33.0, (-29, -9)),
    ],
)
def test_garlic_is_ready_sooner_for_each_degree_nearer_the_equator(
    latitude: float, days: tuple[int, int]
) -> None:
    garlic = ready_time("longest day +11..longest day +31, 4 sooner a degree below 43")
    assert garlic.after_longest_day(latitude) == days


@pytest.mark.parametrize(("latitude", "days"), [(53, -50), (52, -50), (51, -53), (-37, -95)])
def test_what_stood_the_winter_runs_to_seed_sooner_too(latitude: float, days: int) -> None:
    stood = seed_time("longest day -50, 3 sooner a degree below 52")
    assert stood.after_longest_day(latitude) == days
    assert seed_time("longest day -50").after_longest_day(latitude) == -50


@pytest.mark.parametrize(
    ("written", "said"),
    [
        (ready_time("longest day -1..longest day +0"), "1–0 days after the longest day"),
        (ready_time("longest day -9..longest day -1"), "9–1 days before the longest day"),
        (
            ready_time("longest day +11..longest day +31, 4 sooner a degree below 43"),
            "11–31 days after the longest day, "
            "4 days sooner for each degree nearer the equator than 43°",
        ),
        (seed_time("longest day +0"), "about the longest day"),
        (seed_time("longest day +2"), "about 2 days after the longest day"),
        (
            seed_time("longest day -50, 3 sooner a degree below 52"),
            "about 50 days before the longest day, "
            "3 days sooner for each degree nearer the equator than 52°",
        ),
        (
            planting_times("last frost -45..last frost +0, first frost +9..longest day -50")[1],
            "from 9 days after the first frost to 50 days before the longest day",
        ),
        (
            planting_times("last frost -45..last frost +0")[0],
            "from 45 days before the last frost to the last frost",
        ),
    ],
)
def test_times_are_said_as_growers_say_them(written: object, said: str) -> None:
    assert str(written) == said


@pytest.mark.parametrize(
    ("picked", "worthwhile"), [(1, 7), (2, 2), (13, 13), (14, 14), (15, 14), (60, 14)]
)
def test_a_wave_is_worth_it_if_picked_for_two_weeks_or_as_long_as_it_bears(
    picked: int, worthwhile: int
) -> None:
    assert worthwhile_of(picked) == worthwhile


@pytest.mark.parametrize(
    ("today", "south", "frost", "season"),
    [
        ("2026-10-20", False, "10-20", 2026),  # the frost is not past on its day
        ("2026-10-21", False, "10-20", 2027),
        ("2026-12-31", False, "10-20", 2027),
        ("2027-01-01", False, "10-20", 2027),
        ("2026-10-04", False, None, 2026),  # the invented place has its first frost on 4 October
        ("2026-10-05", False, None, 2027),
        ("2026-12-31", False, "02-10", 2026),  # a frost of midwinter closes no season
        ("2026-12-31", False, "07-01", 2026),  # nor does one of midsummer itself
        ("2026-12-31", False, "07-02", 2027),
        ("2027-04-20", True, "04-20", 2026),
        ("2027-04-21", True, "04-20", 2027),
        ("2027-06-30", True, "04-20", 2027),
        ("2027-07-01", True, "04-20", 2027),
        ("2027-04-04", True, None, 2026),
        ("2027-04-05", True, None, 2027),
        ("2026-10-21", True, "04-20", 2026),
        ("2026-02-28", False, "02-29", 2026),
    ],
)
def test_past_the_first_frost_it_is_the_next_season_that_is_planned(
    today: str, south: bool, frost: str | None, season: int
) -> None:
    assert season_ahead(date.fromisoformat(today), south=south, first_frost=frost) == season


KALES = (
    gardens.text(
        gardens.wave("kale"),
        gardens.wave("red kale"),
        gardens.wave("fruit"),
        crops=(gardens.crop(yield_per_plant="1 kg"), "red kale: {like: kale}"),
    )
    + "want:\n"
)


def wanting(*wants: str) -> Garden:
    file = KALES + "".join(f"  - {{{each}}}\n" for each in wants)
    reading = read_garden(file.encode(), "garden.yaml")
    assert reading.garden is not None, [problem.message for problem in reading.problems]
    return reading.garden


@pytest.mark.parametrize(
    ("wanted", "first", "last", "amount"),
    [
        # 7 kg each week from 1 to 14 June: a kilogram a day.
        ("amount: 7 kg, every: 7, from: 06-01, until: 06-14", "05-25", "05-31", 0),
        ("amount: 7 kg, every: 7, from: 06-01, until: 06-14", "05-25", "06-01", 1),
        ("amount: 7 kg, every: 7, from: 06-01, until: 06-14", "06-01", "06-07", 7),
        ("amount: 7 kg, every: 7, from: 06-01, until: 06-14", "06-14", "06-20", 1),
        ("amount: 7 kg, every: 7, from: 06-01, until: 06-14", "06-15", "06-21", 0),
        ("amount: 7 kg, every: 7, from: 06-01, until: 06-14", "05-01", "07-01", 14),
        # Once in those two weeks: half a kilogram a day.
        ("amount: 7 kg, in: 06-01..06-14", "06-01", "06-02", 1),
        ("amount: 7 kg, in: 06-01..06-14", "05-01", "07-01", 7),
        # As long as the place allows, here from 10 May to 30 September.
        ("amount: 7 kg, every: 7", "05-04", "05-10", 1),
        ("amount: 7 kg, every: 7", "09-28", "10-04", 3),
        ("amount: 7 kg, every: 1", "06-01", "06-02", 14),
    ],
)
def test_what_is_wanted_in_some_days_is_the_share_of_them(
    wanted: str, first: str, last: str, amount: float
) -> None:
    garden = wanting(f"crop: fruit, {wanted}")
    days = DateSpan(date.fromisoformat(f"2026-{first}"), date.fromisoformat(f"2026-{last}"))
    within = DateSpan(date(2026, 5, 10), date(2026, 9, 30))
    assert garden.wants[0].between(days, within) == pytest.approx(amount)


def test_a_kind_that_is_wanted_is_served_by_all_of_it_but_what_has_a_want_of_its_own() -> None:
    each_week = "amount: 1 kg, every: 7"
    garden = wanting(f"crop: kale, {each_week}", f"crop: fruit, {each_week}")
    crops = kale, red, _ = [entry.crop for entry in garden.entries]
    assert [serves(each, kale) for each in crops] == [True, True, False]
    assert [serves(each, red) for each in crops] == [False, True, False]
    assert [feeds(each, kale, garden.wants) for each in crops] == [True, True, False]
    own = wanting(f"crop: kale, {each_week}", f"crop: red kale, {each_week}").wants
    assert [feeds(each, kale, own) for each in crops] == [True, False, False]
    assert [feeds(each, red, own) for each in crops] == [False, True, False]
