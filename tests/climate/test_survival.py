"""How likely a crop still stands on a day, from the odds of the frost that ends it, by hand.

The first frost comes on day 300 in one of ten years, on day 301 in two, on 302 in three, on 303 in
two; two of ten have none. So it stands beyond those days in 0.9, 0.7, 0.4 and 0.2 of the years.
"""

from __future__ import annotations

from datetime import date

import pytest

from sowtide.climate.frost.survival import Survival, with_springs
from sowtide.climate.medians import NEVER
from sowtide.reasons import OURS, Dated

EARLIER = {300: 0.0, 301: 0.1, 302: 0.3, 303: 0.6, 304: 0.8}


def on(day: int) -> Dated:
    return Dated.on(date.fromordinal(day), "frost-odds", "frost", OURS)


class Frosts:
    """First frosts as above."""

    def __init__(self, middle: int | None = 302) -> None:
        self._middle = middle

    def odds(self, day: int, *, at: float) -> float:
        return EARLIER[min(max(day, 300), 304)]

    def first_safe(self, *, at: float, share: float) -> int | None:
        raise NotImplementedError

    def nearest_day(self, *, at: float, share: float) -> int | None:
        assert (at, share) == (-2.0, 0.5)
        return self._middle

    def reach(self, at: float) -> tuple[int, int]:
        return 300, 304

    def dated(self, day: int, *, at: float, share: float) -> Dated:
        return on(day)


def survival(later: int = 0) -> Survival:
    return Survival(Frosts(), at=-2.0, later=later)


@pytest.mark.parametrize(
    ("first", "days", "total"),
    [
        (290, 5, 5),
        (298, 2, 2),
        (298, 3, 2.9),
        (300, 1, 0.9),
        (301, 2, 0.7 + 0.4),
        (303, 1, 0.2),
        (303, 3, 0.2 * 3),
        (305, 2, 0.4),
        (298, 10, 2 + 0.9 + 0.7 + 0.4 + 0.2 + 4 * 0.2),
        (300, 0, 0),
    ],
)
def test_days_on_which_it_stands_are_added_up(first: int, days: int, total: float) -> None:
    assert survival().total(first, days) == pytest.approx(total)
    # What must be brought in within two weeks of the frost has two weeks more.
    assert survival(14).total(first + 14, days) == pytest.approx(total)


@pytest.mark.parametrize("day", range(297, 308))
def test_picks_are_those_of_each_alone(day: int) -> None:
    found = survival()
    assert found.standing(day) == pytest.approx(1 - EARLIER[min(max(day + 1, 300), 304)])
    assert found.over([day], 0) == pytest.approx(found.standing(day))
    assert found.over(range(day, day + 3), 1) == pytest.approx(
        sum(found.standing(each) for each in (day + 1, day + 2, day + 3))
    )
    assert found.over([day, day + 2], 1) == pytest.approx(
        found.standing(day + 1) + found.standing(day + 3)
    )
    assert found.over([], 1) == 0


def test_equally_likely_years_end_it_as_often_as_the_odds_say() -> None:
    ends = [300, 301, 301, 302, 302, 302, 303, 303, NEVER, NEVER]
    assert survival().ends(10) == survival().ends_of(310, 10) == ends
    assert survival(14).ends(10) == [day if day == NEVER else day + 14 for day in ends]
    assert survival().ends(1) == [302]


def test_its_end_is_that_of_half_of_the_years() -> None:
    end = survival().end
    assert end is not None
    assert end.day == date.fromordinal(302)
    later = survival(14).end
    assert later is not None
    assert later.day == date.fromordinal(316)
    assert survival().end_of(280) == end
    assert Survival(Frosts(None), at=-2.0, later=14).end is None


def test_where_nothing_ends_it_it_stands() -> None:
    for found in (Survival(None, at=-2.0, later=0), Survival.until(None)):
        assert found.total(300, 7) == 7
        assert found.ends(2) == [NEVER, NEVER]
        assert found.end is None
        assert found.over([300, 900], 5) == found.over(range(2), 5) == 2


def test_ended_on_one_day_in_every_year() -> None:
    found = Survival.until(on(302))
    assert found.total(299, 10) == 3  # 299 to 301: it is gone on 302
    assert found.ends(3) == [302] * 3
    assert found.over([300, 301, 302], 0) == 2
    assert found.end == on(302)


@pytest.mark.parametrize(
    ("seeds", "total", "ends", "end"),
    [
        # Of ten days from 298 on; ten years
        (299, 1, [299] * 10, 299),
        (300, 2, [300] * 10, 300),
        (301, 2.9, [300] + [301] * 9, 301),
        (302, 3.6, [300] + [301] * 2 + [302] * 7, 302),
        (304, 4.2, [300] + [301] * 2 + [302] * 3 + [303] * 2 + [304] * 2, 302),
        (306, 4.6, [300] + [301] * 2 + [302] * 3 + [303] * 2 + [306] * 2, 302),
    ],
)
def test_what_runs_to_seed_stands_no_longer(
    seeds: int, total: float, ends: list[int], end: int
) -> None:
    found = survival().until_seed(on(seeds))
    assert found.total(298, 10) == pytest.approx(total)
    assert found.ends(10) == ends
    assert found.end == on(end)
    assert found.stops == ("it runs to seed" if seeds < 302 else "the ground freezes")


def test_what_no_frost_ends_runs_to_seed() -> None:
    found = Survival.until(None).until_seed(on(306))
    assert (found.end, found.stops) == (on(306), "it runs to seed")
    assert found.total(300, 10) == 6
    assert survival().until_seed(None).ends(10) == survival().ends(10)


@pytest.mark.parametrize(
    ("lost", "killed"),
    [
        (0.0, []),
        (0.04, []),
        (0.05, [9]),  # half a year of ten
        (0.1, [4]),
        (0.25, [1, 5, 9]),
        (0.5, [0, 2, 4, 6, 8]),
        (1.0, list(range(10))),
    ],
)
def test_springs_that_kill_are_spread_over_the_autumns(lost: float, killed: list[int]) -> None:
    found = with_springs(list(range(300, 310)), 150, lost=lost)
    assert found == [150 if each in killed else 300 + each for each in range(10)]
