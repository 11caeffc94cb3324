"""When a wave is picked that something was put on: by hand at the edges, and by a plain count."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gardens import crop, wave
from sowtide.schedule.season import Season
from sowtide.schedule.work.closed_picks import ClosedPicks
from sowtide.schedule.work.working import WorkingDays
from tended import garden_with, season_with

DAY = timedelta(days=1)
FIRST, LAST = date(2026, 7, 21), date(2026, 8, 3)
"""The fruit of 1 June is picked from 21 July on, every other day, until 3 August at the latest."""


def sprayed(*sprays: tuple[date, int], working: str = "") -> Season:
    """Return a season in which fruit is sprayed on some days, each with the days of its label."""
    care = (
        f"name: s{number}, do: spray, on: fruit, from: {on}, label: {{days_before_harvest: {days}}}"
        for number, (on, days) in enumerate(sprays)
    )
    file = garden_with(*care, waves=(wave(start="06-01"),))
    return season_with(file + working)


def closed(of: Season) -> ClosedPicks:
    return ClosedPicks(WorkingDays(of.garden), of.care)


def picks(of: Season, first: date = FIRST, last: date = LAST) -> list[date]:
    """Return the days on which its one wave is picked."""
    return list(closed(of).picks(of.waves[0], first, last).days)


def days(*texts: str) -> list[date]:
    return [date.fromisoformat(f"2026-{text}") for text in texts]


def test_it_is_picked_clean_before_a_spray_on_the_very_last_day() -> None:
    # The last day is no picking day of the grid: 21, 23, ... 31 July, 2 August.
    grid = days("07-21", "07-23", "07-25", "07-27", "07-29", "07-31", "08-02")
    assert picks(sprayed()) == grid
    assert picks(sprayed((LAST, 3))) == [*grid, LAST]


@pytest.mark.parametrize(("label", "first"), [(11, "08-01"), (13, "08-03"), (14, None)])
def test_picking_begins_where_the_label_ends_up_to_the_last_day(
    label: int, first: str | None
) -> None:
    # Sprayed on 20 July, 11 whole days lie between until 31 July.
    of = sprayed((FIRST - DAY, label))
    found = closed(of).first_pick(of.waves[0])
    assert found == (None if first is None else days(first)[0])
    assert picks(of)[:1] == ([] if found is None else [found])


def test_what_waits_for_the_end_of_an_absence_is_on_the_sheet_of_its_week() -> None:
    # Picked every ten days, on 21 and 31 July. Sprayed on the 20th it is closed until the 25th, and
    # from then to the 28th nobody is there: it is picked on the 29th, a Wednesday.
    care = "name: s, do: spray, on: fruit, from: 07-20, label: {days_before_harvest: 4}"
    rare = crop(pick_gap="10", picking_days="11")
    file = garden_with(care, waves=(wave(start="06-01"),), crops=(rare,))
    of = season_with(file + "away: [07-25..07-28]\n")
    monday = date(2026, 7, 20)
    found = [
        closed(of).picks(of.waves[0], day, day + 6 * DAY) for day in (monday, monday + 7 * DAY)
    ]
    assert [each.days for each in found] == [(), (*days("07-29", "07-31"),)]
    assert (found[0].closed, found[0].open_again) == ((FIRST,), days("07-29")[0])
    assert (found[1].closed, found[1].open_again) == ((), None)


@pytest.mark.parametrize(("do", "clean"), [("spray", True), ("feed", False)])
def test_it_is_picked_clean_before_what_goes_on_its_leaves_not_before_a_feed(
    do: str, clean: bool
) -> None:
    # On 22 July, between the pickings of the 21st and the 23rd.
    made = ", made_of: raw manure" if do == "feed" else ", label: {days_before_harvest: 3}"
    file = garden_with(
        f"name: s, do: {do}, on: fruit, from: 07-22{made}", waves=(wave(start="06-01"),)
    )
    of = season_with(file)
    assert (date(2026, 7, 22) in picks(of)) is clean


def _counted(of: Season) -> list[date]:
    """Count the same days plainly: what is planned on a shut day waits for the first open one."""
    assert of.care is not None
    found, working = of.waves[0], WorkingDays(of.garden)
    shut = [(block.first, block.until) for block in of.care.blocks]
    closed_days = {begin + each * DAY for begin, end in shut for each in range((end - begin).days)}
    planned = working.picks(found, FIRST, LAST)
    begins = working.first_pick(found)
    assert begins is not None
    wanted = set(planned)
    wanted |= {dose.day for dose in of.care.doses if begins <= dose.day <= LAST} - closed_days
    picked = set()
    for day in wanted:
        while day in closed_days or (day not in working and day not in wanted):
            day += DAY
        picked.add(day)
    return sorted(day for day in picked if day <= LAST)


_SPRAY = st.tuples(
    st.integers(-5, 13).map(lambda day: FIRST + timedelta(days=day)), st.integers(1, 6)
)


@settings(max_examples=40)
@given(
    sprays=st.lists(_SPRAY, min_size=1, max_size=3),
    working=st.sampled_from(("", "working_days: [mon, thu]\n")),
)
def test_picking_is_that_of_a_plain_count_and_weeks_add_up(
    sprays: list[tuple[date, int]], working: str
) -> None:
    of = sprayed(*sprays, working=working)
    whole = picks(of)
    assert whole == _counted(of)
    begin = FIRST - timedelta(days=FIRST.weekday())
    weeks = [begin + timedelta(days=7 * week) for week in range(3)]
    assert [day for week in weeks for day in picks(of, week, week + 6 * DAY)] == whole
