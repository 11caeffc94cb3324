"""When garlic is lifted and sprouting broccoli cut, beside what is published at their places."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import gardens
from sowtide.report.card.figures_view import figures_of
from sowtide.schedule.waves import Wave
from sowtide.schedule.waves.wave import NoDate
from sowtide.values import value

WITHIN = timedelta(days=14)
NORTH, SOUTH = "{last: 04-20, first: 10-20}", "{last: 10-01, first: 05-10}"


@value
class Published:
    """When a crop is ready at a place, first and last day, and when it is planted there."""

    crop: str
    place: str
    latitude: float
    planted: date
    first: date
    last: date
    source: str


def _garlic(place: str, latitude: float, span: tuple[date, date], source: str) -> Published:
    planted = date(2026, 4, 25) if latitude < 0 else date(2026, 10, 25)
    return Published("garlic", place, latitude, planted, *span, source)


def _broccoli(place: str, latitude: float, span: tuple[date, date], source: str) -> Published:
    planted = date(2026, 2, 15) if latitude < 0 else date(2026, 6, 20)
    return Published("sprouting broccoli", place, latitude, planted, *span, source)


PUBLISHED = (
    # LSU AgCenter, Fall Gardening: Garlic, 13 November 2017: planted in October and November,
    # "harvested in May"
    _garlic("Louisiana", 30.5, (date(2027, 5, 1), date(2027, 5, 31)), "LSU AgCenter"),
    # UC Master Gardener Program of Contra Costa County, help desk: October, lifted in June
    _garlic("Contra Costa", 38.0, (date(2027, 6, 1), date(2027, 6, 30)), "UC Master Gardeners"),
    # UC Master Gardeners of Santa Clara County, June tips: mid-June
    _garlic("Santa Clara", 37.3, (date(2027, 6, 10), date(2027, 6, 20)), "UC Master Gardeners"),
    # Cornell University, Eastern New York Commercial Horticulture, 7 August 2012: mid to late July
    _garlic("New York", 43.0, (date(2027, 7, 15), date(2027, 7, 31)), "Cornell"),
    # University of Minnesota Extension, Growing garlic in home gardens: late June to late July
    _garlic("Minnesota", 45.5, (date(2027, 6, 25), date(2027, 7, 27)), "Minnesota"),
    # Royal Horticultural Society, through SecEd, Grow your own garlic: June to August
    _garlic("Britain", 52.0, (date(2027, 6, 1), date(2027, 8, 31)), "RHS"),
    # Whanganui Chronicle, Shortest day marks planting of garlic: December or January
    _garlic("Whanganui", -39.9, (date(2026, 12, 1), date(2027, 1, 31)), "Whanganui Chronicle"),
    # Garden Organic, how to grow sprouting broccoli: planted out June to July, cut December to
    # April as the sorts are early or late
    _broccoli("Britain", 52.0, (date(2026, 12, 1), date(2027, 4, 30)), "Garden Organic"),
    # The Irish Times, This week's project: some from January, most from the middle of February on;
    # read to the end of March
    _broccoli("Ireland", 53.3, (date(2027, 2, 15), date(2027, 3, 31)), "The Irish Times"),
    # Organic Gardener, Purple Haze: six months from sowing, in August or September
    _broccoli("Australia", -37.0, (date(2026, 8, 1), date(2026, 9, 30)), "Organic Gardener"),
)


def _wave(crop: str, planted: date, latitude: float, **place: str) -> Wave:
    frost = place.get("frost", SOUTH if latitude < 0 else NORTH)
    line = gardens.wave(crop, start=planted.isoformat())
    return gardens.only(gardens.text(line, crops=[f"{crop}: {{}}"], frost=frost, latitude=latitude))


def _first(wave: Wave) -> tuple[date, date]:
    assert wave.stages.first_pick is not None
    early, late = wave.stages.first_pick
    return early.day, late.day


@pytest.mark.parametrize("each", PUBLISHED, ids=lambda each: f"{each.crop}, {each.place}")
def test_what_needs_its_winter_is_ready_when_it_is_published_to_be(each: Published) -> None:
    early, late = _first(_wave(each.crop, each.planted, each.latitude))
    assert early <= each.last
    assert late >= each.first
    middle, published = early + (late - early) / 2, each.first + (each.last - each.first) / 2
    assert abs(middle - published) <= (WITHIN if each.crop == "garlic" else 2 * WITHIN)


def test_garlic_comes_four_days_sooner_for_each_degree_nearer_the_equator() -> None:
    # 21 June 2027 and 11 days at 43° and beyond, 4 x 5 = 20 days before that at 38°
    planted = date(2026, 10, 25)
    assert _first(_wave("garlic", planted, 60.0))[0] == date(2027, 7, 2)
    assert _first(_wave("garlic", planted, 43.0))[0] == date(2027, 7, 2)
    assert _first(_wave("garlic", planted, 38.0))[0] == date(2027, 6, 12)


@pytest.mark.parametrize(
    ("planted", "lifted"),
    [
        # 2 July 2026 is 120 days from 4 March, 2 July 2027 345 days from 22 July
        (date(2026, 3, 4), date(2026, 7, 2)),
        (date(2026, 3, 5), None),
        (date(2026, 7, 21), None),
        (date(2026, 7, 22), date(2027, 7, 2)),
        (date(2026, 12, 31), date(2027, 7, 2)),
    ],
)
def test_garlic_stands_four_to_eleven_months(planted: date, lifted: date | None) -> None:
    wave = _wave("garlic", planted, 52.0)
    if lifted is None:
        assert wave.judged.no_date is NoDate.OUT_OF_TIME
        assert wave.stages.first_pick is None
    else:
        assert _first(wave)[0] == lifted


# The coldest night of the middle winter: coldest month - (0.95 x (warmest - coldest) - 1.5), so
# 3 - 0.95 x 14 + 1.5 = -8.8 °C, and -4 - 0.95 x 25 + 1.5 = -26.3 °C; it is killed at -12.2 °C
MILD = (
    "{last: 04-27, first: 10-23, normals: {"
    "max: [6, 6, 9, 13, 18, 20, 22, 22, 19, 14, 9, 6], "
    "min: [0, 0, 2, 4, 8, 11, 12, 12, 9, 6, 3, 0]}}"
)
HARD = (
    "{last: 05-08, first: 10-02, normals: {"
    "max: [0, 1, 6, 14, 20, 25, 27, 26, 22, 15, 7, 1], "
    "min: [-8, -8, -4, 2, 8, 13, 15, 14, 10, 3, -2, -7]}}"
)


def test_sprouting_broccoli_does_not_stand_hard_winters() -> None:
    planted = date(2026, 6, 20)
    mild, hard = (_wave("sprouting broccoli", planted, 45.0, frost=f) for f in (MILD, HARD))
    assert _first(mild)[0] == date(2027, 2, 21)
    assert hard.judged.no_date is NoDate.KILLED
    assert hard.stages.first_pick is None
    # From frost dates alone nobody knows how hard the winters are
    assert _wave("sprouting broccoli", planted, 45.0).judged.no_date is None
    # Garlic stands them all
    assert _wave("garlic", date(2026, 10, 20), 45.0, frost=HARD).judged.no_date is None


def test_ready_days_that_are_written_go_before() -> None:
    file = gardens.text(
        gardens.wave("garlic", start="10-20"), crops=["garlic: {ready: 06-10..06-20}"], frost=NORTH
    )
    wave = gardens.only(file)
    assert _first(wave) == (date(2027, 6, 10), date(2027, 6, 20))
    assert wave.crop.ready_about is None
    told = {each.field: each.value for each in figures_of(wave.crop, None)}
    assert told["ready"] == "06-10..06-20"
    assert "ready_about" not in told


def test_what_an_own_crop_is_like_is_ready_as_that_is() -> None:
    line = gardens.wave("elephant garlic", start="10-20")
    file = gardens.text(line, crops=["elephant garlic: {like: garlic}"], frost=NORTH, latitude=44)
    assert _first(gardens.only(file)) == (date(2027, 7, 2), date(2027, 7, 22))


def test_it_says_why_it_has_no_date() -> None:
    told = {}
    for planted, frost in (("05-20", NORTH), ("06-20", HARD)):
        crop = "garlic" if planted == "05-20" else "sprouting broccoli"
        line = gardens.wave(crop, start=planted)
        found = gardens.season(
            gardens.text(line, crops=[f"{crop}: {{}}"], frost=frost, latitude=45)
        )
        (problem,) = [each for each in found.problems if each.code == "no-winter-date"]
        told[crop] = problem.message, problem.hint
    assert "too late for one harvest and too early for the next" in told["garlic"][0]
    assert told["garlic"][1] == "plant it four to eleven months before it is ready"
    assert "in half of them or more frost kills it" in told["sprouting broccoli"][0]
