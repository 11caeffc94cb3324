"""Safe days are found by halving stretches of falling chances; here every day is looked at."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from itertools import islice, pairwise

import pytest

from sowtide.climate.answers import Chances, Need
from sowtide.days import DateSpan
from sowtide.garden.crop import AfterFrost, Raised
from sowtide.garden.library import builtin as library
from sowtide.garden.model import Garden
from sowtide.garden.read import read_garden
from sowtide.garden.varieties import built_in_crop
from sowtide.reasons import OURS, Dated
from sowtide.schedule.waves import Conditions
from sowtide.schedule.waves.last_days import last_days
from sowtide.schedule.waves.windows import Prospects
from sowtide.season import season_of

HEAD = "season: 2026\nbeds: [{bed: North, size: 4 x 10}]\n"
NORTH = "site: {name: North, latitude: 44, units: us, frost: {last: 05-06, first: 10-01}"
NORMALS = (
    "{max: [27, 31, 42, 57, 69, 78, 82, 80, 72, 59, 44, 32], "
    "min: [11, 14, 24, 35, 46, 56, 60, 58, 50, 38, 28, 17]}"
)
HOT_NORMALS = (
    "{max: [52, 56, 64, 72, 80, 86, 90, 88, 82, 73, 63, 54], "
    "min: [31, 34, 40, 47, 56, 64, 68, 67, 61, 49, 40, 33]}"
)
COOL_NORMALS = (
    "{max: [46, 48, 51, 54, 58, 61, 63, 63, 60, 55, 50, 47], "
    "min: [35, 36, 37, 40, 44, 48, 51, 51, 48, 44, 39, 36]}"
)
SITES = {
    "two averages": NORTH + "}\n",
    "hot weeks": NORTH + ", too_hot: 07-01..08-15}\n",
    "one hot day": NORTH + ", too_hot: 06-20..06-20}\n",
    "days before frost": NORTH + ", sure: 14 days, too_hot: 07-01..08-15}\n",
    "a long allowance, always": NORTH + ", fall_allowance: 30 always, too_hot: 07-01..08-01}\n",
    "hardly sure": NORTH + ", sure: 10%, fall_allowance: 45, too_hot: 08-01..09-10}\n",
    "a wide table, south": (
        "site: {name: South, latitude: -41, units: us, too_hot: 01-05..02-10, frost: "
        "[{at: 32, last: {10%: 11-10, 50%: 10-20, 90%: 09-29}, "
        "first: {10%: 03-01, 50%: 04-18, 90%: 05-30}}]}\n"
    ),
    "normals": NORTH[:-1] + ", normals: " + NORMALS + "}}\n",
    "normals, days before frost": NORTH[:-1] + ", normals: " + NORMALS + "}, sure: 14 days}\n",
    "hot normals": NORTH[:-1] + ", normals: " + HOT_NORMALS + "}}\n",
    "hot normals, hot weeks": (
        NORTH[:-1] + ", normals: " + HOT_NORMALS + "}, too_hot: 06-20..08-01}\n"
    ),
    "cool normals": NORTH[:-1] + ", normals: " + COOL_NORMALS + "}}\n",
    "no frost": (
        "site: {name: Coast, latitude: 20, units: us, frost: none, too_hot: 06-01..09-01}\n"
    ),
}
CROPS = (
    "bush bean",
    "lettuce",
    "radish",
    "pea",
    "potato",
    "carrot",
    "tomato",
    "broccoli",
    "spinach",
)


def prospects(site: str) -> Iterator[Prospects]:
    """Yield crops raised in every way they can be, on open ground and under a cover."""
    conditions = _conditions(site)
    for name in CROPS:
        found = library.find(name)
        assert found is not None
        crop = built_in_crop(found)
        either = (Raised.DIRECT, Raised.TRAYS)
        for raised in either if crop.raised is Raised.EITHER else (crop.raised,):
            for colder_by in (0.0, -3.0):
                yield conditions.prospects(crop, raised, colder_by=colder_by)


@cache
def _conditions(site: str) -> Conditions:
    return season_of(_garden(site), date(2026, 7, 1)).conditions


@cache
def _garden(site: str) -> Garden:
    garden = read_garden((SITES[site] + HEAD).encode(), "garden.yaml").garden
    assert garden is not None
    return garden


def days(span: DateSpan) -> Iterator[date]:
    return (span.first + timedelta(days=number) for number in range(span.length))


def runs(safe: list[date]) -> tuple[DateSpan, ...]:
    """Return days in order as runs."""
    found: list[DateSpan] = []
    for day in safe:
        if found and found[-1].last + timedelta(days=1) == day:
            found[-1] = DateSpan(found[-1].first, day)
        else:
            found.append(DateSpan(day, day))
    return tuple(found)


@pytest.mark.parametrize("site", SITES)
def test_the_safe_runs_are_those_of_looking_at_every_day(site: str) -> None:
    year = _garden(site).year
    for each in prospects(site):
        safe = [
            day
            for day in days(DateSpan(year.first, year.last))
            if (verdict := each.promise(day)[1]) is not None and verdict.value.startswith("safe")
        ]
        assert each.windows == runs(safe), each.need
        # What is promised of a day is what a planting on it is judged to be.
        for day in {year.first, *safe[:1], *safe[-1:], year.midsummer, year.last}:
            judged = each.judge(Dated.on(day, "written", "", OURS))
            assert each.promise(day) == (
                1.0 if judged.odds is None else judged.odds,
                judged.verdict,
            )


@pytest.mark.parametrize("site", SITES)
def test_along_a_stretch_chances_only_fall(site: str) -> None:
    garden = _garden(site)
    climate = _conditions(site).climate
    whole = DateSpan(garden.year.first, garden.year.last)
    for each in prospects(site):
        stretches = climate.waves.stretches(each.need, whole)
        found = [date.fromordinal(day) for one in stretches for day in one.days]
        assert found == list(days(whole))
        for stretch in stretches:
            in_order = map(date.fromordinal, stretch.days)
            chances = [climate.waves.chances(day, each.need) for day in in_order]
            least = climate.waves.least(each.need, stretch.days)
            assert all(_no_better(least, one) for one in chances)
            if not stretch.rises:
                assert all(_no_better(later, earlier) for earlier, later in pairwise(chances))


def _no_better(later: Chances, earlier: Chances) -> bool:
    margins = ((later.margin, earlier.margin), (later.heat_margin, earlier.heat_margin))
    return (
        later.odds <= earlier.odds + 1e-12
        and later.too_hot == earlier.too_hot
        and all(
            after is before if after is None or before is None else after <= before
            for after, before in margins
        )
    )


@pytest.mark.parametrize("site", ["hot weeks", "hot normals"])
def test_what_a_crop_is_told_does_not_hang_on_what_others_asked(site: str) -> None:
    """Crops that differ in the frost that kills them alone have their first picks in common."""
    garden = _garden(site)
    some = [garden.year.first + timedelta(days=number) for number in range(60, 300, 7)]
    waves = season_of(garden, date(2026, 7, 1)).climate.waves
    for each in islice(prospects(site), 0, None, 3):
        for need in _nearly_alike(each.need):
            alone = season_of(garden, date(2026, 7, 1)).climate.waves
            for day in some:
                assert waves.chances(day, need) == alone.chances(day, need), need


def _nearly_alike(need: Need) -> Iterator[Need]:
    yield need
    yield replace(need, killed_at=need.killed_at + 2)
    yield replace(need, picking=need.picking + 9)
    yield replace(need, worthwhile=need.worthwhile + 5)
    yield replace(need, heat_ends=not need.heat_ends)
    yield replace(need, after_frost=AfterFrost.STANDS)


def test_no_days_make_no_stretches() -> None:
    climate = season_of(_garden("hot weeks"), date(2026, 7, 1)).climate
    need = next(prospects("hot weeks")).need
    assert climate.waves.stretches(need, DateSpan(date(2026, 5, 9), date(2026, 5, 1))) == ()


def test_the_last_days_at_some_odds_are_the_last_of_all() -> None:
    conditions = season_of(_garden("two averages"), date(2026, 7, 1)).conditions
    found = library.find("bush bean")
    assert found is not None
    crop = built_in_crop(found)
    prospects = conditions.prospects(crop, Raised.DIRECT)
    shares = (0.8, 0.5, 0.2)
    for share, last in zip(
        shares, last_days(conditions, crop, Raised.DIRECT, shares=shares), strict=True
    ):
        good = [
            day
            for day in days(DateSpan(prospects.earliest.day, conditions.year.last))
            if prospects.promise(day)[0] >= share
        ]
        assert last == good[-1]
