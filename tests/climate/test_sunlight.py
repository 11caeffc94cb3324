"""Light in autumn: the sun over the air by FAO's example and by a full reckoning, and its steps."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from astral import Observer
from astral.sun import elevation

import replayed
from sowtide.climate.warmth.sunlight import ENOUGH, autumn_light, sun_above
from sowtide.days import GrowingYear
from sowtide.garden.crop import Raised
from sowtide.garden.library import builtin as library
from sowtide.reasons import OURS, Dated

NORTH, SOUTH = GrowingYear(2026, south=False), GrowingYear(2026, south=True)


def test_faos_example() -> None:
    # FAO-56, example 8: 3 September (day 246) at 20° S has 32.2 MJ/m² a day
    # with a sun that stands 0.7° further south than the almanac's
    assert sun_above(-20, date(2026, 9, 3)) == pytest.approx(32.2, abs=0.4)
    assert sun_above(70, date(2026, 12, 21)) == 0


@pytest.mark.parametrize("latitude", [0, 33, 45, 52, 56, -37])
@pytest.mark.parametrize("month", [3, 6, 8, 9, 10, 11])
def test_the_sun_stands_where_almanacs_have_it(latitude: float, month: int) -> None:
    """Astral's elevation every ten minutes, on a level plane, without the air: within 1 %."""
    day, observer = date(2026, month, 15), Observer(latitude, 0, 0)
    times = [datetime(2026, month, 15, tzinfo=UTC) + timedelta(minutes=10 * n) for n in range(144)]
    sines = [np.sin(np.radians(elevation(observer, at, with_refraction=False))) for at in times]
    nearness = 1 + 0.033 * np.cos(2 * np.pi * day.timetuple().tm_yday / 365)
    energy = np.mean(np.clip(sines, 0, None)) * 24 * 60 * 0.0820 * nearness
    assert sun_above(latitude, day) == pytest.approx(energy, rel=0.01, abs=0.1)


@pytest.mark.parametrize(("latitude", "begins"), [(45, "09-17"), (52, "09-06"), (56, "09-01")])
def test_light_is_short_from_the_end_of_summer_on_and_none_before(
    latitude: float, begins: str
) -> None:
    light = autumn_light(latitude, NORTH)
    short = [NORTH.first + timedelta(day) for day, share in enumerate(light) if share < 1]
    assert abs((short[0] - date.fromisoformat(f"2026-{begins}")).days) <= 1
    assert short[-1] == NORTH.last
    falling = light[
        (date(2026, 9, 15) - NORTH.first).days : (date(2026, 12, 15) - NORTH.first).days
    ]
    assert list(falling) == sorted(falling, reverse=True)
    assert light[(date(2026, 10, 15) - NORTH.first).days] == pytest.approx(
        sun_above(latitude, date(2026, 10, 15)) / ENOUGH
    )


def test_the_south_is_half_a_year_on_and_the_tropics_have_enough() -> None:
    north, south = autumn_light(45, NORTH), autumn_light(-45, SOUTH)
    assert sum(share < 1 for share in south) == pytest.approx(
        sum(share < 1 for share in north), abs=6
    )
    assert min(autumn_light(5, NORTH)) == 1


def test_only_leaves_roots_and_heads_want_light() -> None:
    wanting = {name for name in library.names() if replayed.crop(name).light}
    assert {"leaf lettuce", "carrot", "beet", "kale", "broccoli", "spinach"} <= wanting
    for name in ("bush bean", "pea", "tomato", "sweet corn", "cucumber", "potato", "garlic"):
        assert name not in wanting
    light = {name: replayed.crop(name).light for name in wanting}
    # Yield from 8 to 14 mol/m² a day, read in an abstract: lettuce + 203 %, kale + 47, spinach + 42
    assert (
        light["kale"]
        == light["spinach"]
        == pytest.approx(np.log(1.45) / np.log(3.03) * light["leaf lettuce"], abs=0.05)
    )


def test_it_is_a_step_of_its_own() -> None:
    on = replayed.season(replayed.record("wageningen"), latitude=52.0)
    for name in ("carrot", "beet"):
        found = replayed.prospects(on, name, Raised.DIRECT)
        planted = Dated.on(date(2026, 7, 20), "written", "planted", OURS)
        early, _ = on.climate.waves.outlook(planted, found.need).first_pick
        assert [step.rule for step in early.steps] == ["written", "heat", "autumn-light"]
        assert early.steps[-1].days > 0
        spring = Dated.on(date(2026, 4, 20), "written", "planted", OURS)
        early, _ = on.climate.waves.outlook(spring, found.need).first_pick
        assert [step.rule for step in early.steps] == ["written", "heat"]


def test_the_table_of_the_docs_is_what_is_counted() -> None:
    text = (Path(__file__).parents[2] / "docs" / "counting.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| (\d\d)° \| ([\d.]+(?: \| [\d.]+)+) \|$", text, re.MULTILINE)
    assert [int(latitude) for latitude, _ in rows] == [33, 40, 45, 50, 52, 56]
    days = [date(2026, *day) for day in ((9, 1), (9, 15), (10, 1), (10, 15), (11, 1))]
    for latitude, shares in rows:
        expected = replayed.sunlight(float(latitude), days)
        assert [float(each) for each in shares.split(" | ")] == pytest.approx(expected, abs=0.0101)
