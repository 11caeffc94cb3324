"""Heat in flower: days too hot to set fruit counted by hand, and the gap they leave in picking."""

from __future__ import annotations

from array import array
from datetime import date, timedelta
from math import nan

import numpy as np
import pytest

import gardens
import replayed
from printed import why_text
from sowtide.climate.record.record import Record
from sowtide.climate.warmth.fruit_set import FruitGap, gap_of, too_hot_to_set
from sowtide.days import DateSpan
from sowtide.diagnostics import Severity
from sowtide.garden.read import read_garden
from sowtide.schedule.season import Season
from sowtide.season import season_of
from sowtide.units import celsius

HIGH, LOW = celsius(92), celsius(72)
TOMATO = "{crop: tomato, plants: 4, from: 05-01}"
CROP = "tomato: {days_to_harvest: 70, flower_to_pick: 40, picking_days: 60}"


def record(hot: dict[int, tuple[date, date]], *, low: float = 16, high: float = 27) -> Record:
    """Ten years of one weather, with frost in winter and 35 °C in some weeks of some years."""
    first, last = date(2010, 1, 1), date(2019, 12, 31)
    lows, highs = array("d"), array("d")
    for number in range((last - first).days + 1):
        day = first + timedelta(number)
        winter = day.month in (11, 12, 1, 2, 3)
        begins, ends = hot.get(day.year, (last, first))
        lows.append(-3 if winter else low)
        highs.append(8 if winter else 35 if begins <= day <= ends else high)
    return Record("made-up", None, first, lows, highs, 0.1, False)


def season(hot: dict[int, tuple[date, date]], *waves: str, **weather: float) -> Season:
    return replayed.season(record(hot, **weather), *waves, latitude=40, crops=(CROP,))


def notes(found: Season) -> list[str]:
    return [each.message for each in found.problems if each.code == "fruit-set"]


def test_a_day_is_too_hot_where_the_week_around_it_is() -> None:
    highs = [30.0] * 10 + [40.0] * 7 + [30.0] * 10
    # With three days of 40 and four of 30 the mean is 34.3, with two 32.9; 92 °F are 33.3.
    days = too_hot_to_set([10.0] * 27, highs, high=HIGH, low=LOW)
    assert list(days) == list(range(9, 18))
    by_hand = [day for day in range(3, 24) if np.mean(highs[day - 3 : day + 4]) > HIGH]
    assert list(days) == by_hand


def test_warm_nights_are_too_hot_as_well() -> None:
    lows = [20.0] * 5 + [23.0] * 9 + [20.0] * 5
    days = too_hot_to_set(lows, [30.0] * 19, high=HIGH, low=LOW)
    assert list(days) == [day for day in range(3, 16) if np.mean(lows[day - 3 : day + 4]) > LOW]
    assert too_hot_to_set(lows, [30.0] * 19, high=HIGH, low=None) == []


def test_a_limit_that_is_met_is_not_passed() -> None:
    assert too_hot_to_set([10.0] * 20, [30.0] * 20, high=30.0, low=None) == []


def test_the_gap_is_the_middle_of_the_years_that_have_one() -> None:
    hot = [12, 13, 14, 115, 116, 117, 118, 119]
    gap = gap_of(hot, (10, 110, 210), date(2026, 6, 10), 20, years=True)
    # 2 to 4 days on in the first year, 5 to 9 in the second: 3.5 to 6.5, halves up.
    assert gap == FruitGap(date(2026, 6, 14), date(2026, 6, 17), 2 / 3, 3)
    assert gap_of(hot, (210,), date(2026, 6, 10), 20, years=True) is None
    assert gap_of(hot, (10,), date(2026, 6, 10), 3, years=False) == FruitGap(
        date(2026, 6, 12), date(2026, 6, 12), 1, None
    )


JULY = {year: (date(year, 7, 10), date(year, 7, 31)) for year in range(2010, 2017)}


def test_a_wave_in_flower_is_noted_with_the_weeks_it_will_bear_little() -> None:
    found = season(JULY, TOMATO)
    (note,) = notes(found)
    gap = found.waves[0].judged.pick_gap
    assert gap is not None
    highs = [27.0] * 20 + [35.0] * 22 + [27.0] * 20
    by_hand = [day for day in range(3, 59) if np.mean(highs[day - 3 : day + 4]) > HIGH]
    assert gap.flowers.first == date(2026, 7, 10) + timedelta(by_hand[0] - 20)
    assert gap.flowers.last == date(2026, 7, 10) + timedelta(by_hand[-1] - 20)
    assert gap.picks == DateSpan(
        gap.flowers.first + timedelta(40), gap.flowers.last + timedelta(40)
    )
    assert (gap.flowers.share, gap.flowers.years) == (0.7, 10)
    assert note == (
        "tomato-1 flowers in heat that sets no fruit in 7 years of 10, as a rule "
        "12–29 Jul: nothing to pick 21 Aug – 7 Sep"
    )
    assert found.problems[0].severity is Severity.NOTE


def test_it_is_no_end_and_moves_no_day() -> None:
    hot, mild = (
        replayed.season(record(JULY), TOMATO, latitude=40, crops=(crop,)).waves[0]
        for crop in (CROP, CROP.replace("}", ", fruit_set_high: 110, fruit_set_low: 110}"))
    )
    assert mild.judged.pick_gap is None
    assert hot.judged.odds == mild.judged.odds
    assert hot.stages.pull_out.day == mild.stages.pull_out.day


def test_less_than_half_of_the_years_are_only_told_by_why() -> None:
    few = dict(list(JULY.items())[:4])
    found = season(few, TOMATO)
    assert notes(found) == []
    text = " ".join(" ".join(why_text(found.waves[0], found, width=80)).split())
    assert "In 4 of 10 years a week or more while it is in flower is too hot to set fruit" in text
    assert "nothing to pick from 21 Aug to 7 Sep" in text
    mild = season({}, TOMATO)
    assert "in flower is too hot" not in "\n".join(why_text(mild.waves[0], mild, width=80))


def test_heat_before_and_after_the_flowers_does_not_matter() -> None:
    early = {year: (date(year, 4, 20), date(year, 5, 10)) for year in range(2010, 2020)}
    assert notes(season(early, TOMATO)) == []
    # What flowers in the last forty days before the last pick bears nothing any more.
    late = {year: (date(year, 9, 20), date(year, 10, 20)) for year in range(2010, 2020)}
    assert notes(season(late, TOMATO)) == []


def test_waves_of_one_entry_are_noted_once() -> None:
    series = TOMATO.replace("}", ", every: 14, count: 3}")
    (note,) = notes(season(JULY, series))
    assert note.startswith("tomato-1 to tomato-3 flower in heat that sets no fruit; tomato-1 ")


def test_a_crop_without_limits_is_left_alone() -> None:
    assert notes(season(JULY, "{crop: eggplant, plants: 4, from: 05-01}")) == []


def test_years_with_a_gap_in_the_flowering_are_left_out() -> None:
    kept = record(JULY)
    lows = array("d", kept.tmin)
    lows[(date(2012, 7, 20) - kept.first).days] = nan
    holed = Record("made-up", None, kept.first, lows, kept.tmax, 0.1, False)
    found = replayed.season(holed, TOMATO, latitude=40, crops=(CROP,))
    gap = found.waves[0].judged.pick_gap
    assert gap is not None
    assert (gap.flowers.share, gap.flowers.years) == (pytest.approx(6 / 9), 9)


def test_clemsons_tomatoes_equal_an_independent_count() -> None:
    """Limits of 92 and 72 °F for the means of a week: Cornell University, at second hand."""
    kept = replayed.record("clemson")
    found = replayed.season(kept, TOMATO, latitude=34.7, years="1971-2000")
    wave = found.waves[0]
    gap = wave.judged.pick_gap
    first, last = wave.stages.first_pick, wave.stages.last_pick
    assert gap is not None
    assert first is not None
    assert last is not None
    ripens = timedelta(wave.crop.flower_to_pick or 0)
    opens, closes = first[0].day - ripens, last.day - ripens
    hot_years = 0
    assert kept.tmax is not None
    for year in range(1971, 2001):
        at = (opens.replace(year=year) - kept.first).days
        days = range(at, at + (closes - opens).days + 1)
        high = [float(np.nanmean(kept.tmax[day - 3 : day + 4])) for day in days]
        low = [float(np.nanmean(kept.tmin[day - 3 : day + 4])) for day in days]
        hot_years += any(a > HIGH or b > LOW for a, b in zip(high, low, strict=True))
    assert gap.flowers.share == pytest.approx(hot_years / 30, abs=0.04)
    assert hot_years > 15


def test_seattle_never_is_too_hot() -> None:
    found = replayed.season(replayed.record("seattle"), TOMATO, latitude=47.4)
    assert notes(found) == []


def test_normals_tell_of_an_average_year() -> None:
    text = """
site:
  name: Plot
  latitude: 32
  units: us
  frost:
    last: 03-08
    first: 11-20
    normals:
      max: [60, 64, 72, 79, 86, 92, 96, 97, 90, 80, 69, 61]
      min: [38, 41, 48, 55, 64, 71, 74, 74, 68, 57, 46, 39]
season: 2026
beds: [{bed: North, size: 40 x 100}]
waves:
  - {crop: tomato, plants: 4, from: 04-01}
"""
    reading = read_garden(text.encode(), "garden.yaml")
    assert reading.garden is not None, reading.problems
    found = season_of(reading.garden, date(2026, 3, 1))
    gap = found.waves[0].judged.pick_gap
    assert gap is not None
    assert (gap.flowers.share, gap.flowers.years) == (1, None)
    assert date(2026, 6, 1) < gap.flowers.first < date(2026, 6, 25)
    (note,) = notes(found)
    assert "in an average year, as a rule 1" in note


@pytest.mark.parametrize(("planted", "length"), [("03-13", 6), ("03-14", 7)])
def test_a_gap_of_less_than_a_week_is_no_note(planted: str, length: int) -> None:
    """In a desert the second beans set fruit to the middle of May, but for their last days."""
    found = gardens.season(
        gardens.text(
            f"{{crop: bush bean, plants: 6, from: {planted}}}",
            crops=(),
            frost="{last: 02-15, first: 12-05}",
            latitude=33.4,
            warmest_month="34",
            coldest_month="12",
        )
    )
    gap = found.waves[0].judged.pick_gap
    assert gap is not None
    assert gap.picks.length == length
    assert len(notes(found)) == (length >= 7)
