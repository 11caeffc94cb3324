"""Who stands in a bed, what is free beside it, and what rotation says: counted by hand, in days."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from factory import LONG, WIDE, bean
from sowtide.days import DateSpan
from sowtide.garden.model import Bed
from sowtide.schedule.stays import Room, Stay, barred, is_taken, most_together, too_soon, without
from sowtide.schedule.stays.rotation import Closings

DAY = date(2026, 5, 1).toordinal()
"""Day 0 of what follows."""


def stay(
    first: int, until: int, area: int = 10, *, wave: str = "pea-1", family: str = "bean"
) -> Stay:
    series = wave.rsplit("-", 1)[0]
    return Stay(
        wave=wave,
        series=series,
        family=family,
        first=DAY + first,
        until=DAY + until,
        pulled=DAY + until,
        area=area,
        turn=0,
    )


@pytest.mark.parametrize(
    ("first", "until", "taken"),
    [
        # The grower keeps it from 20 to 29 included
        (10, 20, False),
        (10, 21, True),
        (29, 40, True),
        (30, 40, False),
        (22, 23, True),
        (0, 60, True),
    ],
)
def test_a_bed_that_is_kept_for_something_else_is_taken_to_the_day(
    first: int, until: int, taken: bool
) -> None:
    span = DateSpan(date.fromordinal(DAY + 20), date.fromordinal(DAY + 29))
    bed = replace(LONG, taken=(span,))
    assert is_taken(bed, first=DAY + first, until=DAY + until) is taken
    room = Room((bed,))
    free = 0 if taken else bed.area
    for ask in (room.free, room.free_over):
        assert ask(0, first=DAY + first, until=DAY + until) == free


@pytest.mark.parametrize(("first", "most"), [(0, 9), (15, 9), (19, 9), (20, 5), (29, 5)])
def test_the_most_that_stands_together_from_a_day_on(first: int, most: int) -> None:
    stays = [stay(10, 20, 4), stay(15, 30, 5)]
    assert most_together(stays, DAY + first) == most
    assert most_together(stays[:1], DAY + first) == 4
    assert most_together([], DAY + first) == 0


@pytest.mark.parametrize(
    ("first", "until", "taken"),
    [
        (0, 10, 0),  # gone on the day on which the next comes
        (0, 11, 4),
        (0, 15, 4),
        (0, 16, 9),
        (19, 40, 9),
        (20, 40, 5),
        (30, 40, 0),
    ],
)
@pytest.mark.parametrize("rest", [0, 3])
def test_what_is_free_is_the_least_over_the_whole_stay_and_its_rest(
    first: int, until: int, taken: int, rest: int
) -> None:
    room = Room((replace(LONG, rest=rest),))
    room.take(0, stay(10, 20, 4))
    room.take(0, stay(15, 30, 5))
    for ask in (room.free, room.free_over):
        assert ask(0, first=DAY + first, until=DAY + until - rest) == LONG.area - taken


def test_what_is_pulled_leaves_its_space_from_that_day_on() -> None:
    room = Room((replace(LONG, rest=2), WIDE))
    for index, each in ((0, stay(10, 50)), (1, stay(30, 50)), (0, stay(5, 60, wave="kale-1"))):
        room.take(index, each)
    freed = without(room, "pea-1", DAY + 30)
    # What stood is gone on the day and leaves the bed after its rest; what was to come is not there
    assert [(each.first, each.pulled, each.until) for each in freed.stays[0]] == [
        (DAY + 10, DAY + 30, DAY + 32),
        (DAY + 5, DAY + 60, DAY + 60),
    ]
    assert list(freed.stays[1]) == []
    assert len(without(room, "pea-1", DAY + 31).stays[1]) == 1
    assert len(without(room, "pea-1", DAY + 10).stays[0]) == 1
    assert freed.sick is room.sick


def soon(*stays: Stay, planted: int, pulled: int | None = None, series: str = "bean") -> str | None:
    """What rotation says of beans, whose family is that of peas."""
    crop, by = bean(), None if pulled is None else DAY + pulled
    words = too_soon(
        LONG, stays, crop, series=series, planted=DAY + planted, season=2026, pulled=by
    )
    room = Room((LONG,))
    for each in stays:
        room.take(0, each)
    asked = {"series": series, "planted": DAY + planted, "pulled": by}
    assert Closings(room, 2026).closed(0, crop, **asked) == words  # type: ignore[arg-type]
    return words


STOOD = "pea-1 of the same family stood there this season"


@pytest.mark.parametrize(
    ("until", "planted", "words"),
    [
        (70, 70, STOOD),  # sixty days from the tenth on, and gone
        (69, 70, None),  # fifty-nine
        (70, 69, None),  # it still stands: kin may stand beside it
        (120, 200, STOOD),
    ],
)
def test_what_stood_sixty_days_closes_its_bed_to_its_family(
    until: int, planted: int, words: str | None
) -> None:
    assert soon(stay(10, until), planted=planted) == words
    assert soon(stay(10, until, family="daisy"), planted=planted) is None
    assert soon(stay(10, until), planted=planted, series="pea") is None  # it follows itself


def test_one_that_stood_between_others_and_then_alone_stood_all_the_time() -> None:
    assert soon(stay(10, 40), stay(40, 70), planted=70) == STOOD
    assert soon(stay(10, 40), stay(40, 69), planted=70) is None
    two = stay(10, 40), stay(40, 70, wave="pea-2")
    assert soon(*two, planted=70) is None  # each less than sixty


@pytest.mark.parametrize(
    ("first", "pulled", "closes"),
    [
        (70, 70, True),  # it would stand sixty days, and peas come on the day it goes
        (69, 70, False),  # beside it
        (70, 69, False),  # fifty-nine days
        (90, 70, True),
    ],
)
def test_what_would_close_its_bed_to_what_is_planned_there(
    first: int, pulled: int, closes: bool
) -> None:
    follows = "pea-1 of the same family follows there"
    found = soon(stay(first, first + 20), planted=10, pulled=pulled)
    assert found == (follows if closes else None)


@pytest.mark.parametrize(
    ("year", "closed"), [(2022, False), (2023, False), (2024, True), (2025, True), (2026, False)]
)
def test_a_family_is_back_after_its_years(year: int, closed: bool) -> None:
    # Three years from 2024 are over in 2027
    bed = replace(LONG, grew=((year, "Bean family"),))
    crop, nothing = bean(rotation=3), {"series": "bean", "planted": DAY, "season": 2026}
    words = f"Bean family in {year}, again from {year + 3}" if closed else None
    assert too_soon(bed, (), crop, **nothing) == words  # type: ignore[arg-type]
    assert too_soon(bed, (), bean(rotation=0), **nothing) is None  # type: ignore[arg-type]
    closings = Closings(Room((bed,)), 2026)
    for _ in range(2):
        assert closings.closed(0, crop, series="bean", planted=DAY) == words
    assert closings.closed(0, bean(rotation=0), series="bean", planted=DAY) is None
    assert closings.closed(0, bean(family="daisy family"), series="x", planted=DAY) is None


def test_what_was_pulled_as_sick_bars_its_family_from_that_day_on() -> None:
    room = Room((LONG, WIDE))
    room.bar(0, stay(10, 40, wave="pea-2"))
    room.bar(0, stay(10, 30))
    room.bar(0, stay(10, 50, wave="pea-3"))  # the first day is told
    words = "pea-1 was pulled there as sick on 31 May"
    for days, said in ((29, None), (30, words), (90, words)):
        assert barred(room, 0, bean(), DAY + days) == said
        closings = Closings(room, 2026)
        assert closings.closed(0, bean(rotation=0), series="pea", planted=DAY + days) == said
    assert barred(room, 1, bean(), DAY + 90) is None
    assert barred(room, 0, bean(family="daisy family"), DAY + 90) is None
    assert barred(Room((LONG,)), 0, bean(), DAY + 90) is None


def test_the_narrowest_side_of_all_beds() -> None:
    def of(*beds: Bed) -> int:
        return Room(beds).narrowest

    assert of(LONG, WIDE) == min(LONG.size.width, LONG.size.length)
    assert of() == 0
