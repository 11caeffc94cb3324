"""The last plantings of built-in crops beside published last practical planting dates.

Published dates are for seed sown where the crop is sown direct, for plants set out where it is
raised in trays, by the same convention as here. None says how sure it is: the span from the last
safe day (four years in five) to the last day of even odds must come within ten days of the
published span; what does not is named with the reason. Nothing but the average frost dates is
known of the places, so the assumed spread of 11 days and the allowance for autumn are in it, too.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from functools import cache

import pytest

import gardens
from sowtide.garden.crop import Crop, Raised, Sort
from sowtide.garden.library import builtin as library
from sowtide.garden.varieties import built_in_crop
from sowtide.values import value

WITHIN = 10
"""[days]"""


@value
class Place:
    """A place of average frost dates, day and month."""

    last: str
    first: str
    latitude: int


CORN_BELT = Place("05-10", "10-05", 42)
LATE = Place("05-01", "10-15", 41)
VIRGINIA = Place("04-20", "10-15", 38)


@value
class Published:
    """The last planting of a crop as a source has it: first and last day named, MM-DD."""

    crop: str
    first: str
    last: str
    place: Place
    source: str
    reason: str = ""
    sort: Sort = Sort.MAIN


# From memory, not looked up: the last practical plantings that the extension services of Iowa,
# Indiana and Minnesota name for the fall garden where frost comes early in October; where they
# differ, the earliest to the latest.
FALL_GARDEN = {
    "bush bean": ("07-20", "08-01"),
    "beet": ("07-15", "08-01"),
    "broccoli": ("07-15", "08-01"),
    "Brussels sprouts": ("06-20", "07-01"),
    "cabbage": ("07-15", "08-01"),
    "carrot": ("07-15", "08-01"),
    "cauliflower": ("07-15", "08-01"),
    "chard": ("07-15", "08-01"),
    "Chinese cabbage": ("07-15", "08-01"),
    "collard": ("07-15", "08-01"),
    "cucumber": ("07-10", "07-20"),
    "kale": ("08-01", "08-15"),
    "kohlrabi": ("07-20", "08-10"),
    "leaf lettuce": ("08-01", "09-01"),
    "mustard greens": ("08-10", "09-01"),
    "pea": ("07-15", "08-01"),
    "radish": ("08-15", "09-15"),
    "rutabaga": ("06-15", "07-01"),
    "spinach": ("08-15", "09-01"),
    "summer squash": ("07-10", "07-20"),
    "sweet corn": ("06-25", "07-05"),
    "turnip": ("07-20", "08-15"),
    "winter squash": ("06-01", "06-15"),
}
# Virginia Cooperative Extension 426-331, 2006, planting chart read at its address: the last ten-day
# column with a planting mark, days after the average last frost.
CHART = {
    "bush bean": 90,
    "pole bean": 80,
    "lima bean": 70,
    "broccoli": 110,
    "cabbage": 110,
    "Brussels sprouts": 110,
}
REASONS = {"Brussels sprouts": "picked there until late October: sorts of two months, not of three"}
SORTS = {"Brussels sprouts": Sort.EARLY}
"""Of these the chart has "special two-season varieties only"."""


def _chart(crop: str) -> Published:
    average = date.fromisoformat(f"2026-{VIRGINIA.last}")
    first, last = (average + timedelta(days=CHART[crop] + more) for more in (0, 9))
    source = "Virginia 426-331"
    return Published(
        crop,
        f"{first:%m-%d}",
        f"{last:%m-%d}",
        VIRGINIA,
        source,
        REASONS.get(crop, ""),
        SORTS.get(crop, Sort.MAIN),
    )


PUBLISHED = (
    *(Published(crop, *days, CORN_BELT, "from memory") for crop, days in FALL_GARDEN.items()),
    *map(_chart, CHART),
    # Nebraska Farmer, 1 July 2024: first frost 1 October, 60-day broccoli by 5 July
    Published(
        *("broccoli", "07-05", "07-05", Place("05-05", "10-01", 41), "Nebraska"),
        "counted back from the first frost of 32 °F; broccoli stands one of 28 °F",
    ),
    # Washington State University, Grant-Adams Master Gardeners, 5 October 2018: 84 days before
    Published("snow pea", "07-23", "07-23", LATE, "Washington"),
    # Lebanon Democrat, Tennessee, 2 June 2020: until the first week of July
    Published("sweet corn", "07-01", "07-07", LATE, "Tennessee"),
    # Iowa State University Extension PM 534: until the middle of September
    Published("radish", "09-10", "09-20", CORN_BELT, "Iowa State PM 534"),
    # Ask a Master Gardener, Upper East Tennessee: until the end of August
    Published(
        *("bush bean", "08-25", "08-31", LATE, "Upper East Tennessee"),
        "the quickest sort, 46 days, would be ready on the day of the average frost",
    ),
    # Garden column, The News & Advance, Lynchburg, Virginia, 18 March 2021: until Labor Day
    Published(
        *("leaf lettuce", "09-07", "09-07", VIRGINIA, "Lynchburg"),
        "for plants and for young leaves; grown leaves of seed take a month more",
    ),
)


@cache
def _crop(name: str) -> Crop:
    found = library.find(name)
    assert found is not None
    return built_in_crop(found)


@cache
def _last(name: str, place: Place, sure: str, sort: Sort = Sort.MAIN) -> date:
    """Return the last day on which a crop may be planted, of the whole engine."""
    frost = f"{{last: {place.last}, first: {place.first}}}"
    file = gardens.text(frost=frost, latitude=place.latitude, sure=sure)
    crop = replace(_crop(name), sort=sort)
    raised = Raised.DIRECT if crop.raised is Raised.EITHER else crop.raised
    return gardens.season(file).conditions.prospects(crop, raised).windows[-1].last


def _day(text: str) -> date:
    return date.fromisoformat(f"2026-{text}")


def _days_apart(each: Published) -> int:
    """Return how far our span of last days lies from the published one; 0 where they meet."""
    safe, even = (_last(each.crop, each.place, sure, each.sort) for sure in ("80%", "50%"))
    assert safe <= even
    return max((_day(each.first) - even).days, (safe - _day(each.last)).days, 0)


@pytest.mark.parametrize("each", PUBLISHED, ids=lambda each: f"{each.crop}, {each.source}")
def test_last_plantings_are_the_published_ones_within_ten_days(each: Published) -> None:
    apart = _days_apart(each)
    if each.reason:
        assert WITHIN < apart <= 30, "agrees, yet a reason is given"
    else:
        assert apart <= WITHIN


def test_there_are_dozens_and_few_do_not_agree() -> None:
    assert len({each.crop for each in PUBLISHED}) >= 24
    assert sum(bool(each.reason) for each in PUBLISHED) <= 4


def test_even_odds_lie_within_two_weeks_of_the_middle_of_most_rows() -> None:
    near = [
        abs((_last(each.crop, each.place, "50%", each.sort) - _middle(each)).days) <= 14
        for each in PUBLISHED
    ]
    assert sum(near) >= 0.85 * len(near)


def test_the_engine_is_a_few_days_safer_on_the_whole() -> None:
    # Published dates are for average years, the last safe day for four in five
    agreeing = [each for each in PUBLISHED if not each.reason]
    for sure, least, most in (("80%", -14, -3), ("50%", -7, 3)):
        apart = sorted((_last(e.crop, e.place, sure) - _middle(e)).days for e in agreeing)
        assert least <= apart[len(apart) // 2] <= most


def _middle(each: Published) -> date:
    return _day(each.first) + (_day(each.last) - _day(each.first)) / 2


@pytest.mark.parametrize("sure", ["80%", "50%"])
def test_ten_days_more_before_the_frost_are_ten_days_more_to_plant(sure: str) -> None:
    later = Place(CORN_BELT.last, LATE.first, CORN_BELT.latitude)
    for name in FALL_GARDEN:
        assert (_last(name, later, sure) - _last(name, CORN_BELT, sure)).days == 10, name


# Each is planted later than the next, as any fall-garden chart has it; common practice, no source
ORDERS = (
    ("radish", "kohlrabi", "beet", "cabbage", "Brussels sprouts"),
    ("radish", "turnip", "beet", "carrot", "rutabaga"),
    ("mustard greens", "leaf lettuce", "chard", "parsley"),
    ("arugula", "spinach", "pea", "sweet corn"),
    ("kale", "collard", "winter cabbage", "Brussels sprouts"),
    ("bush bean", "pole bean", "lima bean", "cowpea"),
    ("pickling cucumber", "cucumber", "winter squash"),
    ("summer squash", "bush tomato", "tomato", "eggplant"),
)


@pytest.mark.parametrize("order", ORDERS, ids=lambda order: order[0])
@pytest.mark.parametrize("place", [CORN_BELT, LATE, VIRGINIA], ids=lambda place: place.first)
def test_quick_crops_may_be_planted_later_than_slow_ones(
    order: tuple[str, ...], place: Place
) -> None:
    days = [_last(name, place, "80%") for name in order]
    assert days == sorted(days, reverse=True), dict(zip(order, days, strict=True))


def test_plants_may_be_set_out_later_than_seed_is_sown() -> None:
    # Half of the nursery days are saved: leaf lettuce two weeks, kale two
    frost = f"{{last: {CORN_BELT.last}, first: {CORN_BELT.first}}}"
    conditions = gardens.season(gardens.text(frost=frost)).conditions
    for name in library.names():
        crop = _crop(name)
        if crop.raised is Raised.EITHER:
            sown, plants = (
                conditions.prospects(crop, how) for how in (Raised.DIRECT, Raised.TRAYS)
            )
            if sown.windows and plants.windows:
                last, later = sown.windows[-1].last, plants.windows[-1].last
                assert later >= last if crop.planted_in else later > last, name
