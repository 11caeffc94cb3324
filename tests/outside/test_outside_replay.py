"""Replay against the outside: published plantings and pickings, and years it has not seen."""

from __future__ import annotations

from array import array
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import numpy as np
import pytest

import replayed
from replayed import crop, days, prospects, record, same_day, season, told
from sowtide.climate.answers import EndedBy
from sowtide.climate.record.record import Record
from sowtide.climate.warmth.hot_weeks import centred_means
from sowtide.days import DateSpan, Half
from sowtide.garden.crop import Raised, Sort
from sowtide.garden.library import builtin as library
from sowtide.reasons import OURS, Dated
from sowtide.report.kit.judged import judgement_of
from sowtide.report.kit.outcome import outcome
from sowtide.schedule.fits.one_more import answer
from sowtide.schedule.fits.question import Question
from sowtide.schedule.season import Season
from sowtide.schedule.waves.windows import Prospects
from sowtide.units import celsius

CLEMSON = 34.7


def first_pick(on: Season, found: Prospects, planted: date) -> int:
    """Median days from planting to the first pick of the early end."""
    outlook = on.climate.waves.outlook(Dated.on(planted, "written", "planted", OURS), found.need)
    return (outlook.first_pick[0].day - planted).days


def test_virginias_first_plantings_are_picked_about_when_virginia_says() -> None:
    """Virginia Cooperative Extension 426-331, 2006: from the first planting to the first pick.

    Days from the average last frost: bush bean -10 to +40, beet -40 to +20, broccoli plants -30 to
    +40, cabbage plants -40 to +20. On the record of Clemson, South Carolina, the same days from its
    own last frost: the mean error is twelve days at most. The chart's harvest is that of all sorts
    and begins with the quickest, so that early sorts stand beside it where they are told apart.
    """
    on = season(record("clemson"), latitude=CLEMSON)
    frost = on.climate.frosts.day(Half.SPRING, at=0.0, share=0.5)
    assert frost is not None
    errors = []
    for name, before, published in (
        ("bush bean", 10, 50),
        ("beet", 40, 60),
        ("broccoli", 30, 70),
        ("cabbage", 40, 60),
    ):
        early = replace(crop(name), sort=Sort.EARLY)
        how = Raised.DIRECT if early.raised is Raised.EITHER else early.raised
        found = on.conditions.prospects(replace(early, name=f"early {name}"), how)
        planted = frost.day - timedelta(days=before)
        errors.append(first_pick(on, found, planted) - published)
    assert sum(map(abs, errors)) / len(errors) <= 12


def test_the_hot_weeks_of_clemson_are_those_of_its_average_year() -> None:
    """Independently in numpy: the average year's 15-day mean is over 75 °F from June to September.

    Computed on this record before: 11 June to 7 September. The climate takes the middle of what the
    years have each: within a week of it.
    """
    kept = record("clemson")
    assert kept.tmax is not None
    means = (np.array(kept.tmin) + np.array(kept.tmax)) / 2
    by_day: dict[tuple[int, int], list[float]] = {}
    for number, mean in enumerate(means):
        day = kept.first + timedelta(days=number)
        if not np.isnan(mean) and (day.month, day.day) != (2, 29):
            by_day.setdefault((day.month, day.day), []).append(float(mean))
    year = [date(2026, 1, 1) + timedelta(days=number) for number in range(365)]
    average = array("d", [float(np.mean(by_day[day.month, day.day])) for day in year])
    centred = centred_means(average)
    hot = [day for day, mean in zip(year, centred, strict=False) if mean > celsius(75)]
    assert abs((hot[0] - date(2026, 6, 11)).days) <= 1
    assert abs((hot[-1] - date(2026, 9, 7)).days) <= 1
    weeks = season(kept, latitude=CLEMSON).climate.weather.hot_weeks
    assert weeks is not None
    assert abs((weeks.first - hot[0]).days) <= 7
    assert abs((weeks.last - hot[-1]).days) <= 7


def test_virginias_harvests_end_and_begin_with_the_heat() -> None:
    """Virginia 426-331, in days from the average last frost.

    The spring harvest of beet and cabbage ends at 70, the autumn harvest of cabbage and broccoli
    begins at 150 and 160: within 14 days of when the hot weeks begin and end at Clemson.
    """
    on = season(record("clemson"), latitude=CLEMSON)
    frost, weeks = (
        on.climate.frosts.day(Half.SPRING, at=0.0, share=0.5),
        on.climate.weather.hot_weeks,
    )
    assert frost is not None
    assert weeks is not None
    assert abs((weeks.first - frost.day).days - 70) <= 14
    for begins in (150, 160):
        assert abs((weeks.last - frost.day).days - begins) <= 14


@pytest.mark.parametrize("name", ["seattle", "wageningen", "fulda"])
def test_cool_places_have_no_hot_weeks(name: str) -> None:
    on = season(record(name), latitude=replayed.LATITUDES[name])
    assert on.climate.weather.hot_weeks is None


def test_peas_sown_two_weeks_apart_in_spring_ripen_about_one_week_apart() -> None:
    """ATTRA, Scheduling Vegetable Plantings for Continuous Harvest, 2008.

    And in late summer a difference of days becomes one of weeks: kale sown four days apart near its
    last days at Wageningen.
    """
    on = season(record("clemson"), latitude=CLEMSON)
    pea = prospects(on, "pea")
    sown = (date(2026, 2, 15), date(2026, 3, 1), date(2026, 3, 15))
    picked = [day + timedelta(days=first_pick(on, pea, day)) for day in sown]
    for earlier, later in pairwise(picked):
        assert 5 <= (later - earlier).days <= 9
    cold = season(record("wageningen"), latitude=52.0)
    kale = prospects(cold, "kale")
    late = (date(2026, 8, 24), date(2026, 8, 28))
    picked = [day + timedelta(days=first_pick(cold, kale, day)) for day in late]
    assert (picked[1] - picked[0]).days >= 6


@pytest.mark.parametrize("name", ["seattle", "wageningen", "fulda", "clemson"])
def test_no_tender_crop_is_picked_long_before_its_packet_says(name: str) -> None:
    """0.85 of the early end at the least: sowtide's own rule, held on every record."""
    on = season(record(name), latitude=replayed.LATITUDES[name])
    for each in library.names():
        if not crop(each).hardiness.is_tender or crop(each).overwinters:
            continue
        found = prospects(on, each)
        for planted in days(date(2026, 5, 1), date(2026, 8, 1), 23):
            on_day = Dated.on(planted, "written", "planted", OURS)
            if on.climate.waves.outlook(on_day, found.need).odds_of_nothing >= 0.5:
                continue  # it is not picked: what ends it is dated, not its first pick
            assert first_pick(on, found, planted) >= 0.85 * found.need.days.low, (each, planted)


# Years it has not seen: planned on the first half of a record, judged on the second, by an
# independent telling of each year in numpy. Seattle has too few years for halves.

HALVES = {
    "clemson": ((1930, 1974), (1975, 2019)),
    "wageningen": ((1976, 1987), (1988, 1998)),
    "fulda": ((1979, 1983), (1984, 1987)),
}
CROPS = (
    *("bush bean", "cucumber", "summer squash", "sweet corn", "pole bean"),
    *("tomato", "kale", "chard", "basil"),
)
"""Crops that frost ends and no heat, so that a year can be told in a few lines."""


def planned(name: str) -> Season:
    (first, last), _ = HALVES[name]
    return season(record(name), latitude=replayed.LATITUDES[name], years=f"{first}-{last}")


def test_the_last_safe_planting_succeeds_about_as_often_as_it_says() -> None:
    """Sure of 80 %: in 75 to 95 % of the years of all records, and in 65 % or more of each."""
    shares: dict[str, list[float]] = {}
    for name, (_, (first, last)) in HALVES.items():
        on = planned(name)
        for each in CROPS:
            found = prospects(on, each)
            if not found.windows:
                continue
            day = found.windows[-1].last
            years = [
                told(record(name), same_day(day, y), found, latitude=replayed.LATITUDES[name])
                for y in range(first, last + 1)
            ]
            shares.setdefault(name, []).extend(year.shares for year in years if year is not None)
    assert set(shares) == set(HALVES)
    for name, of_record in shares.items():
        assert np.mean(of_record) >= 0.65, name
    assert 0.75 <= np.mean([share for each in shares.values() for share in each]) <= 0.95


def test_the_odds_are_twice_as_good_as_flat_days_on_the_same_frosts() -> None:
    """Brier score over all plantings from June to October, all records together.

    Under half of that of a planner who takes the packet's days as they stand and the same years'
    frosts. At Clemson alone, where warmth lasts longer than the frost-free season, it is 0.65.
    """
    ours: list[float] = []
    flat: list[float] = []
    for name, (_, (first, last)) in HALVES.items():
        on = planned(name)
        for each in CROPS:
            found = prospects(on, each)
            need = found.need
            known = on.climate.frosts.years(need.killed_at)
            assert known is not None
            for day in days(date(2026, 6, 1), date(2026, 10, 5), 14):
                odds = on.climate.waves.chances(day, need).odds
                picked = known.autumn.count(day, 2026) + need.worthwhile - 1
                plain = np.mean(
                    [
                        known.autumn.odds_later(picked + count)
                        for count in range(need.days.low, need.days.high + 1)
                    ]
                )
                for year in range(first, last + 1):
                    happened = told(
                        record(name), same_day(day, year), found, latitude=replayed.LATITUDES[name]
                    )
                    if happened is not None:
                        ours.append((odds - happened.shares) ** 2)
                        flat.append(float(plain - happened.shares) ** 2)
    assert len(ours) > 4000
    assert np.mean(ours) < 0.5 * np.mean(flat)


def test_the_engines_odds_are_the_shares_told_day_by_day() -> None:
    on = season(record("clemson"), latitude=CLEMSON, years="1950-1989")
    for name in ("bush bean", "tomato", "chard"):
        found = prospects(on, name)
        for day in days(date(2026, 7, 6), date(2026, 9, 28), 28):
            years = [
                told(record("clemson"), same_day(day, year), found, latitude=CLEMSON)
                for year in range(1950, 1990)
            ]
            known = [year.shares for year in years if year is not None]
            assert on.climate.waves.chances(day, found.need).odds == pytest.approx(
                np.mean(known)
            ), day


# Mirrors and odd records


def shifted(kept: Record, days_on: int) -> Record:
    return Record(
        kept.label,
        kept.station,
        kept.first + timedelta(days=days_on),
        kept.tmin,
        kept.tmax,
        kept.resolution,
        kept.fahrenheit,
    )


def test_a_record_half_a_year_on_and_read_as_southern_gives_the_same_odds() -> None:
    """184 days on, 20 July becomes 20 January.

    To the last digit, up to the end of February: from then on the leap days of the south differ.
    """
    north = season(record("clemson"), latitude=CLEMSON, years="1951-1979")
    south = season(shifted(record("clemson"), 184), latitude=-CLEMSON, years="1951-1979", year=2026)
    for name in ("bush bean", "tomato", "basil"):
        one, other = prospects(north, name), prospects(south, name)
        for day in days(date(2026, 7, 6), date(2026, 8, 28), 5):
            mirrored = day + timedelta(days=184)
            odds = north.climate.waves.chances(day, one.need).odds
            assert south.climate.waves.chances(mirrored, other.need).odds == pytest.approx(odds)


@pytest.mark.parametrize(
    ("warmer", "frost_free"), [(30.0, True), (-25.0, False)], ids=["no frost", "frost all year"]
)
def test_places_without_frost_and_with_frost_all_year(warmer: float, frost_free: bool) -> None:
    kept = record("fulda")
    assert kept.tmax is not None
    moved = Record(
        kept.label,
        kept.station,
        kept.first,
        array("d", [low + warmer for low in kept.tmin]),
        array("d", [high + warmer for high in kept.tmax]),
        kept.resolution,
        kept.fahrenheit,
    )
    wave = "{crop: bush bean, plants: 9, from: 06-01}"
    kale = "{crop: kale, plants: 9, from: 07-01}"
    beans_of_the_tropics = "bush bean: {fruit_set_high: 110, fruit_set_low: 110}"
    on = season(moved, wave, kale, latitude=50.5, crops=(beans_of_the_tropics,))
    beans = on.waves[0]
    if frost_free:
        assert on.climate.frosts.day(Half.AUTUMN, at=0.0, share=0.5) is None
        assert beans.judged.odds == 1.0
        assert beans.judged.end is None
    else:
        assert beans.judged.odds == 0.0
        assert beans.stages.first_pick is None


def test_what_never_ripens_says_so() -> None:
    """Okra at Seattle: its nights are never warm enough."""
    on = season(record("seattle"), "{crop: okra, plants: 9, from: 05-20}", latitude=47.4)
    (wave,) = on.waves
    assert wave.stages.first_pick is None
    assert (wave.judged.odds or 0.0) < 0.5
    assert any(problem.code == "never-finishes" for problem in on.problems)


def test_where_no_frost_comes_too_little_warmth_is_what_is_wrong() -> None:
    """Seattle kept between 4 and 19 °C: okra never ripens there, and no frost is to blame."""
    kept = record("seattle")
    assert kept.tmax is not None
    low = array("d", [min(max(each, 4.0), 19.0) for each in kept.tmin])
    high = array("d", [min(max(each, 4.0), 19.0) for each in kept.tmax])
    mild = Record(kept.label, kept.station, kept.first, low, high, 0.1, kept.fahrenheit)
    on = season(mild, "{crop: okra, plants: 9, from: 06-01}", latitude=47.4)
    (wave,) = on.waves
    assert wave.judged.ended_by is EndedBy.TOO_COOL
    (problem,) = [each for each in on.problems if each.code == "never-finishes"]
    assert problem.message == "okra-1, planted on 1 Jun, does not get warm enough to ripen"
    said = outcome(judgement_of(wave.judged, wave.crop), on.garden.year)
    assert said.startswith("it does not get warm enough to ripen")


def test_what_would_fit_instead_counts_recorded_years_too() -> None:
    on = season(record("clemson"), latitude=CLEMSON, years="1981-2010", crops=("bush bean: {}",))
    beans = on.garden.crops[0]
    found = answer(on, Question(beans, 9, None, date(2026, 9, 5), seedlings=False))
    assert found.instead
    assert all(each.years is not None for each in found.instead if each.odds is not None)


def test_spans_of_single_days_and_of_whole_years_are_split_alike() -> None:
    """Runs along which the odds only fall hold what single days hold."""
    on = season(record("clemson"), latitude=CLEMSON, years="1980-2009")
    for name in ("bush bean", "leaf lettuce", "radish", "carrot", "potato"):
        found = prospects(on, name)
        whole = DateSpan(date(2026, 1, 1), date(2026, 12, 31))
        for run in on.climate.waves.stretches(found.need, whole):
            days = map(date.fromordinal, run.days)
            odds = [on.climate.waves.chances(day, found.need).odds for day in days]
            assert odds == sorted(odds, reverse=True)


def test_raised_in_trays_and_sown_direct_are_both_replayed() -> None:
    on = season(record("clemson"), latitude=CLEMSON)
    direct, trays = prospects(on, "cucumber"), prospects(on, "cucumber", Raised.TRAYS)
    day = date(2026, 5, 20)
    assert first_pick(on, trays, day) < first_pick(on, direct, day)
