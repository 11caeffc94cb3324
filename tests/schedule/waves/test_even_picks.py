"""Series whose pickings are evenly spaced: days found, and what moves them."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

import gardens
from sowtide.garden.journal import journal_of
from sowtide.schedule.season import Season
from sowtide.season import season_of

WARM = {"warmest_month": "20", "coldest_month": "-3"}
FRUIT = gardens.crop(rated_at="20", heat="{base: 8}")
BEDS = ("{bed: Long, size: 10 x 10}",)


def season(
    wave: str, *, journal: str = "", today: date = gardens.EARLY, warm: bool = True
) -> Season:
    """Return the season of a series."""
    site = WARM if warm else {}
    text = gardens.text(wave, crops=(FRUIT,), beds=BEDS, **site)
    read = journal_of(journal.encode(), "journal.yaml")
    return season_of(gardens.read(text), today, None, read.journal if journal else None)


def picks(of: Season) -> list[date]:
    """Return the early first picks."""
    return [each.stages.first_pick[0].day for each in of.waves if each.stages.first_pick]


def gaps(days: list[date]) -> list[int]:
    """Return the days from each to the next. [days]"""
    return [(later - earlier).days for earlier, later in pairwise(days)]


def planted(of: Season) -> list[date]:
    """Return the planting days."""
    return [each.stages.plant.day for each in of.waves]


EVEN = gardens.wave(start="05-15", pick_every="8", until="07-20")


def test_pickings_are_so_many_days_apart_and_sowings_are_not() -> None:
    found = season(EVEN)
    assert len(found.waves) >= 5
    # A day later in the bed may be two days later in the hand.
    days = [(pick - picks(found)[0]).days for pick in picks(found)]
    assert all(8 * number <= each <= 8 * number + 1 for number, each in enumerate(days))
    assert gaps(planted(found))[0] > 8  # what is sown in a cool May is caught up with


def test_why_shows_it() -> None:
    second = season(EVEN).waves[1].stages.plant
    assert second.steps[-1].rule == "even-pickings"
    assert "pickings every 8 days" in second.steps[-1].text
    assert second.steps[-1].origin.line is not None


def test_each_is_the_first_day_that_is_picked_late_enough() -> None:
    found = season(EVEN)
    prospects = found.prospects(found.waves[0])
    base = prospects.picked_from(planted(found)[0])
    assert base is not None
    for number, day in enumerate(planted(found)[1:], 1):
        before = prospects.picked_from(date.fromordinal(day.toordinal() - 1))
        assert before is not None
        assert (before - base).days < 8 * number


def test_without_temperatures_its_sowings_are_so_many_days_apart() -> None:
    found = season(EVEN, warm=False)
    assert set(gaps(planted(found))) == {8}
    assert [problem.code for problem in found.problems] == ["pickings-unspaced"]


def test_a_planting_that_was_late_moves_the_rest() -> None:
    plan = season(EVEN)
    said = "- {on: 2026-05-22, wave: fruit-1, did: sown}\n"
    moved = season(EVEN, journal=said, today=date(2026, 5, 23))
    assert planted(moved)[1] > planted(plan)[1]
    assert set(gaps(picks(moved))) <= {7, 8, 9}


def test_a_first_picking_that_was_late_moves_those_still_to_come() -> None:
    plan = season(EVEN)
    first = picks(plan)[0]
    late = date.fromordinal(first.toordinal() + 6)
    said = (
        "- {on: 2026-05-15, wave: fruit-1, did: sown}\n"
        f"- {{on: {late}, wave: fruit-1, did: first picked}}\n"
    )
    moved = season(EVEN, journal=said, today=late)
    assert (picks(moved)[1] - late).days >= 8
    assert planted(moved)[1] > planted(plan)[1]


def test_count_ends_it_and_a_year_too_short_says_so() -> None:
    assert len(season(gardens.wave(start="05-15", pick_every="8", count="3")).waves) == 3
    none = season(gardens.wave(start="09-01", pick_every="200", count="3"))
    assert len(none.waves) == 1
    assert "fewer-waves" in [problem.code for problem in none.problems]
