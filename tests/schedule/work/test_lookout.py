"""What to look for when: sums of warmth against an independent count, and what is said of them."""

from __future__ import annotations

import json
from array import array
from datetime import date, timedelta

import numpy as np
import pytest

import replayed
from printed import calendar_text, week_form, week_text
from sowtide.climate.frost_record.record_years import RecordYears
from sowtide.climate.record.record import Record
from sowtide.climate.warmth.reached import Reached, days_until, reached_in
from sowtide.diagnostics import Severity
from sowtide.garden.read import read_garden
from sowtide.schedule.season import Season
from sowtide.schedule.work.week import week_sheets
from sowtide.season import season_of

MOTHS = "{look_for: squash vine borer moths, base: 50, total: 1000}"


def season(
    kept: Record | None,
    *watches: str,
    today: date = date(2026, 1, 1),
    frost: str = "{record: station.csv}",
    latitude: float = 34.7,
    years: str = "",
) -> Season:
    """Return the season of a garden that watches, on a record or without one."""
    lines = [
        f"site: {{name: Plot, latitude: {latitude}, units: us, frost: {frost}}}",
        "season: 2026",
        "beds: [{bed: North, size: 4 x 20}]",
        "waves: [{crop: bush bean, plants: 4, from: 06-01}]",
        "watch:",
        *(f"  - {watch}" for watch in watches),
    ]
    reading = read_garden(
        "\n".join(lines).replace("station.csv", f"station.csv{years}").encode(), "g"
    )
    assert reading.garden is not None, reading.problems
    garden = reading.garden
    if kept is None:
        return season_of(garden, today)
    assert garden.site.record is not None
    wanted = garden.site.record.years
    used = RecordYears(kept, south=garden.year.south, wanted=wanted, before=garden.year)
    return season_of(garden, today, used)


def found(on: Season) -> Reached:
    (lookout,) = on.lookouts
    assert lookout.reached is not None
    return lookout.reached


def steady(first: date, last: date, mean: float, *, spread: float = 5) -> Record:
    """A record of the same temperatures every day. [°C]"""
    days = (last - first).days + 1
    lows, highs = array("d", [mean - spread] * days), array("d", [mean + spread] * days)
    return Record("made-up", None, first, lows, highs, 0.1, False)


def test_a_sum_is_complete_on_the_day_that_completes_it() -> None:
    # Ten degrees over the base each day: 100 are complete with the tenth day, counted from 0.
    heat = [10.0 * day for day in range(40)]
    assert days_until(heat, 3, 100, stop=39) == 9
    assert days_until(heat, 3, 100, stop=13) == 9
    assert days_until(heat, 3, 100, stop=12) == np.inf


def test_steady_warmth() -> None:
    kept = steady(date(2000, 1, 1), date(2020, 12, 31), 20)
    # 20 °C is 68 °F: 18 °F-days a day over 50; 1,000 with the 56th day, 25 February.
    assert found(season(kept, MOTHS)) == Reached(
        date(2026, 2, 25), date(2026, 2, 25), date(2026, 2, 25), 21
    )
    later = MOTHS.replace("}", ", from: 03-01}")
    assert found(season(kept, later)).day == date(2026, 3, 1) + timedelta(days=55)


@pytest.mark.parametrize(
    ("method", "upper", "a_day"),
    [
        # 5 and 35 °C over a base of 10 with an upper limit of 30: CLIMATE figures of three methods.
        ("average", None, 10.0),
        ("clip", 86, (0 + 20) / 2),
        ("clip", None, 12.5),
    ],
)
def test_the_method_is_the_entrys_own(method: str, upper: int | None, a_day: float) -> None:
    kept = steady(date(2000, 1, 1), date(2020, 12, 31), 20, spread=15)
    more = "" if upper is None else f", upper: {upper}"
    watch = MOTHS.replace("}", f", method: {method}{more}}}").replace("1000", "900")
    days = int(np.ceil(500 / a_day))  # 900 °F-days are 500 °C-days
    assert found(season(kept, watch)).day == date(2026, 1, 1) + timedelta(days=days - 1)


def test_clemsons_days_equal_an_independent_count() -> None:
    """1,000 °F-days above 50 °F for moths of the squash vine borer: South Dakota State University.

    Counted here with numpy, the mean of the two less the base, never less than nothing. What the
    moths do at Clemson is not known to us: this holds the count, not the insect.
    """
    kept = replayed.record("clemson")
    reached = found(season(kept, MOTHS, years=", years: 1951-1980"))
    assert kept.tmax is not None
    days = []
    for year in range(1951, 1981):
        at = (date(year, 1, 1) - kept.first).days
        low, high = np.array(kept.tmin[at : at + 365]), np.array(kept.tmax[at : at + 365])
        heat = np.cumsum(np.maximum((low + high) / 2 - 10, 0))
        after = int(np.searchsorted(heat, 1000 * 5 / 9 - 1e-9))
        if np.isnan(heat[after]):
            continue
        leap = year % 4 == 0 and after > 58
        days.append(after - leap)
    assert reached.years == len(days)
    for share, day in ((0.1, reached.early), (0.5, reached.day), (0.9, reached.late)):
        assert day is not None
        # 29 February lies between: a leap year's day may be one off in the count from 1 January.
        assert abs((day - date(2026, 1, 1)).days - np.quantile(days, share)) <= 1


def test_a_year_with_a_gap_before_the_day_is_left_out_and_one_with_it_after_is_not() -> None:
    kept = steady(date(2000, 1, 1), date(2020, 12, 31), 20)
    lows = array("d", kept.tmin)
    lows[(date(2005, 2, 1) - kept.first).days] = np.nan
    lows[(date(2006, 5, 1) - kept.first).days] = np.nan
    holed = Record("made-up", None, kept.first, lows, kept.tmax, 0.1, False)
    assert found(season(holed, MOTHS)).years == 20


def test_between_a_day_and_never_it_is_never() -> None:
    start = date(2026, 1, 1)
    assert reached_in([10.0, np.inf, np.inf], start, years=True) == Reached(None, None, None, 3)
    assert reached_in([10.0, 20.0, 30.0], start, years=True) == Reached(
        date(2026, 1, 21), date(2026, 1, 13), date(2026, 1, 29), 3
    )
    assert reached_in([], start, years=True) is None


def test_this_seasons_own_days_count() -> None:
    usual = steady(date(2000, 1, 1), date(2025, 12, 31), 15)
    days = (date(2026, 3, 31) - usual.first).days + 1
    warm = [
        20.0 if usual.first + timedelta(each) >= date(2026, 1, 1) else 15.0 for each in range(days)
    ]
    lows = array("d", [each - 5 for each in warm])
    highs = array("d", [each + 5 for each in warm])
    kept = Record("made-up", None, usual.first, lows, highs, 0.1, False)
    # 9 °F-days a day in all years, 18 this year: after 31 days of them 558, then 9 a day.
    january = found(season(kept, MOTHS, today=date(2026, 2, 1)))
    assert january.day == date(2026, 2, 1) + timedelta(days=(1000 - 558 + 8) // 9 - 1)
    march = season(kept, MOTHS, today=date(2026, 3, 15))
    assert found(march).day == date(2026, 2, 25)
    text = "\n".join(calendar_text(march, width=80))
    assert "LOOK FOR: squash vine borer moths on 25 Feb" in text


def test_normals_give_one_day() -> None:
    frost = (
        "{last: 05-08, first: 10-02, normals: "
        "{max: [27, 31, 42, 57, 69, 78, 82, 80, 72, 59, 44, 32], "
        "min: [11, 14, 24, 35, 46, 56, 60, 58, 50, 38, 28, 17]}}"
    )
    on = season(None, MOTHS, frost=frost, latitude=43.1)
    reached = found(on)
    assert reached.years is None
    assert reached.day == reached.early == reached.late
    assert reached.day is not None
    # April's mean is 46 °F, May's 57.5, June's 67, July's 71: 232 by the end of May without the
    # warm days of April, 742 by the end of June, 1,000 about twelve days later.
    assert date(2026, 7, 1) <= reached.day <= date(2026, 7, 20)


def test_the_south_counts_from_its_own_midwinter() -> None:
    kept = steady(date(2000, 1, 1), date(2020, 12, 31), 20)
    assert found(season(kept, MOTHS, latitude=-34.7)).day == date(2026, 7, 1) + timedelta(days=55)


def test_without_temperatures_nobody_can_say() -> None:
    on = season(None, MOTHS, frost="{last: 04-08, first: 10-22}")
    (problem,) = [each for each in on.problems if each.code == "watch-unknown"]
    assert problem.severity is Severity.NOTE
    assert on.lookouts[0].reached is None
    assert "LOOK FOR" not in "\n".join(calendar_text(on, width=80))


def test_a_sum_that_is_not_reached_is_said_to_be_so() -> None:
    kept = steady(date(2000, 1, 1), date(2020, 12, 31), 20)
    on = season(kept, MOTHS.replace("1000", "9000"))
    (problem,) = [each for each in on.problems if each.code == "watch-never"]
    assert "in most years less than 9000 °F·d above 50 °F gathers here" in problem.message
    assert not [each for each in season(kept, MOTHS).problems if each.code.startswith("watch")]


def sheet_of(on: Season, first: date) -> str:
    (sheet,) = week_sheets(on.garden, on.waves, first, weeks=1)
    return "\n".join(week_text(sheet, on, width=80, by="bed"))


def test_the_sheet_says_it_from_the_week_before_the_early_day_to_the_late_one() -> None:
    on = season(replayed.record("clemson"), MOTHS, years=", years: last 30")
    reached = found(on)
    assert reached.early is not None
    assert reached.late is not None
    monday = reached.early - timedelta(days=reached.early.weekday())
    assert "LOOK FOR" not in sheet_of(on, monday - timedelta(weeks=2))
    for week in (
        monday - timedelta(weeks=1),
        monday,
        reached.late - timedelta(days=6),
        reached.late,
    ):
        assert "squash vine borer moths: about 2" in sheet_of(on, week)
    assert "LOOK FOR" not in sheet_of(on, reached.late + timedelta(days=1))


def test_the_week_as_json() -> None:
    on = season(replayed.record("clemson"), MOTHS, years=", years: last 30")
    day = found(on).day
    assert day is not None
    (sheet,) = week_sheets(on.garden, on.waves, day - timedelta(days=3), weeks=1)
    (said,) = json.loads(week_form((sheet,), on, "json"))["look_for"]
    assert said["what"] == "squash vine borer moths"
    assert said["date"] == day.isoformat()
    assert (said["base_c"], said["total_c_days"]) == (10.0, 555.6)
    assert said["since"] == "2026-01-01"
    (far,) = week_sheets(on.garden, on.waves, date(2026, 11, 2), weeks=1)
    assert json.loads(week_form((far,), on, "json"))["look_for"] == []
