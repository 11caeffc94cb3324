"""Frosts year by year, their dates and odds, counted by hand on made-up records."""

from __future__ import annotations

import random
from datetime import date, timedelta
from math import inf, nan

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from records.made import frosts_on, record
from sowtide.climate.frost_record.frost_years import FrostYears, HalfYears, YearsFrost
from sowtide.climate.frost_record.search import FrostSearch
from sowtide.climate.frost_record.trend import trend
from sowtide.climate.medians import quantile
from sowtide.climate.record.record import Record
from sowtide.days import Half


def days_of(half: HalfYears) -> dict[int, date | None]:
    return {year.season: year.day for year in half.years}


def reasons(half: HalfYears) -> dict[int, str]:
    return {left.season: left.reason for left in half.left_out}


def years(found: Record, *, south: bool = False, at: float = 0.0) -> FrostYears:
    return FrostSearch(found, south=south).at(at)


TWELVE = [date(2000 + n, 4, 1 + n) for n in range(12)], [date(2000 + n, 10, 20) for n in range(12)]


def twelve_years(*missing: date, first: date = date(1999, 7, 1)) -> Record:
    """Last frosts from 1 April 2000 on, each year a day later; first frosts on 20 October."""
    cold = frosts_on(*TWELVE[0], *TWELVE[1])
    return record(first, date(2012, 6, 30), lambda day: nan if day in missing else cold(day))


def test_the_last_frost_before_midsummer_and_the_first_after_it() -> None:
    found = years(twelve_years())
    assert days_of(found.spring)[2003] == date(2003, 4, 4)
    assert days_of(found.autumn)[2003] == date(2003, 10, 20)
    # The record ends before spring 2012 has had one: its last is of the autumn before.
    assert days_of(found.spring)[2012] == date(2011, 10, 20)
    assert found.lengths[3].days == (date(2003, 10, 20) - date(2003, 4, 4)).days == 199


def test_midsummers_own_day_belongs_to_autumn() -> None:
    frosts = frosts_on(date(2003, 6, 30), date(2003, 7, 1))
    found = years(record(date(2002, 1, 1), date(2004, 12, 31), frosts))
    assert days_of(found.spring)[2003] == date(2003, 6, 30)
    assert days_of(found.autumn)[2003] == date(2003, 7, 1)
    assert found.lengths[0].days == 1


def test_a_first_frost_in_january_is_still_this_autumns() -> None:
    frosts = frosts_on(date(2004, 1, 8), date(2003, 3, 1))
    found = years(record(date(2002, 7, 1), date(2005, 6, 30), frosts))
    assert days_of(found.autumn)[2003] == date(2004, 1, 8)
    # It is the last one of the spring that it lies in, too.
    assert days_of(found.spring)[2004] == date(2004, 1, 8)
    assert found.autumn.counted[-1] == inf
    assert found.autumn.count(date(2004, 1, 8), 2003) == 313


def test_autumn_looks_forward_a_year_and_no_further() -> None:
    frosts = frosts_on(date(2004, 6, 30), date(2006, 7, 1))
    found = years(record(date(2002, 7, 1), date(2007, 6, 30), frosts))
    assert days_of(found.autumn) == {
        2002: None,
        2003: date(2004, 6, 30),
        2004: None,
        2005: None,
        2006: date(2006, 7, 1),
    }


def test_a_year_without_frost_counts_as_never() -> None:
    """Springs 2000–2011 and the autumns with them; half of them are without."""
    frosts = frosts_on(*TWELVE[0][:6], *TWELVE[1][:6])
    found = years(record(date(1999, 7, 1), date(2012, 6, 30), frosts))
    spring, autumn = found.spring, found.autumn
    # Spring 2006 still has the frost of October 2005; autumn 1999 has that of April 2000.
    assert days_of(spring)[2006] == date(2005, 10, 20)
    assert (len(spring.years), spring.without_frost) == (13, 6)
    assert spring.counted[:6] == (-inf,) * 6
    assert spring.quantile(0.25) == -inf
    assert spring.day(spring.quantile(0.25), 2026) is None
    assert spring.day(spring.quantile(1), 2026) == date(2026, 4, 6)
    assert autumn.without_frost == 6
    assert autumn.quantile(0.9) == inf
    assert found.length_quantile(0.9) == inf


def test_a_place_without_frost_and_one_with_frost_every_month() -> None:
    warm = years(record(date(2000, 1, 1), date(2011, 12, 31), lambda _: 15.0))
    assert set(days_of(warm.spring).values()) == set(days_of(warm.autumn).values()) == {None}
    assert (len(warm.spring.years), warm.spring.left_out) == (12, ())
    cold = years(record(date(2000, 1, 1), date(2011, 12, 31), lambda _: -1.0))
    assert days_of(cold.spring)[2005] == date(2005, 6, 30)
    assert days_of(cold.autumn)[2005] == date(2005, 7, 1)
    assert cold.length_quantile(0.5) == 1


def test_a_missing_day_matters_only_where_it_could_hide_the_frost_that_decides() -> None:
    found = years(
        twelve_years(
            date(
                2001, 5, 20
            ),  # after the last frost, which was 2 April, within 45 days of 12 April
            date(2002, 4, 1),  # before the last frost
            date(2003, 6, 20),  # 69 days after the latest of all
            date(2004, 10, 19),  # before the first
            date(2005, 10, 21),  # after it
        )
    )
    assert reasons(found.spring) == {2001: "no reading on 20 May 2001"}
    assert reasons(found.autumn) == {2004: "no reading on 19 Oct 2004"}
    assert {length.season for length in found.lengths} == set(range(2000, 2012)) - {2001, 2004}


def test_in_a_short_record_any_missing_day_could_hide_a_frost() -> None:
    frosts = frosts_on(*TWELVE[0], *TWELVE[1])
    cold = record(
        date(1999, 7, 1),
        date(2005, 6, 30),
        lambda day: nan if day == date(2003, 6, 20) else frosts(day),
    )
    assert reasons(years(cold).spring) == {2003: "no reading on 20 Jun 2003"}


def test_a_missing_day_beside_one_that_decides_at_another_temperature() -> None:
    """The frost of −5 °C is known; of a colder one the record never had any, and says never."""
    found = twelve_years(date(2001, 5, 20))
    assert reasons(years(found, at=-6.0).spring) == {}
    assert days_of(years(found, at=-6.0).spring)[2001] is None


def test_a_missing_29_february_is_known_as_the_28th_is() -> None:
    gone = date(2008, 2, 29)
    warm = record(date(2000, 1, 1), date(2011, 12, 31), lambda day: nan if day == gone else 9.0)
    assert (years(warm).spring.left_out, years(warm).autumn.left_out) == ((), ())


def test_several_missing_days_are_counted() -> None:
    found = years(twelve_years(*(date(2001, 5, 1) + timedelta(n) for n in range(12))))
    assert reasons(found.spring) == {2001: "no reading on 12 days, the first 1 May 2001"}


def test_the_record_begins_and_ends_within_a_half_year() -> None:
    frosts = frosts_on(*TWELVE[0], *TWELVE[1])
    found = years(record(date(2000, 4, 20), date(2011, 9, 30), frosts))
    assert reasons(found.spring) == {2000: "begins on 20 Apr 2000"}
    assert reasons(found.autumn) == {2011: "ends on 30 Sep 2011"}
    # A record that begins in autumn has no spring of that year at all.
    later = years(record(date(2000, 9, 1), date(2011, 12, 31), frosts))
    assert min(days_of(later.spring)) == 2001


def test_the_years_used_can_be_chosen() -> None:
    found = FrostSearch(twelve_years(), south=False, years=(2003, 2005)).at(0.0)
    assert list(days_of(found.spring)) == list(days_of(found.autumn)) == [2003, 2004, 2005]
    beyond = FrostSearch(twelve_years(), south=False, years=(1950, 1960)).at(0.0)
    assert (beyond.spring.years, beyond.spring.left_out) == ((), ())
    with pytest.raises(ValueError, match="no year is used"):
        beyond.spring.quantile(0.5)
    with pytest.raises(ValueError, match="no year is used"):
        beyond.spring.odds_later(10)


def test_days_after_the_last_one_to_use_are_as_if_they_were_not_there() -> None:
    until = date(2011, 8, 1)
    found = FrostSearch(twelve_years(), south=False, until=until).at(0.0)
    assert reasons(found.autumn) == {2011: "days after 1 Aug 2011 are not used"}
    assert days_of(found.spring)[2011] == date(2011, 4, 12)
    none = FrostSearch(twelve_years(), south=False, until=date(1980, 1, 1)).at(0.0)
    assert (none.spring.years, none.lengths) == ((), ())


def test_leap_years_move_no_date() -> None:
    """2 April is 32 days from 1 March in every year, though its number in the year moves."""
    frosts = [date(year, 4, 2) for year in range(2000, 2012)]
    found = years(record(date(1999, 7, 1), date(2012, 6, 30), frosts_on(*frosts)))
    assert set(found.spring.counted[-12:]) == {32}
    for season in (2023, 2024):
        assert found.spring.day(found.spring.quantile(0.5), season) == date(season, 4, 2)


def test_odds_count_years_strictly() -> None:
    """Twelve last frosts, 1 to 12 April, and that of October 2011 for spring 2012."""
    spring = years(twelve_years()).spring
    april_3 = spring.count(date(2026, 4, 3), 2026)
    assert spring.odds_later(april_3) == pytest.approx(9 / 13)
    assert spring.odds_earlier(april_3) == pytest.approx(3 / 13)
    assert spring.odds_later(spring.count(date(2026, 4, 12), 2026)) == 0


def test_a_frost_on_the_threshold_counts() -> None:
    at = -20 / 9  # 28 °F
    lows = {date(2005, 4, 3): -2.2, date(2005, 4, 4): -2.1}
    found = record(date(2004, 7, 1), date(2006, 6, 30), lambda day: lows.get(day, 5.0))
    assert days_of(years(found, at=at).spring)[2005] == date(2005, 4, 3)


def test_dates_are_to_the_nearest_day_halves_up() -> None:
    half = HalfYears(Half.SPRING, False, (), (), (31.0, 32.0))
    assert half.quantile(0.5) == 31.5
    assert half.day(31.5, 2026) == date(2026, 4, 2)
    assert half.day(31.4, 2026) == date(2026, 4, 1)


finite = st.integers(-200, 400).map(float)


@given(st.lists(finite, min_size=1, max_size=40), st.floats(0, 1))
def test_quantiles_are_numpys_default(counted: list[float], share: float) -> None:
    assert quantile(sorted(counted), share) == pytest.approx(
        float(numpy.quantile(counted, share)), abs=1e-6
    )


@given(
    st.lists(finite, min_size=1, max_size=9), st.integers(1, 9), st.sampled_from((0.1, 0.5, 0.9))
)
def test_between_a_date_and_never_it_is_never(
    counted: list[float], never: int, share: float
) -> None:
    """Never is where a date as late (or early) as you like would move the quantile."""
    moved = [
        float(numpy.quantile([*counted, *[far] * never], share)) for far in (10_000.0, 20_000.0)
    ]
    expected = inf if moved[0] != moved[1] else moved[0]
    assert quantile([*sorted(counted), *[inf] * never], share) == pytest.approx(expected)
    mirrored = quantile([*[-inf] * never, *sorted(-each for each in counted)], 1 - share)
    assert mirrored == pytest.approx(-expected)


def weather(years_long: int = 12, seed: int = 4) -> Record:
    """Minima that swing with the year and jump from day to day."""
    noise = random.Random(seed)

    def low(day: date) -> float:
        swing = numpy.cos(2 * numpy.pi * ((day - date(2000, 7, 20)).days / 365.25))
        return round(float(4 + 11 * swing) + noise.gauss(0, 3), 1)

    return record(date(2000, 1, 1), date(1999 + years_long, 12, 20), low)


def test_several_temperatures_at_once_are_each_as_alone() -> None:
    found = weather()
    at = (2.2, 0.0, -2.2, -4.4, -6.7)
    search = FrostSearch(found, south=False)
    assert [search.at(each) for each in at] == [years(found, at=each) for each in at]


def test_the_south_is_the_north_half_a_year_later() -> None:
    """184 days from 1 July to 1 January: the same frosts, that many days later, the same odds."""
    north = weather()
    shift = timedelta(184)
    south = Record("made-up", None, north.first + shift, north.tmin, None, 0.1, False)
    for at in (0.0, -4.4):
        one, other = years(north, at=at), years(south, at=at, south=True)
        for half in Half:
            assert {
                season: day and day + shift for season, day in days_of(one.of(half)).items()
            } == days_of(other.of(half))
            assert list(reasons(one.of(half))) == list(reasons(other.of(half)))
        assert one.lengths == other.lengths
        springs = [count + 184 for count in one.spring.counted]
        assert list(other.spring.counted) == springs
        assert other.spring.odds_later(250) == one.spring.odds_later(250 - 184)


def test_a_southern_growing_year_by_hand() -> None:
    """Spring 2003 there ends on 31 December 2003; its autumn is that of 2004."""
    frosts = frosts_on(date(2003, 9, 20), date(2004, 4, 25))
    found = years(record(date(2002, 1, 1), date(2005, 12, 31), frosts), south=True)
    assert days_of(found.spring)[2003] == date(2003, 9, 20)
    assert days_of(found.autumn)[2003] == date(2004, 4, 25)
    assert found.autumn.count(date(2027, 4, 25), 2026) == 55
    assert found.autumn.day(55, 2026) == date(2027, 4, 25)


def half_of(days: list[int | None]) -> HalfYears:
    frosts = tuple(
        YearsFrost(1990 + n, None if day is None else date(1990 + n, 3, 1) + timedelta(day))
        for n, day in enumerate(days)
    )
    return HalfYears(Half.SPRING, False, frosts, (), ())


@given(st.lists(st.integers(0, 30), min_size=20, max_size=60))
def test_the_trend_is_the_median_slope_and_its_chance_kendalls(days: list[int]) -> None:
    """Slope: scipy's Theil–Sen. Chance: from scipy's tau-b by its normal approximation."""
    import scipy.stats

    found = trend(half_of(list(days)))
    assert found is not None
    seasons = list(range(len(days)))
    slope = scipy.stats.theilslopes(days, seasons).slope
    assert found.days_per_decade == pytest.approx(10 * slope)
    ups = sum(numpy.sign(b - a) for i, a in enumerate(days) for b in days[i + 1 :])
    n, ties = len(days), numpy.unique(days, return_counts=True)[1]
    variance = (n * (n - 1) * (2 * n + 5) - (ties * (ties - 1) * (2 * ties + 5)).sum()) / 18
    z = (abs(ups) - 1) / variance**0.5 if variance and ups else 0.0
    assert found.chance == pytest.approx(2 * scipy.stats.norm.sf(z))


def test_noise_is_no_trend_and_a_march_of_days_is_one() -> None:
    noise = random.Random(7)
    chances = [trend(half_of([noise.randrange(60) for _ in range(40)])) for _ in range(200)]
    sure = sum(found is not None and found.is_sure for found in chances)
    assert 2 <= sure <= 20  # one in twenty, by definition: about ten of 200
    moving = trend(half_of([n // 2 + noise.randrange(8) for n in range(40)]))
    assert moving is not None
    assert moving.is_sure
    assert 4 < moving.days_per_decade < 6


def test_too_few_years_or_too_many_without_frost_show_no_trend() -> None:
    assert trend(half_of(list(range(19)))) is None
    assert trend(half_of([*range(30), None, None, None])) is not None
    assert trend(half_of([*range(30), None, None, None, None])) is None
