"""The stages of a wave and the days of its stay, counted by hand; day zero is the planting day.

The frosts are far off (10 May, 1 October) and the fall allowance is none unless a test says
otherwise.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import factory
import gardens
from gardens import crop, text, wave
from sowtide.climate.answers import EndedBy
from sowtide.days import DayRange, GrowingYear
from sowtide.reasons import OURS, Dated
from sowtide.schedule.waves.stages import picked_out
from sowtide.schedule.waves.wave import Stages, Wave


def _wave(planted: str = "06-01", *, allowance: str = "0", **keys: str) -> Wave:
    file = text(wave(start=planted), crops=[crop(**keys)], fall_allowance=allowance)
    return gardens.only(file)


def _stages(planted: str = "06-01", **keys: str) -> Stages:
    return _wave(planted, **keys).stages


def _picks(stages: Stages) -> tuple[date, date]:
    assert stages.first_pick is not None
    return stages.first_pick[0].day, stages.first_pick[1].day


def _last(stages: Stages) -> date:
    assert stages.last_pick is not None
    return stages.last_pick.day


def _day(month: int, day: int) -> date:
    return date(2026, month, day)


# Sown direct


@pytest.mark.parametrize(("days", "flower"), [("49", _day(6, 2)), ("50", None), ("55", None)])
def test_nothing_flowers_on_the_day_it_is_planted_or_before(days: str, flower: date | None) -> None:
    # First picked on the 50th day after 1 June.
    found = _stages(flower_to_pick=days).flower
    assert (found and found.day) == flower


def test_sown_direct() -> None:
    # 1 Jun + 10 = 11 Jun up; + 50 = 21 Jul; 14 days of picking, 21 Jul … 3 Aug; gone on 4 Aug
    stages = _stages(flower_to_pick="12")
    assert stages.sow.day == stages.plant.day == _day(6, 1)
    assert stages.up is not None
    assert stages.up.day == _day(6, 11)
    assert (stages.ready, stages.too_old, stages.harden_off) == (None, None, None)
    assert stages.flower is not None
    assert stages.flower.day == _day(7, 9)  # 21 Jul − 12
    assert _picks(stages) == (_day(7, 21), _day(7, 21))
    assert _last(stages) == _day(8, 3)
    assert stages.pull_out.day == _day(8, 4)


def test_a_range_gives_an_early_and_a_late_first_pick_and_the_late_one_holds_the_bed() -> None:
    # + 50 = 21 Jul, + 60 = 31 Jul; 31 Jul + 13 = 13 Aug; flowers 12 days before the early end
    stages = _stages(days_to_harvest="50-60", flower_to_pick="12")
    assert _picks(stages) == (_day(7, 21), _day(7, 31))
    assert _last(stages) == _day(8, 13)
    assert stages.flower is not None
    assert stages.flower.day == _day(7, 9)


def test_ten_days_to_emergence_where_none_are_known() -> None:
    line = crop().replace(", up_days: 10", "")
    assert "up_days" not in line
    stages = gardens.only(text(wave(start="06-01"), crops=[line])).stages
    assert stages.up is not None
    assert stages.up.day == _day(6, 11)


# Raised in trays


def test_raised_in_trays_and_counted_from_planting_out() -> None:
    # ready after 21 days, too old after 35, the last 7 hardening: sown 11 May, too old 15 Jun
    keys = {"nursery_days": "21-35", "hardening_days": "7", "counted_from": "planting out"}
    line = crop(raised="trays", **keys)
    stages = gardens.only(text(wave(start="06-01"), crops=[line], fall_allowance="0")).stages
    assert stages.plant.day == _day(6, 1)
    assert stages.sow.day == _day(5, 11)
    assert stages.ready is not None
    assert stages.ready.day == _day(6, 1)
    assert stages.too_old is not None
    assert stages.too_old.day == _day(6, 15)  # 11 May + 35
    assert stages.harden_off is not None
    assert stages.harden_off.day == _day(5, 25)  # 1 Jun − 7
    assert stages.up is None
    assert _picks(stages) == (_day(7, 21), _day(7, 21))  # 1 Jun + 50


def test_raised_in_trays_and_counted_from_sowing() -> None:
    # sown 11 May, + 50 = 30 Jun
    line = crop(raised="trays", nursery_days="21-35", counted_from="sowing")
    stages = gardens.only(text(wave(start="06-01"), crops=[line], fall_allowance="0")).stages
    assert _picks(stages) == (_day(6, 30), _day(6, 30))


def test_either_is_sown_direct_unless_the_wave_says_trays() -> None:
    keys = {
        "raised": "either",
        "nursery_days": "21-35",
        "counted_from": "planting out",
    }
    direct = gardens.only(
        text(wave(start="06-01"), crops=[crop(**keys)], fall_allowance="0")
    ).stages
    assert direct.sow.day == _day(6, 1)
    # half the 21 nursery days is 10.5, halves up 11: 1 Jun + 50 + 11 = 1 Aug
    assert _picks(direct) == (_day(8, 1), _day(8, 1))
    trays = gardens.only(
        text(wave(start="06-01", raised="trays"), crops=[crop(**keys)], fall_allowance="0")
    ).stages
    assert trays.sow.day == _day(5, 11)
    assert _picks(trays) == (_day(7, 21), _day(7, 21))


def test_either_counted_from_sowing_takes_its_days_as_they_are() -> None:
    keys = {"raised": "either", "nursery_days": "21-35", "counted_from": "sowing"}
    stages = gardens.only(
        text(wave(start="06-01"), crops=[crop(**keys)], fall_allowance="0")
    ).stages
    assert _picks(stages) == (_day(7, 21), _day(7, 21))


# The end


def test_the_last_pick_is_the_day_before_the_frost() -> None:
    # planted 5 Aug + 50 = 24 Sep; + 13 = 7 Oct, but the frost is on 1 Oct
    made = _wave("08-05")
    assert _last(made.stages) == _day(9, 30)
    assert made.stages.pull_out.day == _day(10, 1)
    assert made.judged.ended_by is EndedBy.FROST


def test_picked_out_on_the_day_before_the_frost_is_picked_out() -> None:
    # 29 Jul + 50 + 13 = 30 Sep; one day later the frost ends it
    made = _wave("07-29")
    assert (_last(made.stages), made.stages.pull_out.day) == (_day(9, 30), _day(10, 1))
    assert made.judged.ended_by is EndedBy.PICKED_OUT
    assert _wave("07-30").judged.ended_by is EndedBy.FROST


def test_an_end_on_the_day_of_the_early_first_pick_leaves_none() -> None:
    # 12 Aug + 50 = 1 Oct, the frost's day
    stages = _stages("08-12")
    assert (stages.first_pick, stages.last_pick, stages.flower) == (None, None, None)
    assert stages.pull_out.day == _day(10, 1)


def test_a_single_pick_on_the_day_before_the_end() -> None:
    stages = _stages("08-11")
    assert _picks(stages) == (_day(9, 30), _day(9, 30))
    assert _last(stages) == _day(9, 30)


def test_the_early_end_is_picked_though_the_late_one_never_is() -> None:
    # 5 Aug + 50 = 24 Sep, + 60 = 4 Oct, after the frost: picked 24 … 30 Sep, first and last
    stages = _stages("08-05", days_to_harvest="50-60")
    assert _picks(stages) == (_day(9, 24), _day(9, 30))
    assert _last(stages) == _day(9, 30)


def test_planted_on_the_frosty_day_or_later_it_comes_to_nothing() -> None:
    # the frost comes at dawn, before the planting; the bed is held for a day, never for none
    for planted, gone in (("10-01", _day(10, 2)), ("10-20", _day(10, 21))):
        stages = _stages(planted)
        assert stages.first_pick is None
        assert stages.pull_out.day == gone


def test_the_plan_ends_at_even_odds_whatever_sure_is() -> None:
    for sure in ("50%", "95%", "20 days"):
        file = text(wave(start="08-05"), fall_allowance="0", sure=sure)
        assert _last(gardens.only(file).stages) == _day(9, 30)


# Cut once


@pytest.mark.parametrize(
    ("planted", "first", "gone"),
    [
        # ready on 31 Aug: a warm day is 1/5 of its time, 4/5 of 14 are 11: 31 Aug + 12 = 12 Sep,
        # gone on 13 Sep; on 1 Sep: cool, + 14 = 15 Sep
        ("07-12", (8, 31), (9, 13)),
        ("07-13", (9, 1), (9, 16)),
        # ready on 31 May: a cool day is 1/14, 13/14 of 5 are 4: 31 May + 5 = 5 Jun, gone on 6 Jun;
        # on 1 Jun: warm, + 5 = 6 Jun
        ("04-11", (5, 31), (6, 6)),
        ("04-12", (6, 1), (6, 7)),
    ],
)
def test_a_crop_cut_once_holds_longer_in_cool_months(
    planted: str, first: tuple[int, int], gone: tuple[int, int]
) -> None:
    line = crop(hardiness="hardy", weather="cool", picking_days="1", holding_days="5-14")
    found = gardens.only(text(wave(start=planted), crops=[line], frost="none"))
    assert _picks(found.stages)[1] == _day(*first)
    assert found.stages.pull_out.day == _day(*gone)


def test_warm_months_south_of_the_equator() -> None:
    # ready on 28 Feb 2027: a warm day and 4/5 of 14, + 12 = 12 Mar, gone 13 Mar; ready on 1 Mar:
    # cool, + 14, gone 16 Mar
    line = crop(picking_days="1", holding_days="5-14")
    for planted, gone in (("01-09", (3, 13)), ("01-10", (3, 16))):
        file = text(wave(start=planted), crops=[line], frost="none", latitude=-38)
        assert gardens.only(file).stages.pull_out.day == date(2027, *gone)


@pytest.mark.parametrize("south", [False, True])
@pytest.mark.parametrize("holding", ["5-14", "30-150", "14-14", "1-40"])
def test_what_is_ripe_later_is_spoilt_no_sooner(holding: str, south: bool) -> None:
    low, high = (int(end) for end in holding.split("-"))
    of = factory.bean(picking_days=1, holding_days=DayRange(low, high))
    year = GrowingYear(2026, south=south)
    ripe = (Dated.on(year.first + timedelta(days=day), "written", "", OURS) for day in range(365))
    spoilt = [picked_out(of, each, year=year).day for each in ripe]
    assert spoilt == sorted(spoilt)


def test_cut_at_once_without_holding_days() -> None:
    stages = _stages(picking_days="1")
    assert _last(stages) == _day(7, 21)
    assert stages.pull_out.day == _day(7, 22)


def test_frost_cuts_the_holding_short() -> None:
    # 1 Aug + 50 = 20 Sep; cool, + 20 = 10 Oct, but the frost is on 1 Oct
    stages = _stages("08-01", picking_days="1", holding_days="5-20")
    assert _last(stages) == _day(9, 30)


# Over the winter

GARLIC = {"hardiness": "hardiest", "weather": "cool", "overwinters": "yes", "picking_days": "1"}


def test_over_the_winter_with_ready_dates() -> None:
    # planted 10 Oct 2026, ready 25 Jun–20 Jul 2027; 20 Jul is warm: holds 7 days, gone on 28 Jul
    made = _wave("10-10", ready="06-25..07-20", holding_days="7-14", **GARLIC)
    assert _picks(made.stages) == (date(2027, 6, 25), date(2027, 7, 20))
    assert _last(made.stages) == date(2027, 7, 27)
    assert made.stages.pull_out.day == date(2027, 7, 28)
    assert made.judged.end is None
    assert (made.judged.odds, made.judged.verdict) == (None, None)


def test_over_the_winter_without_ready_dates_there_is_no_date_and_it_says_so() -> None:
    found = gardens.season(text(wave(start="10-10"), crops=[crop(**GARLIC)]))
    (made,) = found.waves
    assert made.stages.first_pick is None
    assert made.stages.pull_out.day == date(2027, 7, 1)  # the bed is held until midsummer
    assert gardens.codes(found) == [("no-winter-date", "fruit-1")]


SPROUTING = GARLIC | {"days_to_harvest": "230"}


@pytest.mark.parametrize("start", ["06-20", "06-28", "06-30", "07-01", "07-02", "12-31"])
def test_planted_about_midsummer_it_stands_until_the_midsummer_after_the_winter(start: str) -> None:
    # 20 Jun + 230 = 5 Feb 2027: even before midsummer it runs past the growing year
    assert _wave(start, **SPROUTING).stages.pull_out.day == date(2027, 7, 1)


def test_in_the_south_the_midsummer_after_the_winter_is_new_years_day() -> None:
    for start in ("2026-12-25", "2027-01-01", "2027-06-30"):
        line = wave(start=start)
        file = text(
            line, crops=[crop(**SPROUTING)], frost="{last: 10-10, first: 04-20}", latitude=-40
        )
        made = gardens.only(file)
        assert made.stages.pull_out.day == date(2028, 1, 1), start


def test_it_is_not_ready_before_its_days_or_the_winter_have_passed() -> None:
    # 20 Jun + 230 = 5 Feb 2027, the winter is over on 1 Jan: not on 25 Jun 2026, five days on
    early = _wave("06-20", **SPROUTING, ready="06-25..07-20")
    assert _picks(early.stages) == (date(2027, 6, 25), date(2027, 7, 20))
    # 15 Nov + 230 = 3 Jul 2027, but the winter is over on 1 Jan: 25 Jun is its time
    late = _wave("11-15", **SPROUTING, ready="06-25..07-20")
    assert _picks(late.stages) == (date(2027, 6, 25), date(2027, 7, 20))
    # 10 Jul + 120 = 7 Nov: 7 Nov will do, 6 Nov comes a day too soon
    leek = GARLIC | {"days_to_harvest": "120"}
    assert _picks(_wave("07-10", **leek, ready="11-07..12-01").stages)[0] == _day(11, 7)
    soon = _wave("07-10", **leek, ready="11-06..12-01").stages
    assert _picks(soon)[0] == date(2027, 11, 6)


def test_an_over_wintering_crop_planted_in_spring_is_judged_like_any_other() -> None:
    made = _wave("04-10", ready="06-25..07-20", **GARLIC)
    # 10 Apr + 50 = 30 May, + 10 for the month before the last frost = 9 Jun
    assert _picks(made.stages) == (_day(6, 9), _day(6, 9))
    assert made.judged.odds is not None


def test_planted_inside_its_ready_dates_it_is_ready_a_year_later() -> None:
    made = _wave("07-05", ready="06-25..07-20", **GARLIC)
    assert _picks(made.stages) == (date(2027, 6, 25), date(2027, 7, 20))


def test_ready_dates_may_lie_on_both_sides_of_new_year() -> None:
    keys = GARLIC | {"picking_days": "5", "ready": "12-20..01-15"}
    made = _wave("08-20", **keys)
    assert _picks(made.stages) == (_day(12, 20), date(2027, 1, 15))
    assert _last(made.stages) == date(2027, 1, 19)


# Dates are the sums of their steps


def test_every_date_is_the_sum_of_its_steps() -> None:
    made = _wave("07-25", allowance="14", days_to_harvest="50-60", flower_to_pick="12")
    stages = made.stages
    assert stages.first_pick is not None
    dates = [stages.sow, stages.up, stages.plant, stages.flower, *stages.first_pick]
    dates += [stages.last_pick, stages.pull_out, made.bed_free, made.judged.end]
    for each in dates:
        assert each is not None
        total = each.steps[0].date
        for step in each.steps[1:]:
            total = date.fromordinal(total.toordinal() + step.days)
            assert step.date == total
        assert each.day == total
