"""What ends a planting in each recorded year, and counts of many years added up: by hand.

Two years begin on days 0 and 365, their midsummers are days 181 and 546. Frosts come on days 100,
150, 300, 500, 560 and 700.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from types import SimpleNamespace
from typing import cast

import pytest

from sowtide.climate.medians import NEVER
from sowtide.climate.replay.ends import Ends
from sowtide.climate.replay.tally import Tally
from sowtide.climate.warmth import Years
from sowtide.days import GrowingYear

FROSTS = (100, 150, 300, 500, 560, 700)


def ends(
    frosts: Sequence[int] = FROSTS,
    *,
    later: int = 0,
    missing: int | None = None,
    days: int = 1000,
) -> Ends:
    years = SimpleNamespace(bases=(0, 365), midsummers=(181, 546), seasons=(2001, 2002))
    before = [0] * (days + 1)
    if missing is not None:
        before[missing + 1 :] = [1] * (days - missing)
    return Ends(frosts, cast("Years", years), missing=before, later=later)


@pytest.mark.parametrize(
    ("planted", "number", "found"),
    [
        (0, 0, (300, 300)),  # frosts of spring end nothing
        (180, 0, (300, 300)),
        (181, 0, (300, 300)),
        (299, 0, (300, 300)),
        (300, 0, (500, 500)),  # planted after the frost of its day
        (499, 0, (500, 500)),
        # a year and a day from midsummer on, day 546: what comes later is the next year's
        (500, 0, (NEVER, 547)),
        (365, 1, (560, 560)),
        (560, 1, (700, 700)),
        (700, 1, (NEVER, 912)),
    ],
)
def test_the_first_frost_from_midsummer_on_after_planting_ends_it(
    planted: int, number: int, found: tuple[int, int]
) -> None:
    assert ends().of(planted, number) == found


def test_what_is_brought_in_ends_two_weeks_later() -> None:
    assert ends(later=14).of(120, 0) == (314, 314)
    assert ends((540,), later=14).of(120, 0) == (554, 547)


@pytest.mark.parametrize(("frost", "end"), [(181, 181), (180, NEVER), (546, 546), (547, NEVER)])
def test_a_year_is_looked_at_from_midsummer_on(frost: int, end: int) -> None:
    assert ends((frost,)).of(120, 0) == (end, min(end, 547))


def test_a_day_without_temperatures_is_known_of_what_is_planted_after_it() -> None:
    holed = ends(missing=250)
    assert holed.of(250, 0) is None
    assert holed.of(251, 0) == (300, 300)
    assert holed.of(300, 0) == (500, 500)
    assert ends(missing=300).of(120, 0) == (300, 300)  # it is over by then
    assert ends(missing=299).of(120, 0) is None
    assert ends(days=300).of(120, 0) == (300, 300)
    assert ends(days=299).of(120, 0) is None


def test_the_last_frost_of_each_spring() -> None:
    assert ends().lasts_of_spring == [150, 500]
    assert ends((181, 300, 364)).lasts_of_spring == [-NEVER, -NEVER]
    assert ends((0, 180, 365, 545)).lasts_of_spring == [180, 545]
    assert ends((365, 546)).lasts_of_spring == [-NEVER, 365]


def test_counts_of_many_years_are_added_up_by_the_calendar() -> None:
    # 2023, and 2024 with its leap day, under 2026; 28 February is day 58
    years = Years(date(2023, 1, 1), (2023, 2024), GrowingYear(2026, south=False))
    tally = Tally(years)
    tally.add_run(0, 10, 12, 3)
    tally.add_run(1, 365 + 11, 365 + 13, 1)
    tally.add_run(1, 365 + 58, 365 + 61, 1)  # 28 and 29 February and 1 March
    tally.add_each(0, 57, [5, 6, 7])
    tally.add_each(1, 365 + 60, [10])
    found = tally.totals()
    assert len(found) == 365
    counted = {day: count for day, count in enumerate(found) if count}
    assert counted == {10: 3, 11: 3 + 1, 12: 1, 57: 5, 58: 6 + 1, 59: 7 + 1 + 10}
