"""Waves of one crop that are planted on one day are thought through once, and dated each anew."""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from sowtide.reasons import Dated
from sowtide.schedule.season import Season
from sowtide.schedule.sowing import WarmSoil
from sowtide.schedule.waves.wave import Judged, Wave
from sowtide.schedule.waves.windows import Prospects

CROPS = [
    gardens.crop(),
    gardens.crop("seedling", raised="trays", nursery_days="20-30", hardening_days="7"),
    gardens.leaf(flower_to_pick="10", days_to_harvest="40-50"),
    gardens.leaf("bulb", overwinters="yes", ready="06-25..07-20"),
]
WAVES = [
    gardens.wave(crop, name=f"{crop} {name}", **keys)
    for crop, month in (("fruit", "06"), ("seedling", "06"), ("leaf", "06"), ("bulb", "08"))
    for name, keys in (
        ("a", {"start": f"{month}-20"}),
        ("b", {"start": f"{month}-06", "every": "7", "count": "3"}),
        ("c", {"start": f"{month}-20"}),
        ("d", {"start": "earliest", "every": "7", "count": "2"}),
        ("e", {"start": "earliest"}),
    )
]


@pytest.fixture(scope="module")
def season() -> Season:
    return gardens.season(gardens.text(*WAVES, crops=CROPS, too_hot="07-10..08-08"))


def alone(wave: Wave, season: Season) -> Judged:
    """Judge a wave as if it were the only one."""
    prospects = Prospects(
        wave.crop,
        wave.entry.raised,
        climate=season.climate,
        site=season.garden.site,
        year=season.garden.year,
        warm_soil=WarmSoil(season.climate, season.garden.year),
        colder_by=0.0,
    )
    return prospects.judge(wave.stages.plant)


def test_a_wave_is_dated_and_judged_as_if_it_were_alone(season: Season) -> None:
    assert len({(wave.crop.name, wave.stages.plant.day) for wave in season.waves}) < len(
        season.waves
    )
    for wave in season.waves:
        assert wave.judged == alone(wave, season), wave.id


def test_each_counts_from_its_own_line_of_the_file(season: Season) -> None:
    of_day = [wave for wave in season.waves if wave.stages.plant.day == date(2026, 6, 20)]
    fruits = [wave for wave in of_day if wave.crop.name == "fruit"]
    assert [wave.id for wave in fruits] == ["fruit-a-1", "fruit-b-3", "fruit-c-1"]
    for wave in fruits:
        assert wave.stages.plant.steps[0].origin.line == wave.entry.span.line
        assert wave.stages.first_pick is not None
        for stage in (wave.stages.up, *wave.stages.first_pick, wave.stages.pull_out):
            assert isinstance(stage, Dated)
            assert stage.steps[: len(wave.stages.plant.steps)] == wave.stages.plant.steps
