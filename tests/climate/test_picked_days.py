"""Days on which there is something to pick: closed forms against plain lists of days."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from made_years import need
from sowtide.climate.answers import Need
from sowtide.climate.fate import bearing, expected_days, fate_of, picking_left, without_fruit
from sowtide.climate.warmth import Barren
from sowtide.garden.crop import AfterFrost

_FAR = 80
_DAY = st.integers(0, 20)
_DROPPED = st.lists(st.integers(0, 15), max_size=10, unique=True).map(sorted)
_PICKS = st.tuples(st.integers(3, 12), st.integers(1, 6)).map(
    lambda drawn: range(drawn[0], drawn[0] + drawn[1])
)


@st.composite
def _needs(draw: st.DrawFn) -> Need:
    after = draw(st.sampled_from((AfterFrost.ENDS, AfterFrost.STANDS)))
    picking, worthwhile = draw(st.sampled_from((2, 3, 5, 9))), draw(st.integers(1, 6))
    return need(picking=picking, worthwhile=min(worthwhile, picking), after_frost=after)


@given(_DROPPED, st.integers(0, 5), _DAY, _DAY, st.integers(1, 6))
def test_days_without_fruit_are_those_of_a_list(
    dropped: list[int], ripens: int, first: int, stop: int, number: int
) -> None:
    barren, lost = Barren(dropped, ripens), {day + ripens for day in dropped}
    days = range(first, stop)
    fruit = [day for day in days if day not in lost]
    assert bool(barren) is bool(lost)
    assert barren.of(first, max(first, stop)) == sorted(lost & set(days))
    assert barren.count(first, stop) == len(days) - len(fruit)
    assert barren.picked(first, stop) == len(fruit)
    assert barren.last(first, stop) == max(fruit, default=None)
    later = [day for day in range(first, first + _FAR) if day not in lost]
    assert barren.nth(first, number) == later[number - 1]
    spans = list(barren.spans(first, max(first, stop)))
    assert [day for begin, over in spans for day in range(begin, over)] == sorted(lost & set(days))
    assert all(over < begin for (_, over), (begin, _) in pairwise(spans))


@given(_needs(), _PICKS, _DROPPED, st.integers(0, 25), st.integers(0, 25))
def test_what_is_picked_of_a_range_is_that_of_lists_of_its_days(
    of: Need, picks: range, dropped: list[int], end: int, since: int
) -> None:
    dropped = [] if of.stands else dropped  # what stands after the frost is grown for no fruit
    fate = fate_of(picks, of, None, Barren(dropped, 3) if dropped else None)
    lost = {day + 3 for day in dropped}
    picked = [[d for d in range(pick, pick + of.picking) if d not in lost] for pick in picks]
    # Before a frost at least: what stands is picked on after it where it was ripe before.
    ripe = [
        [day for day in days if of.stands or day < end] if pick < end else []
        for pick, days in zip(picks, picked, strict=True)
    ]
    left = [len([day for day in days if day >= since]) for days in ripe]
    assert picking_left(fate, of, end, since) == (sum(left), sum(1 for days in left if days))

    def standing(first: int, days: int) -> float:
        return float(sum(day < end for day in range(first, first + days)))

    if not of.stands:
        assert expected_days(fate, of, standing) == sum(map(len, ripe)) / len(picks)
    worth = [days for days in picked if len(days) >= of.worthwhile]
    before = of.before_frost
    assert list(fate.worthwhile(of)) == [days[before - 1] - before + 1 for days in worth]
    borne = bearing(fate, of, picks, planted=0, end=end)
    gone = without_fruit(fate, of, planted=0) or ((),) * len(picks)
    for part, holes, days in zip(borne, gone, ripe, strict=True):
        without = {day for begin, over in holes for day in range(begin, over)}
        told = [] if part is None else [d for d in range(part[1], part[2]) if d not in without]
        assert told == days
