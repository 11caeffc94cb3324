"""The packaged demo, the examples and the starter file: what each of them promises to show."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from functools import partial
from pathlib import Path

import pytest

from printed import fits_text, instead_of_text, into_bed_text
from sowtide.days import week_start
from sowtide.diagnostics import Severity
from sowtide.garden.crop import Hardiness
from sowtide.garden.read import read_garden
from sowtide.garden.starter import Start, starter_text
from sowtide.report.formats.terminal.cells import cells
from sowtide.report.week import view
from sowtide.schedule.fits.instead_of import weigh
from sowtide.schedule.fits.into_bed import what_fits
from sowtide.schedule.fits.one_more import answer
from sowtide.schedule.fits.question import BedQuestion, Question
from sowtide.schedule.season import Season
from sowtide.schedule.waves.wave import Status
from sowtide.schedule.work.task import Kind, WeekSheet
from sowtide.schedule.work.week import week_sheets
from sowtide.season import DEMO_TODAY, demo_text, load, load_demo, season_of
from sowtide.units import Units

EXAMPLES = Path(__file__).parents[2] / "examples"
ALLOTMENT = EXAMPLES / "allotment" / "garden.yaml"
MARKET = EXAMPLES / "market-garden" / "garden.yaml"


def _season(path: Path, today: date) -> Season:
    reading = load(path)
    assert reading.garden is not None, reading.problems
    assert reading.problems == ()
    return season_of(reading.garden, today)


@pytest.fixture(scope="module")
def demo() -> Season:
    reading = load_demo()
    assert reading.garden is not None, reading.problems
    assert reading.problems == ()
    return season_of(reading.garden, DEMO_TODAY)


@pytest.fixture(scope="module")
def demo_week(demo: Season) -> WeekSheet:
    first = week_start(DEMO_TODAY, starts=0)
    return week_sheets(demo.garden, demo.waves, first, weeks=1, care=demo.care)[0]


@pytest.fixture(scope="module")
def market() -> Season:
    return _season(MARKET, date(2026, 7, 16))


@pytest.fixture(scope="module")
def allotment() -> Season:
    return _season(ALLOTMENT, date(2027, 1, 15))


@pytest.mark.parametrize(
    "text",
    [
        demo_text(),
        ALLOTMENT.read_text("utf-8"),
        MARKET.read_text("utf-8"),
        starter_text(Start(season=2026)),
    ],
    ids=["demo", "allotment", "market garden", "starter"],
)
def test_the_first_comment_says_that_the_garden_is_invented(text: str) -> None:
    lines = text.splitlines()
    end = next(number for number, line in enumerate(lines) if not line.startswith("#"))
    comment = " ".join(line.lstrip("# ") for line in lines[:end])
    assert "invented" in comment
    assert "advice" in comment


# The demo: mid-July in a home garden.


def test_the_demo_stands_eleven_weeks_before_its_average_first_frost(demo: Season) -> None:
    (frost,) = demo.garden.site.frost
    assert [chance.share for chance in frost.first] == [0.5]
    assert frost.first[0].day - DEMO_TODAY == timedelta(weeks=11)


def test_two_squash_waves_stand_and_the_older_is_nearly_done(demo: Season) -> None:
    squash = [wave for wave in demo.waves if wave.entry.name == "summer-squash"]
    standing = [wave.id for wave in squash if wave.stands_on(DEMO_TODAY)]
    assert standing == ["summer-squash-1", "summer-squash-2"]
    last_pick = squash[0].stages.last_pick
    assert last_pick is not None
    assert timedelta(0) < last_pick.day - DEMO_TODAY <= timedelta(days=7)


def test_the_third_squash_wave_waits_in_trays_for_the_space_of_the_first(
    demo: Season, demo_week: WeekSheet
) -> None:
    first, _, third = [wave for wave in demo.waves if wave.entry.name == "summer-squash"]
    assert "summer-squash-3" in [seedlings.wave.id for seedlings in demo_week.bench]
    assert first.bed_free is not None
    assert third.stages.plant.day == first.bed_free.day
    assert third.stands == first.stands


def test_some_dates_of_the_demo_week_cannot_slip(demo_week: WeekSheet) -> None:
    sown = {task.wave.id for task in demo_week.cannot_slip if task.kind is Kind.SOW}
    assert sown == {"bush-bean-5"}


def test_the_demo_week_says_at_a_glance_what_opens_what_to_start_and_what_waiting_costs(
    demo: Season, demo_week: WeekSheet
) -> None:
    said = view((demo_week,), demo).first
    opens = [each for each in said.openings if each.from_ >= demo_week.first]
    assert [(each.bed, each.leaves) for each in opens] == [("Shed", ("garlic-1",))]
    assert {(each.crop, each.for_.bed) for each in said.start_now} >= {("spinach", "Shed")}
    (waiting,) = said.waiting
    bean = next(wave for wave in demo.waves if wave.id == "bush-bean-5")
    odds = [each.odds for each in waiting.days]
    assert waiting.task == "bush-bean-5:sow"
    assert odds[0] == bean.judged.odds
    assert [each.date_ - bean.stages.sow.day for each in waiting.days] == [
        timedelta(weeks=weeks) for weeks in (0, 1, 2)
    ]
    assert odds == sorted(odds, reverse=True)
    assert odds[0] > 0.8 > odds[1] > 0.5 > odds[2]
    # Of the demo's wants two are of what is picked, 2 lb a week of each.
    wanted = {each.crop: (round(each.amount.value, 3), each.amount.unit) for each in said.wanted}
    assert wanted == {"summer squash": (2, "lb"), "bush bean": (2, "lb")}


def test_the_demo_week_has_work_of_every_kind(demo_week: WeekSheet) -> None:
    kinds = {task.kind for task in demo_week.tasks} | {Kind.PICK for _ in demo_week.pickings}
    assert kinds == set(Kind) - {
        *(Kind.PRUNE, Kind.SUPPORT, Kind.TEND, Kind.COVER, Kind.DUST),
    }


def test_cool_season_sowings_are_still_to_come_and_leave_out_the_hot_weeks(demo: Season) -> None:
    to_come = {wave.entry.name for wave in demo.waves if wave.stages.plant.day > DEMO_TODAY}
    assert {"lettuce", "radish", "spinach", "carrot", "broccoli", "kale"} <= to_come
    assert {(gap.series, gap.why) for gap in demo.gaps} == {
        ("lettuce", "too hot"),
        ("radish", "too hot"),
    }


def test_every_demo_wave_has_room_and_nothing_is_wrong_with_the_plan(demo: Season) -> None:
    assert all(wave.stands for wave in demo.waves)
    assert {problem.severity for problem in demo.problems} == {Severity.NOTE}


def test_the_demo_file_is_short_enough_to_be_read_at_a_sitting() -> None:
    lines = demo_text().splitlines()
    assert len(lines) <= 105
    assert max(map(len, lines)) <= 100


# The allotment: south of the equator, in metres.


def test_the_allotment_is_southern_metric_and_has_a_frost_table(allotment: Season) -> None:
    site = allotment.garden.site
    assert site.latitude < 0
    assert site.units is Units.METRIC
    assert [frost.at for frost in site.frost] == [0.0, -2.0]
    assert all(len(frost.last) == len(frost.first) == 3 for frost in site.frost)
    assert allotment.garden.year.first == date(2026, 7, 1)


def test_the_allotment_shows_what_beds_and_crops_can_be(allotment: Season) -> None:
    beds = allotment.garden.beds
    assert len(beds) == 8
    assert any(bed.cover > 0 for bed in beds)
    assert any(bed.colder_by > 0 for bed in beds)
    assert any(bed.taken for bed in beds)
    assert sum(bool(bed.grew) for bed in beds) >= 5
    assert len(allotment.garden.entries) == 15
    crops = {entry.crop.name: entry.crop for entry in allotment.garden.entries}
    assert crops["frilly lettuce"].kind == "leaf lettuce"
    assert crops["frilly lettuce"].variety == "frilly red"
    assert crops["oca"].kind == "oca"
    assert crops["oca"].hardiness is Hardiness.TENDER


def test_garlic_stands_over_the_winter_into_its_ready_days(allotment: Season) -> None:
    garlic = next(wave for wave in allotment.waves if wave.id == "garlic-lifted-1")
    assert garlic.stages.first_pick is not None
    # ready: 12-20..01-10, planted in May: the midsummer after it
    assert [day.day for day in garlic.stages.first_pick] == [date(2026, 12, 20), date(2027, 1, 10)]


def test_every_allotment_wave_has_room_and_nothing_is_wrong(allotment: Season) -> None:
    assert all(wave.stands for wave in allotment.waves)
    assert {problem.severity for problem in allotment.problems} == {Severity.NOTE}


# The market garden: 120 beds, 660 waves.


def test_the_market_garden_has_its_beds_and_waves(market: Season) -> None:
    assert len(market.garden.beds) == 120
    assert 650 <= len(market.waves) <= 670
    assert {bed.size for bed in market.garden.beds} == {market.garden.beds[0].size}
    assert len(market.garden.site.frost) == 3


def test_about_half_of_the_market_garden_names_no_bed(market: Season) -> None:
    entries = market.garden.entries
    unnamed = sum(not entry.beds_named for entry in entries)
    assert 0.4 <= unnamed / len(entries) <= 0.6
    assert sum(entry.every is None for entry in entries) >= 25


def test_the_market_garden_waits_while_the_soil_is_too_warm_for_its_seed(market: Season) -> None:
    told = {p.message for p in market.problems}
    gap = "box-spinach is not planted from 10 Jul to 8 Aug"
    assert f"{gap}: the soil is too hot for its seed" in told


@pytest.mark.parametrize("garden", ["demo", "allotment", "market"])
def test_every_wave_has_room_and_nothing_is_left_to_mend(
    garden: str, request: pytest.FixtureRequest
) -> None:
    season: Season = request.getfixturevalue(garden)
    assert not [wave.id for wave in season.waves if wave.status is Status.NO_ROOM]
    assert [p.code for p in season.problems if p.severity is not Severity.NOTE] == []


# The starter file: whole as it stands, in any year.


@pytest.mark.parametrize("season", [2025, 2026, 2028])
def test_the_starter_is_whole_as_it_stands(season: int) -> None:
    text = starter_text(Start(season=season))
    assert "{season}" not in text
    reading = read_garden(text.encode(), "garden.yaml")
    assert reading.garden is not None
    assert reading.problems == ()
    plan = season_of(reading.garden, date(season, 5, 20))
    assert plan.garden.year.season == season
    assert all(wave.stands for wave in plan.waves)
    assert plan.problems == ()


def test_the_starters_optional_lines_can_all_be_switched_on() -> None:
    lines = starter_text(Start(season=2026)).splitlines()
    begin = lines.index("site:")
    switched = [
        line.replace("# ", "", 1) if line.startswith("  #") else line for line in lines[begin:]
    ]
    assert switched != lines[begin:]
    reading = read_garden("\n".join(switched).encode(), "garden.yaml")
    assert reading.problems == ()
    assert reading.garden is not None
    assert [bed.name for bed in reading.garden.beds] == ["Front", "Back", "Side"]
    assert [entry.name for entry in reading.garden.entries][-1] == "late-lettuce"


# What `fits` can be asked


@pytest.mark.parametrize("name", ["demo", "market", "allotment"])
def test_fits_answers_in_its_four_forms(name: str, request: pytest.FixtureRequest) -> None:
    season: Season = request.getfixturevalue(name)
    standing = [
        wave
        for wave in season.waves
        if wave.stands and wave.judged.verdict and wave.stands_on(season.today)
    ]
    assert standing
    crops = sorted({wave.crop.name: wave.crop for wave in season.waves}.items())
    questions = [
        Question(crop, None, None, None, seedlings=False, cover=2.0) for _, crop in crops[:4]
    ]
    pages: list[Callable[[int], Sequence[str]]] = []
    for question in questions:
        one = answer(season, question)
        assert one.crop is question.crop
        assert (one.cover is None) is (one.verdict is None)
        pages.append(partial(fits_text, (one,), season))
    for wave in standing[:3]:
        bed = what_fits(season, BedQuestion(wave.stands[0].bed, None, seedlings=False))
        assert bed.safe or bed.chancy or bed.covers
        pages.append(partial(into_bed_text, bed, season))
        for question in questions:
            weighed = weigh(season, wave, question)
            assert weighed.wave is wave
            pages.append(partial(instead_of_text, weighed, season))
    for width in (60, 80, 120):
        for page in pages:
            assert max(map(cells, page(width))) <= width
