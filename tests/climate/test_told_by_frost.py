"""What the frosts of recorded years do to a wave whose growth is the same in all, by hand.

It is picked for ten days from 1, 5 or 10 September on; four of them are worth while.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from made_years import need
from sowtide.climate.answers import EndedBy, Green, Need, YearTold
from sowtide.climate.fate import fate_of
from sowtide.climate.frost_record.frost_years import FrostYears, HalfYears, YearsFrost
from sowtide.climate.frost_record.told import told_by_frost
from sowtide.days import GrowingYear, Half
from sowtide.garden.crop import AfterFrost
from sowtide.reasons import OURS, Dated

YEAR = GrowingYear(2026, south=False)
BEAN = need(picking=10, worthwhile=4)
LEAF = need(picking=10, worthwhile=4, cool=True)
PLANTED = date(2026, 5, 20)
PICKS = tuple(date(2026, 9, day) for day in (1, 5, 10))


def half(which: Half, days: dict[int, date | None]) -> HalfYears:
    years = tuple(YearsFrost(season, day) for season, day in days.items())
    return HalfYears(half=which, south=False, years=years, left_out=(), counted=())


def frosts(autumn: dict[int, date | None], spring: dict[int, date | None]) -> FrostYears:
    return FrostYears(0.0, half(Half.SPRING, spring), half(Half.AUTUMN, autumn), ())


def told(
    autumn: date | None,
    spring: date | None = None,
    *,
    of: Need = BEAN,
    picks: tuple[date, ...] = PICKS,
    hot: date | None = None,
    planted: date = PLANTED,
) -> YearTold:
    """Tell the year 2001."""
    ordinals = [day.toordinal() for day in picks]
    heat = None if hot is None else (hot.toordinal(), hot.toordinal() + 30)
    found = frosts({2001: autumn}, {2001: spring})
    fate = fate_of(ordinals, of, heat)
    (year,) = told_by_frost(fate, of, found, YEAR, planted=planted.toordinal(), leaf=None)
    assert year.season == 2001
    return year


def september(day: int) -> date:
    return date(2001, 9, day)


@pytest.mark.parametrize(
    ("frost", "first", "worth", "days"),
    [
        (None, (1, 10), 3, 30),
        (date(2002, 1, 5), (1, 10), 3, 30),  # a first frost in January is that of the autumn
        (september(20), (1, 10), 3, 30),
        (september(19), (1, 10), 3, 29),  # its last day
        (september(14), (1, 10), 3, 10 + 9 + 4),
        (september(13), (1, 10), 2, 10 + 8 + 3),  # the fourth day of what is picked from the 10th
        (september(11), (1, 10), 2, 10 + 6 + 1),
        (september(10), (1, None), 2, 9 + 5),  # on its late first pick
        (september(9), (1, None), 2, 8 + 4),
        (september(8), (1, None), 1, 7 + 3),
        (september(5), (1, None), 1, 4),
        (september(4), (1, None), 0, 3),
        (september(2), (1, None), 0, 1),
        (september(1), (None, None), 0, 0),
    ],
)
def test_each_autumn_ends_it_on_its_own_day(
    frost: date | None, first: tuple[int | None, int | None], worth: int, days: int
) -> None:
    year = told(frost)
    assert year.first_pick == tuple(None if day is None else september(day) for day in first)
    assert (year.end, year.ended_by) == (frost, None if frost is None else EndedBy.FROST)
    assert (year.worth, year.picking_days) == pytest.approx((worth / 3, days / 3))
    assert year.is_poor is (worth < 2)  # less than half of the range


def test_what_is_brought_in_has_two_weeks_more() -> None:
    brought = replace(BEAN, after_frost=AfterFrost.BRING_IN)
    assert told(date(2001, 8, 30), of=brought) == replace(
        told(september(13)), end=september(13), ended_by=EndedBy.FROST
    )


@pytest.mark.parametrize(
    ("last", "killed"),
    [
        (date(2001, 5, 30), False),  # ten days after planting it is not up
        (date(2001, 5, 31), True),
        (date(2001, 6, 30), True),
        (date(2000, 12, 20), False),  # a spring whose last frost came before its new year
        (None, False),
    ],
)
def test_a_frost_of_spring_kills_what_shows(last: date | None, killed: bool) -> None:
    year = told(None, last, of=replace(BEAN, shows=10))
    if killed:
        assert year == YearTold(
            season=2001,
            first_pick=(None, None),
            end=last,
            ended_by=EndedBy.FROST,
            picking_days=0.0,
            worth=0.0,
        )
    else:
        assert (year.worth, year.end) == (1, None)
    hardy = told(None, last)  # none of spring harms it
    assert (hardy.worth, hardy.end) == (1, None)


@pytest.mark.parametrize(
    ("frost", "end", "by", "days"),
    [
        (None, 8, EndedBy.HEAT, 7 + 3),
        (september(12), 8, EndedBy.HEAT, 7 + 3),
        (september(8), 8, EndedBy.FROST, 7 + 3),
        (september(7), 7, EndedBy.FROST, 6 + 2),
    ],
)
def test_heat_ends_it_where_it_comes_before_the_frost(
    frost: date | None, end: int, by: EndedBy, days: int
) -> None:
    # The hot weeks begin on 8 September: what is ripe on the 10th is not picked
    year = told(frost, of=LEAF, hot=date(2026, 9, 8))
    assert (year.end, year.ended_by) == (september(end), by)
    assert year.first_pick == (september(1), None)
    assert (year.worth, year.picking_days) == pytest.approx((1 / 3, days / 3))


@pytest.mark.parametrize(
    ("frost", "end", "by"),
    [
        (None, 9, EndedBy.SEED),
        (september(10), 9, EndedBy.SEED),
        (september(9), 9, EndedBy.FROST),
        (september(8), 8, EndedBy.FROST),
    ],
)
def test_it_runs_to_seed_where_that_comes_first(frost: date | None, end: int, by: EndedBy) -> None:
    seeds = Dated.on(date(2026, 9, 9), "to-seed", "it runs to seed", OURS)
    year = told(frost, of=replace(BEAN, seeds=seeds))
    assert (year.end, year.ended_by) == (september(end), by)


# Peas sown in October: flowers and pods are lost to the frost of 12 September 2001 and to those of
# the spring of 2002, the last on 20 April. What flowers later, from 21 April on, is picked 20 days
# after that, from 11 May on.
@pytest.mark.parametrize(
    ("first", "dead", "spring", "through"),
    [
        (date(2027, 5, 11), False, date(2002, 4, 20), 3),
        (date(2027, 5, 10), False, date(2002, 4, 20), 2),
        (date(2027, 5, 9), False, date(2002, 4, 20), 1),
        (date(2027, 5, 8), False, date(2002, 4, 20), 0),
        (date(2027, 5, 11), True, date(2002, 4, 20), 0),  # the plants die in that winter
        (date(2027, 5, 11), False, None, 0),  # nobody knows that spring
        # its last frost came in the winter: by the end of January all of it is picked
        (date(2027, 1, 30), False, date(2001, 12, 20), 3),
        (date(2027, 1, 9), False, date(2001, 12, 20), 2),
    ],
)
def test_what_flowers_after_the_winter_comes_through_it(
    first: date, dead: bool, spring: date | None, through: int
) -> None:
    pea = replace(BEAN, killed_at=-2.0, green=Green(killed_at=-6.0, ripens=20))
    picks = [(first + timedelta(days=day)).toordinal() for day in range(3)]
    autumn = date(2001, 9, 12)
    known = frosts({2001: autumn}, {2001: None, 2002: spring})
    leaf = frosts({2001: date(2001, 12, 1) if dead else None}, {2001: None})
    (year,) = told_by_frost(
        fate_of(picks, pea, None),
        pea,
        known,
        YEAR,
        planted=date(2026, 10, 1).toordinal(),
        leaf=leaf,
    )
    assert (year.worth, year.picking_days) == pytest.approx((through / 3, through * 10 / 3))
    if through:
        assert (year.end, year.ended_by) == (None, None)
        late = first + timedelta(days=2)
        assert year.first_pick[1] == late.replace(year=2002)
    else:
        assert (year.end, year.ended_by, year.first_pick) == (autumn, EndedBy.FROST, (None, None))
