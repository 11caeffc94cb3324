"""What is late by the journal, what it costs, and what is asked for no more."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import gardens
from sowtide.garden.journal import journal_of
from sowtide.schedule.work import Kind, Task, WeekSheet
from sowtide.season import season_of

FRUIT = gardens.crop(seeds_per_plant="2")
"""Sown on 1 June: up on the 11th, looked at on the 16th, thinned on the 21st, picked 21 July on."""
BEGUN = "{on: 2026-05-01, bed: Low, did: watered}"
BEDS = ("{bed: Long, size: 1 x 10}", "{bed: Low, size: 1 x 10}")
SOWN = "{on: 2026-06-01, wave: fruit-1, did: sown}"


def sheet(
    today: date,
    *entries: str,
    waves: tuple[str, ...] = (gardens.wave(start="06-01", beds="[Long]"),),
    crops: tuple[str, ...] = (FRUIT,),
    of: date | None = None,
    **site: str,
) -> WeekSheet:
    """Return the sheet of the week of a day, or of another, by a journal."""
    file = gardens.text(*waves, crops=crops, beds=BEDS, **site)
    journal = journal_of("".join(f"- {each}\n" for each in entries).encode(), "journal.yaml")
    season = season_of(gardens.read(file), today, None, journal.journal)
    day = of or today
    return gardens.sheets(season, day - timedelta(days=day.weekday()))[0]


def late(today: date, *entries: str, **more: object) -> list[Kind]:
    """Return the work that is late."""
    return [task.kind for task in sheet(today, *entries, **more).overdue]  # type: ignore[arg-type]


def kinds(tasks: tuple[Task, ...]) -> list[Kind]:
    return [task.kind for task in tasks]


@pytest.mark.parametrize(
    ("begun", "today", "is_late"),
    [
        ("05-31", 2, True),
        ("06-01", 2, True),  # the first entry is of its day
        ("06-02", 2, False),  # nobody noted anything before
        ("05-31", 1, False),  # there is still today
    ],
)
def test_a_sowing_is_late_from_the_day_after_it_if_anything_was_noted_by_then(
    begun: str, today: int, is_late: bool
) -> None:
    entry = f"{{on: 2026-{begun}, bed: Low, did: watered}}"
    assert (Kind.SOW in late(date(2026, 6, today), entry)) is is_late


def test_what_is_late_is_on_the_sheet_of_the_week_of_today_alone() -> None:
    today = date(2026, 6, 3)
    assert Kind.SOW in late(today, BEGUN)
    assert late(today, BEGUN, of=today + timedelta(days=7)) == []
    assert late(today, BEGUN, of=today - timedelta(days=7)) == []


def test_a_sheet_of_a_coming_week_begins_with_the_work_of_its_monday() -> None:
    # 1 June is a Monday; looked at from the week before, from that day and from the Tuesday.
    before = sheet(date(2026, 5, 27), BEGUN, of=date(2026, 6, 1))
    assert Kind.SOW in kinds(before.tasks)
    on_the_day = sheet(date(2026, 6, 1), BEGUN)
    assert (Kind.SOW in kinds(on_the_day.tasks), kinds(on_the_day.overdue)) == (
        True,
        [Kind.PREPARE],
    )
    after = sheet(date(2026, 6, 2), BEGUN)
    assert Kind.SOW not in kinds(after.tasks)
    assert set(kinds(after.overdue)) == {Kind.SOW, Kind.PREPARE}


def test_what_follows_a_sowing_that_is_late_waits_for_it() -> None:
    today = date(2026, 6, 22)
    assert set(late(today, BEGUN)) == {Kind.SOW, Kind.PREPARE}
    assert set(late(today, BEGUN, SOWN)) == {Kind.LOOK, Kind.THIN}


@pytest.mark.parametrize(("day", "asked"), [(20, True), (21, False)])
def test_young_plants_are_looked_at_and_thinned_until_they_are_picked(
    day: int, asked: bool
) -> None:
    found = late(date(2026, 7, day), BEGUN, SOWN)
    assert found == ([Kind.LOOK, Kind.THIN] if asked else [])


@pytest.mark.parametrize(
    ("today", "said"),
    [(23, "Fewer than half: sow again by 23 Jun"), (24, "The days to sow it again are over")],
)
def test_a_late_look_asks_for_no_sowing_on_a_day_gone_by(today: int, said: str) -> None:
    # The next wave is sown on the 15th and leaves the ground a week after the look of the 16th.
    waves = (gardens.wave(start="06-01", every="14", until="06-15", plants="5", beds="[Long]"),)
    found = sheet(date(2026, 6, today), BEGUN, SOWN, waves=waves).overdue
    (look,) = (task for task in found if (task.wave.id, task.kind) == ("fruit-1", Kind.LOOK))
    assert said in look.text


def test_the_most_pressing_comes_first_then_the_earliest() -> None:
    # Slow has the sooner last safe day; fruit is looked at to be sown again up to the day that is
    # the last for the rest of it, and that was due before. Thinning has no last day.
    slow = gardens.crop("slow", days_to_harvest="60", seeds_per_plant="1")
    waves = (
        gardens.wave(start="06-01", beds="[Long]"),
        gardens.wave(name="more", start="06-20", beds="[Long]"),
        gardens.wave("slow", start="06-21", beds="[Low]"),
    )
    found = sheet(date(2026, 6, 24), BEGUN, SOWN, waves=waves, crops=(FRUIT, slow)).overdue
    order = [(task.wave.id, task.kind) for task in found if task.kind is not Kind.PREPARE]
    assert order == [
        ("slow-1", Kind.SOW),
        ("fruit-1", Kind.LOOK),
        ("more-1", Kind.SOW),
        ("fruit-1", Kind.THIN),
    ]


@pytest.mark.parametrize(
    ("today", "over"),
    [
        (date(2026, 8, 2), False),  # no safe day any more, but some years it would bear
        (date(2026, 8, 25), True),  # picked from mid-October on, if ever
    ],
)
def test_a_sowing_is_given_up_when_next_to_nothing_is_to_be_hoped_of_it(
    today: date, over: bool
) -> None:
    (sowing,) = [each for each in sheet(today, BEGUN).overdue if each.kind is Kind.SOW]
    assert sowing.delay is not None
    assert sowing.delay.days == (today - date(2026, 6, 1)).days
    assert (sowing.delay.now < 0.05) is over
    assert sowing.delay.over is over


def test_a_sowing_that_would_be_picked_in_the_heat_is_not_given_up_before_autumn() -> None:
    # Sown on 22 June it is picked in August, in the heat; sown in late July it is safe again.
    leaf = gardens.leaf(days_to_harvest="40", picking_days="7")
    of = sheet(
        date(2026, 6, 22),
        BEGUN,
        waves=(gardens.wave("leaf", start="05-20"),),
        crops=(leaf,),
        too_hot="07-10..08-20",
    )
    (sowing,) = [each for each in of.overdue if each.kind is Kind.SOW]
    assert sowing.delay is not None
    assert sowing.delay.now < 0.05
    assert not sowing.delay.over


@pytest.mark.parametrize(
    ("on", "skips", "left"),
    [
        ("06-21", "thinned", [Kind.LOOK]),  # on its day
        ("06-20", "thinned", [Kind.LOOK, Kind.THIN]),  # before it: of some other work
        ("06-22", "up", [Kind.THIN]),
    ],
)
def test_what_is_left_out_on_its_day_or_later_is_late_no_more(
    on: str, skips: str, left: list[Kind]
) -> None:
    entry = f"{{on: 2026-{on}, wave: fruit-1, did: skipped, skips: {skips}}}"
    assert late(date(2026, 6, 23), BEGUN, SOWN, entry) == left


def test_what_is_left_out_in_another_bed_is_late_in_this_one() -> None:
    entry = "{on: 2026-06-22, wave: fruit-1, bed: Low, did: skipped, skips: thinned}"
    assert late(date(2026, 6, 23), BEGUN, SOWN, entry) == [Kind.LOOK, Kind.THIN]
