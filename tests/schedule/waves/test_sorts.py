"""Early, main and late sorts, where the built-in days span them all."""

from __future__ import annotations

from datetime import date

import pytest

import replayed
from sowtide.days import DayRange
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.library import builtin as library
from sowtide.garden.read import read_garden
from sowtide.schedule.waves.demands import need_of
from sowtide.season import season_of


def crop(line: str) -> Crop:
    text = (
        "site: {name: A, latitude: 43, units: us, frost: {last: 05-08, first: 10-02}}\n"
        f"season: 2026\nbeds: [{{bed: North, size: 4 x 10}}]\ncrops:\n  {line}\n"
    )
    garden = read_garden(text.encode(), "garden.yaml").garden
    assert garden is not None
    return garden.crops[0]


@pytest.mark.parametrize(
    ("sort", "low", "high"), [("early", 70, 80), ("main", 80, 90), ("late", 90, 100)]
)
def test_each_has_a_third_of_the_days(sort: str, low: int, high: int) -> None:
    corn = crop(f"sweet corn: {{sort: {sort}}}")
    assert corn.days_to_harvest == DayRange(70, 100)
    need = need_of(corn, Raised.DIRECT, colder_by=0)
    assert need.days == DayRange(low, high)
    assert need.days_text == f"days to harvest of {sort} sorts"


def test_main_ones_are_grown_unless_it_is_said() -> None:
    assert need_of(replayed.crop("potato"), Raised.DIRECT, colder_by=0).days == DayRange(100, 110)


def test_days_of_the_growers_own_stand() -> None:
    corn = crop("sweet corn: {days_to_harvest: 68-75}")
    assert need_of(corn, Raised.DIRECT, colder_by=0).days == DayRange(68, 75)


def test_the_thirds_cover_the_whole_range() -> None:
    spanning = [name for name in library.names() if replayed.crop(name).sorts]
    assert {"sweet corn", "potato", "tomato", "leek", "winter squash"} <= set(spanning)
    for name in spanning:
        ends = []
        for sort in ("early", "main", "late"):
            days = crop(f"{name}: {{sort: {sort}}}").days_of_sort
            ends += [days.low, days.high]
        whole = replayed.crop(name).days_to_harvest
        assert ends == sorted(ends)
        assert (ends[0], ends[-1]) == (whole.low, whole.high)
        assert (ends[1], ends[3]) == (ends[2], ends[4])


@pytest.mark.parametrize(
    ("name", "sort", "days"),
    [
        ("radish", "main", DayRange(20, 30)),  # Iowa State University, round sorts
        ("radish", "late", DayRange(30, 40)),  # North Dakota State University, the slow end
        ("Brussels sprouts", "early", DayRange(90, 100)),  # the same
        ("Brussels sprouts", "main", DayRange(100, 130)),  # FAO Ecocrop
        ("Brussels sprouts", "late", DayRange(130, 180)),  # Oregon State University, to 180
    ],
)
def test_published_days_of_a_sort_go_before_thirds(name: str, sort: str, days: DayRange) -> None:
    assert crop(f"{name}: {{sort: {sort}}}").days_of_sort == days


@pytest.mark.parametrize("name", ["sweet corn", "potato", "winter squash"])
def test_corn_potato_and_squash_have_safe_days_where_summers_are_short(name: str) -> None:
    # Made up: 44.5° N inland, frost from 25 September to 15 May; whole ranges had none for squash
    text = (
        "site: {name: A, latitude: 44.5, units: us, frost: {last: 05-15, first: 09-25},\n"
        "       warmest_month: 71, coldest_month: 15}\n"
        "season: 2026\nbeds: [{bed: North, size: 4 x 10}]\n"
    )
    garden = read_garden(text.encode(), "garden.yaml").garden
    assert garden is not None
    of = season_of(garden, date(2026, 3, 1))
    built_in = replayed.crop(name)
    raised = Raised.DIRECT if built_in.raised is Raised.EITHER else built_in.raised
    assert of.conditions.prospects(built_in, raised).windows


@pytest.mark.parametrize(
    "line", ["sweet corn: {sort: early, days_to_harvest: 68}", "bush bean: {sort: late}"]
)
def test_a_sort_is_refused_where_the_days_are_of_one_already(line: str) -> None:
    text = (
        "site: {name: A, latitude: 43, units: us, frost: {last: 05-08, first: 10-02}}\n"
        f"season: 2026\nbeds: [{{bed: North, size: 4 x 10}}]\ncrops:\n  {line}\n"
    )
    (problem,) = read_garden(text.encode(), "garden.yaml").problems
    assert problem.code == "crop-numbers"
    assert "those of one sort already" in problem.message


PLACE = (
    "site: {name: A, latitude: 43, units: us, frost: {last: 05-08, first: 10-02}}\n"
    "season: 2026\nbeds: [{bed: North, size: 40 x 100}]\n"
)


def test_an_entry_may_be_of_another_sort_than_the_next() -> None:
    waves = (
        "waves:\n"
        "  - {crop: sweet corn, sort: early, plants: 9, from: 05-20}\n"
        "  - {crop: sweet corn, plants: 9, from: 05-20}\n"
        "  - {crop: sweet corn, name: last of all, sort: late, plants: 9, from: 05-20}\n"
    )
    garden = read_garden((PLACE + waves).encode(), "garden.yaml").garden
    assert garden is not None
    of = season_of(garden, date(2026, 3, 1))
    assert [each.id for each in of.waves] == ["sweet-corn-early-1", "sweet-corn-1", "last-of-all-1"]
    # Days from sowing: a third of 70 to 100 each, and no allowance in July and early August.
    early, main, late = (
        tuple((day.day - date(2026, 5, 20)).days for day in each.stages.first_pick or ())
        for each in of.waves
    )
    assert early == (70, 80)
    assert main == (80, 90)
    assert late[0] == 90
    assert {each.crop.kind for each in of.waves} == {"sweet corn"}
    assert {each.crop.name for each in garden.entries} == {
        "sweet corn (early)",
        "sweet corn",
        "sweet corn (late)",
    }


def test_an_entry_of_what_has_no_sorts_is_refused() -> None:
    waves = "waves:\n  - {crop: kale, sort: early, plants: 9, from: 05-20}\n"
    (problem,) = read_garden((PLACE + waves).encode(), "garden.yaml").problems
    assert problem.code == "crop-numbers"
    assert problem.message == "sort: the days to harvest of kale are those of one sort already"


def test_plants_of_leaf_lettuce_are_picked_three_to_four_weeks_after_they_go_out() -> None:
    # Common practice, no source: 21 to 28 days; a transplanting table without a publisher has 30.
    # Of 40 to 50 days from seed, two thirds of the 28 in trays are off: 19.
    found = need_of(replayed.crop("leaf lettuce"), Raised.TRAYS, colder_by=0.0).days
    assert (found.low, found.high) == (21, 31)
    assert found.low <= 28 <= found.high
