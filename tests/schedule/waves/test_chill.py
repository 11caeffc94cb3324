"""Cold that makes young plants run to seed: the mean of their first days and the limit."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

import gardens
from sowtide.climate.choose import climate_of
from sowtide.days import GrowingYear
from sowtide.schedule.season import Season
from sowtide.season import load, season_of

CROP = gardens.leaf(chill_limit="10", chill_days="20", days_to_harvest="60")


def season(
    tmp_path: Path,
    *waves: str,
    cold_until: date = date(2019, 5, 1),
    south: bool = False,
    crop: str = CROP,
    missing: tuple[date, ...] = (),
) -> Season:
    """A place of 6 °C on average until a day of spring, of 16 °C from then on, with a record."""
    lines = ["date,tmin (°C),tmax (°C)"]
    day = date(2009, 7, 1)
    while day < date(2021, 7, 1):
        of_year = (day.month + (6 if south else 0)) % 12, day.day
        cold = of_year < (cold_until.month, cold_until.day) or of_year >= (11, 1)
        if day not in missing:
            lines.append(f"{day},{1 if cold else 11},{11 if cold else 21}")
        day += timedelta(days=1)
    (tmp_path / "station.csv").write_text("\n".join(lines), encoding="utf-8")
    latitude = -45 if south else 45
    text = gardens.text(*waves, crops=[crop], frost="{record: station.csv}", latitude=latitude)
    path = tmp_path / "garden.yaml"
    path.write_text(text, encoding="utf-8")
    loaded = load(path)
    assert loaded.garden is not None, loaded.problems
    return season_of(loaded.garden, gardens.EARLY, loaded.record)


def warned(found: Season) -> list[str]:
    return [each.message for each in found.problems if each.code == "may-run-to-seed"]


def test_the_mean_of_days_is_the_average_of_the_years(tmp_path: Path) -> None:
    climate = season(tmp_path).climate
    assert climate.weather.mean_over(date(2026, 4, 1), 20) == pytest.approx(6.0)
    # 20 to 30 April at 6 °C, 1 to 9 May at 16 °C: (11 × 6 + 9 × 16) / 20 = 10.5
    assert climate.weather.mean_over(date(2026, 4, 20), 20) == pytest.approx(10.5)


def test_a_missing_day_is_left_out_of_the_mean(tmp_path: Path) -> None:
    gone = date(2015, 5, 8), date(2015, 5, 9)
    weather = season(tmp_path, missing=gone).climate.weather
    # Of twelve springs: (12 × (11 × 6 + 9 × 16) - 2 × 16) / (12 × 20 - 2) = 2488 / 238
    assert weather.mean_over(date(2026, 4, 20), 20) == pytest.approx(2488 / 238)


@pytest.mark.parametrize(
    ("planted", "warns"),
    [
        ("04-01", True),
        ("04-18", True),  # 13 × 6 + 7 × 16 = 190: 9.5 °C
        ("04-19", False),  # 12 × 6 + 8 × 16 = 200: 10 °C, not below
        ("05-20", False),
    ],
)
def test_a_wave_is_warned_whose_first_days_are_below_the_limit(
    tmp_path: Path, planted: str, warns: bool
) -> None:
    found = season(tmp_path, gardens.wave("leaf", start=planted))
    assert bool(warned(found)) is warns


def test_a_series_is_warned_once_with_the_mean_and_the_limit(tmp_path: Path) -> None:
    found = season(tmp_path, gardens.wave("leaf", start="03-01", every="14", count="5"))
    assert warned(found) == [
        "leaf-1 to leaf-4 meet cold as young plants and may run to seed: the first 20 days have a "
        "mean of 6 °C, and below 10 °C they take it for a winter"
    ]


def test_cold_after_midsummer_is_no_spring(tmp_path: Path) -> None:
    assert warned(season(tmp_path, gardens.wave("leaf", start="10-25"))) == []


def test_south_of_the_equator_spring_is_the_other_half_of_the_year(tmp_path: Path) -> None:
    wave = gardens.wave("leaf", start="10-01")
    assert warned(season(tmp_path, wave, south=True)) != []
    wave = gardens.wave("leaf", start="04-25")
    assert warned(season(tmp_path, wave, south=True)) == []


def test_without_temperatures_nothing_is_known() -> None:
    found = gardens.season(gardens.text(gardens.wave("leaf", start="03-01"), crops=[CROP]))
    assert warned(found) == []
    climate = climate_of(found.garden.site, GrowingYear(2026, south=False))
    assert climate.weather.mean_over(date(2026, 4, 1), 20) is None


@pytest.mark.parametrize(("planted", "warns"), [("06-30", True), ("07-01", False)])
def test_from_midsummer_on_cold_is_no_spring_even_where_it_is_cold(
    tmp_path: Path, planted: str, warns: bool
) -> None:
    found = season(tmp_path, gardens.wave("leaf", start=planted), cold_until=date(2019, 9, 1))
    assert bool(warned(found)) is warns


def test_a_direct_sowing_waits_from_the_earliest_day_for_what_it_would_be_warned_of(
    tmp_path: Path,
) -> None:
    # Counted above: 19 April is the first day whose twenty days have a mean of 10 degrees.
    (wave,) = season(tmp_path, gardens.wave("leaf", start="earliest")).waves
    assert wave.stages.plant.day == date(2026, 4, 19)
    step = wave.stages.plant.steps[-1]
    assert (step.rule, step.text) == (
        "earliest",
        "until its young plants meet no cold to run to seed from",
    )
    # Plants set out may be small, and go out on the earliest day, warned.
    trays = CROP.replace("raised: direct", "raised: trays, nursery_days: 20-30")
    found = season(tmp_path, gardens.wave("leaf", start="earliest"), crop=trays)
    assert found.waves[0].stages.plant.day < date(2026, 4, 19)
    assert warned(found) != []
