"""The last days that light and soil allow: what stands the winter, and what no frost ends."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import gardens
import replayed
from sowtide.climate.daylight import first_below
from sowtide.days import GrowingYear
from sowtide.garden.crop import Raised
from sowtide.garden.library import builtin as library
from sowtide.reasons import OURS, Dated
from sowtide.schedule.season import Season
from sowtide.schedule.waves.wave import SAFE, Verdict
from sowtide.schedule.waves.windows import Prospects

PLACES = ("wageningen", "fulda", "seattle", "clemson", "dates at 42", "dates at 38")


def season(place: str) -> Season:
    if place in replayed.LATITUDES:
        return replayed.season(replayed.record(place), latitude=replayed.LATITUDES[place])
    if place == "dates at 42":
        return gardens.season(gardens.text(frost="{last: 05-10, first: 10-05}", latitude=42))
    return gardens.season(gardens.text(frost="{last: 04-20, first: 10-15}", latitude=38))


def all_prospects(of: Season) -> list[tuple[str, Prospects]]:
    found = []
    for name in library.names():
        crop = replayed.crop(name)
        ways = (Raised.DIRECT, Raised.TRAYS) if crop.raised is Raised.EITHER else (crop.raised,)
        if not crop.overwinters:
            found += [(name, of.conditions.prospects(crop, way)) for way in ways]
    return found


FOR_THE_WINTER = {"broad bean"}
"""What calendars have sown in November, where winters are mild enough."""


@pytest.mark.parametrize("place", PLACES)
def test_nothing_is_safe_to_plant_in_november_or_december(place: str) -> None:
    for name, found in all_prospects(season(place)):
        for window in found.windows:
            assert window.last.month < 11 or name in FOR_THE_WINTER, (name, window)


def test_broad_beans_are_sown_for_the_winter_only_where_they_stand_it() -> None:
    # Killed at −10 °C: Seattle had none in its four winters, the others have it in most or some
    for place in PLACES:
        found = season(place).conditions.prospects(replayed.crop("broad bean"), Raised.DIRECT)
        autumn = [window for window in found.windows if window.last.month > 8]
        assert bool(autumn) is (place == "seattle"), place


def test_without_temperatures_three_quarters_of_the_middle_fit_before_the_short_days() -> None:
    # Carrots of 60 to 85 days: three quarters of 72.5 are 54.4, so 55 days
    of = season("dates at 42")
    carrot = replayed.crop("carrot")
    assert (carrot.days_to_harvest.low, carrot.days_to_harvest.high) == (60, 85)
    short = first_below(10, 42, GrowingYear(2026, south=False))
    assert short is not None
    found = of.conditions.prospects(carrot, Raised.DIRECT)
    assert found.autumn is not None
    assert found.autumn.day == short - timedelta(days=55)
    late = Dated.on(found.autumn.day + timedelta(days=1), "written", "", OURS)
    assert found.judge(late).verdict is Verdict.TOO_LATE
    assert all(window.last <= found.autumn.day for window in found.windows)


def test_on_a_record_the_years_are_counted() -> None:
    of = season("wageningen")
    found = replayed.prospects(of, "leek", Raised.TRAYS)
    assert found.autumn is not None
    shares = []
    for days in (0, 1):
        planted = Dated.on(found.autumn.day + timedelta(days=days), "written", "", OURS)
        winter = of.climate.waves.winter(planted, found.need)
        assert winter is not None
        shares.append(winter.grown_enough)
    assert shares[0] >= 0.8 > shares[1]


def test_no_limit_where_days_stay_long_or_warmth_is_wanted() -> None:
    south = gardens.season(gardens.text(frost="{last: 02-20, first: 12-05}", latitude=28))
    assert south.conditions.prospects(replayed.crop("carrot"), Raised.DIRECT).autumn is None
    of = season("dates at 42")
    assert of.conditions.prospects(replayed.crop("bush bean"), Raised.DIRECT).autumn is None


MILD = (
    "{last: 09-20, first: 05-20, normals: {"
    "max: [25, 25, 23, 20, 17, 14, %s, 14, 16, 18, 20, 23], "
    "min: [13, 13, 12, 9, 7, 5, %s, 5, 6, 8, 9, 11]}}"
)
"""A place at 37° S; its coldest month, the first of its growing year, is to be told."""


def _of_south(high: float, low: float) -> Prospects:
    frost = MILD % (high, low)
    of = gardens.season(gardens.text(frost=frost, latitude=-37.0))
    return replayed.prospects(of, "cabbage", Raised.TRAYS)


def test_where_the_short_days_are_mild_a_quarter_grown_is_enough() -> None:
    # 22 May to 21 July with a mean of 9.4 °C, above 45 °F (7.2 °C). Calendars of such places have
    # brassica plants set out to the end of April, from memory, two weeks either way.
    found = _of_south(13, 4)
    assert found.autumn is not None
    assert "not be a quarter grown" in found.autumn.why
    assert date(2027, 4, 16) <= found.autumn.day <= date(2027, 5, 14)
    # the odds of frost alone decide before it
    assert found.windows[-1].last == found.autumn.day
    planted = Dated.on(found.autumn.day, "written", "planted", OURS)
    first = found.judge(planted).stages.first_pick
    assert first is not None
    assert first[0].day.month in (8, 9)


def test_where_they_are_colder_it_is_three_quarters() -> None:
    # With July at 5 and −4 °C the same days have 6.7: too cold to grow on
    found = _of_south(5, -4)
    assert found.autumn is not None
    assert "not be three quarters grown" in found.autumn.why
    assert found.autumn.day < date(2027, 3, 20)


def test_nothing_is_sown_into_soil_under_its_least() -> None:
    of = season("wageningen")
    for name, found in all_prospects(of):
        least = found.crop.soil_min
        if found.raised is Raised.TRAYS or least is None:
            continue
        for window in found.windows:
            for day in (window.first, window.last):
                soil = of.climate.weather.soil(day)
                assert soil is not None
                assert soil.about >= least - 1e-9, (name, day)


def test_it_says_why() -> None:
    wave = "{crop: carrot, plants: 20, from: 09-20}"
    record = replayed.record("wageningen")
    (problem,) = [
        each
        for each in replayed.season(record, wave, latitude=52.0).problems
        if each.code in ("too-late", "never-finishes", "chancy")
    ]
    assert "carrot-1, planted on 20 Sep" in problem.message


@pytest.mark.parametrize("place", PLACES)
def test_a_window_is_safe_to_its_last_day_and_not_after(place: str) -> None:
    for name, found in all_prospects(season(place)):
        if found.windows:
            last = found.windows[-1].last
            assert found.promise(last)[1] in SAFE, name
            assert found.promise(last + timedelta(days=1))[1] not in SAFE, name
            assert last < date(2026, 12, 31) or name in FOR_THE_WINTER
