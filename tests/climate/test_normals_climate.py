"""Twelve monthly normals: warmth from the average year, frost odds still from the dates."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

import replayed
from sowtide.climate.answers import EndedBy
from sowtide.climate.average.smooth_year import smooth_year
from sowtide.climate.basis import FrostFrom, WarmthFrom
from sowtide.days import Half
from sowtide.garden.crop import Raised
from sowtide.garden.library import builtin as library
from sowtide.garden.read import read_garden
from sowtide.garden.varieties import built_in_crop
from sowtide.reasons import OURS, Dated
from sowtide.schedule.season import Season
from sowtide.schedule.waves.windows import Prospects
from sowtide.season import season_of

# Made up: a cold inland place, a hot one, and the hot one half a year on. [°F]
COLD = (
    (27, 31, 42, 57, 69, 78, 82, 80, 72, 59, 44, 32),
    (11, 14, 24, 35, 46, 56, 60, 58, 50, 38, 28, 17),
)
HOT = (
    (52, 56, 64, 72, 80, 86, 90, 88, 82, 73, 63, 54),
    (31, 34, 40, 47, 56, 64, 68, 67, 61, 49, 40, 33),
)
SOUTH = tuple((*months[6:], *months[:6]) for months in HOT)


def season(
    normals: tuple[tuple[int, ...], ...] | None,
    *,
    latitude: float = 43,
    frost: str = "last: 05-08, first: 10-02",
    more: str = "",
) -> Season:
    beside = "" if normals is None else f", normals: {{max: {[*normals[0]]}, min: {[*normals[1]]}}}"
    text = (
        f"site: {{name: A, latitude: {latitude}, units: us, frost: {{{frost}{beside}}}{more}}}\n"
        "season: 2026\nbeds: [{bed: North, size: 4 x 10}]\n"
    )
    garden = read_garden(text.encode(), "garden.yaml").garden
    assert garden is not None
    return season_of(garden, date(2026, 3, 1))


def prospects(of: Season, name: str) -> Prospects:
    found = library.find(name)
    assert found is not None
    crop = built_in_crop(found)
    raised = Raised.DIRECT if crop.raised is Raised.EITHER else crop.raised
    return of.conditions.prospects(crop, raised)


def on(day: date) -> Dated:
    return Dated.on(day, "written", "", OURS)


def daily(normals: tuple[tuple[int, ...], ...]) -> tuple[np.ndarray, np.ndarray]:
    """Maxima and minima of three common years in a row. [°C]"""
    highs, lows = (
        np.tile(np.array(smooth_year([(each - 32) / 1.8 for each in side])), 3) for side in normals
    )
    return highs, lows


@pytest.mark.parametrize("name", ["bush bean", "lettuce", "tomato", "beet", "sweet corn"])
@pytest.mark.parametrize("planted", [date(2026, 4, 20), date(2026, 6, 1), date(2026, 7, 20)])
def test_a_first_pick_is_the_day_after_its_warmth_is_complete(name: str, planted: date) -> None:
    of = season(COLD)
    need = prospects(of, name).need
    warmth = need.warmth
    assert warmth is not None
    assert warmth.response is not None
    highs, lows = daily(COLD)
    years = [date(2026, 1, 1) + timedelta(number % 365) for number in range(len(lows))]
    heat = replayed.grown(lows, highs, warmth, replayed.sunlight(43, years))
    gathered = heat[(planted - date(2026, 1, 1)).days :].cumsum()
    picks = of.climate.waves.outlook(on(planted), need).first_pick
    for pick, total in zip(picks, (warmth.low, warmth.high), strict=True):
        days = max(int((gathered < total - 1e-6).sum()) + 1, warmth.least)
        assert pick.day == planted + timedelta(days=days)
        assert "in an average year" in pick.steps[1].text
        assert all(step.rule == "autumn-light" for step in pick.steps[2:])


def test_frost_odds_are_those_of_the_dates() -> None:
    with_normals, without = season(COLD).climate, season(None).climate
    for day in (date(2026, 4, 20), date(2026, 5, 20), date(2026, 9, 20), date(2026, 10, 20)):
        for half in Half:
            for at in (0.0, -2.2):
                odds = without.frosts.odds(half, day, at=at)
                assert with_normals.frosts.odds(half, day, at=at) == odds


def test_there_is_no_allowance_and_it_says_what_is_assumed() -> None:
    basis = season(COLD).climate.basis
    assert (basis.frost, basis.warmth, basis.years_used) == (
        FrostFrom.AVERAGES,
        WarmthFrom.NORMALS,
        None,
    )
    assert "seasons as warm as the average one, give or take 2.5 °F" in basis.assumed
    assert not any("allowance" in each or "hot weeks" in each for each in basis.assumed)
    steps = season(COLD, more=", fall_allowance: 40 always").climate
    need = prospects(season(COLD), "bush bean").need
    late = on(date(2026, 7, 20))
    assert (
        steps.waves.outlook(late, need).first_pick
        == season(COLD).climate.waves.outlook(late, need).first_pick
    )


def test_hot_weeks_are_those_whose_fifteen_days_are_too_warm() -> None:
    highs, lows = daily(HOT)
    means = np.convolve((highs + lows) / 2, np.ones(15) / 15, mode="same")[365:730]
    hot = np.nonzero(means > (75 - 32) / 1.8)[0]
    found = season(HOT, latitude=34, frost="last: 04-03, first: 11-03").climate.weather.hot_weeks
    assert found is not None
    first = date(2026, 1, 1)
    assert found.first == first + timedelta(days=int(hot[0]))
    assert found.last == first + timedelta(days=int(hot[-1]))
    assert season(COLD).climate.weather.hot_weeks is None
    of = season(HOT, latitude=34, frost="last: 04-03, first: 11-03")
    assert prospects(of, "beet").judge(on(found.first)).verdict.value == "too hot"


def test_the_growers_own_hot_weeks_go_first() -> None:
    where = {"latitude": 34, "frost": "last: 04-03, first: 11-03"}
    written = season(HOT, more=", too_hot: 07-01..07-20", **where).climate.weather.hot_weeks
    assert written is not None
    assert (written.first, written.last) == (date(2026, 7, 1), date(2026, 7, 20))
    assert season(HOT, more=", too_hot: none", **where).climate.weather.hot_weeks is None


def test_soil_and_nights_are_the_last_eleven_days() -> None:
    climate = season(COLD).climate
    highs, lows = daily(COLD)
    ends = 365 + (date(2026, 5, 20) - date(2026, 1, 1)).days + 1
    ground = ((highs + lows) / 2)[ends - 11 : ends].mean()
    soil = climate.weather.soil(date(2026, 5, 20))
    assert soil is not None
    assert not soil.at_least
    assert soil.about == pytest.approx(ground + 2)
    nights = climate.weather.warm_from(soil=None, nights=10.0)
    assert nights is not None
    for day, warm in ((nights.day, True), (nights.day - timedelta(days=1), False)):
        stop = 365 + (day - date(2026, 1, 1)).days + 1
        assert bool(lows[stop - 11 : stop].mean() >= 10) is warm
    assert climate.weather.mean_over(date(2026, 5, 10), 14) == pytest.approx(
        ((highs + lows) / 2)[365 + 129 : 365 + 143].mean()
    )


def test_half_a_year_on_is_the_same_in_the_south() -> None:
    north = season(HOT, latitude=34, frost="last: 04-03, first: 11-03")
    south = season(SOUTH, latitude=-34, frost="last: 10-03, first: 05-03")
    for name in ("bush bean", "beet", "tomato"):
        one, other = prospects(north, name), prospects(south, name)
        gap = (other.earliest.day - one.earliest.day).days
        assert gap == pytest.approx(183, abs=4)
        picks = [
            (each.climate.waves.outlook(on(day), need.need).first_pick[0].day - day).days
            for each, need, day in (
                (north, one, date(2026, 5, 1)),
                (south, other, date(2026, 11, 1)),
            )
        ]
        assert picks[0] == pytest.approx(picks[1], abs=3)


def test_what_no_year_is_warm_enough_for_never_ripens() -> None:
    cool = (tuple(min(each, 62) for each in COLD[0]), tuple(min(each, 45) for each in COLD[1]))
    of = season(cool)
    need = prospects(of, "sweet potato").need
    outlook = of.climate.waves.outlook(on(date(2026, 6, 1)), need)
    assert outlook.chances.odds == 0
    assert outlook.odds_of_nothing == 1
    assert "not within the year" in outlook.first_pick[0].steps[-1].text


def test_where_nothing_freezes_what_never_ripens_has_a_year_and_is_ended_by_the_cool() -> None:
    text = (
        "site: {name: A, latitude: 20, units: us, frost: none, warmest_month: 58, "
        "coldest_month: 50}\nseason: 2026\nbeds: [{bed: North, size: 4 x 10}]\n"
    )
    garden = read_garden(text.encode(), "garden.yaml").garden
    assert garden is not None
    of = season_of(garden, date(2026, 3, 1))
    outlook = of.climate.waves.outlook(on(date(2026, 3, 1)), prospects(of, "sweet potato").need)
    assert outlook.ended_by is EndedBy.TOO_COOL
    assert outlook.end is not None
    assert outlook.end.day == date(2027, 3, 1)
    assert outlook.odds_of_nothing == 1
