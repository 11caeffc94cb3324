"""Cover crops: what closes a space when nothing that is picked would still be safe."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import gardens
from gardens import text
from sowtide.garden.library import builtin as library
from sowtide.garden.library.covers import cover_crops
from sowtide.garden.read import read_garden
from sowtide.schedule.fits.answer import Answer, Way
from sowtide.schedule.fits.closing import MOST_COVERS, closing, sowing_days

CORN = gardens.crop("corn", days_to_harvest="80")
FROST = "{last: 05-08, first: 10-02}"
SIX = {"winter rye", "oat", "buckwheat", "field pea", "crimson clover", "hairy vetch"}


def ask(on: date, *, frost: str = FROST, **more: str) -> Answer:
    return gardens.ask(text(frost=frost, crops=[CORN], **more), "corn", on=on)


def test_there_are_six_of_four_families() -> None:
    assert {cover.name for cover in cover_crops()} == SIX == set(library.cover_names())
    # Botany: rye and oat are grasses, buckwheat stands alone, the rest are legumes.
    families = {cover.name: cover.family for cover in cover_crops()}
    assert {name for name, family in families.items() if family == "bean family"} == {
        "field pea",
        "crimson clover",
        "hairy vetch",
    }
    assert {name for name, family in families.items() if family == "grass family"} == {
        "winter rye",
        "oat",
    }


def test_the_order_of_their_last_sowings_is_the_trades() -> None:
    """Common practice, no source: buckwheat first, since frost kills it; winter rye last."""
    latest = {cover.name: -cover.sow_before_frost for cover in cover_crops()}
    assert min(latest, key=latest.__getitem__) in {"buckwheat", "crimson clover", "field pea"}
    assert max(latest, key=latest.__getitem__) == "winter rye"
    assert latest["oat"] < latest["winter rye"]
    assert latest["hairy vetch"] < latest["winter rye"]


def test_what_winter_kills() -> None:
    """Common practice, no source: rye, vetch and clover stand an ordinary winter."""
    killed = {cover.name for cover in cover_crops() if cover.winter_kills}
    assert {"oat", "buckwheat", "field pea"} <= killed
    assert not {"winter rye", "hairy vetch"} & killed


@pytest.mark.parametrize("day", [date(2026, 7, 20), date(2026, 9, 5), date(2026, 11, 20)])
def test_each_wants_its_room_until_it_is_dug_in_or_the_year_is_over(day: date) -> None:
    of = gardens.season(text(frost="{last: 04-10, first: 12-01}"))
    climate, year = of.conditions.climate, of.conditions.year
    asked: list[tuple[date, date]] = []

    def no_bed(first: date, until: date) -> None:
        asked.append((first, until))

    assert list(closing(day, climate=climate, year=year, free_bed=no_bed)) == []
    sown = [each for each in cover_crops() if day in sowing_days(each, climate, year)]
    wanted = {
        min(day + timedelta(days=each.days_to_dig_in.low), date(2026, 12, 31)) for each in sown
    }
    assert {first for first, _ in asked} == {day}
    assert {until for _, until in asked} == wanted
    assert len(asked) == len(sown) > 0


@pytest.mark.parametrize("name", sorted(SIX))
def test_sowing_days_are_counted_from_the_average_frosts(name: str) -> None:
    season = gardens.season(text(frost=FROST))
    cover = next(cover for cover in cover_crops() if cover.name == name)
    days = sowing_days(cover, season.climate, season.garden.year)
    assert days.first == date(2026, 5, 8) + timedelta(days=cover.sow_after_frost)
    assert days.last == date(2026, 10, 2) - timedelta(days=cover.sow_before_frost)
    assert cover.days_to_dig_in.low > 0


def test_without_frost_they_may_be_sown_all_year() -> None:
    season = gardens.season(text(frost="none"))
    for cover in cover_crops():
        days = sowing_days(cover, season.climate, season.garden.year)
        assert (days.first, days.last) == (date(2026, 1, 1), date(2026, 12, 31))


def test_a_cover_crop_closes_the_space_where_nothing_else_is_safe() -> None:
    found = [each for each in ask(date(2026, 9, 5)).instead if each.what is Way.COVER_CROP]
    assert 1 <= len(found) <= MOST_COVERS
    assert all(each.odds is None and each.plant == date(2026, 9, 5) for each in found)
    last = {cover.name: cover.sow_before_frost for cover in cover_crops()}
    named = [next(name for name in last if name in each.text) for each in found]
    assert named == sorted(named, key=lambda name: -last[name])


def test_no_cover_crop_where_a_crop_is_safe() -> None:
    answer = gardens.ask(
        text(frost=FROST, crops=[CORN, "radish: {days_to_harvest: 24-30}"]),
        "corn",
        on=date(2026, 7, 25),
    )
    kinds = {each.what for each in answer.instead}
    assert Way.QUICKER_CROP in kinds
    assert Way.COVER_CROP not in kinds


def test_no_cover_crop_where_it_is_too_late_or_the_bed_is_taken() -> None:
    assert not any(each.what is Way.COVER_CROP for each in ask(date(2026, 12, 1)).instead)
    bed = "{bed: North, size: 4 x 20, taken: all year}"
    answer = gardens.ask(text(crops=[CORN], beds=[bed]), "corn", on=date(2026, 9, 5))
    assert not any(each.what is Way.COVER_CROP for each in answer.instead)


def test_a_cover_crop_is_no_crop_of_a_plan() -> None:
    assert library.find("buckwheat") is None
    assert library.cover_named("buckwheats") == "buckwheat"
    assert library.cover_named("tomato") is None
    assert library.near("buckweat") == ()
    assert library.near("buckweat", covers=True) == ("buckwheat",)
    file = text("{crop: rye, plants: 9, from: 09-10}")
    (problem,) = read_garden(file.encode(), "garden.yaml").problems
    assert problem.code == "unknown-crop"
    assert problem.hint == (
        "it is a cover crop: close its bed for that time, as in taken: 09-10..04-15"
    )
