"""Sorts, planting times and the winter of built-in crops beside what is published of them.

The days of sorts are those of extension tables; the times of planting and the last picks of winter
are those of growing calendars and growing guides, held against the record of Wageningen, 52° N.
"""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache
from math import isnan

import pytest

import gardens
import published_tables
import replayed
from published_tables import span
from sowtide.days import DayRange
from sowtide.garden.crop import Raised, Sort
from sowtide.schedule.season import Season
from sowtide.schedule.waves.demands import need_of
from sowtide.values import value

WITHIN = timedelta(days=14)


@cache
def _wageningen(sure: str = "80%") -> Season:
    latitude = replayed.LATITUDES["wageningen"]
    return replayed.season(replayed.record("wageningen"), latitude=latitude, sure=sure)


# Sorts


def _of(crop: str, sort: Sort) -> DayRange:
    found = replayed.crop(crop).of_sort(sort)
    assert found is not None
    return found.days_of_sort


def _published(table: str, crop: str) -> DayRange:
    (line,) = (each for each in published_tables.table(table).lines if each.crop == crop)
    return DayRange(*(int(end) for end in span(line.figures["days"])))


def test_radishes_are_round_ones_of_iowa_state_and_long_ones_of_north_dakota() -> None:
    # Iowa State University Extension, 2013: eight round sorts, 20-30 days; NDSU H-912: 22-40 for
    # all, so the long ones take the rest of it
    assert _of("radish", Sort.MAIN) == _published("iowa-state-radish", "radish") == DayRange(20, 30)
    assert _of("radish", Sort.LATE) == DayRange(30, _published("ndsu-h912", "radish").high)


def test_brussels_sprouts_have_the_sorts_of_three_tables() -> None:
    # NDSU and Minnesota 90-100, FAO Ecocrop 100-130, Oregon State to 180
    early, main, late = (_of("Brussels sprouts", sort) for sort in Sort)
    assert early == _published("ndsu-h912", "Brussels sprouts")
    assert early == _published("umn-m1227", "Brussels sprouts")
    assert main == _published("fao-ecocrop-cycle", "Brussels sprouts")
    assert late == DayRange(main.high, _published("osu-brussels-sprouts", "Brussels sprouts").high)


def test_leeks_span_oregons_days_from_early_to_late_sorts() -> None:
    # Oregon State University, 2002: 80-120 from planting out; a third of them each is ours
    early, main, late = (_of("leek", sort) for sort in Sort)
    published = _published("osu-leek", "leek")
    assert (early.low, late.high) == (published.low, published.high)
    assert early.high == main.low
    assert main.high == late.low


@pytest.mark.parametrize("crop", ["beet", "cabbage"])
def test_early_and_late_beets_and_cabbages_have_the_ends_of_north_dakotas_days(crop: str) -> None:
    published = _published("ndsu-h912", crop)
    assert _of(crop, Sort.EARLY).low == published.low
    assert _of(crop, Sort.LATE).high == published.high


def test_late_winter_cabbages_take_up_to_140_days() -> None:
    # FAO Ecocrop: late sorts 80-110 and up to 200 days; 140 from memory, as of storage sorts
    assert _of("winter cabbage", Sort.LATE).high == 140 <= 200
    assert _of("winter cabbage", Sort.EARLY).low == 80
    assert _published("fao-ecocrop-cycle", "winter cabbage").low == 80


def test_endive_of_plants_is_cut_after_60_to_65_days() -> None:
    # A transplanting guide without a publisher: 60 days from planting out; FAO Ecocrop 55-90
    days = need_of(replayed.crop("endive"), Raised.TRAYS, colder_by=0).days
    assert days == DayRange(60, 65)
    cycle = _published("fao-ecocrop-cycle", "endive")
    assert cycle.low <= days.low <= days.high <= cycle.high


def test_endive_is_hardier_than_lettuce() -> None:
    # Kraut & Rüben, Gemüse im Herbst: endive -6 °C; lettuce 25 °F, -3.9 °C (central Virginia)
    killed = replayed.crop("endive").killing_temperature
    assert killed == pytest.approx(-6)
    assert killed < replayed.crop("leaf lettuce").killing_temperature


# When they are planted


@value
class Time:
    """A time of planting as published, first and last day, MM-DD."""

    crop: str
    first: str
    last: str
    raised: Raised = Raised.DIRECT


# British and Dutch calendars, from memory, if nothing else is said
SPRING = (
    Time("broad bean", "02-14", "05-05"),
    Time("pea", "03-01", "07-15"),
    # University of Minnesota Extension, Growing onions: as soon as the soil can be worked, plants
    # until May
    Time("onion", "03-01", "05-10"),
    # Cornell University, Growing Guide: four to six weeks before the last frost (27 April here) to
    # the middle of spring
    Time("claytonia", "03-16", "05-06"),
    # With the tender crops, at the last frost or later (Utah State), as nights are mild
    Time("celery", "05-10", "06-30", Raised.TRAYS),
    Time("celeriac", "05-10", "06-30", Raised.TRAYS),
)
AUTUMN = (
    # August to the middle of September (Britain, Germany), 30 September (Low Countries)
    Time("corn salad", "08-01", "09-30"),
    # Cornell University, Growing Guide: late summer to the middle of autumn
    Time("claytonia", "08-10", "09-30"),
)


def _day(text: str, year: int = 2026) -> date:
    return date.fromisoformat(f"{year}-{text}")


@pytest.mark.parametrize("each", [*SPRING, *AUTUMN], ids=lambda each: f"{each.crop} {each.first}")
def test_safe_days_lie_in_the_published_time_and_fill_most_of_it(each: Time) -> None:
    windows = replayed.prospects(_wageningen(), each.crop, each.raised).windows
    window = windows[0] if each in SPRING else windows[-1]
    assert _day(each.first) - WITHIN <= window.first <= _day(each.first) + 2 * WITHIN
    assert _day(each.last) - 2 * WITHIN <= window.last <= _day(each.last) + WITHIN


@pytest.mark.parametrize("crop", ["onion", "broad bean", "pea", "corn salad", "claytonia"])
def test_out_of_their_times_nothing_is_safe(crop: str) -> None:
    # Nobody sows any of them at midwinter, corn salad and claytonia in June, the others in the
    # second half of August
    found = replayed.prospects(_wageningen("50%"), crop)
    never = "06-20" if crop in ("corn salad", "claytonia") else "08-25"
    for day in ("12-20", never):
        assert not any(_day(day) in window for window in found.windows), day


@pytest.mark.parametrize(("crop", "least"), [("celery", 8.0), ("celeriac", 7.2)])
def test_celery_and_celeriac_go_out_when_nights_are_mild(crop: str, least: float) -> None:
    # FAO Ecocrop: a few days at 4 to 10 °C often make celery bolt; 8 °C in it is ours, 45 °F
    # (7.2 °C) for celeriac from memory
    on = _wageningen()
    earliest = replayed.prospects(on, crop, Raised.TRAYS).earliest.day
    record = replayed.record("wageningen")
    days = (record.first + timedelta(days=index) for index in range(len(record.tmin)))
    around = {earliest + timedelta(days=off) for off in range(-10, 1)}
    of_year = {(day.month, day.day) for day in around}
    nights = [
        low
        for low, day in zip(record.tmin, days, strict=True)
        if (day.month, day.day) in of_year and not isnan(low)
    ]
    assert sum(nights) / len(nights) == pytest.approx(least, abs=1)


@pytest.mark.parametrize("sure", ["50%", "80%"])
@pytest.mark.parametrize("crop", ["early potato", "potato"])
def test_potatoes_go_in_three_to_five_weeks_before_the_last_frost(crop: str, sure: str) -> None:
    # Common practice, no source: two to four weeks before it where it comes late, three to five as
    # a rule; the shoots are under ground for four weeks. Sure of four years in five it is ten days
    # later.
    file = gardens.text(frost="{last: 05-01, first: 10-15}", sure=sure)
    days = (date(2026, 5, 1) - replayed.prospects(gardens.season(file), crop).earliest.day).days
    assert (21 if sure == "50%" else 14) <= days <= 35


# Through the winter


@pytest.mark.parametrize(
    ("crop", "planted", "raised", "until"),
    [
        # British and Dutch calendars, from memory: until the ground freezes or the spring, at
        # least to the end of the month before
        ("kale", "08-01", Raised.TRAYS, "01-31"),
        ("leek", "07-01", Raised.TRAYS, "12-15"),
        ("Brussels sprouts", "06-05", Raised.TRAYS, "01-15"),
        ("parsnip", "04-15", Raised.DIRECT, "12-15"),
        ("corn salad", "09-05", Raised.DIRECT, "02-15"),
    ],
)
def test_what_stands_the_winter_is_picked_in_it(
    crop: str, planted: str, raised: Raised, until: str
) -> None:
    judged = replayed.prospects(_wageningen(), crop, raised).judge_on(_day(planted))
    assert judged.stages.last_pick is not None
    year = 2026 if until > "06" else 2027
    assert judged.stages.last_pick.day >= _day(until, year)


def test_a_root_that_is_ripe_in_august_stands_the_winter_too() -> None:
    # Ripe in August, its 150 days in cool weather end at New Year: it stands on till it sprouts.
    # 21 June less 70 days, and less 3 × 4.6, 14 more, at 47.4°: 29 March
    on = replayed.season(replayed.record("seattle"), latitude=47.4)
    judged = replayed.prospects(on, "parsnip").judge_on(_day("04-15"))
    assert judged.stages.first_pick is not None
    assert judged.stages.last_pick is not None
    assert judged.stages.first_pick[1].day.month == 8
    assert judged.stages.last_pick.day == date(2027, 3, 28)
