"""What plantings bring in week by week: counted again day by day, and by hand at the edges."""

from __future__ import annotations

from collections import defaultdict
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

import gardens
from sowtide.climate.fate import Borne
from sowtide.schedule.supply import Weeks, supply_of, week_of
from sowtide.schedule.supply.pickings import Bearer
from sowtide.schedule.supply.shape import borne_before

MONDAY = date(2026, 6, 1)
WIDE = "{bed: Long, size: 10 x 10}"

_DAYS = st.integers(1, 30)


@st.composite
def _bearers(draw: st.DrawFn) -> Bearer:
    """Draw a planting that bears in two years, with days on which heat left it no fruit."""
    days, years = draw(_DAYS), []
    for season in (2001, 2002):
        parts, lost = [], []
        for _ in range(draw(st.sampled_from((1, 2)))):
            begins = draw(st.integers(20, 60))
            picked = begins + draw(st.integers(0, 5))  # the first days may fall away
            parts.append(draw(st.sampled_from((None, (begins, picked, picked + draw(_DAYS))))))
            cuts = draw(st.lists(st.integers(10, 90), max_size=4, unique=True).map(sorted))
            lost.append(tuple(zip(cuts[::2], cuts[1::2], strict=False)))
        years.append((season, tuple(parts), tuple(lost)))
    parts = {len(each[1]) for each in years}
    if len(parts) > 1:  # a planting has as many parts in every year
        years[1] = (2002, *years[0][1:])
    planted = date.fromordinal(MONDAY.toordinal() + draw(st.integers(0, 9)))
    borne = tuple(Borne(*each) for each in years)
    return Bearer(
        planted=planted,
        days=days,
        usual=draw(st.integers(1, days)),
        at_once=draw(st.booleans()),
        borne=borne,
    )


def _day_by_day(bearer: Bearer, amount: float, year: int, part: int) -> dict[int, float]:
    """Return what one planting brings in each week of a case: on each day its share of the whole.

    A day counts if it is picked by then, not yet over, within the days of the harvest, and no day
    of those on which heat has left no fruit.
    """
    assert bearer.borne is not None
    of = bearer.borne[year]
    found: dict[int, float] = defaultdict(float)
    one = of.parts[part]
    if one is None:
        return found
    begins, picked, stop = one
    shares = borne_before(bearer.days, at_once=bearer.at_once, usual=bearer.usual)
    for day in range(bearer.days):
        at = begins + day
        is_lost = any(first <= at < over for first, over in of.lost[part])
        if picked <= at < stop and not is_lost:
            week = (bearer.planted.toordinal() + at - MONDAY.toordinal()) // 7
            found[week] += amount * (shares[day + 1] - shares[day])
    return found


@given(bearers=st.lists(st.tuples(_bearers(), st.sampled_from((1.0, 3.5))), min_size=1, max_size=3))
def test_weeks_are_those_of_a_count_day_by_day(bearers: list[tuple[Bearer, float]]) -> None:
    weeks = Weeks(bearers)
    cases = weeks.years // 2
    first = week_of(MONDAY)
    for case in range(weeks.years):
        year, at = divmod(case, cases)
        told: dict[int, float] = defaultdict(float)
        for bearer, amount in bearers:
            assert bearer.borne is not None
            part = at * len(bearer.borne[0].parts) // cases
            for week, share in _day_by_day(bearer, amount, year, part).items():
                told[week] += share
        for week in range(-1, 30):
            assert weeks.of(first + week)[case] == pytest.approx(told[week], abs=1e-9), week


def test_plantings_known_for_other_years_are_told_over_the_years_that_they_share() -> None:
    at = (20, 20, 22)
    bearers = [
        Bearer(
            planted=MONDAY,
            days=2,
            usual=2,
            at_once=True,
            borne=tuple(Borne(year, (at,)) for year in years),
        )
        for years in ((2001, 2002), (2002, 2003))
    ]
    weeks = Weeks((each, 1.0) for each in bearers)
    assert (weeks.seasons, weeks.years) == ([2002], 1)
    # Planted on a Monday, cut on the two days from day 20, a Sunday: half of each in either week.
    assert weeks.of(week_of(MONDAY) + 2) == [1.0]
    assert weeks.of(week_of(MONDAY) + 3) == [1.0]
    assert weeks.of(week_of(MONDAY) + 4) == [0.0]


def test_first_picks_of_a_wave_that_stands_over_winter_lie_evenly_from_early_to_late() -> None:
    # Ready from 8 to 28 June 2027, a Tuesday and a Monday, each bulb picked on one day: of five
    # parts of 10 kg one each on 8, 13, 18, 23 and 28 June. The 8th and the 13th lie in one week.
    crop = gardens.crop(
        "bulb",
        yield_per_plant="1",
        hardiness="hardiest",
        overwinters="yes",
        ready="06-08..06-28",
        picking_days="1",
    )
    file = gardens.text(
        gardens.wave("bulb", start="2026-10-05", plants="10"), crops=(crop,), beds=(WIDE,)
    )
    (bulb,) = supply_of(gardens.season(file))
    assert {each.week: each.expected for each in bulb.weeks} == pytest.approx(
        {date(2027, 6, 7): 4, date(2027, 6, 14): 2, date(2027, 6, 21): 2, date(2027, 6, 28): 2}
    )


@pytest.mark.parametrize("fewer", [1, 2, 3, 7, 13, 19, 20])
def test_of_fewer_parts_the_one_at_the_middle_of_each_case_is_told(fewer: int) -> None:
    # Twenty cases by the one planting, which bears nothing; the other has its part k in week k.
    none = Borne(2001, (None,) * 20)
    weekly = Borne(2001, tuple((7 * part, 7 * part, 7 * part + 1) for part in range(fewer)))
    weeks = Weeks(
        (Bearer(planted=MONDAY, days=1, usual=1, at_once=True, borne=(borne,)), 1.0)
        for borne in (none, weekly)
    )
    for case in range(20):
        part = (2 * case + 1) * fewer // 40  # (case + 1/2) of twenty, in whole numbers
        told = [weeks.of(week_of(MONDAY) + week)[case] for week in range(fewer)]
        assert told == [float(week == part) for week in range(fewer)]
