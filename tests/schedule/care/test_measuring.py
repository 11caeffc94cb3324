"""How much care takes: against published figures, and by hand."""

from __future__ import annotations

from datetime import date

import pytest

from gardens import wave
from sowtide.garden.read import read_garden
from sowtide.schedule.care import CarePlan, CareTotal, taken_by, totals_of
from sowtide.season import season_of
from sowtide.units import Units
from tended import care_with, garden_with, season_with

US = """\
site: {{name: Mill Bank, latitude: 43.1, units: us, frost: {{last: 05-08, first: 10-02}}}}
season: 2026
beds:
  - {{bed: North, size: 10 x 20}}
crops:
  fruit: {{like: bush bean, in_row: 12, between_rows: 12, flower_to_pick: 15}}
waves:
  - {{crop: fruit, plants: {plants}, from: 06-01}}
care:
"""
BEGIN, END = date(2026, 6, 1), date(2026, 12, 31)


def us(care: str, plants: int = 200) -> CarePlan:
    reading = read_garden((US.format(plants=plants) + f"  - {{{care}}}\n").encode(), "garden.yaml")
    assert reading.garden is not None, [problem.message for problem in reading.problems]
    found = season_of(reading.garden, BEGIN).care
    assert found is not None
    return found


def total(care: CarePlan, units: Units, first: date = BEGIN, last: date = END) -> CareTotal:
    (found,) = totals_of(care.rounds(first, last), care, units, first)
    return found


def test_an_inch_on_ten_feet_by_twenty_is_a_hundred_and_twenty_four_gallons() -> None:
    # Purdue Extension: 0.62 gal/ft2 for an inch, 124 gallons on 10 x 20 ft; a gallon is 231 in3,
    # so exactly 144 / 231 = 0.623377 gal/ft2, 124.675 on 200 ft2
    care = us("name: soak, do: water, on: fruit, from: planting out, amount: 1 in")
    amount = total(care, Units.US).taken.amount
    assert amount is not None
    assert amount.unit == "gal"
    assert float(amount.number) == pytest.approx(124.675, abs=0.001)
    assert float(amount.number) == pytest.approx(0.62 * 200, rel=0.006)


def test_millimetres_on_square_metres_are_litres() -> None:
    # 25 mm on 4 m2 are 100 l
    waves = (wave(start="06-01", plants="4"),)
    care = care_with(
        garden_with("name: soak, do: water, on: fruit, from: 06-05, amount: 25 mm", waves=waves)
    )
    amount = total(care, Units.METRIC).taken.amount
    assert (str(amount), amount and amount.unit) == ("100 l", "l")


@pytest.mark.parametrize(
    ("rain", "litres"),
    [
        ((), 100),
        (("on: 2026-06-12, did: rain, amount: 10mm",), 60),  # 25 - 10 = 15 mm on 4 m2
        (("on: 2026-06-07, did: rain, amount: 10mm",), 100),  # before the last watering
        (("on: 2026-06-08, did: rain, amount: 10mm",), 60),  # on its day
        (("on: 2026-06-15, did: rain, amount: 10mm",), 60),  # on the day itself
        (("on: 2026-06-12, did: rain, amount: 2in",), 0),
    ],
)
def test_water_is_less_by_the_rain_since_the_last(rain: tuple[str, ...], litres: float) -> None:
    file = garden_with(
        "name: soak, do: water, on: fruit, every: 7, amount: 25 mm",
        waves=(wave(start="06-01", plants="4"),),
    )
    watered = "on: 2026-06-08, bed: Long, did: watered"
    care = care_with(file, watered, *rain, today=date(2026, 6, 15))
    (each,) = care.rounds(date(2026, 6, 15), date(2026, 6, 21))
    amount = taken_by(each, care, Units.METRIC, date(2026, 6, 15)).amount
    assert amount is not None
    assert float(amount.size) / 1000 == pytest.approx(litres)


@pytest.mark.parametrize(
    ("care", "done", "rain"),
    [
        ("name: a, do: water, on: fruit, every: 7, amount: 25 mm", "watered", 10),
        ("name: a, do: feed, on: fruit, every: 7, amount: 5 ml per plant", "fed", 0),
    ],
)
def test_rain_is_told_beside_water_alone(care: str, done: str, rain: float) -> None:
    noted = (f"on: 2026-06-08, bed: Long, did: {done}", "on: 2026-06-12, did: rain, amount: 10mm")
    today = date(2026, 6, 15)
    of = care_with(garden_with(care), *noted, today=today)
    (each,) = of.rounds(today, date(2026, 6, 21))
    assert taken_by(each, of, Units.METRIC, today).rain == rain


def test_a_mix_for_an_area_at_a_coverage() -> None:
    # the tester's own: 15 ml in 5 l over 8 m2; on 4 m2 that is half of it, 7.5 ml in 2.5 l
    spray = (
        "name: soap, do: spray, on: fruit, from: 06-05, amount: 5 l per 8 m2, mix: 15 ml per 5 l"
    )
    care = care_with(garden_with(spray, waves=(wave(start="06-01", plants="4"),)))
    taken = total(care, Units.METRIC).taken
    assert (str(taken.amount), str(taken.mix)) == ("2.5 l", "7.5 ml")


def test_nitrogen_is_weight_by_its_percentage() -> None:
    # 200 plants, 4 tbsp each of 14 g: 11.2 kg, 3 % of it nitrogen: 336 g
    feed = (
        "name: dry feed, do: feed, on: fruit, from: 06-10, amount: 4 tbsp per plant, "
        "weighs: 14 g per tbsp, analysis: 3-2-3, minutes: 0.5 per plant"
    )
    taken = total(us(feed), Units.US).taken
    assert taken.nitrogen == pytest.approx(336)
    assert taken.minutes == pytest.approx(100)
    assert str(taken.weight) == "24 lb 11.1 oz"  # 11,200 / 28.3495 = 395.07 oz
    assert str(taken.amount) == "3.12 gal"  # 800 / 256


@pytest.mark.parametrize(
    ("rate", "amount"),
    [
        ("2 oz per plant", "25 lb"),  # 400 oz
        ("1 lb per 10 ft of row", "20 lb"),  # 200 plants a foot apart: 200 ft
        ("1 lb per 100 ft2", "2 lb"),
        ("3 lb per bed", "3 lb"),
        ("1 cup per 5 plants", "2.5 gal"),  # 40 cups of 16 to the gallon
    ],
)
def test_a_rate_is_for_plants_row_ground_or_bed(rate: str, amount: str) -> None:
    care = us(f"name: feed, do: feed, on: fruit, from: 06-10, amount: {rate}")
    assert str(total(care, Units.US).taken.amount) == amount


def test_totals_are_the_sum_over_the_waves_and_lose_what_is_pulled() -> None:
    waves = (wave(start="06-01", plants="4"), wave("leaf", start="06-01", plants="3"))
    file = garden_with(
        "name: feed, do: feed, on: everything, from: 06-20, amount: 30 g per plant, every: 7",
        waves=waves,
    )
    day = date(2026, 6, 20)
    assert str(total(care_with(file), Units.METRIC, day, day).taken.amount) == "210 g"
    pulled = season_with(
        file,
        "on: 2026-06-01, wave: fruit-1, did: sown, bed: Long",
        "on: 2026-06-01, wave: leaf-1, did: sown, bed: Long",
        "on: 2026-06-15, wave: leaf-1, did: pulled",
        today=date(2026, 6, 16),
    ).care
    assert pulled is not None
    assert str(total(pulled, Units.METRIC, day, day).taken.amount) == "120 g"
