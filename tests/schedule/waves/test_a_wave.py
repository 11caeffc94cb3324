"""What a wave says of itself: where it stands, what was done, and how long it may be sown again."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from factory import LONG, WIDE, bean, judged, lettuce, wave
from sowtide.climate.answers import EndedBy
from sowtide.reasons import OURS, Dated
from sowtide.schedule.sowing import ToSeed
from sowtide.schedule.waves.wave import Done, LastSafe, Stand, Status

SOWN = date(2026, 7, 1)


def day(month: int, number: int) -> date:
    return date(2026, month, number)


def done(**days: date) -> Done:
    none: dict[str, Any] = dict.fromkeys(
        ("sow", "up", "harden_off", "plant", "first_pick", "last_pick", "pull_out")
    )
    return Done(**{**none, **days})


@pytest.mark.parametrize(
    ("following", "last_safe", "by"),
    [
        (None, day(7, 18), day(7, 18)),
        # Up on 9 July, it is looked at on the 14th; the next leaves it a week after that, the 21st
        (day(7, 15), day(8, 30), day(7, 21)),
        (day(7, 22), day(8, 30), day(7, 22)),
        (day(7, 22), day(7, 20), day(7, 20)),  # and it has to be safe
        (day(7, 15), day(7, 1), day(7, 1)),
        (day(7, 15), day(6, 30), None),  # it was not safe on its own day
        (None, None, None),
    ],
)
def test_it_may_be_sown_again_while_it_is_safe_and_the_next_leaves_it_its_time(
    following: date | None, last_safe: date | None, by: date | None
) -> None:
    found = wave(plant=SOWN, last_safe=last_safe)
    found = replace(found, next_planting=following)
    assert found.stages.up is not None
    assert found.stages.up.day == day(7, 9)
    assert found.sow_again_by == by


def test_what_goes_out_of_trays_is_not_sown_again() -> None:
    found = wave(lettuce(), plant=SOWN)
    assert found.from_trays
    assert found.sow_again_by is None


def test_it_takes_up_its_bed_from_planting_until_it_is_pulled_out() -> None:
    found = wave(plant=SOWN)
    gone = found.stages.pull_out.day
    one = timedelta(days=1)
    days = (SOWN - one, SOWN, gone - one, gone)
    assert [found.stands_on(each) for each in days] == [False, True, True, False]


@pytest.mark.parametrize(
    ("noted", "direct", "trays"),
    [
        ({"sow": SOWN}, True, False),  # in trays it takes up no bed
        ({"plant": SOWN}, True, True),
        ({"sow": SOWN, "plant": SOWN}, True, True),
        ({"first_pick": SOWN}, False, False),
        ({}, False, False),
    ],
)
def test_it_is_planted_when_it_stands_in_its_bed(
    noted: dict[str, date], direct: bool, trays: bool
) -> None:
    for crop, planted in ((bean(), direct), (lettuce(), trays)):
        found = wave(crop, plant=SOWN)
        assert not found.is_planted  # nothing is noted
        assert replace(found, done=done(**noted)).is_planted is planted


def test_its_plants_are_those_asked_for_or_those_that_still_stand() -> None:
    stands = Stand(LONG, 30), Stand(WIDE, 15)
    found = wave(plant=SOWN, stands=stands)
    assert (found.plants, found.bed_names) == (60, ("Long 1", "Long 2"))
    noted = replace(found, done=done(sow=SOWN))
    assert noted.plants == 45
    assert replace(noted, stands=()).plants == 60


def test_what_is_over_lost_or_skipped_is_gone() -> None:
    gone = {status for status in Status if status.is_gone}
    assert gone == {Status.OVER, Status.LOST, Status.SKIPPED}


def test_it_stands_the_winter_unless_frost_ends_it() -> None:
    seeds = ToSeed(day(11, 15), Dated.on(date(2027, 5, 1), "to-seed", "", OURS))
    for ended_by in EndedBy:
        found = judged(ended_by=ended_by, to_seed=seeds)
        assert found.through_winter == (None if ended_by is EndedBy.FROST else seeds)


def test_the_last_safe_day_is_looked_up_when_it_is_asked_for() -> None:
    asked: list[date] = []

    def of(planted: date) -> date:
        asked.append(planted)
        return planted + timedelta(days=9)

    last, other = LastSafe(of, SOWN), LastSafe(lambda _day: day(7, 10), day(5, 1))
    assert asked == []
    assert (last.day, last.day, asked) == (day(7, 10), day(7, 10), [SOWN])
    assert last == other
    assert hash(last) == hash(other)
    assert last != LastSafe(of, day(7, 2))
    assert last != day(7, 10)
    assert judged(safe_until=None).last_safe is None
