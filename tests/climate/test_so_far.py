"""A season that has begun: its own temperatures so far replace those of the recorded years."""

from __future__ import annotations

from array import array
from datetime import date, timedelta
from math import cos, pi
from pathlib import Path
from random import Random

import pytest

import gardens
from printed import week_text
from sowtide.climate.record.record import Record
from sowtide.climate.replay.so_far import BEFORE, cut_out, known_until, lay_out, so_far
from sowtide.climate.warmth.aligned import Years
from sowtide.days import GrowingYear
from sowtide.schedule.season import Season
from sowtide.schedule.work.task import Kind
from sowtide.schedule.work.week import week_sheets
from sowtide.season import load, season_of

FIRST, LAST = date(2004, 2, 7), date(2020, 6, 14)
YEAR = GrowingYear(2020, south=False)  # a leap year
SEASONS = tuple(range(2005, 2019))


def temperatures(*, warmer: float, seed: int = 3) -> tuple[array[float], array[float]]:
    """Minima and maxima, those of 2020 warmer by so many degrees."""
    random = Random(seed)
    lows, highs = array("d"), array("d")
    day = FIRST
    while day <= LAST:
        season = 10 - 13 * cos(2 * pi * (day.timetuple().tm_yday - 20) / 365)
        mean = season + random.gauss(0, 3) + (warmer if day >= date(2020, 1, 1) else 0)
        lows.append(mean - 6)
        highs.append(mean + 6)
        day += timedelta(days=1)
    return lows, highs


def record(*, warmer: float = 0.0) -> Record:
    lows, highs = temperatures(warmer=warmer)
    return Record("station.csv", None, FIRST, lows, highs, 0.1, False)


@pytest.mark.parametrize(
    ("today", "until"),
    [
        (None, LAST),
        (date(2020, 5, 1), date(2020, 4, 30)),  # today itself is not over
        (date(2020, 9, 1), LAST),
        (date(2020, 1, 1), None),
        (date(2019, 5, 1), None),
    ],
)
def test_the_season_is_known_until_yesterday_or_the_records_end(
    today: date | None, until: date | None
) -> None:
    assert known_until(record(), YEAR, today) == until
    assert known_until(record(), GrowingYear(2026, south=False), today) is None


def test_a_season_has_begun_when_thirty_degree_days_are_gathered() -> None:
    # 20 °C night and day, ten above the base: two days bring 20, three 30.
    number = (LAST - FIRST).days + 1
    warm = array("d", [20.0] * number)
    kept = Record("station.csv", None, FIRST, warm, warm, 0.1, False)
    assert so_far(kept, SEASONS, YEAR, date(2020, 1, 2)) is None
    begun = so_far(kept, SEASONS, YEAR, date(2020, 1, 3))
    assert begun is not None
    assert begun.days_ahead == 0


@pytest.mark.parametrize("until", [date(2020, 1, 1), date(2020, 2, 28), date(2020, 2, 29), LAST])
def test_each_year_follows_the_seasons_own_days_by_month_and_day(until: date) -> None:
    kept = record()
    laid = lay_out(kept, SEASONS, YEAR, until)
    tmax = kept.tmax
    assert tmax is not None
    for number, season in enumerate(SEASONS):
        base = laid.years.bases[number]
        day = YEAR.first - timedelta(days=BEFORE)
        while day <= YEAR.last:
            index = base + (day - YEAR.first).days
            month, of_month = day.month, day.day
            source = day
            if day > until:
                leap = (month, of_month) == (2, 29) and season % 4
                source = date(season, 3, 1) if leap else date(season, month, of_month)
            at = (source - FIRST).days
            assert (laid.tmin[index], laid.tmax[index]) == (kept.tmin[at], tmax[at]), day
            day += timedelta(days=1)
        # Beyond the year it runs on: New Year's Day after it.
        beyond = (date(season + 1, 1, 1) - FIRST).days
        assert laid.tmin[base + 366] == kept.tmin[beyond]


def test_without_days_of_the_season_the_record_is_only_cut_to_its_years() -> None:
    kept = record()
    laid = cut_out(kept, (2010, 2011), YEAR)
    whole = Years(FIRST, (2010, 2011), YEAR)
    for day in (0, 58, 59, 60, 200, 365):
        for here, there in zip(laid.years.indices(day), whole.indices(day), strict=True):
            assert laid.tmin[here] == kept.tmin[there]
    assert len(laid.tmin) < len(kept.tmin) / 4


@pytest.mark.parametrize(("warmer", "low", "high"), [(4, 8, 40), (0, -7, 7), (-4, -40, -8)])
def test_a_warm_season_is_ahead_and_a_cold_one_behind(warmer: float, low: int, high: int) -> None:
    found = so_far(record(warmer=warmer), SEASONS, YEAR, date(2020, 6, 1))
    assert found is not None
    assert found.until == date(2020, 6, 1)
    assert low <= found.days_ahead <= high


def test_how_far_the_season_is_counts_days_to_the_same_warmth() -> None:
    # Each day of every year brings 5 °C·d above 10 °C, and of 2020 7 °C·d: after 60 days (29
    # February is the 60th) it has 420, which the others have after 84.
    days = (LAST - FIRST).days + 1
    begun = (date(2020, 1, 1) - FIRST).days
    lows = array("d", [15.0] * begun + [17.0] * (days - begun))
    kept = Record("x", None, FIRST, lows, array("d", lows), 0.1, False)
    found = so_far(kept, SEASONS, YEAR, date(2020, 2, 29))
    assert found is not None
    assert found.days_ahead == 84 - 60


def test_nothing_is_said_of_a_season_hardly_begun_or_with_days_missing() -> None:
    assert so_far(record(), SEASONS, YEAR, date(2020, 1, 3)) is None
    kept = record()
    kept.tmin[(date(2020, 4, 1) - FIRST).days] = float("nan")
    assert so_far(kept, SEASONS, YEAR, date(2020, 6, 1)) is None


def test_in_late_autumn_days_bring_too_little_to_count_them() -> None:
    warm = record(warmer=4)
    assert so_far(warm, SEASONS, YEAR, date(2020, 8, 30)) is not None
    assert so_far(warm, SEASONS, YEAR, date(2020, 11, 20)) is None


def season(tmp_path: Path, wave: str, *, warmer: float, today: date, **figures: str) -> Season:
    lows, highs = temperatures(warmer=warmer)
    lines = ["date,tmin (°C),tmax (°C)"]
    lines += [
        f"{FIRST + timedelta(days=number)},{low:.1f},{high:.1f}"
        for number, (low, high) in enumerate(zip(lows, highs, strict=True))
    ]
    (tmp_path / "station.csv").write_text("\n".join(lines), encoding="utf-8")
    crop = gardens.crop(
        days_to_harvest="30", rated_at="16", heat="{base: 6}", hardiness="hardy", **figures
    )
    path = tmp_path / "garden.yaml"
    text = gardens.text(wave, crops=[crop], frost="{record: station.csv}", season=2020)
    path.write_text(text, encoding="utf-8")
    loaded = load(path)
    assert loaded.garden is not None, loaded.problems
    return season_of(loaded.garden, today, loaded.record)


def test_what_is_ripe_already_is_dated_by_the_season_itself(tmp_path: Path) -> None:
    """30 days at 16 °C over a base of 6 °C: 300 °C·d, gathered on the days of 2020 itself."""
    wave = gardens.wave(start="04-10")
    found = season(tmp_path, wave, warmer=5, today=date(2020, 6, 14))
    lows, highs = temperatures(warmer=5)
    heat, day = 0.0, date(2020, 4, 10)
    while heat < 300:
        at = (day - FIRST).days
        heat += sum(max(round(each[at], 1), 6.0) for each in (lows, highs)) / 2 - 6.0
        day += timedelta(days=1)
    first = found.waves[0].stages.first_pick
    assert first is not None
    assert first[0].day == max(day, date(2020, 4, 10) + timedelta(days=26))  # 0.85 × 30
    assert day < date(2020, 6, 14)


def test_a_warm_spring_brings_the_first_pick_forward_and_moves_nothing_before(
    tmp_path: Path,
) -> None:
    wave = gardens.wave(start="05-01")
    picks = {}
    for warmer in (-5, 5):
        for today in (date(2020, 1, 1), date(2020, 6, 10)):
            first = season(tmp_path, wave, warmer=warmer, today=today).waves[0].stages.first_pick
            assert first is not None
            picks[warmer, today.month] = first[0].day
    assert picks[-5, 1] == picks[5, 1]  # nothing of the season is known yet
    assert picks[5, 6] < picks[5, 1] < picks[-5, 6]


@pytest.mark.parametrize(("warmer", "side"), [(5, "days ahead of"), (-5, "days behind")])
def test_the_weeks_sheet_says_how_far_the_season_is(
    tmp_path: Path, warmer: float, side: str
) -> None:
    today = date(2020, 6, 10)
    found = season(tmp_path, gardens.wave(start="05-01"), warmer=warmer, today=today)
    sheet = week_sheets(found.garden, found.waves, date(2020, 6, 8), weeks=1)[0]
    said = " ".join(week_text(sheet, found, width=200, by="bed"))
    assert "By its warmth to 9 Jun the season is" in said
    assert f"{side} the middle of the years." in said


COOL = {"weather": "cool", "soil_min": "10", "warm_limit": "21"}
"""Sown into soil that is warm enough, and spoilt by heat: its days hang on temperatures."""


def test_the_season_itself_moves_picks_but_no_planting_day_and_no_set_of_waves(
    tmp_path: Path,
) -> None:
    """Whatever spring it is, a series is sown on the days that past years tell."""
    wave = gardens.wave(start="earliest", every="14", until="last safe")
    for warmer in (-5, 5):
        on_new_year = season(tmp_path, wave, warmer=warmer, today=date(2020, 1, 1), **COOL)
        in_june = season(tmp_path, wave, warmer=warmer, today=date(2020, 6, 14), **COOL)
        days, later = (
            [each.stages.plant.day for each in found.waves] for found in (on_new_year, in_june)
        )
        assert days == later
        assert len(days) > 4
        picked = [
            [each.stages.first_pick for each in found.waves] for found in (on_new_year, in_june)
        ]
        assert picked[0] != picked[1]


def test_each_weeks_sheet_asks_for_a_sowing_once_though_the_record_grows(tmp_path: Path) -> None:
    wave = gardens.wave(start="earliest", every="14", until="last safe")
    asked: list[str] = []
    waves: set[str] = set()
    for week in range(12, 44):
        monday = date.fromisocalendar(2020, week, 1)
        found = season(tmp_path, wave, warmer=5, today=monday, **COOL)
        waves |= {each.id for each in found.waves}
        (sheet,) = week_sheets(found.garden, found.waves, monday, weeks=1)
        asked += [task.wave.id for task in sheet.tasks if task.kind is Kind.SOW]
    assert sorted(asked) == sorted(waves)
