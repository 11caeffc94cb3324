"""A list to order from: nothing on it has to be asked back about."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest

import gardens
from sowtide.garden.drawer import InDrawer
from sowtide.report.formats.csv import table
from sowtide.report.formats.markdown import markdown_page
from sowtide.report.needs import REPORT, NeedsView, view
from tended import garden_with, season_with

SMALL = ("{bed: Long, size: 1 x 1}",)
LIKE = ("x: {like: pea}",)
SPRING = date(2026, 4, 1)


def page_of(found: NeedsView) -> str:
    """Return what is printed."""
    return markdown_page(REPORT.page(found))


def needs(*waves: str, today: date = SPRING) -> str:
    """Return what is printed for a small bed."""
    file = gardens.text(*waves, crops=LIKE, beds=SMALL)
    return page_of(view(gardens.season(file, today)))


def test_waves_without_room_are_named_and_not_reckoned() -> None:
    # A square metre has no room for 40 bush beans beside a tomato.
    first = gardens.wave("tomato", start="05-20", plants="1")
    much = gardens.wave("bush bean", start="06-01", plants="40")
    file = gardens.text(first, much, crops=LIKE, beds=SMALL)
    found = view(gardens.season(file, SPRING))
    assert [seed.crop for seed in found.seeds] == ["tomato"]
    assert found.no_room == ("bush-bean-1",)
    assert "Without, for they have no room: bush-bean-1." in page_of(found)
    # Of a day before it is to be sown it is not asked for.
    assert view(gardens.season(file, SPRING), date(2026, 5, 1)).no_room == ()


def test_what_never_comes_to_a_pick_is_pointed_out() -> None:
    late = gardens.wave("lettuce", start="11-20", plants="4")
    assert "With, though nothing of it will be picked: lettuce-1." in needs(late)
    assert "With," not in needs(gardens.wave("lettuce", start="05-20", plants="4"))


def test_when_the_season_is_over_no_day_that_has_gone_by_is_named() -> None:
    said = needs(gardens.wave("lettuce", start="05-20", plants="4"), today=date(2026, 11, 28))
    assert "Nothing is left to be sown: no seed is needed." in said
    assert "Order by" not in said
    assert "May" not in said


def test_a_day_that_has_gone_by_is_today_and_said_to_be_late() -> None:
    wave = gardens.wave("bush bean", start="06-01", plants="10")
    soon, early = needs(wave, today=date(2026, 5, 25)), needs(wave, today=SPRING)
    assert "| bush bean | today |" in soon
    assert "is then late" in soon
    assert "| bush bean | 11 May |" in early  # three weeks before it is sown
    assert "late" not in early


def test_no_day_before_today_is_printed() -> None:
    """A sowing and a planting that nobody noted are overdue, and to be done all the same."""
    waves = (
        "crop: fruit, plants: 4, from: 06-01, every: 20, count: 2",
        "crop: seedling, plants: 4, from: 06-20, count: 2, every: 20, raised: trays",
    )
    file = gardens.text(
        *(f"{{{wave}}}" for wave in waves),
        crops=(gardens.crop(), gardens.crop("seedling", raised="trays", nursery_days="21-40")),
        beds=("{bed: Long, size: 9 x 9}",),
    )
    noted = "on: 2026-05-20, did: rain, amount: 1mm"
    said = page_of(view(season_with(file, noted, today=date(2026, 6, 10))))
    assert re.search(r"\| fruit \| today \|.* overdue \|$", said, re.M)
    assert re.search(r"\| seedling-1 \| \d+ \| today \| 20 Jun \|", said)
    said = page_of(view(season_with(file, noted, today=date(2026, 6, 22))))
    assert re.search(r"\| seedling-1 \| \d+ \| today \| overdue \|", said)
    for number in range(1, 22):
        assert f" {number} Jun " not in said
    assert " May " not in said
    alone = gardens.text(f"{{{waves[0]}}}", crops=(gardens.crop(),))
    said = page_of(view(season_with(alone, noted, today=date(2026, 7, 1))))
    assert "from Wed 1 Jul to 1 Jul" in said  # both are overdue, and no day lies before today


@pytest.mark.parametrize(
    ("plants", "units", "weight"),
    [
        # 1.25 seeds a plant that come up in 85 of 100, a tenth to spare, four seeds to a gram.
        # 10 plants take 15 seeds, and 17 with those to spare: 4.25 g.
        ("10", "us", "4.3 g"),
        # 36 plants: 53, 59 with those to spare: 14.75 g, and an ounce has 28.35: 0.52 oz.
        ("36", "us", "0.6 oz"),
        # 35 plants: 52, 58 with those to spare: 14.5 g.
        ("35", "metric", "15 g"),
    ],
)
def test_weight_is_rounded_up(plants: str, units: str, weight: str) -> None:
    wave = gardens.wave("bush bean", start="06-01", plants=plants)
    file = gardens.text(wave, crops=LIKE, beds=("{bed: Long, size: 9 x 90}",))
    file = file.replace("units: metric", f"units: {units}")
    assert f" {weight} |" in page_of(view(gardens.season(file, SPRING)))


@pytest.mark.parametrize(
    ("grams", "units", "weight"),
    [
        (9.91, "metric", "10 g"),
        (9.89, "metric", "9.9 g"),
        (10.0, "metric", "10 g"),
        (10.1, "metric", "11 g"),
        (999.1, "metric", "1,000 g"),
        (1000.0, "metric", "1 kg"),
        (1001.0, "metric", "1.1 kg"),
        (7.08, "us", "7.1 g"),  # a quarter of an ounce is 7.087 g
        (7.09, "us", "0.3 oz"),
        (453.5, "us", "16 oz"),  # a pound is 453.592 g
        (453.6, "us", "1.1 lb"),
        (907.1, "us", "2 lb"),
        (None, "us", ""),
    ],
)
def test_what_seed_weighs_is_said_in_the_unit_it_is_bought_in(
    grams: float | None, units: str, weight: str
) -> None:
    wave = gardens.wave("bush bean", start="06-01", plants="4")
    file = gardens.text(wave, crops=LIKE, beds=SMALL).replace("units: metric", f"units: {units}")
    found = view(gardens.season(file, SPRING))
    said = page_of(replace(found, seeds=(replace(found.seeds[0], grams=grams),)))
    (row,) = (each for each in said.splitlines() if each.startswith("| bush bean |"))
    assert row.split(" | ")[2:4] == ["7 seeds", weight]


def test_one_clove_is_a_clove() -> None:
    file = gardens.text(
        gardens.wave("garlic", start="10-10", plants="1"), crops=LIKE, beds=SMALL, spare="0%"
    )
    assert "| 1 clove |" in page_of(view(gardens.season(file, SPRING)))


def test_what_is_weighed_and_cannot_be_counted_is_said() -> None:
    waves = [gardens.wave(crop, start="06-01", plants="4") for crop in ("fruit", "bush bean")]
    file = gardens.text(*waves, crops=(gardens.crop(),), beds=("{bed: Long, size: 9 x 9}",))
    drawer = [InDrawer((crop,), None, 100.0) for crop in ("fruit", "bush bean", "okra")]
    found = view(gardens.season(file, SPRING), None, drawer)
    assert found.not_taken_off == ("fruit",)
    assert "how many seeds weigh what is there: fruit. Count them." in page_of(found)
    assert {each.crop: each.missing > 0 for each in found.seeds} == {
        "fruit": True,
        "bush bean": False,
    }


CARE = (
    "name: soak, do: water, on: fruit, every: 7, amount: 1 l per plant",
    "name: mulch, do: cover, on: fruit, every: 30, amount: 2 kg per plant",
    "name: leaf spray, do: spray, on: fruit, every: 7",
)


def test_care_is_for_the_whole_season_and_has_a_day_to_order_it_by() -> None:
    """Planted on 1 June; nothing is left to be sown a week later, and care goes on."""
    found = view(season_with(garden_with(*CARE), today=date(2026, 6, 8)))
    assert found.seeds == ()
    soak, mulch, spray = found.care
    assert soak.get is not None
    assert (soak.get.value, soak.get.unit) == (soak.times, "l")  # one plant
    assert soak.times > 6
    assert soak.order_by is None  # nobody orders water
    assert (mulch.order_by, mulch.from_ > found.today) == (date(2026, 6, 10), True)
    assert spray.get is None
    said = page_of(found)
    assert "no amount in the file" in said
    assert "Order by: 3 weeks before it is wanted" in said


def test_every_row_for_a_spreadsheet_has_its_amount_as_a_number_with_a_unit() -> None:
    file = garden_with(*CARE, waves=(gardens.wave("fruit", start="06-01"),))
    assert REPORT.rows is not None
    rows = list(REPORT.rows.of(view(season_with(file, today=SPRING))))
    assert {row["kind"] for row in rows} == {"seed", "care"}
    for row in rows:
        if row["amount"] is not None:
            assert isinstance(row["amount"], int | float), row
            assert row["unit"], row
    # On 1 June, 1 July and 31 July, two kilograms each; it is pulled on 4 August.
    assert "\ncare,mulch,6,kg," in table(REPORT.rows.columns, rows)
