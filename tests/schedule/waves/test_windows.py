"""When a crop may be planted, and what is thought of a day, counted by hand.

Averages are 10 May and 1 October, with the assumed spread of 11 days; no fall allowance unless a
test says otherwise. z(80 %) = 0.8416, so 80 % sure is 9.26 days from the average.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import gardens
from gardens import crop, leaf, text, wave
from sowtide.climate.basis import FrostFrom, WarmthFrom
from sowtide.days import DateSpan
from sowtide.schedule.waves.last_days import last_days
from sowtide.schedule.waves.wave import Judged, Verdict
from sowtide.schedule.waves.windows import Prospects

HOT = "07-01..08-20"


def _prospects(like: str | None = None, **site: str) -> Prospects:
    line = like or crop()
    site = {"fall_allowance": "0"} | site
    return gardens.prospects(text(crops=[line], **site), line.split(":")[0])


def _earliest(like: str, **site: str) -> date:
    return _prospects(like, **site).earliest.day


def _judged(planted: str, like: str | None = None, **site: str) -> Judged:
    line = like or crop()
    file = text(
        wave(line.split(":")[0], start=planted), crops=[line], **{"fall_allowance": "0"} | site
    )
    return gardens.only(file).judged


def _day(month: int, day: int) -> date:
    return date(2026, month, day)


# The earliest planting day


@pytest.mark.parametrize(
    ("sure", "expected"),
    [
        # the first day after which frost comes in no more than 20 %: 10 May + 9.26 → 20 May
        ("80%", (5, 20)),
        # 5 %: 11 × 1.6449 = 18.09 → 29 May; 50 %: the average itself; 20 %: 11 × −0.8416 → 1 May
        ("95%", (5, 29)),
        ("50%", (5, 10)),
        ("20%", (5, 1)),
        # sure in days: in spring the average last frost, however many days
        ("0 days", (5, 10)),
        ("20 days", (5, 10)),
    ],
)
def test_a_tender_crop_set_out_waits_for_the_frost(sure: str, expected: tuple[int, int]) -> None:
    line = crop(raised="trays", nursery_days="21-28", counted_from="planting out")
    assert _earliest(line, sure=sure) == _day(*expected)


def test_a_tender_crop_sown_direct_may_meet_the_frost_under_ground() -> None:
    # 20 May − 10 days to emergence
    assert _earliest(crop(up_days="10")) == _day(5, 10)
    assert _earliest(crop(up_days="4")) == _day(5, 16)


def test_days_after_frost_come_on_top() -> None:
    # 20 May − 10 + 7
    assert _earliest(crop(days_after_frost="7")) == _day(5, 17)


def test_a_very_tender_crop_waits_for_its_own_temperature() -> None:
    # 36 °F comes 12 days later in spring: 22 May + 9.26 → 1 Jun, − 10 up
    assert _earliest(crop(hardiness="very tender")) == _day(5, 22)


@pytest.mark.parametrize(
    ("hardiness", "expected"),
    [("half-hardy", (4, 19)), ("hardy", (4, 12)), ("hardiest", (4, 5))],
)
def test_hardier_crops_go_some_weeks_before_the_average_last_frost(
    hardiness: str, expected: tuple[int, int]
) -> None:
    # 10 May less 21, 28, 35 days, whatever `sure` is and however it is raised
    for sure in ("50%", "95%", "20 days"):
        assert _earliest(crop(hardiness=hardiness), sure=sure) == _day(*expected)


def test_the_last_days_are_not_counted_through_the_hot_weeks() -> None:
    # Heat from 10 July until after the frost. Picked from 50 days after planting for 14 days, all
    # of them before it: 10 July - 14 - 50 = 7 May; a sowing three or four days before the last
    # frost takes 10 x 3 / 30 = 1 day more: 6 May. By frost alone later days would do at any odds.
    found = gardens.season(text(crops=[leaf()], too_hot="07-10..10-20", fall_allowance="0"))
    grown = gardens.crop_called(found, "leaf")
    days = last_days(found.conditions, grown, grown.raised, shares=(0.8, 0.5, 0.2))
    assert days == (_day(5, 6), _day(5, 6), _day(5, 6))


def test_what_is_ripe_on_the_last_day_of_the_year_does_not_stand_over_the_winter() -> None:
    # 1 June + 213 days = 31 December
    line = crop(overwinters="yes", hardiness="hardiest", days_to_harvest="213")
    found = _prospects(line)
    assert not found.overwinters(_day(6, 1))
    assert found.overwinters(_day(6, 2))


def test_colder_ground_and_a_cover_move_the_day_of_a_hardy_crop_too() -> None:
    # Two degrees are 3.6 °F, at 3 days each 10.8 days: the last frost of 10 May is one of 21 May on
    # colder ground, one of 29 April under the cover; less 28 days 23 and 1 April.
    line = crop(hardiness="hardy")
    assert _earliest(line, colder_by="2") == _day(4, 23)
    found = gardens.season(text(crops=[line]))
    hardy = gardens.crop_called(found, "fruit")
    days = [
        found.conditions.prospects(hardy, hardy.raised, colder_by=ground).earliest.day
        for ground in (2.0, 0.0, -2.0)
    ]
    assert days == [_day(4, 23), _day(4, 12), _day(4, 1)]


def test_a_hardy_crop_may_state_its_days() -> None:
    assert _earliest(crop(hardiness="hardy", days_before_frost="40")) == _day(3, 31)
    assert _earliest(crop(hardiness="hardy", days_before_frost="0")) == _day(5, 10)


def test_with_a_table_the_day_is_read_from_the_table() -> None:
    # 20 % later: between 10 May (50 %) and 22 May (10 %): 12 × 0.8416 / 1.2816 = 7.88 → 18 May
    file = text(crops=[crop(up_days="0")], frost="{last: {10%: 05-22, 50%: 05-10}, first: 10-01}")
    assert gardens.prospects(file).earliest.day == _day(5, 18)


def test_without_frost_the_growing_year_begins() -> None:
    for latitude, first in ((45, date(2026, 1, 1)), (-45, date(2026, 7, 1))):
        file = text(crops=[crop()], frost="none", latitude=latitude)
        assert gardens.prospects(file).earliest.day == first


def test_never_before_the_growing_year() -> None:
    file = text(crops=[crop(hardiness="hardy")], frost="{last: 01-10, first: 12-01}")
    assert gardens.prospects(file).earliest.day == date(2026, 1, 1)


def test_planted_a_day_before_the_earliest_is_too_early_whatever_its_odds() -> None:
    early, on_time = _judged("05-09"), _judged("05-10")
    assert early.verdict is Verdict.TOO_EARLY
    assert early.odds is not None
    assert early.odds > 0.79  # one day before what is safe in 80 years of 100
    assert early.stages.plant.day == _day(5, 9)  # a day the grower wrote is kept
    assert on_time.verdict is Verdict.SAFE_FROM_FROST


# Verdicts


def test_safe_to_the_day_in_percent() -> None:
    # the last worthwhile pick x succeeds with P(end > x) ≥ 80 %: x + 1 ≤ 1 Oct − 9.26, that is
    # 21 Sep; x = 20 Sep = planted + 50 + 13: planted 19 Jul
    assert _judged("07-19").verdict is Verdict.SAFE_FROM_FROST
    assert _judged("07-20").verdict is Verdict.CHANCY
    assert _prospects().windows == (DateSpan(_day(5, 10), _day(7, 19)),)


def test_chancy_to_the_day_in_percent() -> None:
    # even odds: x + 1 = 1 Oct; x = 30 Sep: planted 29 Jul
    assert _judged("07-29").odds == pytest.approx(0.5)
    assert _judged("07-29").verdict is Verdict.CHANCY
    assert _judged("07-30").verdict is Verdict.TOO_LATE


def test_safe_to_the_day_in_days() -> None:
    # planted + 64 is the day after the last worthwhile pick, 14 days before 1 Oct: 17 Sep − 64
    for planted, margin, verdict in (
        ("07-15", 14, Verdict.SAFE_FROM_FROST),
        ("07-16", 13, Verdict.CHANCY),
        ("07-29", 0, Verdict.CHANCY),
        ("07-30", -1, Verdict.TOO_LATE),
    ):
        judged = _judged(planted, sure="14 days")
        assert (judged.margin, judged.verdict) == (margin, verdict)


def test_in_days_the_late_end_counts() -> None:
    # 50-60 days: planted + 60 + 14 ≤ 17 Sep: 5 Jul
    line = crop(days_to_harvest="50-60")
    assert _judged("07-05", line, sure="14 days").verdict is Verdict.SAFE_FROM_FROST
    assert _judged("07-06", line, sure="14 days").verdict is Verdict.CHANCY


def test_margin_is_measured_at_the_crops_own_temperature() -> None:
    # half-hardy: 28 °F on 13 Oct; planted 19 Jul: 19 Jul + 64 = 21 Sep, 22 days before it
    assert _judged("07-19", crop(hardiness="half-hardy")).margin == 22


@pytest.mark.parametrize(
    ("planted", "spared"),
    [
        # Sown direct it is up after 10 days.
        ("04-30", 0.5),  # on the average last frost: one later in half of the years
        ("05-11", 0.8413),  # 11 days after it, one spread: 1 − Φ(1) = 0.1587 have one later
        ("05-22", 0.9772),  # two spreads
        ("06-20", 1.0),
    ],
)
def test_years_in_which_spring_kills_a_tender_crop_are_years_without_it(
    planted: str, spared: float
) -> None:
    place = "{last: 05-10, first: 10-01}"
    mild = _judged(planted, crop(days_after_frost="0"), frost="{last: 01-01, first: 10-01}")
    found = _judged(planted, crop(days_after_frost="0"), frost=place)
    assert found.odds == pytest.approx(spared * mild.odds, abs=1e-4)
    assert found.expected_picking_days == pytest.approx(
        spared * mild.expected_picking_days, abs=1e-2
    )
    assert found.odds_of_nothing == pytest.approx(1 - spared * (1 - mild.odds_of_nothing), abs=1e-4)
    hardy = crop(hardiness="half-hardy")
    for where in (place, "{last: 01-01, first: 10-01}"):  # what is hardier is not killed by them
        assert _judged(planted, hardy, frost=where).odds > 0.999


def test_what_nothing_ends_is_safe_in_days_too() -> None:
    assert _judged("12-01", frost="none", sure="99 days").verdict is Verdict.SAFE_FROM_FROST


def test_what_stands_is_safe_in_days_by_the_day_it_is_ripe() -> None:
    standing = crop(after_frost="stands")
    # ripe on 1 Oct − 1 − 10 days: planted 50 days before 20 Sep
    assert (
        _judged("08-01", standing, sure="10 days", fall_allowance="0").verdict
        is Verdict.SAFE_FROM_FROST
    )
    late = _judged("08-02", standing, sure="10 days", fall_allowance="0")
    assert late.verdict is Verdict.CHANCY


def test_in_days_the_worthwhile_picking_ends_before_the_heat_to_the_day() -> None:
    # Heat from 10 July: 14 days of picking from 26 June are the last before it. So 50 days and the
    # one of spring before that, on 6 May; where frost only stops its growth as well.
    for line in (leaf(), leaf(after_frost="stands")):
        sure = {"too_hot": "07-10..10-20", "sure": "5 days"}
        found = _prospects(line, **sure)
        assert [window.last for window in found.windows] == [_day(5, 6)]


def test_last_safe_where_nothing_ends_the_crop_is_the_end_of_the_growing_year() -> None:
    for latitude, first, last in (
        (45, date(2026, 1, 1), date(2026, 12, 31)),
        (-45, date(2026, 7, 1), date(2027, 6, 30)),
    ):
        file = text(crops=[crop()], frost="none", latitude=latitude)
        assert gardens.prospects(file).windows == (DateSpan(first, last),)


def test_a_place_without_a_safe_gap_says_so() -> None:
    # 20 Jun – 20 Aug: 61 days; 50 + 14 days do not go between them at 80 %
    file = text(wave(start="earliest"), frost="{last: 06-20, first: 08-20}", fall_allowance="0")
    found = gardens.season(file)
    (made,) = found.waves
    assert made.judged.last_safe is None
    assert gardens.prospects(file).windows == ()
    assert [code for code, _ in gardens.codes(found)] == ["too-late"]
    (problem,) = found.problems
    assert problem.hint is None or "safe" in problem.hint


def test_the_fall_allowance_moves_the_last_safe_day() -> None:
    # pick + 14 ≤ 21.74 Sep: the pick, allowance included, is on 7 Sep at the latest. A crop of 50
    # days has 50/55 of the 14, over 28 days 0.45 a day. 19 Jul + 50 = 7 Sep, 24 days before the
    # frost: 1.8 → 2, 9 Sep: too late. 18 Jul + 50 = 6 Sep, 25 before: 1.4 → 1, 7 Sep: safe.
    assert _prospects(fall_allowance="14").windows[-1].last == _day(7, 18)


def test_always_moves_it_by_all_of_it() -> None:
    # 19 Jul − 14
    assert _prospects(fall_allowance="14 always").windows[-1].last == _day(7, 5)


def test_a_quick_hardy_crop_has_a_second_run_after_the_average_frost() -> None:
    # No allowance is added to a wave planted after 1 Oct: 22 days, at 20 °F (6 Nov): 14 Oct + 22 =
    # 5 Nov, the day before; until then 22/55 of 45 days are added, 18: 26 Sep, + 40 = 5 Nov
    line = crop(
        weather="cool",
        hardiness="hardiest",
        days_to_harvest="22",
        picking_days="1",
        worthwhile_days="1",
    )
    found = _prospects(line, fall_allowance="45", sure="50%")
    assert found.windows == (
        DateSpan(_day(4, 5), _day(9, 26)),
        DateSpan(_day(10, 2), _day(10, 14)),
    )


# Heat


def test_heat_parts_the_safe_days_into_runs() -> None:
    # hardy: from 12 Apr. Slow growth before 10 May: 12 Apr + 28 → 9 days more. Before the heat:
    # planted + 40 + 7 ≤ 1 Jul: 15 May. After it: + 40 ≥ 21 Aug:
    # 12 Jul. Frost at 24 °F, 25 Oct: x + 1 ≤ 25 Oct − 9.26 = 15 Oct; + 40 + 7: 29 Aug.
    found = _prospects(leaf(days_to_harvest="40", picking_days="7"), too_hot=HOT)
    assert found.windows == (
        DateSpan(_day(4, 12), _day(5, 15)),
        DateSpan(_day(7, 12), _day(8, 29)),
    )


def test_every_day_of_a_run_is_safe_and_none_outside_is() -> None:
    line = leaf(days_to_harvest="40-48", picking_days="7")
    found = _prospects(line, too_hot=HOT, fall_allowance="14")
    assert len(found.windows) == 2
    for number in range(365):
        day = date(2026, 1, 1) + timedelta(days=number)
        judged = _judged(f"{day:%m-%d}", line, too_hot=HOT, fall_allowance="14")
        inside = any(day in window for window in found.windows)
        assert (judged.verdict is Verdict.SAFE_FROM_FROST) == inside, day


def test_the_last_safe_day_of_a_wave_is_that_of_its_own_run() -> None:
    line = leaf(days_to_harvest="40", picking_days="7")
    # before the first run it is that of the first: there it would have to lie
    for planted, expected in (
        ("04-01", (5, 15)),
        ("04-20", (5, 15)),
        ("06-01", (5, 15)),
        ("07-20", (8, 29)),
        ("09-20", (8, 29)),
    ):
        assert _judged(planted, line, too_hot=HOT).last_safe == _day(*expected)


def test_a_wave_that_heat_takes_is_told_of_the_run_after_it() -> None:
    # 12 Apr + 75 + 9 days of slow growth: in the hot weeks from 10 June; after them it would do
    line = leaf(days_to_harvest="75")
    file = text(wave("leaf"), crops=[line], fall_allowance="0", too_hot="06-10..08-20")
    (problem,) = gardens.season(file).problems
    (run,) = gardens.prospects(file, "leaf").windows
    assert problem.code == "never-finishes"
    assert problem.hint == f"the last safe day to plant it is {run.last.day} {run.last:%b}"


def test_a_sowing_too_early_may_be_sown_again_until_the_last_safe_day() -> None:
    file = text(wave(start="05-01"), fall_allowance="0")
    assert gardens.only(file).sow_again_by == _day(7, 19)


def test_a_cool_season_crop_in_high_summer_may_bolt_where_no_hot_weeks_are_known() -> None:
    # + 40, then 7 days of picking; high summer is July and August
    line = leaf(days_to_harvest="40", picking_days="7")
    for planted, said in (("05-15", False), ("05-16", True), ("07-22", True), ("07-23", False)):
        file = text(wave("leaf", start=planted), crops=[line], fall_allowance="0")
        found = [code for code, _ in gardens.codes(gardens.season(file))]
        assert ("may-bolt" in found) == said, planted
    known = text(
        wave("leaf", start="05-16"), crops=[line], fall_allowance="0", too_hot="07-20..07-22"
    )
    assert "may-bolt" not in [code for code, _ in gardens.codes(gardens.season(known))]
    warm = text(wave(start="05-16"), fall_allowance="0")
    assert "may-bolt" not in [code for code, _ in gardens.codes(gardens.season(warm))]


def test_a_cool_place_says_what_it_assumed() -> None:
    basis = gardens.season(text()).climate.basis
    assert (basis.frost, basis.warmth, basis.years_used) == (
        FrostFrom.AVERAGES,
        WarmthFrom.NONE,
        None,
    )
    assert any("11 days" in each for each in basis.assumed)
    assert any("hot" in each for each in basis.assumed)
    table = "{last: {10%: 05-22, 50%: 05-10}, first: {50%: 10-01, 90%: 10-20}}"
    basis = gardens.season(text(frost=table, too_hot=HOT)).climate.basis
    assert basis.frost is FrostFrom.TABLE
    assert not any("11 days" in each or "hot" in each for each in basis.assumed)
    assert gardens.season(text(frost="none")).climate.basis.frost is FrostFrom.NONE


def test_days_between_which_safe_plantings_are_picked_go_from_the_first_run_to_the_last() -> None:
    line = leaf(days_to_harvest="40", picking_days="7")
    file = text(crops=[line], too_hot="07-01..08-20", fall_allowance="0")
    on = gardens.season(file)
    grown = on.garden.crops[0]
    found = on.conditions.prospects(grown, grown.raised)
    assert found.windows[0].first == date(2026, 4, 12)
    # Sown 28 days before the average last frost it takes nine days more than 40
    span = on.conditions.picked_safely(grown, on.garden.beds)
    assert span is not None
    assert span.first == date(2026, 4, 12) + timedelta(days=49)
    assert span.last == found.windows[-1].last + timedelta(days=40 + 7 - 1)
    late = gardens.season(text(crops=[crop(days_to_harvest="200")]))
    assert late.conditions.picked_safely(late.garden.crops[0], late.garden.beds) is None
