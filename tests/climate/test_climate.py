"""Frost odds, allowances and the outlook of a wave, counted by hand.

Averages are 10 May and 1 October, with the assumed spread of 11 days unless a test says otherwise.
"""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from gardens import below, crop, leaf, text, wave
from sowtide.climate.allowance import Allowances
from sowtide.climate.answers import EndedBy
from sowtide.days import DayRange, Half
from sowtide.schedule.waves.wave import Judged, Verdict
from sowtide.units import celsius

LAST, FIRST = date(2026, 5, 10).toordinal(), date(2026, 10, 1).toordinal()
UNEVEN = "{last: 05-10, first: {10%: 09-19, 50%: 10-01, 90%: 10-31}}"


def _day(
    half: Half, *, at: float = 0.0, share: float = 0.5, frost: str = gardens.FROST
) -> date | None:
    found = gardens.season(text(frost=frost)).climate.frosts.day(half, at=at, share=share)
    return None if found is None else found.day


def _odds(half: Half, day: date, *, at: float = 0.0, frost: str = gardens.FROST) -> float:
    return gardens.season(text(frost=frost)).climate.frosts.odds(half, day, at=at)


def _judged(*, planted: str = "07-01", like: str | None = None, **site: str) -> Judged:
    """Judge a wave of the fruit crop, or of another one, without a fall allowance."""
    line = like or crop()
    site = {"fall_allowance": "0"} | site
    return gardens.only(text(wave(line.split(":")[0], start=planted), crops=[line], **site)).judged


# Frost odds


def test_autumn_odds_are_of_a_frost_before_the_day() -> None:
    # P(first frost < 12 Oct) = Φ(11/11) = Φ(1) = 0.8413
    assert _odds(Half.AUTUMN, date(2026, 10, 1)) == pytest.approx(0.5)
    assert _odds(Half.AUTUMN, date(2026, 10, 12)) == pytest.approx(below(1), abs=1e-9)
    assert below(1) == pytest.approx(0.8413, abs=1e-4)


def test_spring_odds_are_of_a_frost_after_the_day() -> None:
    # P(last frost > 21 May) = 1 − Φ(11/11) = 0.1587
    assert _odds(Half.SPRING, date(2026, 5, 10)) == pytest.approx(0.5)
    assert _odds(Half.SPRING, date(2026, 5, 21)) == pytest.approx(1 - below(1), abs=1e-9)


@pytest.mark.parametrize(
    ("share", "expected"),
    [
        (0.10, date(2026, 9, 19)),
        (0.50, date(2026, 10, 1)),
        (0.90, date(2026, 10, 31)),
        # z(30 %) = −0.5244; 12 days over 1.2816: 12 × −0.4092 = −4.9 → 26 Sep
        (0.30, date(2026, 9, 26)),
        # z(70 %) = 0.5244; 30 days over 1.2816: 30 × 0.4092 = 12.3 → 13 Oct
        (0.70, date(2026, 10, 13)),
        # beyond the table the last piece runs on: z(99 %) = 2.3263; 30 × 1.8153 = 54.5 → 24 Nov
        (0.99, date(2026, 11, 24)),
        # z(1 %): 12 × −1.8153 = −21.8 → 9 Sep
        (0.01, date(2026, 9, 9)),
    ],
)
def test_a_table_is_straight_between_its_dates_and_runs_on(share: float, expected: date) -> None:
    assert _day(Half.AUTUMN, share=share, frost=UNEVEN) == expected


def test_a_table_in_spring_counts_later_frosts() -> None:
    # 10 % of years later than 22 May, 50 % than 10 May, 90 % than 10 Apr.
    table = "{last: {10%: 05-22, 50%: 05-10, 90%: 04-10}, first: 10-01}"
    for share, expected in ((0.1, (5, 22)), (0.5, (5, 10)), (0.9, (4, 10))):
        assert _day(Half.SPRING, share=share, frost=table) == date(2026, *expected)
    # 30 %: 12 × 0.4092 = 4.9 days later than 10 May; 70 %: 30 × 0.4092 = 12.3 earlier
    assert _day(Half.SPRING, share=0.3, frost=table) == date(2026, 5, 15)
    assert _day(Half.SPRING, share=0.7, frost=table) == date(2026, 4, 28)


def test_beyond_the_temperatures_given_three_days_a_degree() -> None:
    # 28 °F is 4 °F colder than 32: 12 days; 36 °F is 4 °F warmer: 12 days the other way
    assert _day(Half.AUTUMN, at=celsius(28)) == date(2026, 10, 13)
    assert _day(Half.AUTUMN, at=celsius(36)) == date(2026, 9, 19)
    assert _day(Half.SPRING, at=celsius(28)) == date(2026, 4, 28)
    assert _day(Half.SPRING, at=celsius(36)) == date(2026, 5, 22)


def test_between_two_temperatures_dates_are_interpolated() -> None:
    # −1 °C is a quarter of the way from 0 to −4: 16 / 4 = 4 days after 1 Oct, 20 / 4 before 10 May
    two = "[{last: 05-10, first: 10-01}, {at: -4, last: 04-20, first: 10-17}]"
    assert _day(Half.AUTUMN, at=-1, frost=two) == date(2026, 10, 5)
    assert _day(Half.SPRING, at=-1, frost=two) == date(2026, 5, 5)
    assert _day(Half.AUTUMN, at=-4, frost=two) == date(2026, 10, 17)


def test_interpolation_is_between_dates_of_one_share() -> None:
    # At 0 °C the spread is 12 days in 1.2816, at −4 °C 20: halfway 16 before the middle.
    two = (
        "[{last: 05-10, first: {10%: 09-19, 50%: 10-01}},"
        " {at: -4, last: 04-20, first: {10%: 09-27, 50%: 10-17}}]"
    )
    assert _day(Half.AUTUMN, at=-2, share=0.5, frost=two) == date(2026, 10, 9)
    assert _day(Half.AUTUMN, at=-2, share=0.1, frost=two) == date(2026, 9, 23)


def test_a_date_given_at_another_temperature_is_moved_to_freezing() -> None:
    # given at 2 °C = 3.6 °F above freezing: 10.8 days, to the nearest 11
    only_warm = "{at: 2, last: 05-21, first: 09-20}"
    assert _day(Half.AUTUMN, frost=only_warm) == date(2026, 10, 1)
    assert _day(Half.SPRING, frost=only_warm) == date(2026, 5, 10)


def test_no_frost() -> None:
    assert _day(Half.AUTUMN, frost="none") is None
    assert _odds(Half.AUTUMN, date(2026, 12, 31), frost="none") == 0
    assert _odds(Half.SPRING, date(2026, 1, 1), frost="none") == 0


def test_a_first_frost_in_january_is_still_this_autumns() -> None:
    mild = "{last: 02-01, first: 01-05}"
    assert _day(Half.AUTUMN, frost=mild) == date(2027, 1, 5)
    assert _day(Half.SPRING, frost=mild) == date(2026, 2, 1)
    # planted 1 Nov: + 40 = 11 Dec; 60 picking days would last to 8 Feb; the frost ends it first
    judged = gardens.only(
        text(
            wave(start="11-01"),
            crops=[crop(days_to_harvest="40", picking_days="60")],
            frost=mild,
            fall_allowance="0",
        )
    ).judged
    assert judged.stages.last_pick is not None
    assert judged.stages.last_pick.day == date(2027, 1, 4)
    assert judged.stages.pull_out.day == date(2027, 1, 5)
    assert judged.ended_by is EndedBy.FROST


@pytest.mark.parametrize(
    ("hardiness", "planted"),
    # 50 days, 14 worth it: the day after the last of them is the average frost of the crop's own
    # temperature, 19 Sep, 1, 13, 25 Oct, 6 Nov: even odds, exactly
    [
        ("very tender", "07-17"),
        ("tender", "07-29"),
        ("half-hardy", "08-10"),
        ("hardy", "08-22"),
        ("hardiest", "09-03"),
    ],
)
def test_even_odds_are_even_at_every_temperature(hardiness: str, planted: str) -> None:
    judged = _judged(planted=planted, like=crop(hardiness=hardiness), sure="50%")
    assert judged.margin == 0
    assert judged.odds == pytest.approx(0.5, abs=1e-9)
    assert judged.verdict is Verdict.SAFE_FROM_FROST


# Allowances


def _fall(pick: int, *, planted: int = FIRST - 200, cool: bool = True, fall: int = 14) -> int:
    """Return the allowance of a pick so many days before (-) or after the average first frost."""
    ramps = Allowances(fall, False, LAST, FIRST)
    return ramps.fall_days(FIRST + pick, planted=planted, cool=cool)


@pytest.mark.parametrize(
    ("pick", "expected"),
    [(-57, 0), (-56, 0), (-55, 1), (-54, 1), (-53, 2), (-42, 7), (-29, 14), (-28, 14), (9, 14)],
)
def test_the_ramp_of_a_cool_season_crop(pick: int, expected: int) -> None:
    # 14 days over 28: half a day for each; 55 days before: 0.5 → 1; 53: 1.5 → 2; 29: 13.5 → 14
    assert _fall(pick) == expected


@pytest.mark.parametrize(
    ("pick", "expected"),
    [(-29, 0), (-28, 0), (-27, 1), (-26, 1), (-25, 2), (-14, 7), (-1, 14), (0, 14), (9, 14)],
)
def test_the_ramp_of_a_warm_season_crop(pick: int, expected: int) -> None:
    assert _fall(pick, cool=False) == expected


def test_a_quick_crop_has_its_share() -> None:
    # 14 · 25 / 55 = 6.4 and 14 · 40 / 55 = 10.2; half of the ramp, 14 · 40 / 55 / 2 = 5.1
    assert _fall(-10, planted=FIRST - 35) == 6
    assert _fall(0, planted=FIRST - 40) == 10
    assert _fall(-42, planted=FIRST - 82) == 5
    # and a slow one no more than all of it
    assert _fall(-10, planted=FIRST - 120) == 14


def test_none_for_a_wave_planted_after_the_average_first_frost() -> None:
    assert _fall(55, planted=FIRST) == 14
    assert _fall(40, planted=FIRST + 1) == 0


def test_the_spring_allowance() -> None:
    # 10 days at 30 or more before the last frost, a third of a day for each
    ramps = Allowances(14, False, LAST, FIRST)
    for lead, expected in ((40, 10), (30, 10), (29, 10), (28, 9), (15, 5), (2, 1), (1, 0), (0, 0)):
        assert ramps.spring_days(LAST - lead) == expected, lead
    assert ramps.spring_days(LAST + 1) == 0


def test_always_drops_both_ramps() -> None:
    always = Allowances(14, True, LAST, FIRST)
    assert always.fall_days(LAST + 20, planted=LAST - 30, cool=False) == 14
    assert always.spring_days(LAST - 30) == 0


def test_no_ramps_without_frost() -> None:
    none = Allowances(14, False, None, None)
    assert none.fall_days(FIRST, planted=FIRST - 50, cool=True) == 0
    assert none.spring_days(LAST - 30) == 0


def test_each_day_of_the_range_has_its_own_allowance() -> None:
    # Warm-season, planted 25 Jul: + 40 = 3 Sep, 28 days before 1 Oct: none
    #                              + 54 = 17 Sep, 14 days before: half of 14 = 7 → 24 Sep
    judged = _judged(
        planted="07-25",
        like=crop(days_to_harvest="40-54"),
        fall_allowance="14",
        frost="{last: 05-10, first: 10-01}",
    )
    assert judged.stages.first_pick is not None
    early, late = judged.stages.first_pick
    assert (early.day, late.day) == (date(2026, 9, 3), date(2026, 9, 24))


@pytest.mark.parametrize("cool", [True, False])
@pytest.mark.parametrize("planted", [LAST - 40, LAST - 12, LAST, FIRST - 90, FIRST + 1])
def test_a_long_range_has_both_allowances_day_by_day(planted: int, cool: bool) -> None:
    # Planted in spring and picked in the fall: a third of a day for each before the last frost, ten
    # at most; half a day for each from the beginning of the ramp on, fourteen at most.
    ramps = Allowances(14, False, LAST, FIRST)
    expected = []
    for days in range(60, 201):
        pick = planted + days
        spring = min(max(LAST - planted, 0), 30) / 3
        into = min(max((56 if cool else 28) - (FIRST - pick), 0), 28)
        fall = into / 2 if planted <= FIRST else 0
        expected.append(pick + int(spring + 0.5) + int(fall + 0.5))
        assert ramps.pick(planted, days, cool=cool) == expected[-1]
    assert list(ramps.picks(planted, DayRange(60, 200), cool=cool)) == expected
    assert list(ramps.picks(planted, DayRange(60, 70), cool=cool)) == expected[:11]


def test_a_sowing_a_month_before_the_last_frost_takes_ten_days_more() -> None:
    # leaf, hardy: 10 Apr + 50 + 10 = 9 Jun; on 10 May: + 50 = 29 Jun
    line = leaf(days_to_harvest="50")
    for planted, expected in (("04-10", (6, 9)), ("05-10", (6, 29))):
        judged = _judged(planted=planted, like=line)
        assert judged.stages.first_pick is not None
        assert judged.stages.first_pick[0].day == date(2026, *expected)


# Odds, expected picking days and the chance of nothing


def test_odds_and_expected_picking_days_summed_by_hand() -> None:
    # Planted 1 Aug + 50 = 20 Sep; three picking days, two worth it. P(end > x) = 1 − Φ((x + 1 −
    # 1 Oct) / 11): for 20, 21, 22 Sep (x + 1 is 10, 9, 8 days before) Φ(10/11), Φ(9/11), Φ(8/11).
    judged = _judged(planted="08-01", like=crop(picking_days="3", worthwhile_days="2"))
    assert judged.odds == pytest.approx(below(9 / 11), abs=1e-9)
    assert judged.odds == pytest.approx(0.7934, abs=1e-4)
    expected = below(10 / 11) + below(9 / 11) + below(8 / 11)
    assert judged.expected_picking_days == pytest.approx(expected, abs=1e-9)
    assert judged.expected_picking_days == pytest.approx(0.8183 + 0.7934 + 0.7665, abs=2e-4)
    assert judged.odds_of_nothing == pytest.approx(1 - below(10 / 11), abs=1e-9)
    assert judged.margin == 9  # the day after the last worthwhile pick, 22 Sep, to 1 Oct


def test_a_range_of_days_is_averaged() -> None:
    # 50, 51, 52 days: first pick 20, 21, 22 Sep; two worthwhile days, three picking days
    judged = _judged(
        planted="08-01",
        like=crop(days_to_harvest="50-52", picking_days="3", worthwhile_days="2"),
    )
    odds = sum(below(n / 11) for n in (9, 8, 7)) / 3
    mean = sum(below(n / 11) for n in (10, 9, 8, 9, 8, 7, 8, 7, 6)) / 3
    nothing = sum(1 - below(n / 11) for n in (10, 9, 8)) / 3
    assert judged.odds == pytest.approx(odds, abs=1e-9)
    assert judged.expected_picking_days == pytest.approx(mean, abs=1e-9)
    assert judged.odds_of_nothing == pytest.approx(nothing, abs=1e-9)
    assert judged.margin == 7  # the late end counts: 22 Sep + 2 = 24 Sep, 7 before 1 Oct


def test_a_crop_cut_once_wants_seven_days_however_long_it_holds() -> None:
    # 20 Sep … 26 Sep: P(end > 26 Sep) = Φ(4/11); one picking day: P(end > 20 Sep) = Φ(10/11)
    judged = _judged(planted="08-01", like=crop(picking_days="1", holding_days="30-40"))
    assert judged.odds == pytest.approx(below(4 / 11), abs=1e-9)
    assert judged.expected_picking_days == pytest.approx(below(10 / 11), abs=1e-9)


def test_worthwhile_is_fourteen_days_or_the_picking_days_if_fewer() -> None:
    # 30 picking days: 20 Sep + 13 = 3 Oct: P(end > 3 Oct) = 1 − Φ(3/11)
    # 5 picking days: 20 Sep + 4 = 24 Sep: P(end > 24 Sep) = Φ(6/11)
    long = _judged(planted="08-01", like=crop(picking_days="30"))
    short = _judged(planted="08-01", like=crop(picking_days="5"))
    assert long.odds == pytest.approx(1 - below(3 / 11), abs=1e-9)
    assert short.odds == pytest.approx(below(6 / 11), abs=1e-9)


# What ends a wave


@pytest.mark.parametrize(
    ("hardiness", "expected"),
    [
        # 36, 32, 28, 24, 20 °F: 3 days for each °F from 32 °F on 1 Oct
        ("very tender", (9, 19)),
        ("tender", (10, 1)),
        ("half-hardy", (10, 13)),
        ("hardy", (10, 25)),
        ("hardiest", (11, 6)),
    ],
)
def test_each_class_has_its_killing_temperature(hardiness: str, expected: tuple[int, int]) -> None:
    judged = _judged(planted="07-20", like=crop(hardiness=hardiness, picking_days="199"))
    assert judged.end is not None
    assert judged.end.day == date(2026, *expected)
    assert judged.ended_by is EndedBy.FROST
    assert judged.stages.last_pick is not None
    assert judged.stages.last_pick.day == date.fromordinal(judged.end.day.toordinal() - 1)


def test_brought_in_thirteen_days_after_the_frost() -> None:
    judged = _judged(planted="08-01", like=crop(after_frost="bring in", picking_days="60"))
    assert judged.stages.last_pick is not None
    assert judged.stages.last_pick.day == date(2026, 10, 14)  # 1 Oct + 13
    assert judged.stages.pull_out.day == date(2026, 10, 15)
    # 20 Sep + 13 = 3 Oct; alive if the frost + 14 is later: P(frost > 19 Sep) = Φ(11/11)
    assert judged.odds == pytest.approx(below(11 / 11), abs=1e-9)


def test_what_is_ripe_before_the_frost_stands_after_it() -> None:
    judged = _judged(planted="08-01", like=crop(after_frost="stands", picking_days="40"))
    assert judged.end is None
    assert judged.ended_by is EndedBy.PICKED_OUT
    assert judged.stages.last_pick is not None
    assert judged.stages.last_pick.day == date(2026, 10, 29)  # 1 Aug + 50 = 20 Sep, + 39
    # ripe if the frost comes later: P(frost > 20 Sep) = Φ(10/11); then all 40 days are picked
    assert judged.odds == pytest.approx(below(10 / 11), abs=1e-9)
    assert judged.odds_of_nothing == pytest.approx(1 - below(10 / 11), abs=1e-9)
    assert judged.expected_picking_days == pytest.approx(40 * below(10 / 11), abs=1e-6)
    assert judged.margin == 10  # 1 Oct − 21 Sep, the day after it is ripe


def test_what_is_not_ripe_before_the_frost_does_not_stand() -> None:
    judged = _judged(planted="08-12", like=crop(after_frost="stands", picking_days="40"))
    assert judged.stages.first_pick is None  # 12 Aug + 50 = 1 Oct
    assert judged.ended_by is EndedBy.FROST
    assert judged.stages.pull_out.day == date(2026, 10, 1)


def test_a_day_of_another_growing_year_meets_its_own_frost() -> None:
    this, next_, last = (
        _judged(planted=day, like=crop(picking_days="99"))
        for day in ("2026-07-01", "2027-07-01", "2025-07-01")
    )
    assert [each.end.day for each in (last, this, next_) if each.end] == [
        date(2025, 10, 1),
        date(2026, 10, 1),
        date(2027, 10, 1),
    ]
    assert this.odds == next_.odds == last.odds
    assert next_.verdict is this.verdict is Verdict.SAFE_FROM_FROST
    early = _judged(planted="2027-04-20")
    assert early.verdict is Verdict.TOO_EARLY
    assert early.earliest.year == 2027


def test_nothing_ends_a_wave_without_frost() -> None:
    judged = _judged(planted="10-01", frost="none")
    assert (judged.odds, judged.end, judged.margin) == (1, None, None)
    assert judged.verdict is Verdict.SAFE_FROM_FROST


@pytest.mark.parametrize(
    ("site", "bed", "expected"),
    [
        # 2 °C colder: its 0 °C comes with the site's 2 °C, 3.6 °F: 10.8 days
        ({"colder_by": "2"}, gardens.BED, ((9, 20), (5, 31))),
        ({}, "{bed: Low, size: 1 x 10, colder_by: 2}", ((9, 20), (5, 31))),
        # a cover of 4 °C buys 7.2 °F: 21.6 days
        ({}, "{bed: Hoops, size: 1 x 10, cover: 4}", ((10, 23), (4, 28))),
        # all three: 2 + 2 − 4 = 0
        (
            {"colder_by": "2"},
            "{bed: Both, size: 1 x 10, colder_by: 2, cover: 4}",
            ((10, 1), (5, 20)),
        ),
        ({}, gardens.BED, ((10, 1), (5, 20))),
    ],
)
def test_cover_and_cold_corner_act_at_both_ends(
    site: dict[str, str], bed: str, expected: tuple[tuple[int, int], tuple[int, int]]
) -> None:
    # up at once, so that earliest is the frost day itself: 10 May + 0.8416 × 11 = 9.26 → 20 May
    file = text(
        wave(start="earliest", beds="[" + bed[6 : bed.index(",")] + "]"),
        crops=[crop(up_days="0", picking_days="200", worthwhile_days="1")],
        beds=[bed],
        fall_allowance="0",
        **site,
    )
    judged = gardens.only(file).judged
    assert judged.end is not None
    assert judged.end.day == date(2026, *expected[0])
    assert judged.earliest == date(2026, *expected[1])


# Heat

HOT = {"too_hot": "07-01..08-20"}


def test_heat_ends_a_cool_season_crop_as_frost_does() -> None:
    # 10 May + 40 = 19 Jun; 30 picking days would last to 18 Jul; the heat begins on 1 Jul
    judged = _judged(planted="05-10", like=leaf(days_to_harvest="40", picking_days="30"), **HOT)
    assert judged.stages.last_pick is not None
    assert judged.stages.last_pick.day == date(2026, 6, 30)
    assert judged.stages.pull_out.day == date(2026, 7, 1)
    assert judged.ended_by is EndedBy.HEAT
    assert judged.expected_picking_days == pytest.approx(12)  # 19 … 30 Jun


@pytest.mark.parametrize(("worthwhile", "odds"), [("12", 1), ("13", 0)])
def test_worthwhile_days_must_end_before_the_heat(worthwhile: str, odds: float) -> None:
    # 19 Jun + 12 = 1 Jul: the twelfth day is 30 Jun, a thirteenth would be in the heat
    line = leaf(days_to_harvest="40", picking_days="30", worthwhile_days=worthwhile)
    judged = _judged(planted="05-10", like=line, **HOT)
    assert judged.odds == pytest.approx(odds, abs=1e-6)


def test_a_first_pick_in_the_hot_weeks_is_too_hot() -> None:
    # 22 May + 40 = 1 Jul, the first hot day; 21 May + 40 = 30 Jun, the day before
    line = leaf(days_to_harvest="40", picking_days="1", worthwhile_days="1")
    assert _judged(planted="05-22", like=line, **HOT).verdict is Verdict.TOO_HOT
    assert _judged(planted="05-21", like=line, **HOT).verdict is Verdict.SAFE_FROM_FROST
    # 11 Jul + 40 = 20 Aug, the last hot day; 12 Jul + 40 = 21 Aug
    assert _judged(planted="07-11", like=line, **HOT).verdict is Verdict.TOO_HOT
    assert _judged(planted="07-12", like=line, **HOT).verdict is Verdict.SAFE_FROM_FROST


def test_too_hot_has_no_picking_by_its_dates() -> None:
    judged = _judged(planted="06-10", like=leaf(days_to_harvest="40"), **HOT)
    assert judged.stages.first_pick is None
    assert judged.stages.last_pick is None
    assert judged.expected_picking_days == 0
    assert judged.odds_of_nothing == 1


def test_an_autumn_wave_waits_for_the_heat_to_end() -> None:
    # 5 Jul + 40 = 14 Aug, + 50 = 24 Aug: the early end waits for 21 Aug
    line = leaf(days_to_harvest="40-50", picking_days="28")
    judged = _judged(planted="07-05", like=line, **HOT)
    assert judged.stages.first_pick is not None
    early, late = judged.stages.first_pick
    assert (early.day, late.day) == (date(2026, 8, 21), date(2026, 8, 24))
    assert (
        judged.verdict is Verdict.SAFE_FROM_FROST
    )  # 28 − 7 days of waiting leave 21, worthwhile are 14
    # the wait comes off the picking: 21, 22, … 27 days for the first seven of eleven, then 28
    assert judged.expected_picking_days == pytest.approx(
        (sum(range(21, 28)) + 4 * 28) / 11,
        abs=0.01,  # frost comes before the end in a few years of 10,000
    )


def test_an_autumn_wave_that_waits_too_long_is_too_hot() -> None:
    # 20 picking days: those ripe on 14 Aug wait 7 days and have 13 left, 14 are worthwhile
    line = leaf(days_to_harvest="40-50", picking_days="20")
    assert _judged(planted="07-05", like=line, **HOT).odds == pytest.approx(10 / 11, abs=1e-4)
    # 14 picking days: whoever waits falls short, 7 of 11
    short = _judged(planted="07-05", like=leaf(days_to_harvest="40-50", picking_days="14"), **HOT)
    assert short.odds == pytest.approx(4 / 11, abs=1e-4)
    assert short.verdict is Verdict.TOO_HOT


def test_a_crop_cut_once_waits_as_long_as_it_holds_in_the_warm() -> None:
    # ripe on 14 … 24 Aug, over on 21 Aug: 7 … 1 days of waiting; it holds 5
    line = leaf(days_to_harvest="40-50", picking_days="1", holding_days="5-12")
    judged = _judged(planted="07-05", like=line, **HOT)
    assert judged.odds == pytest.approx(9 / 11)
    assert judged.odds_of_nothing == pytest.approx(2 / 11)
    assert judged.verdict is Verdict.SAFE_FROM_FROST
    early = _judged(planted="07-02", like=line, **HOT)  # 11 … 21 Aug: 10 … 1 days, then 0
    assert early.odds == pytest.approx(6 / 11)
    assert early.verdict is Verdict.CHANCY


def test_the_wait_for_the_heat_to_end_is_in_the_odds() -> None:
    # 10 Sep is the last hot day: first pick 11 Sep, the seventh worthwhile day 17 Sep; 24 °F comes
    # on 21 Oct, so take a leaf that 32 °F ends: P(end > 17 Sep) = Φ(13/11)
    line = leaf(days_to_harvest="40-41", hardiness="tender", picking_days="8", worthwhile_days="7")
    judged = _judged(planted="08-01", like=line, too_hot="07-01..09-10")
    assert judged.stages.first_pick is not None
    assert judged.stages.first_pick[0].day == date(2026, 9, 11)  # + 40 is 10 Sep, + 41 is 11 Sep
    assert judged.odds == pytest.approx(below(13 / 11), abs=1e-9)


def test_heat_does_not_end_a_crop_without_a_warm_limit() -> None:
    judged = _judged(planted="05-10", like=crop("fruit", weather="cool", picking_days="60"), **HOT)
    assert judged.ended_by is EndedBy.PICKED_OUT
    warm = _judged(planted="05-20", like=crop(warm_limit="24", picking_days="60"), **HOT)
    assert warm.ended_by is EndedBy.PICKED_OUT


@pytest.mark.parametrize(
    ("units", "said"),
    [
        ("us", "3 days for each °F beyond the temperatures given, and below 24 °F nobody knows"),
        # 3 × 9 / 5; 24 °F is -4.44 °C
        ("metric", "5.4 days for each °C beyond the temperatures given, and below -4.4 °C nobody "),
    ],
)
def test_what_is_assumed_beyond_the_dates_is_told_in_the_growers_degrees(
    units: str, said: str
) -> None:
    file = gardens.text(crops=()).replace("units: metric", f"units: {units}")
    assert any(each.startswith(said) for each in gardens.season(file).climate.basis.assumed)
