"""When what has stood the winter runs to seed, beside what is published at its places."""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache

import pytest

import gardens
import replayed
from outside.test_cool_summers import FAR
from outside.test_ready_times import MILD
from sowtide.climate.answers import EndedBy
from sowtide.garden.crop import Raised
from sowtide.schedule.season import Season
from sowtide.schedule.waves.wave import Judged
from sowtide.values import value

WITHIN = timedelta(days=14)
NORTH, SOUTH = "{last: 04-20, first: 10-20}", "{last: 10-01, first: 05-10}"


@value
class ToSeed:
    """The days between which a crop runs to seed at a place, by a source."""

    crop: str
    place: str
    latitude: float
    first: date
    last: date
    reason: str = ""


MAY = date(2027, 5, 1), date(2027, 5, 31)
PUBLISHED = (
    # Simply Vegetables, National Vegetable Society, summer 2023: picked until about May, when
    # they go to seed
    ToSeed("kale", "Britain", 52.0, *MAY),
    # An allotment diary, 26 April 2014: should be lifted by the end of March, stalks now
    ToSeed("leek", "Britain", 52.0, date(2027, 4, 1), date(2027, 4, 26)),
    # British calendars, from memory: the last are picked in March
    ToSeed("Brussels sprouts", "Britain", 52.0, date(2027, 4, 1), date(2027, 4, 15)),
    ToSeed("parsnip", "Britain", 52.0, date(2027, 4, 1), date(2027, 4, 15)),
    # A diary of the hungry gap, Britain, 6 May 2014: lifted by now or in flower
    ToSeed("leek", "Britain, May", 52.0, date(2027, 4, 6), date(2027, 5, 6)),
    # A garden diary of the south-west of France, 12 March 2013: each sprout begins to sprout
    ToSeed("Brussels sprouts", "Gers", 43.8, date(2027, 3, 12), date(2027, 3, 31)),
    # University of Georgia Extension, Thomas County, 10 March 2015: larger plants in flower
    ToSeed("collard", "south Georgia", 30.8, date(2027, 2, 20), date(2027, 3, 10)),
    # A garden diary of Victoria, 5 October 2014: now in flower, two or three weeks after the stalk
    ToSeed("kale", "Victoria", -37.6, date(2027, 9, 14), date(2027, 9, 21)),
    # A garden diary of Melbourne, August 2011: in early spring or late winter
    ToSeed("chard", "Melbourne", -37.8, date(2027, 8, 15), date(2027, 9, 15)),
    # A garden calendar of the lower North Island, New Zealand: eaten up in September, before they
    # gear up to seed
    ToSeed("carrot", "New Zealand", -40.5, date(2027, 9, 1), date(2027, 9, 30)),
    ToSeed("parsnip", "New Zealand", -40.5, date(2027, 9, 1), date(2027, 9, 30)),
    # Ask Extension, Lane County, Oregon, 23 February 2020
    ToSeed("kale", "Oregon", 44.0, date(2027, 2, 23), date(2027, 3, 7), "buds in a mild winter"),
)


@pytest.mark.parametrize("each", PUBLISHED, ids=lambda each: f"{each.crop}, {each.place}")
def test_it_runs_to_seed_when_it_is_published_to_within_two_weeks(each: ToSeed) -> None:
    frost = SOUTH if each.latitude < 0 else NORTH
    found = gardens.season(gardens.text(frost=frost, latitude=each.latitude))
    to_seed = replayed.prospects(found, each.crop).to_seed(found.garden.year.first)
    assert to_seed is not None
    near = each.first - WITHIN <= to_seed.day.day <= each.last + WITHIN
    assert near is not bool(each.reason)


def test_few_are_misses() -> None:
    assert sum(bool(each.reason) for each in PUBLISHED) <= 1


@cache
def _season(place: str) -> Season:
    if place == "mild":
        return gardens.season(gardens.text(frost=MILD, latitude=52.0))
    if place not in FAR:
        return replayed.season(replayed.record(place), latitude=replayed.LATITUDES[place])
    frost, latitude = FAR[place]
    return gardens.season(gardens.text(frost=frost, latitude=latitude))


def _judged(place: str, crop: str, day: date, raised: Raised | None = None) -> Judged:
    return replayed.prospects(_season(place), crop, raised).judge_on(day)


# British and Dutch calendars, from memory: the last month in which each is picked
@pytest.mark.parametrize(
    ("place", "crop", "planted", "raised", "until"),
    [
        ("mild", "kale", date(2026, 7, 1), Raised.TRAYS, date(2027, 4, 30)),
        ("mild", "leek", date(2026, 7, 1), None, date(2027, 4, 30)),
        ("mild", "Brussels sprouts", date(2026, 6, 1), None, date(2027, 3, 31)),
        ("wageningen", "parsnip", date(2026, 4, 15), None, date(2027, 3, 31)),
        ("wageningen", "corn salad", date(2026, 8, 25), None, date(2027, 3, 31)),
    ],
)
def test_what_stands_the_winter_is_picked_to_the_month_of_the_calendars(
    place: str, crop: str, planted: date, raised: Raised | None, until: date
) -> None:
    last = _judged(place, crop, planted, raised).stages.last_pick
    assert last is not None
    assert abs(last.day - until) <= WITHIN


def test_what_the_winter_kills_is_picked_till_then() -> None:
    # Half of the winters of Wageningen have a leek's −10 °C
    judged = _judged("wageningen", "leek", date(2026, 7, 1))
    assert judged.stages.last_pick is not None
    assert judged.ended_by is EndedBy.FROST
    assert judged.stages.last_pick.day < date(2027, 4, 1)


@pytest.mark.parametrize(
    ("crop", "planted"),
    [("kale", date(2027, 3, 15)), ("spinach", date(2027, 4, 1)), ("leek", date(2027, 2, 1))],
)
def test_in_a_mild_south_nothing_is_picked_that_has_bolted(crop: str, planted: date) -> None:
    # 21 December less 50 days (leek 55), and less 3 × 15 at 37°: 17 or 12 September
    judged = _judged("south", crop, planted)
    assert judged.stages.last_pick is not None
    # The longest day of 2027 is 22 December there
    assert judged.stages.last_pick.day == date(2027, 9, 12 if crop == "leek" else 17)


def test_what_is_over_before_the_short_days_stands_no_longer() -> None:
    # Sown in March spinach is picked for 21 days of spring
    judged = _judged("wageningen", "spinach", date(2026, 4, 1))
    assert judged.stages.first_pick is not None
    assert judged.stages.last_pick is not None
    assert judged.stages.last_pick.day - judged.stages.first_pick[1].day == timedelta(days=20)


def test_a_carrot_is_not_known_to_stand_the_winter() -> None:
    # Ripe in the middle of October it holds for 42 days of cool weather, though they end in the
    # short days; so does a root of which the grower says what kills it, until it sprouts
    lasts = {}
    for crops in ("carrot: {}", "carrot: {killed_at: -18}"):
        line = gardens.wave("carrot", start="2026-07-10")
        wave = gardens.only(gardens.text(line, crops=[crops], frost=MILD, latitude=52.0))
        assert wave.stages.last_pick is not None
        assert wave.stages.first_pick is not None
        lasts[crops] = (wave.stages.last_pick.day - wave.stages.first_pick[1].day).days
    assert lasts["carrot: {}"] == 42
    assert lasts["carrot: {killed_at: -18}"] > 42


def test_days_that_are_written_stand_as_they_are() -> None:
    line = gardens.wave("kale", start="2026-08-10")
    lasts = {}
    for crops in ("kale: {}", "kale: {picking_days: 60}"):
        wave = gardens.only(gardens.text(line, crops=[crops], frost=MILD, latitude=52.0))
        assert wave.stages.last_pick is not None
        assert wave.stages.first_pick is not None
        lasts[crops] = wave.stages.last_pick.day - wave.stages.first_pick[1].day
    assert lasts["kale: {picking_days: 60}"] == timedelta(days=59)
    assert lasts["kale: {}"] > timedelta(days=149)


def test_where_no_winter_is_cold_nothing_runs_to_seed() -> None:
    warm = (
        "{last: none, first: none, normals: {max: [24, 25, 27, 29, 31, 32, 33, 33, 32, 30, 27, 25],"
        " min: [15, 16, 18, 20, 22, 24, 24, 24, 24, 22, 19, 16]}}"
    )
    found = gardens.season(gardens.text(frost=warm, latitude=25.5))
    assert replayed.prospects(found, "kale").to_seed(date(2026, 9, 1)) is None


def test_where_spring_is_late_it_waits_for_warmer_days() -> None:
    # By the longest day alone on 7 March at 44.5°; there the mean is −0.5 °C, 1 °C in the middle
    # of March, 8 °C in that of April
    late = (
        "{last: 05-08, first: 10-02, normals: {max: [0, 1, 6, 14, 20, 25, 27, 26, 22, 15, 7, 1],"
        " min: [-8, -8, -4, 2, 8, 13, 15, 14, 10, 3, -2, -7]}}"
    )
    found = gardens.season(gardens.text(frost=late, latitude=44.5))
    to_seed = replayed.prospects(found, "parsnip").to_seed(date(2026, 5, 1))
    assert to_seed is not None
    first, waits = to_seed.day.steps[1].date, to_seed.day.steps[2].days
    assert first == date(2027, 6, 21) - timedelta(days=70 + 22)
    assert date(2027, 4, 5) <= first + timedelta(days=waits) <= date(2027, 4, 18)


def test_each_recorded_winter_ends_by_frost_or_by_running_to_seed() -> None:
    on = replayed.season(
        replayed.record("wageningen"),
        "{crop: kale, plants: 10, from: 07-15, raised: trays}",
        latitude=52.0,
        crops=("kale: {}",),
    )
    told = on.years_of(on.waves[0])
    ended = {each.ended_by for each in told}
    assert ended == {EndedBy.FROST, EndedBy.SEED}
    for each in told:
        assert each.end is not None
        to_seed = (each.end.month, each.end.day) in ((5, 1), (5, 2))  # a leap day counts
        assert to_seed is (each.ended_by is EndedBy.SEED)
    odds = sum(each.picking_days for each in told) / len(told)
    assert on.waves[0].judged.expected_picking_days == pytest.approx(odds)
