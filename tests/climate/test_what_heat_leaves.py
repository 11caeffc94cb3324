"""What the hot weeks leave of a planting, counted by hand to the day.

The hot weeks are the days 100 to 129 throughout, and the planting day is 50. Leaves are picked for
ten days, of which four are worth while; a head is cut once, wants seven days before the heat, and
keeps for five in it.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

import gardens
from made_years import need
from sowtide.climate.fate import (
    bearing,
    borne_by_curve,
    expected_days,
    fate_of,
    picking_left,
    without_fruit,
)
from sowtide.climate.medians import NEVER
from sowtide.climate.warmth import Barren
from sowtide.garden.crop import AfterFrost

HOT = (100, 130)
PLANTED = 50
FAR = 10_000
LEAF = need(cool=True, picking=10, worthwhile=4)
HEAD = need(cool=True, picking=1, worthwhile=7, holds=5)
STANDS = replace(LEAF, after_frost=AfterFrost.STANDS)


def no_frost(_first: int, days: int) -> float:
    return float(days)


@pytest.mark.parametrize(
    ("picks", "kept", "left", "hot_end", "waits", "too_hot"),
    [
        # Picked until the day before the heat: 10 days of 89 and 90, 9 of 91, one of 99
        ((89, 90, 91, 99), (89, 90, 91, 99), (10, 10, 9, 1), 100, 0, False),
        # what would be ripe on its first day or later is not picked, though some is before
        ((99, 100, 135), (99,), (1,), 100, 0, False),
        # all of it in the heat, from its first day to its last
        ((100, 129), (), (), 100, 0, True),
        # over when the heat is, on 129: 120 and nine days more; 121 has one day, of ten
        ((120, 121, 126, 130, 135), (130, 130, 130, 135), (1, 6, 10, 10), None, 130, False),
        # less than half with four days worth while: 123 has three, 124 four
        ((123, 124, 130), (130, 130, 130), (3, 4, 10), None, 130, False),
        ((122, 123, 130), (130, 130, 130), (2, 3, 10), None, 130, True),
        # just half of it is not more than half
        ((122, 123, 124, 130), (130,) * 4, (2, 3, 4, 10), None, 130, False),
        # ripe when the heat is over: nothing of it is lost
        ((130, 131), (130, 131), None, None, 0, False),
    ],
)
def test_leaves_are_picked_before_the_heat_or_after_it(
    picks: tuple[int, ...],
    kept: tuple[int, ...],
    left: tuple[int, ...] | None,
    hot_end: int | None,
    waits: int,
    too_hot: bool,
) -> None:
    fate = fate_of(picks, LEAF, HOT)
    assert tuple(fate.picks) == kept
    assert (None if fate.left is None else tuple(fate.left)) == left
    assert tuple(fate.days_left(LEAF)) == (left or (10,) * len(kept))
    assert (fate.hot_end, fate.waits, fate.too_hot) == (hot_end, waits, too_hot)
    assert (fate.count, fate.early, fate.late) == (len(picks), picks[0], picks[-1])
    worth = [pick for pick, days in zip(kept, fate.days_left(LEAF), strict=True) if days >= 4]
    assert list(fate.worthwhile(LEAF)) == worth
    # Mean days picked, where no frost comes
    assert expected_days(fate, LEAF, no_frost) == sum(fate.days_left(LEAF)) / len(picks)


def test_a_head_is_cut_days_before_the_heat_or_keeps_until_it_is_over() -> None:
    before = fate_of((92, 93, 94, 99, 100), HEAD, HOT)
    assert (list(before.picks), before.left) == ([92, 93, 94, 99], [1, 1, 1, 1])
    assert before.worthwhile(HEAD) == [92, 93]  # 93 to 99 are seven days
    assert before.heat_margin(HEAD) == 100 - (100 + 7)
    after = fate_of((124, 125, 126, 130, 131), HEAD, HOT)
    assert (list(after.picks), after.left) == ([130, 130, 130, 131], [1, 1, 1, 1])
    assert list(after.worthwhile(HEAD)) == [130, 130, 130, 131]  # all it asks is to keep until then
    assert after.heat_margin(HEAD) is None
    # Cut after it in two of four, or of five
    assert not fate_of((110, 111, 130, 131), HEAD, HOT).too_hot
    assert fate_of((110, 111, 112, 130, 131), HEAD, HOT).too_hot


def test_a_crop_that_minds_no_heat_meets_none() -> None:
    fate = fate_of((99, 101), need(picking=10, worthwhile=4), HOT)
    assert (list(fate.picks), fate.left, fate.hot_end, fate.too_hot) == (
        [99, 101],
        None,
        None,
        False,
    )
    assert fate.heat_margin(LEAF) is None
    # The last of four worthwhile days
    assert fate.last_worthwhile(99, LEAF) == 102
    assert fate.last_worthwhile(99, STANDS) == 99  # ripe before the frost is enough


@pytest.mark.parametrize(
    ("end", "since", "days", "parts"),
    [
        # From 92, 95, 97 and 99 until the heat: 8, 5, 3 and 1
        (FAR, 0, 17, 4),
        (FAR, 96, 12, 4),  # 4, 4, 3, 1
        (FAR, 99, 4, 4),
        (FAR, 100, 0, 0),
        (97, 0, 7, 2),  # to 96: 5 and 2
        (98, 0, 10, 3),
        (98, 97, 3, 3),
        (92, 0, 0, 0),
        (93, 0, 1, 1),
    ],
)
def test_what_is_left_is_counted_to_the_frost_and_the_heat(
    end: int, since: int, days: int, parts: int
) -> None:
    fate = fate_of((92, 95, 97, 99, 100, 101), LEAF, HOT)
    assert picking_left(fate, LEAF, end, since) == (days, parts)


def test_what_stands_is_picked_on_after_the_frost_if_it_was_ripe_before() -> None:
    fate = fate_of((92, 95, 97, 99, 100, 101), STANDS, HOT)
    assert picking_left(fate, STANDS, 97, 0) == (8 + 5, 2)
    assert picking_left(fate, STANDS, 97, 98) == (2 + 2, 2)
    # Frost in a quarter of the years before 97, in all before 98
    standing = {92: 1.0, 95: 1.0, 97: 0.75, 99: 0.0}

    def total(first: int, days: int) -> float:
        assert days == 1
        return standing[first]

    assert expected_days(fate, STANDS, total) == (8 + 5 + 0.75 * 3) / 6


def test_a_part_bears_from_its_own_first_pick_on() -> None:
    # Counted from day 50: what is ripe before the heat on the 42nd, 45th … day, until the 50th
    picks = (92, 95, 97, 99, 100, 101)
    fate = fate_of(picks, LEAF, HOT)
    until_heat = ((42, 42, 50), (45, 45, 50), (47, 47, 50), (49, 49, 50), None, None)
    assert bearing(fate, LEAF, picks, planted=PLANTED, end=FAR) == until_heat
    by_frost = ((42, 42, 47), (45, 45, 47), None, None, None, None)
    assert bearing(fate, LEAF, picks, planted=PLANTED, end=97) == by_frost
    standing = ((42, 42, 50), (45, 45, 50), None, None, None, None)
    assert bearing(fate, STANDS, picks, planted=PLANTED, end=97) == standing


def test_a_part_that_waits_for_the_end_of_the_heat_keeps_its_place_in_the_range() -> None:
    picks = (120, 121, 126, 127, 130, 135)
    fate = fate_of(picks, LEAF, HOT)
    # 120 is over before 130. The others bear from the 80th day on: one, six, seven and ten days.
    expected = (None, (71, 80, 81), (76, 80, 86), (77, 80, 87), (80, 80, 90), (85, 85, 95))
    assert bearing(fate, LEAF, picks, planted=PLANTED, end=FAR) == expected
    expected = (None, (71, 80, 81), (76, 80, 83), (77, 80, 83), (80, 80, 83), None)
    assert bearing(fate, LEAF, picks, planted=PLANTED, end=133) == expected


def test_a_head_stands_until_frost_or_heat_ends_it() -> None:
    picks = (92, 99, 100)
    fate = fate_of(picks, HEAD, HOT)
    expected = ((42, 42, 50), (49, 49, 50), None)
    assert bearing(fate, HEAD, picks, planted=PLANTED, end=FAR) == expected
    fate = fate_of((140, 145), HEAD, HOT)
    expected = ((90, 90, 94), None)
    assert bearing(fate, HEAD, (140, 145), planted=PLANTED, end=144) == expected
    never = ((90, 90, NEVER - 50), None)
    assert (
        bearing(fate_of((140, NEVER), HEAD, HOT), HEAD, (140, NEVER), planted=50, end=NEVER)
        == never
    )


# Flowers that drop on 117 and 118 leave 132 and 133 without fruit: they ripen for 15 days.
DROPPED = Barren([117, 118], 15)


def test_flowers_that_drop_after_the_heat_take_days_of_each_part() -> None:
    picks = (120, 126, 130, 150)
    fate = fate_of(picks, LEAF, HOT, DROPPED)
    assert (list(fate.picks), fate.left) == ([130, 130, 150], [6, 10, 10])
    lost = (), ((82, 84),), ((82, 84),), ()
    assert without_fruit(fate, LEAF, planted=PLANTED) == lost
    expected = (None, (76, 80, 86), (80, 80, 90), (100, 100, 110))
    assert bearing(fate, LEAF, picks, planted=PLANTED, end=FAR) == expected
    # The fourth day with fruit is 135, as if picked from 132 on; of 130 to 135 there are just four
    assert list(fate.worthwhile(LEAF)) == [132, 132, 150]
    five = replace(LEAF, worthwhile=5)
    assert list(fate_of(picks, five, HOT, DROPPED).worthwhile(five)) == [132, 150]
    assert picking_left(fate, LEAF, FAR, 0) == (4 + 8 + 10, 3)
    assert picking_left(fate, LEAF, 134, 131) == (1 + 1, 2)
    assert picking_left(fate, LEAF, 134, 132) == (0, 0)
    assert expected_days(fate, LEAF, no_frost) == (4 + 8 + 10) / 4
    stands = fate_of(picks, STANDS, HOT, DROPPED)
    # Half of them ripe before the frost stand on with all their days
    assert expected_days(stands, STANDS, lambda _first, days: days / 2) == (4 + 8 + 10) / 2 / 4
    assert fate.last_worthwhile(130, LEAF) == 135
    assert fate.last_worthwhile(130, replace(LEAF, picking=1)) == 133
    assert [fate.first_fruit(day) for day in (131, 132, 133, 134)] == [131, 134, 134, 134]
    # From 150 ten days with fruit, six more than are worth while
    assert fate.heat_margin(LEAF) == 6


def test_a_part_that_the_heat_cuts_off_has_no_days_to_lose() -> None:
    # Flowers of day 78 leave 93 without fruit: the second day of what is picked from 92 on
    fate = fate_of((92, 95, 100), LEAF, HOT, Barren([78], 15))
    assert without_fruit(fate, LEAF, planted=PLANTED) == (((43, 44),), (), ())


def test_parts_that_are_not_ripe_in_a_year_come_last() -> None:
    # Of six parts of the range the first is over before the heat is, the last two are never ripe.
    picks = (120, 126, 130, 150)
    fate = fate_of(picks, LEAF, HOT, DROPPED)
    fate.count += 2
    found = bearing(fate, LEAF, picks, planted=PLANTED, end=FAR)
    assert found == (None, (76, 80, 86), (80, 80, 90), (100, 100, 110), None, None)
    lost = without_fruit(fate, LEAF, planted=PLANTED)
    assert lost == ((), ((82, 84),), ((82, 84),), (), (), ())


@pytest.mark.parametrize(
    ("first", "days", "margin"),
    [
        (122, 10, None),  # picked to 131: the days without fruit are to come
        (123, 10, 5),  # to 132 but for that: nine, five more than four
        (131, 10, 4),  # 131, 134 to 140: eight
        (133, 10, 5),
        (134, 10, None),  # they are over
    ],
)
def test_only_days_of_its_own_picking_count(first: int, days: int, margin: int | None) -> None:
    bean = need(picking=days, worthwhile=4)
    fate = fate_of((first,), bean, None, DROPPED)
    assert (fate.barren is None) is (margin is None)
    assert fate.heat_margin(bean) == margin


def test_the_fruit_of_one_cut_is_there_or_not() -> None:
    once = need(picking=1, worthwhile=7)
    picked = fate_of((131, 134), once, None, Barren([116], 15))
    assert (picked.heat_margin(once), list(picked.first_picks(once))) == (0, [134])
    lost = fate_of((130, 132), once, None, DROPPED)
    assert (lost.heat_margin(once), list(lost.first_picks(once))) == (-1, [130])


@pytest.mark.parametrize(
    ("parts", "chosen"),
    [
        (1, (0,)),
        (12, tuple(range(12))),
        # The middles of twelve equal stretches of thirteen parts leave out that in the middle
        (13, (0, 1, 2, 3, 4, 5, 7, 8, 9, 10, 11, 12)),
        (24, tuple(range(1, 24, 2))),
    ],
)
def test_twelve_parts_stand_for_a_long_range(parts: int, chosen: tuple[int, ...]) -> None:
    picks = tuple(range(120, 120 + parts))
    bean = need(picking=10, worthwhile=4)
    fate = fate_of(picks, bean, None, DROPPED)
    found = borne_by_curve(fate, bean, picks, planted=PLANTED, ends=(125, FAR))
    assert [each.season for each in found] == [0, 1]
    late = [each.parts for each in found][1]
    assert [None if part is None else part[0] for part in late] == [70 + each for each in chosen]
    early = [part is not None for part in found[0].parts]
    assert early == [each < 5 for each in chosen]
    # Parts picked from 123 on meet the day without fruit of 132, from 134 on none.
    met = [3 <= each < 14 for each in chosen]
    for each in found:
        assert [bool(lost) for lost in each.lost] == (met if fate.barren else [])


def test_of_a_range_no_flower_of_which_drops_no_day_is_lost() -> None:
    picks = tuple(range(140, 170))
    bean = need(picking=10, worthwhile=4)
    (found,) = borne_by_curve(
        fate_of(picks, bean, None, DROPPED), bean, picks, planted=50, ends=(FAR,)
    )
    assert (len(found.parts), found.lost) == (12, ())


def test_twenty_years_stand_for_the_dates_of_frost() -> None:
    on = gardens.season(gardens.text())
    found = gardens.prospects(gardens.text())
    day = found.windows[0].first
    assert len(on.climate.waves.borne(day, found.need)) == 20
