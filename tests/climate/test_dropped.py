"""What heat that drops flowers leaves of a picking in an average year, by hand.

Flowers of days 3, 4 and 8 drop, and ripen for ten days: 13, 14 and 18 have no fruit.
"""

from __future__ import annotations

from datetime import date

import pytest

from sowtide.climate.average.dropped import SeasonsBarren, with_fruit
from sowtide.climate.warmth import Barren
from sowtide.reasons import OURS, Dated

BARREN = Barren([3, 4, 8], 10)


def on(day: int) -> Dated:
    return Dated.on(date.fromordinal(700_000 + day), "heat", "ripe", OURS)


def number(day: Dated) -> int:
    return day.day.toordinal() - 700_000


@pytest.mark.parametrize(
    ("ripe", "picking", "found", "end", "waited"),
    [
        ((5, 9), 4, (5, 9), None, 0),  # over before them
        ((14, 16), 9, (15, 16), None, 0),  # the early one waits a day
        ((13, 14), 9, (15, 15), None, 1),  # and here the late one, too
        ((12, 13), 9, (12, 15), None, 2),
        ((10, 12), 3, (10, 12), 13, 0),  # nothing from 13 on to the end of its picking
        ((10, 13), 2, (10, 13), 13, 0),  # the late one brings nothing
        ((10, 14), 1, (10, 14), 13, 0),
        ((13, 13), 2, (13, 13), 13, 0),  # all of it is dropped
        ((19, 22), 9, (19, 22), None, 0),
    ],
)
def test_first_picks_wait_for_fruit_and_end_with_it(
    ripe: tuple[int, int], picking: int, found: tuple[int, int], end: int | None, waited: int
) -> None:
    told = with_fruit((on(ripe[0]), on(ripe[1])), ripe, picking, BARREN, OURS)
    assert (number(told.early), number(told.late)) == found
    assert (None if told.end is None else number(told.end)) == end
    assert told.waited == waited


def turns(planted: range, picking: int = 9, *, barren: Barren | None = None) -> list[int]:
    # Ripe 50 to 60 days after planting; days 113, 114 and 118 have no fruit in the hottest season
    hot = Barren([103, 104, 108], 10) if barren is None else barren
    seasons = SeasonsBarren((Barren([], 10), Barren([104], 10), hot))
    assert seasons.usual.of(0, 200) == [114]
    found = seasons.turns(planted, picking, lambda day: day + 50, lambda day: day + 60)
    return list(found)


def test_days_whose_picking_meets_days_without_fruit_are_turns() -> None:
    # Of day 45 the slow end is picked from 105 to 113; of day 68 the quick one from 118 on, and of
    # the day after it from 119: the last to turn.
    assert turns(range(200)) == list(range(45, 70))
    assert turns(range(60)) == list(range(45, 60))
    assert turns(range(50, 200)) == list(range(50, 70))
    assert turns(range(200), 1) == list(range(53, 70))
    assert turns(range(200), barren=Barren([], 10)) == []
    assert turns(range(70, 90)) == [70]
