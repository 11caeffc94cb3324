"""Day length against a library of the sun's positions, and against FAO's plainer formula."""

from __future__ import annotations

from datetime import UTC, date, timedelta
from itertools import pairwise
from math import acos, degrees, pi, radians, sin, tan

import pytest
from astral import Observer
from astral.julian import julianday, julianday_to_juliancentury
from astral.sun import SunDirection, daylight, sun_declination, time_at_elevation
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from sowtide.climate.daylight import day_length, declination, first_below, last_below
from sowtide.days import GrowingYear

STEADY = settings(deadline=None, derandomize=True, database=None, max_examples=200)
MINUTE = 1 / 60


def _days(year: int) -> list[date]:
    first = date(year, 1, 1)
    return [first + timedelta(days=n) for n in range((date(year + 1, 1, 1) - first).days)]


def _between_horizons(latitude: float, day: date) -> float:
    """Time that the sun's centre is over −0.833°, by astral. [h]"""
    place = Observer(latitude, 0.0, 0.0)
    rise, fall = (
        time_at_elevation(place, -0.833, day, direction, UTC, with_refraction=False)
        for direction in (SunDirection.RISING, SunDirection.SETTING)
    )
    return (fall - rise).total_seconds() / 3600


def _by_fao(latitude: float, day: date) -> float:
    """FAO Irrigation and Drainage Paper 56 (Allen and others, 1998), eq. 24, 25 and 34. [h]"""
    sun = 0.409 * sin(2 * pi * day.timetuple().tm_yday / 365 - 1.39)
    return 24 / pi * acos(min(max(-tan(radians(latitude)) * tan(sun), -1), 1))


@pytest.mark.parametrize("year", [1950, 1987, 2024, 2050])
def test_the_suns_declination_by_astral(year: int) -> None:
    """At noon in Greenwich: the Julian day that astral gives a date is its midnight's."""
    for day in _days(year):
        century = julianday_to_juliancentury(julianday(day) + 0.5)
        found = degrees(declination(day.toordinal()))
        assert found == pytest.approx(sun_declination(century), abs=0.006), day


@pytest.mark.parametrize("year", [1950, 2024, 2050])
@pytest.mark.parametrize("latitude", [65, 55, 45, 40, 30, 0, -20, -40, -55])
def test_every_day_of_a_year_by_astral(latitude: int, year: int) -> None:
    off = [day_length(latitude, day) - _between_horizons(latitude, day) for day in _days(year)]
    assert max(map(abs, off)) < 0.5 * MINUTE


@pytest.mark.parametrize("latitude", [60, 45, 40, 30, 0, -20, -40, -55])
def test_every_day_of_a_year_by_astrals_own_sunrise(latitude: int) -> None:
    """It bends the light a little less, so that its sun rises a little later."""
    place = Observer(latitude, 0.0, 0.0)
    for day in _days(2026):
        rise, fall = daylight(place, day, tzinfo=UTC)
        off = day_length(latitude, day) - (fall - rise).total_seconds() / 3600
        assert 0 < off < 1.5 * MINUTE, day


def test_polar_day_and_polar_night() -> None:
    """By astral at 75°: no sunrise at the one solstice, no sunset at the other."""
    for latitude, bright, dark in ((75, 6, 12), (-75, 12, 6), (90, 6, 12), (-90, 12, 6)):
        assert day_length(latitude, date(2026, bright, 21)) == 24
        assert day_length(latitude, date(2026, dark, 21)) == 0
    for month in (6, 12):
        with pytest.raises(ValueError, match="Sun is always"):
            daylight(Observer(75, 0.0, 0.0), date(2026, month, 21), tzinfo=UTC)


def test_the_midnight_sun_reaches_below_the_polar_circle() -> None:
    """The upper edge does, by 0.833°: 65.8° N has it on 21 June, and 65.6° N has not."""
    assert day_length(65.8, date(2026, 6, 21)) == 24
    assert 22 < day_length(65.6, date(2026, 6, 21)) < 24


def test_faos_worked_day_is_shorter() -> None:
    """NCAR Command Language, manual of daylight_fao56: 20° S, day 246 → 11.66559 h.

    FAO's day is that of the sun's centre, without the air. Here the sun's edge and the air make it
    0.833° longer at either end, 7 minutes at 20° S; 2 of them go with FAO's declination, which is
    6.9° where the sun's is 7.5°.
    """
    day = date(2023, 9, 3)
    assert _by_fao(-20, day) == pytest.approx(11.66559, abs=5e-6)
    assert day_length(-20, day) - _by_fao(-20, day) == pytest.approx(5 * MINUTE, abs=0.5 * MINUTE)


def test_faos_days_are_9_to_17_minutes_shorter_at_39_north() -> None:
    shorter = [(day_length(39, day) - _by_fao(39, day)) / MINUTE for day in _days(2023)]
    assert 9 <= min(shorter) <= 10
    assert 16 <= max(shorter) <= 17


@STEADY
@given(latitude=st.floats(-66, 66), day=st.dates(date(1950, 1, 1), date(2049, 12, 31)))
def test_what_one_hemisphere_gains_the_other_loses(latitude: float, day: date) -> None:
    """But for the 0.833° at either end, which lengthen both days alike."""
    both = day_length(latitude, day) + day_length(-latitude, day)
    assume(day_length(abs(latitude), day) < 20)
    assume(day_length(-abs(latitude), day) < 20)
    assert 24 + 13 * MINUTE < both < 24 + 60 * MINUTE


@STEADY
@given(latitude=st.floats(0, 66), before=st.integers(1, 170))
def test_days_are_symmetric_about_the_solstice(latitude: float, before: int) -> None:
    """Nearly: the sun does not go evenly, and the solstice is not at noon."""
    solstice = date(2026, 6, 21)
    rising = day_length(latitude, solstice - timedelta(days=before))
    falling = day_length(latitude, solstice + timedelta(days=before))
    swing = day_length(latitude, solstice) - 12
    assert abs(rising - falling) < 0.1 * swing + MINUTE


@pytest.mark.parametrize("latitude", [-90.5, 91, float("nan")])
def test_no_such_latitude(latitude: float) -> None:
    year = GrowingYear(2026, south=latitude < 0)
    with pytest.raises(ValueError, match="no latitude"):
        day_length(latitude, date(2026, 1, 1))
    with pytest.raises(ValueError, match="no latitude"):
        first_below(10, latitude, year)
    with pytest.raises(ValueError, match="no latitude"):
        last_below(10, latitude, year)


# The short days of winter


def _walked(year: GrowingYear, latitude: float) -> tuple[date | None, date | None]:
    """The last day under ten hours before midsummer, the first after it, by astral, by walking."""
    around = [year.midsummer + timedelta(days=n) for n in range(-200, 190)]
    short = [day for day in around if _between_horizons(latitude, day) < 10]
    return (
        max((day for day in short if day < year.midsummer), default=None),
        min((day for day in short if day > year.midsummer), default=None),
    )


@pytest.mark.parametrize("latitude", [30, 33, 35, 40, 44, 45, 50, 60, -33, -35, -40, -45, -55])
def test_days_under_ten_hours_by_astral(latitude: int) -> None:
    year = GrowingYear(2023, south=latitude < 0)
    expected = _walked(year, latitude)
    found = (last_below(10, latitude, year), first_below(10, latitude, year))
    assert [day is None for day in found] == [day is None for day in expected]
    for one, other in zip(found, expected, strict=True):
        if one is not None and other is not None:
            assert abs((one - other).days) <= 1
    if latitude not in (
        33,
        -33,
    ):  # there a day near the solstice has but seconds more than the next
        assert found == expected


@pytest.mark.parametrize(
    ("latitude", "last", "first"),
    [
        (30, None, None),
        (35, (1, 12), (11, 28)),
        (40, (1, 28), (11, 12)),
        (44, (2, 5), (11, 4)),
        (45, (2, 7), (11, 2)),
        (50, (2, 14), (10, 26)),
    ],
)
def test_a_rough_sun_moves_ten_hour_days_by_three_days_at_most(
    latitude: int, last: tuple[int, int] | None, first: tuple[int, int] | None
) -> None:
    """The same, of 2023, with FAO's declination, which is up to 0.8° off in November."""
    year = GrowingYear(2023, south=False)
    for found, expected in (
        (last_below(10, latitude, year), last),
        (first_below(10, latitude, year), first),
    ):
        if expected is None:
            assert found is None
        else:
            assert found is not None
            assert abs((found - date(2023, *expected)).days) <= 3


@STEADY
@given(
    latitude=st.floats(-70, 70),
    season=st.integers(1951, 2048),
    hours=st.floats(4, 20),
)
def test_one_winters_days_begin_and_end_together(
    latitude: float, season: int, hours: float
) -> None:
    """All between the two are short, their neighbours are not; with neither, none is short."""
    south = latitude < 0
    begin = first_below(hours, latitude, GrowingYear(season, south))
    end = last_below(hours, latitude, GrowingYear(season + 1, south))
    one = timedelta(days=1)
    middle = date(season + south, 6 if south else 12, 21)
    if begin is None or end is None:
        assert begin is end is None
        assert day_length(latitude, middle) >= hours - 1e-3
        return
    assert begin <= end
    assert day_length(latitude, begin) < hours
    assert day_length(latitude, end) < hours
    if day_length(latitude, middle + timedelta(days=183)) > hours + 0.01:
        assert day_length(latitude, begin - one) >= hours
        assert day_length(latitude, end + one) >= hours


def test_short_days_may_be_over_before_new_year() -> None:
    """By astral a day on either side shorter: 13 to 30 December of 2022, at 33.1° N."""
    begin = first_below(10, 33.1, GrowingYear(2022, south=False))
    end = last_below(10, 33.1, GrowingYear(2023, south=False))
    assert (begin, end) == (date(2022, 12, 12), date(2022, 12, 31))


def test_the_shortest_day_may_be_the_only_short_one() -> None:
    shortest = date(2026, 12, 21)
    hours = day_length(40, shortest) + 1e-6
    assert first_below(hours, 40, GrowingYear(2026, south=False)) == shortest
    assert last_below(hours, 40, GrowingYear(2027, south=False)) == shortest
    assert first_below(hours - 1e-6, 40, GrowingYear(2026, south=False)) is None
    assert last_below(hours - 1e-6, 40, GrowingYear(2027, south=False)) is None


def test_where_all_days_are_short_they_meet_on_the_longest() -> None:
    year = GrowingYear(2026, south=False)
    assert first_below(24, 45.0, year) == last_below(24, 45.0, year) == date(2026, 6, 21)
    year = GrowingYear(2026, south=True)
    assert first_below(24, -45.0, year) == last_below(24, -45.0, year) == date(2026, 12, 21)


def test_further_from_the_equator_short_days_last_longer() -> None:
    year = GrowingYear(2026, south=False)
    firsts = [first_below(10, latitude, year) for latitude in range(35, 80)]
    lasts = [last_below(10, latitude, year) for latitude in range(35, 80)]
    assert all(one and other and one >= other for one, other in pairwise(firsts))
    assert all(one and other and one <= other for one, other in pairwise(lasts))


def test_a_latitude_of_the_other_hemisphere() -> None:
    for latitude, south in ((40.0, True), (-40.0, False)):
        with pytest.raises(ValueError, match="other hemisphere"):
            first_below(10, latitude, GrowingYear(2026, south))
        with pytest.raises(ValueError, match="other hemisphere"):
            last_below(10, latitude, GrowingYear(2026, south))


@pytest.mark.parametrize("south", [True, False])
def test_the_equator_has_no_short_days(south: bool) -> None:
    assert first_below(10, 0.0, GrowingYear(2026, south)) is None
    assert last_below(10, 0.0, GrowingYear(2026, south)) is None
