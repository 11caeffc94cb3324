"""Waves that stand over the winter: grown on long and warm days only, against counts by hand."""

from __future__ import annotations

from array import array
from datetime import date, timedelta
from math import cos, inf, nan, pi
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from astral import Observer
from astral.sun import daylight

import replayed
from printed import why_text
from sowtide.climate.answers import Need, Warmth, Winter
from sowtide.climate.medians import NEVER
from sowtide.climate.record.record import Record
from sowtide.climate.warmth import over_winter
from sowtide.climate.warmth.over_winter import Standing, Wintered, standing_of, wintered
from sowtide.days import DayRange, GrowingYear
from sowtide.garden.crop import AfterFrost, HeatMethod
from sowtide.garden.model import Garden
from sowtide.garden.read import read_garden
from sowtide.reasons import OURS, Dated
from sowtide.schedule.season import Season
from sowtide.schedule.waves.wave import Judged
from sowtide.season import season_of
from sowtide.units import Units

NORTH = GrowingYear(2026, south=False)
CROP = "winter spinach: {like: spinach, overwinters: yes, days_to_harvest: 40-50}"


def warmth(*, low: float = 30, high: float = 40, least: int = 3) -> Warmth:
    return Warmth(5.0, None, HeatMethod.CLIP, low, high, 11, least)


def grown(stand: Standing, means: list[float], needs: Warmth) -> Wintered:
    """Grow a wave on days that bring their mean less the base of 5, none below it."""
    heat = [0.0]
    for mean in means:
        heat.append(heat[-1] + max(mean - 5, 0))
    return wintered(0, stand, needs, heat, means)


def test_only_long_and_warm_days_count() -> None:
    # Two long days of 10 units, three short ones, a long one too cold, then long and warm again.
    stand = Standing((True, True, False, False, False, True, True, True, True), 2)
    found = grown(stand, [15, 15, 15, 15, 15, 4, 15, 15, 15], warmth())
    # 20 units before the short days; 30 with the seventh day, 40 with the eighth. The first pick
    # comes the day after. Of 35, the middle, 20 are 57 %.
    assert (found.early, found.late, found.grown) == (7, 8, pytest.approx(20 / 35))


def test_a_day_whose_mean_is_below_the_base_brings_nothing_though_its_noon_is_warm() -> None:
    stand = Standing((True,) * 4, None)
    # 12 and −4 °C: a mean of 4, and 3.5 units by the clipped count, which are left out.
    found = wintered(0, stand, warmth(low=3, high=3, least=1), [0, 3.5, 7, 10, 13], [4, 4, 8, 8])
    assert found.early == 3


def test_the_fewest_days_are_counted_in_growing_days_too() -> None:
    stand = Standing((True, True, False, False, True, True), 2)
    found = grown(stand, [60, 60, 60, 60, 60, 60], warmth(least=4))
    assert (found.early, found.late) == (6, 6)  # the fourth growing day is the sixth
    assert found.grown == 0.5  # two of four days, whatever the warmth


@pytest.mark.parametrize(("part", "enough"), [(0.75, True), (0.7499, False)])
def test_just_three_quarters_are_grown_far_enough(part: float, enough: bool) -> None:
    need = Need(
        days=DayRange(30, 40),
        days_text="days to harvest",
        days_origin=OURS,
        cool=True,
        picking=14,
        worthwhile=14,
        killed_at=-6.7,
        after_frost=AfterFrost.ENDS,
        heat_ends=False,
        holds_in_heat=0,
        warmth=warmth(),
        warm_limit=None,
    )
    found = over_winter.winter_of(
        Dated.on(date(2026, 10, 1), "written", "planted", OURS),
        need,
        [Wintered(early=7, late=8, grown=part)],
        Standing((True,) * 9, 5),
        units=Units.METRIC,
        years=True,
    )
    assert found is not None
    assert (found.first_pick is not None, found.enough) == (enough, enough)


def test_how_far_it_is_grown_is_told_alike_with_its_days_and_without() -> None:
    # Planted on the third day, which the short days follow after four. The second of those is below
    # its base; the others bring 10, 12 and 14 degrees of the 35 that it needs in the middle.
    means = [15.0, 15, 15, 4, 17, 19, 19, 15, 15, 15]
    heat = [0.0, 10, 20, 30, 30, 42, 56, 70, 80, 90, 100]
    stand = Standing((True,) * 4 + (False, True, True, True), 4)
    needs = warmth(least=3)
    found = over_winter.grown_by(2, 4, stand, needs, heat, means)
    assert found == wintered(2, stand, needs, heat, means).grown
    assert found == 1.0  # 36 of 35
    less = warmth(low=60, high=84, least=3)
    assert over_winter.grown_by(2, 4, stand, less, heat, means) == 36 / 72
    assert over_winter.grown_by(2, 3, stand, less, heat, means) == 22 / 72
    assert over_winter.grown_by(2, 0, stand, less, heat, means) == 0
    # Three days that it grew, of twelve that it takes at the least
    assert over_winter.grown_by(2, 4, stand, warmth(least=12), heat, means) == 0.25
    # The dark day, the fifth, brings nothing
    assert over_winter.grown_by(2, 6, stand, less, heat, means) == 46 / 72
    exact = [15.0, 15, 5, 5, 5, 5, 19, 15, 15, 15]  # its base is warm enough
    bare = over_winter.grown_by(2, 4, stand, warmth(least=8), [0.0] * 11, exact)
    assert bare == 0
    flat = [0.0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100]
    assert over_winter.grown_by(2, 4, stand, warmth(least=8), flat, exact) == 0.5


@pytest.mark.parametrize(("place", "freezes"), [("clemson", False), ("fulda", True)])
def test_ground_that_freezes_in_few_winters_ends_nothing(place: str, freezes: bool) -> None:
    on = replayed.season(replayed.record(place), latitude=replayed.LATITUDES[place])
    end = on.climate.waves.frost_end(replayed.prospects(on, "carrot").need)
    assert (end is not None) is freezes
    if end is not None:
        assert date(2026, 11, 1) < end.day < date(2027, 3, 1)


def test_a_wave_that_stands_the_winter_has_no_verdict_and_is_as_good_as_any() -> None:
    crops = ("winter onion: {like: onion, overwinters: yes, days_to_harvest: 250-280}",)
    on = replayed.season(replayed.record("wageningen"), latitude=52.0, crops=crops)
    crop = next(each for each in on.garden.crops if each.name == "winter onion")
    found = on.conditions.prospects(crop, crop.raised_unless_said)
    assert found.promise(date(2026, 9, 20)) == (1.0, None)
    judged = found.judge_on(date(2026, 9, 20))
    assert (judged.verdict, judged.odds, judged.years) == (None, None, None)
    assert (judged.spring_loss, judged.winter_kills, judged.may_bolt) == (0, False, False)


def test_what_is_not_ripe_by_midsummer_never_is() -> None:
    found = grown(Standing((True, True), None), [15, 15], warmth())
    assert (found.early, found.late, found.grown) == (NEVER, NEVER, 1.0)


def test_a_stand_runs_to_the_midsummer_after_the_winter() -> None:
    stand = standing_of(date(2026, 9, 1), 40.0, NORTH)
    assert len(stand.bright) == (date(2027, 7, 1) - date(2026, 9, 1)).days
    assert stand.short_from is not None
    assert date(2026, 9, 1) + timedelta(stand.short_from) == date(2026, 11, 15)
    assert stand.bright[stand.short_from - 1]
    assert not stand.bright[stand.short_from]
    assert standing_of(date(2026, 12, 1), 40.0, NORTH).short_from == 0
    assert standing_of(date(2026, 9, 1), 10.0, NORTH).short_from is None


def test_the_south_is_the_mirror() -> None:
    south = GrowingYear(2026, south=True)
    stand = standing_of(date(2027, 3, 1), -40.0, south)
    assert len(stand.bright) == (date(2028, 1, 1) - date(2027, 3, 1)).days
    assert stand.short_from is not None
    assert date(2027, 5, 1) < date(2027, 3, 1) + timedelta(stand.short_from) < date(2027, 6, 1)


def by_hand(kept: Record, planted: date, needs: Warmth, latitude: float) -> tuple[float, float]:
    """Days to the first pick at both ends, told in numpy with the day lengths of astral."""
    at = (planted - kept.first).days
    days = (date(planted.year + 1, 7, 1) - planted).days
    assert kept.tmax is not None
    low, high = np.array(kept.tmin[at : at + days]), np.array(kept.tmax[at : at + days])
    if len(low) < days or np.isnan(low + high).any():
        return nan, nan
    # Days are as long as in the year planned: in a leap year they shift by a quarter of a day.
    begun = replayed.same_day(planted, 2026)
    sun = np.array([_hours(begun + timedelta(number), latitude) for number in range(days)])
    counts = (sun >= 10) & ((low + high) / 2 >= needs.base)
    light = replayed.sunlight(latitude, [planted + timedelta(number) for number in range(days)])
    brings = replayed.grown(low, high, needs, light)
    heat, enough = np.cumsum(brings * counts), np.cumsum(counts) >= needs.least
    ends = []
    for total in (needs.low, needs.high):
        ripe = np.flatnonzero((heat >= total - 1e-9) & enough)
        ends.append(float(ripe[0]) + 1 if len(ripe) else inf)
    return ends[0], ends[1]


def _hours(day: date, latitude: float) -> float:
    rise, fall = daylight(Observer(latitude, 0, 0), day, tzinfo=ZoneInfo("UTC"))
    return (fall - rise).total_seconds() / 3600


def test_wageningens_winters_equal_an_independent_telling() -> None:
    kept = replayed.record("wageningen")
    season = replayed.season(
        kept,
        "{crop: winter spinach, plants: 10, from: 08-29}",
        latitude=52.0,
        years="1980-1989",
        crops=(CROP,),
    )
    wave = season.waves[0]
    needs = season.prospects(wave).need.warmth
    assert needs is not None
    told = [by_hand(kept, date(year, 8, 29), needs, 52.0) for year in range(1980, 1990)]
    expected = np.median(np.array(told), axis=0)
    first = wave.stages.first_pick
    assert first is not None
    days = [(each.day - date(2026, 8, 29)).days for each in first]
    assert days == [int(each + 0.5) for each in expected]
    assert days[0] > 40  # October is no good weather for spinach


def winter_of(season: Season) -> Judged:
    return season.waves[0].judged


def on_wageningen(
    planted: str, crops: tuple[str, ...] = (CROP,), name: str = "winter spinach"
) -> Season:
    return replayed.season(
        replayed.record("wageningen"),
        f"{{crop: {name}, plants: 10, from: {planted}}}",
        latitude=52.0,
        crops=crops,
    )


def test_a_wave_too_small_before_the_short_days_gets_no_date() -> None:
    """The three quarters are published.

    K. Heflick, Michigan State University Student Organic Farm, in Vegetable Growers News, 1 May
    2019: three quarters mature by the last day of ten hours.
    """
    early, late = on_wageningen("08-29"), on_wageningen("09-26")
    winter = winter_of(early).winter
    assert winter is not None
    assert winter.enough
    assert winter_of(early).stages.first_pick is not None
    winter = winter_of(late).winter
    assert winter is not None
    assert not winter.enough
    assert winter.short_from == date(2026, 10, 26)
    assert winter_of(late).stages.first_pick is None
    assert winter_of(late).stages.pull_out.day == date(2027, 7, 1)
    (problem,) = [each for each in late.problems if each.code == "no-winter-date"]
    assert "days fall under 10 hours, 26 Oct" in problem.message
    assert not [each for each in early.problems if each.code == "no-winter-date"]


def test_what_counts_its_winter_into_its_days_is_not_to_be_grown_before_it() -> None:
    text = NORMALS[: NORMALS.index("  - {crop")]
    for fewest, needs_it in ((184, False), (185, True)):  # 1 July to 1 January: 184 days
        days = text.replace("days_to_harvest: 40-50", f"days_to_harvest: {fewest}-200")
        entry = "  - {crop: winter spinach, plants: 10, from: 10-01}\n"
        found = season_of(garden(days + entry), date(2026, 4, 1))
        (problem,) = [each for each in found.problems if each.code == "no-winter-date"]
        assert problem.hint is not None
        assert ("three quarters" not in problem.hint) is needs_it
        assert ("needs its winter" in problem.message) is needs_it


def test_later_plantings_are_less_grown() -> None:
    shares = []
    for planted in ("08-15", "08-29", "09-12", "09-26", "10-10"):
        winter = winter_of(on_wageningen(planted)).winter
        assert winter is not None
        shares.append((winter.grown, winter.grown_enough))
    assert shares == sorted(shares, reverse=True)
    assert shares[0] == (1.0, 1.0)
    assert shares[-1][1] == 0


def test_ready_dates_go_before_growth() -> None:
    crops = (CROP.replace("}", ", ready: 04-01..04-20}"),)
    judged = winter_of(on_wageningen("08-29", crops))
    assert judged.winter is None
    assert judged.stages.first_pick is not None
    assert judged.stages.first_pick[0].day == date(2027, 4, 1)


@pytest.mark.parametrize(
    ("planted", "like", "days"), [("10-10", "shallot", "240-270"), ("07-05", "kale", "280-315")]
)
def test_what_needs_its_winter_is_not_ripened_by_a_warm_autumn(
    planted: str, like: str, days: str
) -> None:
    """Their days count the winter in: without `ready` dates nobody can say."""
    own = f"own: {{like: {like}, overwinters: yes, days_to_harvest: {days}}}"
    judged = winter_of(on_wageningen(planted, (own,), "own"))
    assert judged.winter is not None
    assert not judged.winter.enough
    assert judged.stages.first_pick is None


NORMALS = """
site:
  name: Plot
  latitude: 43.1
  units: us
  frost:
    last: 05-08
    first: 10-02
    normals:
      max: [27, 31, 42, 57, 69, 78, 82, 80, 72, 59, 44, 32]
      min: [11, 14, 24, 35, 46, 56, 60, 58, 50, 38, 28, 17]
season: 2026
beds: [{bed: North, size: 40 x 100}]
crops:
  winter spinach: {like: spinach, overwinters: yes, days_to_harvest: 40-50}
waves:
  - {crop: winter spinach, plants: 10, from: 08-25, every: 28, count: 2}
"""


def garden(text: str) -> Garden:
    reading = read_garden(text.encode(), "garden.yaml")
    assert reading.garden is not None, reading.problems
    return reading.garden


def test_normals_tell_of_the_average_winter() -> None:
    season = season_of(garden(NORMALS), date(2026, 4, 1))
    early, late = (wave.judged for wave in season.waves)
    assert early.winter is not None
    assert early.winter.years is None
    assert early.winter.enough
    assert early.stages.first_pick is not None
    assert late.winter is not None
    assert not late.winter.enough
    without = "\n".join(line for line in NORMALS.splitlines() if "normals" not in line)
    without = without.replace("      max: [27, 31, 42, 57, 69, 78, 82, 80, 72, 59, 44, 32]\n", "")
    without = without.replace("      min: [11, 14, 24, 35, 46, 56, 60, 58, 50, 38, 28, 17]\n", "")
    unknown = season_of(garden(without), date(2026, 4, 1)).waves[0].judged
    assert unknown.winter is None
    assert unknown.stages.first_pick is None


def test_waves_of_one_day_get_on_alike() -> None:
    entries = [
        f"  - {{crop: winter spinach, name: {name}, plants: 10, from: {day}}}\n"
        for day in ("08-25", "09-25")
        for name in (f"one of {day}", f"two of {day}")
    ]
    text = NORMALS[: NORMALS.index("  - {crop")] + "".join(entries)
    season = season_of(garden(text), date(2026, 4, 1))
    early, early_too, late, late_too = (wave.judged for wave in season.waves)
    for one, two in ((early, early_too), (late, late_too)):
        assert one.winter is not None
        assert two.winter is not None
        assert one.winter.grown == two.winter.grown
        assert two.winter.first_pick == two.stages.first_pick  # counted from its own line
    assert early_too.stages.first_pick is not None
    said = [each.message for each in season.problems if each.code == "no-winter-date"]
    assert len(said) == 2
    assert all("% grown when the days fall under 10 hours" in each for each in said)
    assert late_too.winter is not None
    assert not late_too.winter.enough


def test_why_says_how_far_a_wave_is_grown() -> None:
    season = on_wageningen("08-29")
    text = " ".join(" ".join(why_text(season.waves[0], season, width=80)).split())
    assert "it stands over the winter" in text
    assert "When the days fall under 10 hours, 26 Oct, it is about" in text
    assert "three quarters are enough" in text
    assert "gathered on days of 10 hours or more" in text


def cold_snap(day: date) -> float:
    return 9 - 9 * cos(2 * pi * (day.timetuple().tm_yday - 20) / 365)


def test_a_year_with_a_gap_in_the_winter_is_left_out() -> None:
    first, last = date(2010, 1, 1), date(2020, 12, 31)
    means = [cold_snap(first + timedelta(each)) for each in range((last - first).days + 1)]
    lows = array("d", [mean - 5 for mean in means])
    highs = array("d", [mean + 5 for mean in means])
    found: list[Winter] = []
    for hole in (None, date(2015, 2, 3)):
        if hole is not None:
            lows[(hole - first).days] = nan
        record = Record("made-up", None, first, lows, highs, 0.1, False)
        season = replayed.season(
            record, "{crop: winter spinach, plants: 10, from: 08-25}", latitude=52, crops=(CROP,)
        )
        winter = winter_of(season).winter
        assert winter is not None
        found.append(winter)
    # The last of the eleven years has no spring behind it.
    assert [each.years for each in found] == [10, 9]


@pytest.mark.parametrize(
    "more", ["", ", warmest_month: 17, coldest_month: 4"], ids=["dates", "two"]
)
@pytest.mark.parametrize(
    ("latitude", "frost", "planted", "held_until"),
    [
        (52, "last: 05-01, first: 10-25", "06-20", date(2027, 7, 1)),
        (52, "last: 05-01, first: 10-25", "07-20", date(2027, 7, 1)),
        (-45, "last: 10-01, first: 05-01", "2026-12-20", date(2028, 1, 1)),
    ],
)
def test_what_is_cut_in_spring_holds_its_bed_over_the_winter_though_planted_before_midsummer(
    more: str, latitude: int, frost: str, planted: str, held_until: date
) -> None:
    # Its 280 days and more run past the year: to the midsummer after the winter that it stands,
    # not to that of eleven days on.
    text = (
        f"site: {{name: A, latitude: {latitude}, units: metric, frost: {{{frost}}}{more}}}\n"
        "season: 2026\nbeds: [{bed: North, size: 5 x 5}]\ncrops:\n"
        "  spring kale: {like: kale, raised: trays, overwinters: yes, days_to_harvest: 280-315}\n"
        f"waves:\n  - {{crop: spring kale, plants: 9, from: {planted}}}\n"
    )
    garden = read_garden(text.encode(), "garden.yaml").garden
    assert garden is not None
    (wave,) = season_of(garden, date(2026, 7, 1)).waves
    assert wave.judged.verdict is None
    assert wave.stages.pull_out.day == held_until
