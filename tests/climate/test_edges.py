"""The last and the first day that still count, in made-up records of minima, each by hand.

The crop is a fruit sown direct: picked 50 days after sowing, for 14 days, ended at 0 °C. Nothing is
added for slow growth. Minima are 5 °C on all days but those of frost.
"""

from __future__ import annotations

from array import array
from collections.abc import Callable
from datetime import date, timedelta
from math import nan
from pathlib import Path

import pytest

import gardens
from sowtide.climate.answers import Chances, EndedBy, Need, YearTold
from sowtide.climate.average import DailyYear
from sowtide.climate.by_frosts import FatesByFrosts
from sowtide.climate.daylight import first_below, last_below
from sowtide.climate.frost.depth import FrostDepth
from sowtide.climate.frost.on_curve import FrostHalf
from sowtide.climate.frost.survival import Survival
from sowtide.climate.frost.thresholds import frost_table
from sowtide.climate.frost_record import RecordYears
from sowtide.climate.medians import NEVER
from sowtide.climate.record import Record, read_record
from sowtide.climate.warmth import gap_of, too_hot_to_set
from sowtide.days import GrowingYear, Half
from sowtide.garden.site import ALL_YEARS, Sure
from sowtide.reasons import OURS, Dated
from sowtide.schedule.checks.growth.little_fruit import RULE as LITTLE_FRUIT
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Verdict
from sowtide.schedule.waves.verdict import verdict_of
from sowtide.season import load, season_of

FRUIT = gardens.crop(worthwhile_days="1")


def season(
    tmp_path: Path,
    frosts: set[date],
    *waves: str,
    first: date = date(2000, 1, 1),
    last: date = date(2020, 6, 30),
    crop: str = FRUIT,
    **site: str,
) -> Season:
    """A garden on a record of minima alone, with frosts on some days."""
    lines = ["date,tmin (°C)"]
    for number in range((last - first).days + 1):
        day = first + timedelta(days=number)
        lines.append(f"{day},{-5 if day in frosts else 5}")
    (tmp_path / "station.csv").write_text("\n".join(lines), encoding="utf-8")
    keys = {"fall_allowance": "0", "too_hot": "none"} | site
    text = gardens.text(*waves, crops=[crop], frost="{record: station.csv}", **keys)
    (tmp_path / "garden.yaml").write_text(text, encoding="utf-8")
    loaded = load(tmp_path / "garden.yaml")
    assert loaded.garden is not None, loaded.problems
    return season_of(loaded.garden, gardens.EARLY, loaded.record)


def every(month: int, day: int, years: range) -> set[date]:
    return {date(year, month, day) for year in years}


TWENTY = range(2000, 2020)
OCTOBER = every(10, 1, TWENTY) | every(4, 20, range(2000, 2021))
"""Twenty autumns with a first frost on 1 October, and the springs between."""


# Minima alone


def test_years_without_frost_count_in_the_odds_and_in_every_telling(tmp_path: Path) -> None:
    # Sown on 20 August, picked from 9 October: nothing in the ten even years, all in the odd ones.
    # An odd autumn looks forward to the next midsummer and finds no frost at all.
    frosts = every(10, 1, range(2000, 2020, 2))
    found = season(tmp_path, frosts, gardens.wave(start="08-20"))
    (wave,) = found.waves
    assert wave.judged.odds == 0.5
    assert wave.judged.odds_of_nothing == 0.5
    assert wave.judged.expected_picking_days == 7  # 14 days in half of the years
    told = found.years_of(wave)
    assert [each.season for each in told] == list(TWENTY)
    for each in told:
        even = each.season % 2 == 0
        picks = None if even else date(each.season, 10, 9)
        assert each.first_pick == (picks, picks)
        assert (each.worth, each.picking_days) == ((0, 0) if even else (1, 14))
        assert each.is_poor is even


def test_a_record_without_a_frost_at_all_leaves_nothing_to_end_a_wave(tmp_path: Path) -> None:
    found = season(tmp_path, set(), gardens.wave(start="11-01"))
    (wave,) = found.waves
    assert (wave.judged.odds, wave.judged.ended_by) == (1.0, EndedBy.PICKED_OUT)
    assert found.climate.frosts.day(Half.AUTUMN, at=0.0, share=0.5) is None
    assert frost_table(found.climate.frosts)[1].without == (1.0, 1.0)


@pytest.mark.parametrize(("sown", "odds"), [("08-11", 1.0), ("08-12", 0.0)])
def test_nothing_is_picked_on_the_day_of_the_frost(tmp_path: Path, sown: str, odds: float) -> None:
    # 11 August + 50 = 30 September, the day before the frost; 12 August + 50 = its own day.
    found = season(tmp_path, OCTOBER, gardens.wave(start=sown))
    (wave,) = found.waves
    assert wave.judged.odds == odds
    assert {(each.worth, each.picking_days) for each in found.years_of(wave)} == {(odds, odds)}
    assert wave.judged.expected_picking_days == odds  # the one day, or none
    assert wave.judged.odds_of_nothing == 1 - odds
    if odds:
        assert wave.stages.last_pick is not None
        assert wave.stages.last_pick.day == date(2026, 9, 30)


@pytest.mark.parametrize(("frost", "killed"), [("06-10", False), ("06-11", True)])
def test_the_frost_of_the_day_on_which_it_shows_harms_it_not(
    tmp_path: Path, frost: str, killed: bool
) -> None:
    # Sown on 31 May and up after ten days, on 10 June: that frost came at dawn, before it was up.
    frosts = {date.fromisoformat(f"{year}-{frost}") for year in range(2000, 2021)}
    found = season(tmp_path, frosts, gardens.wave(start="05-31"))
    (wave,) = found.waves
    told = found.years_of(wave)
    assert {each.worth for each in told} == {0.0 if killed else 1.0}
    assert wave.judged.odds == (0.0 if killed else 1.0)


def test_the_first_safe_day_is_the_day_of_the_frost_that_the_share_allows(tmp_path: Path) -> None:
    # Last frosts on 1 to 20 April of twenty years, one each.
    last = {date(2000 + n, 4, 1 + n) for n in range(20)}
    until = date(2019, 12, 31)  # no spring of 2020, whose frost is not known
    climate = season(tmp_path, last | every(10, 1, TWENTY), last=until).climate
    days = [climate.frosts.safe_from(at=0.0, share=share) for share in (0.0, 0.2, 0.19, 1 - 0.9)]
    assert [each.day if each else None for each in days] == [
        date(2026, 4, 20),
        date(2026, 4, 16),  # four of twenty may be later
        date(2026, 4, 17),  # 3.8 of twenty are three
        date(2026, 4, 18),  # two, though 1 − 0.9 is a little less than a tenth
    ]


def test_springs_and_autumns_without_frost_are_each_told_over_their_own_years(
    tmp_path: Path,
) -> None:
    # April 2000 to May 2012: springs 2001-2011 (one begins too late, one ends too early), autumns
    # 2000-2011.
    frosts = {date(year, 3, 20) for year in range(2001, 2010)} | {
        date(year, 11, 1) for year in range(2000, 2008)
    }
    found = season(tmp_path, frosts, first=date(2000, 4, 25), last=date(2012, 5, 31))
    known = found.climate.frosts.years(0.0)
    assert known is not None
    without = known.spring.without_frost, known.autumn.without_frost
    numbers = len(known.spring.years), len(known.autumn.years)
    assert numbers[0] != numbers[1]
    row = next(each for each in frost_table(found.climate.frosts) if each.at == 0.0)
    assert row.without == (without[0] / numbers[0], without[1] / numbers[1])
    assert row.without[0] != without[0] / numbers[1]


@pytest.mark.parametrize(("autumns", "few"), [(14, True), (15, False)])
def test_fifteen_years_are_enough_and_fourteen_are_few(
    tmp_path: Path, autumns: int, few: bool
) -> None:
    years = range(2000, 2000 + autumns)
    frosts = every(10, 1, years) | every(4, 20, years)
    climate = season(
        tmp_path, frosts, last=date(2000 + autumns, 6, 30), first=date(2000, 1, 1)
    ).climate
    assert climate.basis.years_used == autumns
    assert any("odds from so few are rough" in each for each in climate.basis.assumed) is few


# Where a record begins and ends


def record(first: date, last: date, cold: Callable[[date], bool]) -> Record:
    days = [first + timedelta(days=n) for n in range((last - first).days + 1)]
    lows = array("d", [-5.0 if cold(day) else 5.0 for day in days])
    return Record("made-up", None, first, lows, None, 0.1, False)


@pytest.mark.parametrize(
    ("last", "seasons"), [(date(2019, 10, 1), 2019), (date(2019, 9, 30), 2018)]
)
def test_a_record_that_ends_on_the_first_of_october_reaches_its_autumn(
    last: date, seasons: int
) -> None:
    kept = record(date(2000, 1, 1), last, lambda day: (day.month, day.day) in ((4, 20), (9, 20)))
    planned = GrowingYear(2026, south=False)
    years = RecordYears(kept, south=False, wanted=ALL_YEARS, before=planned)
    assert years.span == (2000, seasons)
    assert years.frosts(0.0).autumn.years[-1].season == seasons


def test_a_spring_has_its_last_day_and_an_autumn_its_first() -> None:
    planned = GrowingYear(2026, south=False)
    for day in (date(2010, 6, 30), date(2010, 7, 1)):
        kept = record(date(2000, 1, 1), date(2019, 12, 31), lambda each, day=day: each == day)
        found = RecordYears(kept, south=False, wanted=ALL_YEARS, before=planned).frosts(0.0)
        springs = {each.season: each.day for each in found.spring.years}
        autumns = {each.season: each.day for each in found.autumn.years}
        assert (springs[2010] == day) is (day.month == 6)
        assert (autumns[2010] == day) is (day.month == 7)


# What a record says, cell by cell


def read(folder: Path, text: str) -> tuple[Record | None, list[tuple[str, int]]]:
    path = folder / "station.csv"
    path.write_text(text, encoding="utf-8")
    found = read_record(path)
    places = [(each.code, each.span.line) for each in found.problems if each.span is not None]
    return found.record, places


HEADER = "date,tmin (°C),tmax (°C)\n"


@pytest.mark.parametrize("nothing", ["999", "999.0", "-999", "999.9", "-999.9", "9999", "-9999"])
def test_an_archives_mark_for_no_reading_is_no_temperature(tmp_path: Path, nothing: str) -> None:
    rows = f"2012-01-01,1,8\n2012-01-02,{nothing},8\n2012-01-03,1,{nothing}\n2012-01-04,1,8\n"
    kept, problems = read(tmp_path, HEADER + rows)
    assert problems == []
    assert kept is not None
    assert [low if low == low else None for low in kept.tmin] == [1, None, 1, 1]
    assert kept.tmax is not None
    assert [high if high == high else None for high in kept.tmax] == [8, 8, None, 8]


def test_of_days_behind_a_jump_back_the_first_alone_is_out_of_order(tmp_path: Path) -> None:
    days = ("2012-01-05", "2012-01-06", "2012-01-01", "2012-01-02", "2012-01-06", "2012-01-01")
    _, problems = read(tmp_path, HEADER + "".join(f"{day},1,8\n" for day in days))
    # Line 4 jumps back and line 5 follows it; line 6 stands twice; line 7 jumps back once more.
    assert problems == [("record-order", 4), ("record-duplicate", 6), ("record-order", 7)]


@pytest.mark.parametrize(("before", "found"), [(6, True), (7, True), (59, True), (60, False)])
def test_the_header_stands_within_the_first_sixty_lines(
    tmp_path: Path, before: int, found: bool
) -> None:
    text = "".join(f"a remark {number}\n" for number in range(before)) + HEADER
    kept, problems = read(tmp_path, text + "2012-01-01,1,8\n2012-01-02,1,8\n")
    assert (kept is not None) is found
    assert [code for code, _ in problems] == ([] if found else ["record-header"])


def test_a_doubt_about_a_reading_that_is_not_there_is_not_counted(tmp_path: Path) -> None:
    head = "DATE,TMIN,TMIN_ATTRIBUTES,TMAX,TMAX_ATTRIBUTES\n"
    rows = [
        '2012-07-01,100,",,W",200,",,W"',
        '2012-07-02,100,",I,W",200,",,W"',  # a doubted minimum
        '2012-07-03,,",I,W",,",I,W"',  # nothing there to doubt
        '2012-07-04,100,",,W",,",I,W"',  # nor here
        '2012-07-05,100,",,W",200,",I,W"',  # a doubted maximum
    ]
    kept, _ = read(tmp_path, head + "\n".join(rows) + "\n")
    assert kept is not None
    assert kept.flagged == 2


# Exactly half, exactly the share asked for


@pytest.mark.parametrize(
    ("odds", "verdict"),
    [
        (0.8, Verdict.SAFE),
        (0.1 + 0.7, Verdict.SAFE),  # 0.7999999999999999
        (0.79, Verdict.CHANCY),
        (0.5, Verdict.CHANCY),
        (1 - 0.8 + 0.3, Verdict.CHANCY),  # 0.49999999999999994
        (0.49, Verdict.TOO_LATE),
    ],
)
def test_the_share_asked_for_is_enough_and_even_odds_are_chancy(
    odds: float, verdict: Verdict
) -> None:
    chances = Chances(odds, None, None, False)
    assert verdict_of(chances, early=False, sure=Sure(0.8, None)) is verdict


@pytest.mark.parametrize(("worth", "poor"), [(0.5, False), (0.49, True)])
def test_a_year_with_half_of_the_range_worth_while_is_no_poor_one(worth: float, poor: bool) -> None:
    day = date(2010, 9, 1)
    told = YearTold(2010, (day, day), day, EndedBy.FROST, 3.0, worth)
    assert told.is_poor is poor


def test_a_week_just_at_the_limit_sets_fruit() -> None:
    # Means of 30.0 are not over 30; one day of 30.7 in seven makes 30.1.
    for warmer, hot in ((30.0, []), (30.7, list(range(7, 14)))):
        highs = [30.0] * 21
        highs[10] = warmer
        assert list(too_hot_to_set([nan] * 21, highs, high=30.0, low=None)) == hot


def test_the_share_of_years_is_over_all_of_them() -> None:
    gap = gap_of([5, 105], [0, 100, 200, 300], date(2026, 7, 1), 10, years=True)
    assert gap is not None
    assert (gap.share, gap.years) == (0.5, 4)
    assert (gap.first, gap.last) == (date(2026, 7, 6), date(2026, 7, 6))
    assert LITTLE_FRUIT.code == "fruit-set"


# Light


@pytest.mark.parametrize(
    ("year", "longest"), [(2024, 20), (2025, 21), (2026, 21), (2027, 21), (2028, 20)]
)
def test_the_longest_day_is_that_of_the_solstice(year: int, longest: int) -> None:
    """The noon nearest to a solstice is on the day given.

    Solstices, UTC, from memory: 20 June 2024 20:51, 21 June 2025 02:42, 21 June 2026 08:25, 21 June
    2027 14:11, 20 June 2028 20:02.
    """
    growing = GrowingYear(year, south=False)
    # No day at 45° has 24 hours: then the longest day begins the short ones, and ends them.
    assert first_below(24, 45.0, growing) == date(year, 6, longest)
    assert last_below(24, 45.0, growing) == date(year, 6, longest)


def test_a_frost_of_fewer_years_than_asked_for_has_no_day() -> None:
    # Winters come down to -2 °C, give or take 3: to 0 °C in Φ(0.667) = 74.75 of 100, to -4.4 °C in
    # Φ(-0.8) = 21.19. Of the years with the frost that is dated 28.3 in 100 have the colder one:
    # it has a day with 20 in 100 beyond it, and none with 30 or 50.
    (dates,) = gardens.read(gardens.text()).site.frost
    for half in Half:
        found = FrostHalf(half, (dates,), FrostDepth(-2.0))
        assert found.nearest_day(at=-4.4, share=0.2) is not None
        assert found.first_safe(at=-4.4, share=0.2) is not None
        for share in (0.3, 0.5):
            assert found.nearest_day(at=-4.4, share=share) is None
            assert found.first_safe(at=-4.4, share=share) is None
    survival = Survival(FrostHalf(Half.AUTUMN, (dates,), FrostDepth(-2.0)), at=-4.4, later=0)
    assert survival.end is None


@pytest.mark.parametrize(
    ("half", "share", "safe", "nearest"),
    [
        # Of 28.34 years in 100 with such a frost 20 are 70.57 % and 10 are 35.28 %, whose deviates
        # are 0.541 and 0.378: 5.95 and 4.15 days of a spread of 11. 4.4 °C are 7.92 °F, 23.76 days.
        (Half.SPRING, 0.2, date(2026, 4, 11), date(2026, 4, 10)),  # 10 May less 29.71
        (Half.SPRING, 0.1, date(2026, 4, 21), date(2026, 4, 20)),  # less 19.61
        (Half.AUTUMN, 0.2, date(2026, 10, 31), date(2026, 10, 31)),  # 1 October and 29.71
        (Half.AUTUMN, 0.1, date(2026, 10, 21), date(2026, 10, 21)),  # and 19.61
    ],
)
def test_of_a_frost_that_few_years_have_the_share_is_of_all_years(
    half: Half, share: float, safe: date, nearest: date
) -> None:
    (dates,) = gardens.read(gardens.text()).site.frost
    found = FrostHalf(half, (dates,), FrostDepth(-2.0))
    assert found.first_safe(at=-4.4, share=share) == safe.toordinal()
    assert found.nearest_day(at=-4.4, share=share) == nearest.toordinal()
    assert found.odds(nearest.toordinal(), at=-4.4) == pytest.approx(share, abs=0.01)


@pytest.mark.parametrize(("ground", "nights"), [(100, 120), (120, 100), (110, 110)])
def test_soil_and_nights_are_both_waited_for(ground: int, nights: int) -> None:
    # Too cold before so many days from 1 January, warm from then on; the later of the two counts.
    air = [0.0] * ground + [25.0] * (365 - ground)
    lows = [0.0] * nights + [15.0] * (365 - nights)
    found = DailyYear(air, lows, GrowingYear(2026, south=False))
    both = found.warm_from(soil=12.0, nights=10.0, origin=OURS)
    assert both is not None
    assert (both.day - date(2026, 1, 1)).days == max(ground, nights)


@pytest.mark.parametrize("years_on", [-1, 1])
def test_a_day_of_another_growing_year_fares_as_its_like_of_this_one(years_on: int) -> None:
    on = gardens.season(gardens.text(crops=[gardens.crop(days_to_harvest="50-60")]))
    fruit = gardens.crop_called(on, "fruit")
    need, waves = on.conditions.prospects(fruit, fruit.raised).need, on.climate.waves
    # Late in July frost may cut it short; in the middle of September some of it is picked.
    planted, since = date(2026, 7, 25), date(2026, 9, 20)
    other = planted.replace(year=2026 + years_on), since.replace(year=2026 + years_on)
    assert 0.01 < waves.chances(planted, need).odds < 0.99
    assert waves.chances(other[0], need) == waves.chances(planted, need)
    assert 0 < waves.left(planted, need, since).days < 14
    assert waves.left(other[0], need, other[1]) == waves.left(planted, need, since)


class _EveryOther:
    """First frosts on day 100 in half of the years, and none in the others."""

    def odds(self, day: int, *, at: float) -> float:
        return 0.5 if day > 100 else 0.0

    def reach(self, at: float) -> tuple[int, int]:
        return 99, 101

    def nearest_day(self, *, at: float, share: float) -> int | None:
        return None


def test_just_as_many_years_without_an_end_as_stand_for_that_have_none() -> None:
    # The middle one of an odd number of years stands for the half: nothing ends it.
    survival = Survival(_EveryOther(), at=0.0, later=0)  # type: ignore[arg-type]
    assert survival.ends(1) == [NEVER]
    assert survival.ends(3) == [100, NEVER, NEVER]


@pytest.mark.parametrize(("grown", "enough"), [(0.75, 1.0), (0.7499, 0.0)])
def test_three_quarters_grown_by_an_average_year_are_enough(grown: float, enough: float) -> None:
    class AverageYear:
        def grown(self, planted: Dated, need: Need) -> float:
            return grown

    on = gardens.season(gardens.text(too_hot="none"))
    fruit = gardens.crop_called(on, "fruit")
    fates = FatesByFrosts(
        on.climate.frosts,  # type: ignore[arg-type]
        on.garden.year,
        site=on.garden.site,
        normal=AverageYear(),  # type: ignore[arg-type]
    )
    need = on.conditions.prospects(fruit, fruit.raised).need
    assert fates.grown_enough(date(2026, 9, 1), need, 0.75) == enough
