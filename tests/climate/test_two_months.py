"""Two months and two frost dates: a year laid through them, and seasons that differ."""

from __future__ import annotations

from datetime import date, timedelta
from math import cos, pi

import numpy as np
import pytest

import replayed
from sowtide.climate.average.normal_year import SEASONS, SPREAD
from sowtide.climate.average.smooth_year import smooth_year
from sowtide.climate.average.two_months import twelve_months
from sowtide.climate.basis import WarmthFrom
from sowtide.days import Half
from sowtide.garden.crop import Raised
from sowtide.garden.read import read_garden
from sowtide.reasons import OURS, Dated
from sowtide.schedule.waves.windows import Prospects
from sowtide.season import Season, season_of
from sowtide.units import celsius

TWO = "warmest_month: 70, coldest_month: 24"


def season(
    more: str = TWO, *, latitude: float = 43, frost: str = "last: 05-08, first: 10-02"
) -> Season:
    text = (
        f"site: {{name: A, latitude: {latitude}, units: us, frost: {{{frost}}}, {more}}}\n"
        "season: 2026\nbeds: [{bed: North, size: 4 x 10}]\n"
    )
    garden = read_garden(text.encode(), "garden.yaml").garden
    assert garden is not None
    return season_of(garden, date(2026, 3, 1))


def prospects(of: Season, name: str) -> Prospects:
    crop = replayed.crop(name)
    return of.conditions.prospects(
        crop, Raised.DIRECT if crop.raised is Raised.EITHER else crop.raised
    )


def means(months: tuple[tuple[float, ...], tuple[float, ...]]) -> list[float]:
    return [(high + low) / 2 for high, low in zip(*months, strict=True)]


def test_the_two_months_come_out_as_they_went_in() -> None:
    found = means(twelve_months(warmest=20, coldest=-4, middle=202, south=False))
    assert max(found) == found[6] == pytest.approx(20, abs=0.3)
    assert min(found) == found[0] == pytest.approx(-4, abs=0.3)
    # April, 106 days after 1 January in its middle, is 96 days before the peak: a cosine of −0.08
    assert found[3] == pytest.approx(8 + 12 / 0.99 * cos(2 * pi * 95.5 / 365), abs=0.1)


def test_the_peak_is_the_middle_of_the_frost_free_season_within_reason() -> None:
    early, usual, late = (
        means(twelve_months(warmest=20, coldest=0, middle=middle, south=False))
        for middle in (180, None, 230)
    )
    assert early[4] > usual[4] > late[4]
    assert early == means(twelve_months(warmest=20, coldest=0, middle=198, south=False))
    assert late == means(twelve_months(warmest=20, coldest=0, middle=206, south=False))


@pytest.mark.parametrize(
    ("middle", "south", "january", "april", "july"),
    [
        # The middle of January is day 15.2, of April 106.46, of July 197.72; the swing of the days
        # is 10 / 0.99 = 10.101 on either side of 10. The peak on day 202: 186.8 days before it the
        # cosine of 2π × 186.8 / 365 is −0.9973, 95.54 days before it −0.0738, 4.28 before 0.9973
        (None, False, -0.0734, 9.2547, 20.0736),
        (202.0, False, -0.0734, 9.2547, 20.0736),
        # 25 July is day 206 and the latest: 190.8, 99.54 and 8.28 days before it
        (207.0, False, 0.0019, 8.5634, 19.9986),
        (206.0, False, 0.0019, 8.5634, 19.9986),
        # 17 July is day 198, the earliest: 182.8, 91.54 and 0.28 days before it
        (197.0, False, -0.1009, 9.9496, 20.1009),
        # half a year, 182.5 days, on in the south, where all is the other way round about 10
        (None, True, 20.0734, 10.7453, -0.0736),
        (19.5, True, 20.0734, 10.7453, -0.0736),
        (19.5 + 365, True, 20.0734, 10.7453, -0.0736),
        (30.0, True, 19.9981, 11.4366, 0.0014),
    ],
)
def test_each_month_lies_on_its_cosine(
    middle: float | None, south: bool, january: float, april: float, july: float
) -> None:
    highs, lows = twelve_months(warmest=20, coldest=0, middle=middle, south=south)
    assert (len(highs), len(lows)) == (12, 12)
    found = means((highs, lows))
    assert [found[0], found[3], found[6]] == pytest.approx([january, april, july], abs=3e-4)
    assert [high - low for high, low in zip(highs, lows, strict=True)] == pytest.approx([11] * 12)


def test_the_south_is_half_a_year_on() -> None:
    north = means(twelve_months(warmest=20, coldest=0, middle=204, south=False))
    south = means(twelve_months(warmest=20, coldest=0, middle=204 - 182.5, south=True))
    assert [*south[6:], *south[:6]] == pytest.approx(north, abs=0.3)


def test_the_frost_dates_set_the_peak_and_growth_is_answered() -> None:
    of = season()
    # 8 May to 2 October: their middle is 20 July, day 201
    need = prospects(of, "bush bean").need
    assert need.warmth is not None
    middle = (
        date(2026, 5, 8) + timedelta((date(2026, 10, 2) - date(2026, 5, 8)).days // 2)
    ).timetuple()
    months = twelve_months(
        warmest=celsius(70), coldest=celsius(24), middle=middle.tm_yday, south=False
    )
    written = ", ".join(
        f"{side}: [{', '.join(f'{each * 9 / 5 + 32:.3f}' for each in values)}]"
        for side, values in zip(("max", "min"), months, strict=True)
    )
    same = season("sure: 80%", frost=f"last: 05-08, first: 10-02, normals: {{{written}}}")
    for day in (date(2026, 5, 20), date(2026, 7, 1), date(2026, 7, 28)):
        planted = Dated.on(day, "written", "", OURS)
        one, other = (each.climate.waves.outlook(planted, need) for each in (of, same))
        assert [end.day for end in one.first_pick] == [end.day for end in other.first_pick]
        assert one.chances.odds == pytest.approx(other.chances.odds)
    assert of.climate.basis.warmth is WarmthFrom.TWO_MONTHS
    assert "a smooth year between the warmest and the coldest month" in of.climate.basis.assumed


def test_seasons_spread_as_measured() -> None:
    assert len(SEASONS) == 7
    # 1.4 °C times the deviates of 1/14, 3/14 and 5/14, by a table: 1.465, 0.792 and 0.366
    assert SEASONS[:3] == (-2.05, -1.11, -0.51)
    assert SEASONS[3] == 0
    assert list(SEASONS) == sorted(SEASONS)
    assert np.allclose(SEASONS, -np.array(SEASONS[::-1]))
    # The middles of seven sevenths of a normal curve spread a little less than all of it
    assert 0.85 * SPREAD < np.std(SEASONS) < SPREAD


def test_the_odds_are_the_mean_over_the_seasons() -> None:
    """Independently in numpy: the same year warmer and colder, against the same frost odds."""
    of = season()
    need = prospects(of, "sweet corn").need
    warmth = need.warmth
    assert warmth is not None
    highs, lows = (
        np.array(smooth_year(side))
        for side in twelve_months(warmest=celsius(70), coldest=celsius(24), middle=201, south=False)
    )
    planted = date(2026, 6, 10)
    shares = []
    for warmer in SEASONS:
        grown = np.cumsum(replayed.grown(lows + warmer, highs + warmer, warmth)[160:])
        for total in np.linspace(warmth.low, warmth.high, warmth.parts):
            days = int((grown < total - 1e-6).sum()) + 1
            last = planted + timedelta(days + need.before_frost - 1)
            ripe = days <= len(grown)
            odds = 1 - of.climate.frosts.odds(Half.AUTUMN, last + timedelta(1), at=need.killed_at)
            shares.append(odds if ripe else 0.0)
    assert of.climate.waves.chances(planted, need).odds == pytest.approx(np.mean(shares), abs=0.01)


def test_odds_late_in_the_season_are_no_longer_all_or_nothing() -> None:
    of = season()
    need = prospects(of, "bush bean").need
    days = [date(2026, 6, 1) + timedelta(7 * week) for week in range(14)]
    odds = [of.climate.waves.chances(day, need).odds for day in days]
    assert odds == sorted(odds, reverse=True)
    assert sum(0.02 < each < 0.98 for each in odds) >= 4


def test_okra_at_52_degrees_is_nobodys_yes() -> None:
    of = season(
        "warmest_month: 62, coldest_month: 37", latitude=52, frost="last: 04-27, first: 10-23"
    )
    assert not prospects(of, "okra").windows
    assert prospects(of, "bush bean").windows


def test_a_year_too_cold_for_any_garden_is_refused() -> None:
    text = (
        "site: {name: A, latitude: 43, units: us, frost: {last: 05-08, first: 10-02},\n"
        "       warmest_month: 20, coldest_month: -4}\n"
        "season: 2026\nbeds: [{bed: North, size: 4 x 10}]\n"
    )
    (problem,) = read_garden(text.encode(), "garden.yaml").problems
    assert problem.code == "normals"
    assert problem.message == "no month is warm enough for anything to grow"
