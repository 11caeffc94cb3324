"""What the winters of the years say together of a wave that stands over them, by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from made_years import CROPS
from sowtide.climate.answers import Winter
from sowtide.climate.medians import NEVER
from sowtide.climate.warmth.over_winter import Standing, Wintered, standing_of, winter_of
from sowtide.days import GrowingYear
from sowtide.reasons import OURS, Dated
from sowtide.units import Units

PLANTED = Dated.on(date(2026, 10, 1), "written", "planted", OURS)
NEED = CROPS["lettuce"]
STAND = Standing((True,) * 300, 45)


def told(*grown: float, late: int = 200, years: bool = True, stand: Standing = STAND) -> Winter:
    """Winters that grow a wave so far by the short days, ready after 180 days or more."""
    runs = [Wintered(early=180, late=late, grown=each) for each in grown]
    found = winter_of(PLANTED, NEED, runs, stand, units=Units.METRIC, years=years)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("grown", "middle", "share", "ready"),
    [
        ((0.7, 0.75, 0.9), 0.75, 2 / 3, True),
        ((0.9, 0.74, 0.7), 0.74, 1 / 3, False),
        # of an even number the worse one of the two in the middle
        ((0.7, 0.74, 0.76, 0.9), 0.74, 0.5, False),
        ((0.7, 0.75, 0.76, 0.9), 0.75, 0.75, True),
        ((0.75,), 0.75, 1, True),
    ],
)
def test_it_is_ready_where_it_is_grown_far_enough_in_the_middle_of_the_years(
    grown: tuple[float, ...], middle: float, share: float, ready: bool
) -> None:
    found = told(*grown)
    assert (found.grown, found.grown_enough, found.years) == (middle, share, len(grown))
    assert (found.first_pick is not None, found.enough) == (ready, ready)
    if found.first_pick is not None:
        days = [(each.day - PLANTED.day).days for each in found.first_pick]
        assert days == [180, 200]
        assert f"median of {len(grown)} years" in found.first_pick[0].steps[-1].text
    assert found.short_from == date(2026, 11, 15)


def test_what_is_never_ready_in_most_winters_has_no_date() -> None:
    assert told(0.9, late=NEVER).first_pick is None
    assert told(0.9, late=NEVER).enough


def test_an_average_year_is_no_recorded_one() -> None:
    found = told(0.9, years=False)
    assert found.years is None
    assert found.first_pick is not None
    early, late = (each.steps[-1].text for each in found.first_pick)
    # 400 degree-days for the quickest and 500 for the slowest, above 5 °C
    assert "early end" in early
    assert "400 " in early
    assert "late end" in late
    assert "500 " in late
    assert early.endswith(
        "gathered on days of 10 hours or more that are warm enough, in an average year"
    )


def test_without_short_days_there_is_no_first_of_them() -> None:
    assert told(0.9, stand=replace(STAND, short_from=None)).short_from is None


def test_no_winter_and_no_warmth_tell_nothing() -> None:
    of = {"units": Units.METRIC, "years": True}
    assert winter_of(PLANTED, NEED, [], STAND, **of) is None  # type: ignore[arg-type]
    cold, runs = replace(NEED, warmth=None), [Wintered(early=180, late=200, grown=0.9)]
    assert winter_of(PLANTED, cold, runs, STAND, **of) is None  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("planted", "bright", "short_from"),
    [
        # At 40° N days are short to 26 January 2026 (the next is 24 seconds short of ten hours by a
        # full reckoning of the sun, which is no more than ours is off), and from 15 November on
        (date(2026, 11, 14), [True, False, False], 1),
        (date(2026, 11, 15), [False, False], 0),
        (date(2026, 12, 1), [False, False], 0),
        (date(2026, 1, 25), [False, False, True], 294),
        (date(2026, 1, 26), [False, True], 293),
        (date(2026, 1, 27), [True, True], 292),
    ],
)
def test_days_are_short_to_the_day(planted: date, bright: list[bool], short_from: int) -> None:
    found = standing_of(planted, 40.0, GrowingYear(2026, south=False))
    assert list(found.bright[: len(bright)]) == bright
    assert found.short_from == short_from
    # it stands to 30 June of the year after
    assert len(found.bright) == (date(2027, 7, 1) - planted).days
    over = (date(2027, 1, 27) - planted).days
    assert found.bright[over : over + 2] == (False, True)
