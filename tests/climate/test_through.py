"""Young plants between the frosts of one winter: which come through, and what ends them, by hand.

Midsummer is day 100. Frosts that take flowers come on days 110, 150, 170, 191 and 300; a fruit is
picked 20 days after its flower, so that nothing ripens between 150 and 170, and one day's flowers
do between 170 and 191.
"""

from __future__ import annotations

from collections.abc import Sequence
from types import SimpleNamespace
from typing import cast

import pytest

from made_years import need
from sowtide.climate.medians import NEVER
from sowtide.climate.replay.through import (
    RangePart,
    Spell,
    Through,
    borne_of,
    first_of,
    is_worthwhile,
    left_of,
)
from sowtide.climate.warmth import Years

FLOWERS = (90, 110, 150, 170, 191, 300)
BEAN = need(picking=18, worthwhile=14)
LEAF = need(picking=18, worthwhile=14, cool=True)
HEAD = need(picking=1, worthwhile=7, cool=True, holds=5)


def through(
    plants: Sequence[int] = (),
    *,
    flowers: Sequence[int] = FLOWERS,
    missing: int | None = None,
    days: int = 600,
) -> Through:
    """What frost leaves, with one day's temperatures missing or none."""
    years = cast("Years", SimpleNamespace(midsummers=(100,)))
    before = [0] * (days + 1)
    if missing is not None:
        before[missing + 1 :] = [1] * (days - missing)
    return Through(flowers, plants, years, ripens=20, missing=before)


FIRST, SECOND, THIRD = Spell(110, 150, 150), Spell(170, 191, 191), Spell(191, 300, 300)
LAST = Spell(300, NEVER, 466)  # a year after midsummer nothing is looked at any more


@pytest.mark.parametrize(
    ("frost", "plants", "spells"),
    [
        (110, (), [FIRST, SECOND, THIRD, LAST]),
        # planted later, its first frost is another
        (150, (), [SECOND, THIRD, LAST]),
        (170, (), [SECOND, THIRD, LAST]),
        (300, (), [LAST]),
        (301, (), []),
        (NEVER, (), []),
        # Plants die on 191, as on the day of a frost that begins a spell
        (110, (191,), [FIRST, SECOND]),
        (110, (170,), [FIRST]),
        (110, (110,), []),
        (150, (110, 300), [SECOND, THIRD]),
        (110, (90,), [FIRST, SECOND, THIRD, LAST]),
    ],
)
def test_spells_of_a_winter_are_those_that_plants_live_to_see(
    frost: int, plants: tuple[int, ...], spells: list[Spell]
) -> None:
    assert through(plants).spells(0, frost) == spells


def test_a_day_without_temperatures_leaves_out_what_comes_after_it() -> None:
    assert through(missing=180).spells(0, 110) == [FIRST]
    assert through(missing=190).spells(0, 110) == [FIRST]
    assert through(missing=191).spells(0, 110) == [FIRST, SECOND]
    assert through(missing=109).spells(0, 110) == [FIRST, SECOND, THIRD, LAST]
    # The record ends before a year is over
    assert through(days=466).spells(0, 300) == [LAST]
    assert through(days=465).spells(0, 300) == []


def test_a_year_from_midsummer_on_is_looked_at() -> None:
    assert through(flowers=(100, 466)).spells(0, 100) == [Spell(100, 466, 466)]
    assert through(flowers=(100, 467)).spells(0, 100) == [Spell(100, NEVER, 466)]
    assert through(flowers=(99,)).spells(0, 99) == []
    # so late that nothing ripens any more: 445 and 20 days are 465
    assert through(flowers=(445,)).spells(0, 445) == [Spell(445, NEVER, 466)]
    assert through(flowers=(446,)).spells(0, 446) == []


@pytest.mark.parametrize(
    ("pick", "end"),
    [
        (105, 110),  # picked before the first frost, which ends it
        (130, 110),  # in flower on its day
        (131, 150),
        (150, 150),
        (151, 110),  # in flower on 131 and so lost on 150
        (170, 110),
        (190, 110),
        (191, 191),
        (192, 110),
        (211, 110),
        (212, 300),
        (300, 300),
        (320, 110),
        (321, NEVER),
        (466, NEVER),
        (467, 110),
    ],
)
def test_what_flowers_between_two_frosts_is_picked_until_the_second(pick: int, end: int) -> None:
    found = through()
    assert found.end_of(pick, found.spells(0, 110), 110) == end


@pytest.mark.parametrize(
    ("part", "worth", "days"),
    [
        (RangePart(131, 145), True, 14),
        (RangePart(131, 144), False, 13),
        (RangePart(131, 150), True, 18),
        (RangePart(131, 132), False, 1),
        (RangePart(131, 131), False, 0),
        (RangePart(151, 110), False, 0),
        (RangePart(NEVER, NEVER), False, 0),
    ],
)
def test_a_part_is_worth_while_by_its_own_end(part: RangePart, worth: bool, days: int) -> None:
    assert is_worthwhile(part, BEAN, None) is worth
    assert left_of([part], BEAN, None, 0) == (days, days > 0)
    (borne,) = borne_of([part], BEAN, None, 50)
    assert borne == ((part.pick - 50, part.pick - 50, part.pick - 50 + days) if days else None)


def test_days_left_are_those_of_all_parts_from_a_day_on() -> None:
    parts = [RangePart(131, 150), RangePart(140, 150), RangePart(151, 110), RangePart(212, 300)]
    assert left_of(parts, BEAN, None, 0) == (18 + 10 + 18, 3)
    assert left_of(parts, BEAN, None, 145) == (4 + 5 + 18, 3)
    assert left_of(parts, BEAN, None, 150) == (18, 1)


def test_hot_weeks_take_their_days_of_each_part() -> None:
    # The hot weeks are 140 to 159: picked before them, or waiting for their end
    hot = (140, 160)
    assert first_of(RangePart(131, 300), LEAF, hot) == 131
    assert first_of(RangePart(145, 300), LEAF, hot) == NEVER  # ripe in them
    assert left_of([RangePart(131, 300)], LEAF, hot, 0) == (9, 1)
    assert not is_worthwhile(RangePart(131, 300), LEAF, hot)
    assert is_worthwhile(RangePart(126, 300), LEAF, hot)
    # A head keeps for five days of heat
    assert first_of(RangePart(155, 300), HEAD, hot) == NEVER
    assert first_of(RangePart(160, 300), HEAD, hot) == 160
