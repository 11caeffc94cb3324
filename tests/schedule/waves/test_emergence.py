"""Days to emergence: those counted at the soil's temperature, else the crop's."""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from sowtide.climate.soil import Soil
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.library import builtin as library
from sowtide.garden.varieties import built_in_crop
from sowtide.schedule.sowing.emergence import SLOWEST, emergence_of
from sowtide.units import celsius, fahrenheit


def built_in(name: str) -> Crop:
    found = library.find(name)
    assert found is not None
    return built_in_crop(found)


def at(fahrenheit: float) -> Soil:
    return Soil(celsius(fahrenheit), at_least=False)


# Harrington & Minges 1954 through Knott's Handbook 1997: days to emergence.
@pytest.mark.parametrize(
    ("name", "fahrenheit", "days"),
    [
        ("carrot", 50, 17),
        ("carrot", 68, 7),
        ("carrot", 59, 10),
        ("carrot", 63.5, 9),  # half way from 10 to 7 is 8.5, halves up
        ("radish", 41, 29),
        ("pea", 68, 8),
        ("sweet corn", 50, 22),
        ("beet", 35, 42),  # colder than anything counted: as at 41 °F
        ("onion", 32, SLOWEST),  # 136 days
    ],
)
def test_days_are_those_counted_at_the_soils_temperature(
    name: str, fahrenheit: float, days: int
) -> None:
    found = emergence_of(built_in(name), at(fahrenheit))
    assert found.days == days
    assert found.origin.source == "harrington-minges-1954"
    assert "an estimate" in found.text


@pytest.mark.parametrize(
    ("name", "soil"),
    [
        ("carrot", None),  # nothing is known of the soil
        ("carrot", Soil(25.0, at_least=True)),  # nor how warm it is
        ("kale", at(50)),  # not counted
        ("bush bean", at(50)),  # none came up
    ],
)
def test_else_they_are_the_crops(name: str, soil: Soil | None) -> None:
    crop = built_in(name)
    assert emergence_of(crop, soil).days == crop.up_days


def test_the_growers_own_days_stand() -> None:
    garden = gardens.season(gardens.text(crops=["carrot: {up_days: 12}"]))
    assert emergence_of(gardens.crop_called(garden, "carrot"), at(50)).days == 12


MONTHS = "[8, 8, 12, 16, 20, 28, 28, 28, 20, 16, 12, 8]"


def test_a_wave_is_up_by_the_soil_of_its_own_day() -> None:
    frost = f"{{last: 03-15, first: 11-15, normals: {{max: {MONTHS}, min: {MONTHS}}}}}"
    crops = ["carrot: {}", "broccoli: {}"]
    on = gardens.season(gardens.text(crops=crops, frost=frost, latitude=33.0))
    carrot = on.conditions.prospects(gardens.crop_called(on, "carrot"), Raised.DIRECT)
    days = []
    for month in (4, 5):
        planted = date(2026, month, 10)
        up = carrot.judge_on(planted).stages.up
        assert up is not None
        soil = on.climate.weather.soil(planted)
        assert soil is not None
        assert up.steps[-1].text.endswith(
            f"about {fahrenheit(soil.about):.0f} °F, {soil.about:.0f} °C, an estimate"
        )
        days.append((up.day - planted).days)
    assert days[0] > days[1]  # sooner in the warmer soil of May
    broccoli = on.conditions.prospects(gardens.crop_called(on, "broccoli"), Raised.TRAYS)
    assert broccoli.judge_on(date(2026, 4, 10)).stages.up is None
