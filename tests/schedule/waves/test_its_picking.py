"""The picking of a wave, its end, and the days without fruit in it, to the day."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import factory
from sowtide.climate.answers import Chances, EndedBy, Outlook
from sowtide.climate.warmth import FruitGap
from sowtide.days import DateSpan, DayRange, GrowingYear
from sowtide.reasons import OURS, Dated
from sowtide.schedule.sowing import ToSeed
from sowtide.schedule.waves.pick_gap import PickGap
from sowtide.schedule.waves.stages import (
    Harvest,
    in_high_summer,
    picked_in,
    picked_spans,
    picking_of,
    seeds_of,
)

YEAR = GrowingYear(2026, south=False)
PLANTED = Dated.on(date(2026, 6, 1), "written", "planted", OURS)


def outlook(
    early: date, late: date, end: date | None, *, ended_by: EndedBy = EndedBy.FROST, waited: int = 0
) -> Outlook:
    chances = Chances(0.8, None, None, False, False, 0.0)
    return Outlook(
        first_pick=(
            PLANTED.then((early - PLANTED.day).days, "heat", "early", OURS),
            PLANTED.then((late - PLANTED.day).days, "heat", "late", OURS),
        ),
        end=None if end is None else Dated.on(end, "frost-end", "frost", OURS),
        ended_by=None if end is None else ended_by,
        chances=chances,
        expected_picking_days=9.0,
        odds_of_nothing=0.0,
        years=None,
        waited=waited,
    )


def day(month: int, number: int) -> date:
    return date(2026, month, number)


# Picked for 21 days from the late first pick, 25 August, on: to 14 September
@pytest.mark.parametrize(
    ("end", "waited", "late", "last", "free", "ended_by"),
    [
        (None, 0, day(8, 25), day(9, 14), day(9, 15), EndedBy.PICKED_OUT),
        (day(9, 15), 0, day(8, 25), day(9, 14), day(9, 15), EndedBy.PICKED_OUT),
        # the frost of 14 September takes its last day
        (day(9, 14), 0, day(8, 25), day(9, 13), day(9, 14), EndedBy.FROST),
        (day(8, 26), 0, day(8, 25), day(8, 25), day(8, 26), EndedBy.FROST),
        # what is not ripe by then is not picked
        (day(8, 25), 0, day(8, 24), day(8, 24), day(8, 25), EndedBy.FROST),
        (day(8, 21), 0, day(8, 20), day(8, 20), day(8, 21), EndedBy.FROST),
        # days that it waited for fruit come off: two of them; no more than it has
        (None, 2, day(8, 25), day(9, 12), day(9, 13), EndedBy.PICKED_OUT),
        (None, 20, day(8, 25), day(8, 25), day(8, 26), EndedBy.PICKED_OUT),
        (None, 21, day(8, 25), day(8, 25), day(8, 26), EndedBy.PICKED_OUT),
        (day(9, 12), 2, day(8, 25), day(9, 11), day(9, 12), EndedBy.FROST),
        (day(9, 13), 2, day(8, 25), day(9, 12), day(9, 13), EndedBy.PICKED_OUT),
    ],
)
def test_the_end_cuts_the_picking_short(
    end: date | None, waited: int, late: date, last: date, free: date, ended_by: EndedBy
) -> None:
    told = outlook(day(8, 20), day(8, 25), end, waited=waited)
    found = picking_of(PLANTED, factory.bean(), told, year=YEAR, to_seed=None)
    assert found.first is not None
    assert found.last is not None
    assert (found.first[0].day, found.first[1].day) == (day(8, 20), late)
    assert (found.last.day, found.pull_out.day, found.ended_by) == (last, free, ended_by)
    assert (found.end and found.end.day) == end


@pytest.mark.parametrize(
    ("end", "free"),
    [
        (day(8, 20), day(8, 20)),  # on the early first pick
        (day(6, 2), day(6, 2)),
        (day(6, 1), day(6, 2)),  # on the planting day, or before it
        (day(5, 20), day(6, 2)),
    ],
)
def test_what_ends_before_its_first_pick_comes_to_nothing(end: date, free: date) -> None:
    told = outlook(day(8, 20), day(8, 25), end, ended_by=EndedBy.HEAT)
    found = picking_of(PLANTED, factory.bean(), told, year=YEAR, to_seed=None)
    assert (found.first, found.last, found.pull_out.day) == (None, None, free)
    assert found.ended_by is EndedBy.HEAT


@pytest.mark.parametrize(
    ("first", "last", "summer"),
    [
        # July and August: 62 days from 1 July on
        (day(6, 1), day(6, 30), False),
        (day(6, 1), day(7, 1), True),
        (day(8, 31), day(9, 20), True),
        (day(9, 1), day(9, 20), False),
        (day(7, 10), day(7, 20), True),
        (day(6, 1), day(9, 20), True),
    ],
)
def test_high_summer_is_july_and_august(first: date, last: date, summer: bool) -> None:
    begin, end = (Dated.on(each, "picking", "", OURS) for each in (first, last))
    picking = Harvest(
        first=(begin, end), last=end, pull_out=end, end=None, ended_by=EndedBy.PICKED_OUT
    )
    assert in_high_summer(picking, YEAR) is summer


def test_what_is_not_picked_is_not_picked_in_high_summer() -> None:
    end = Dated.on(day(7, 10), "frost-end", "", OURS)
    nothing = Harvest(first=None, last=None, pull_out=end, end=end, ended_by=EndedBy.FROST)
    assert not in_high_summer(nothing, YEAR)


# Planted on 1 June, picked from the 50th day, 21 July, to 20 days after the 60th, 20 August
PICKED = DateSpan(day(7, 21), day(8, 20))


def spans(first: date, last: date, share: float = 0.5) -> list[tuple[date, date]]:
    flowers = FruitGap(first=day(7, 1), last=day(7, 9), share=share, years=20)
    wave = factory.wave(plant=day(6, 1), pick_gap=PickGap(flowers, DateSpan(first, last)))
    assert picked_in(wave.stages) == PICKED
    return [(span.first, span.last) for span in picked_spans(wave)]


WHOLE = [(PICKED.first, PICKED.last)]


@pytest.mark.parametrize(
    ("first", "last", "parts"),
    [
        (day(8, 1), day(8, 5), [(day(7, 21), day(7, 31)), (day(8, 6), day(8, 20))]),
        (day(8, 1), day(8, 1), [(day(7, 21), day(7, 31)), (day(8, 2), day(8, 20))]),
        (day(7, 22), day(7, 23), [(day(7, 21), day(7, 21)), (day(7, 24), day(8, 20))]),
        (day(7, 21), day(7, 23), [(day(7, 24), day(8, 20))]),
        (day(7, 10), day(7, 21), [(day(7, 22), day(8, 20))]),
        (day(7, 10), day(7, 20), WHOLE),  # over before it is picked
        (day(8, 20), day(8, 30), [(day(7, 21), day(8, 19))]),
        (day(8, 19), day(8, 19), [(day(7, 21), day(8, 18)), (day(8, 20), day(8, 20))]),
        (day(8, 21), day(8, 30), WHOLE),
        (day(7, 10), day(8, 30), []),
    ],
)
def test_days_without_fruit_part_the_picking(
    first: date, last: date, parts: list[tuple[date, date]]
) -> None:
    assert spans(first, last) == parts
    assert spans(first, last, 0.49) == WHOLE  # in less than half of the years


def test_what_comes_to_nothing_has_no_days() -> None:
    wave = factory.wave(plant=day(6, 1), end=day(7, 21))
    assert picked_in(wave.stages) is None
    assert list(picked_spans(wave)) == []
    one = factory.wave(plant=day(6, 1), end=day(7, 22))
    assert picked_in(one.stages) == DateSpan(day(7, 21), day(7, 21))
    assert list(picked_spans(one)) == [DateSpan(day(7, 21), day(7, 21))]


@pytest.mark.parametrize(
    ("plants", "standby", "each", "germination", "seeds"),
    [
        (60, 0, 1.0, 1.0, 60),
        (60, 6, 1.0, 1.0, 66),
        (60, 0, 2.0, 0.8, 150),
        (61, 0, 1.0, 0.8, 77),  # 76.25
        (60, 0, 1.0, 0.75, 80),
        (21, 0, 1.0, 0.7, 30),  # 30.000000000000004 is thirty
        (1, 0, 3.0, 0.9, 4),
    ],
)
def test_seeds_are_sown_for_all_that_come_up(
    plants: int, standby: int, each: float, germination: float, seeds: int
) -> None:
    crop = factory.bean(seeds_per_plant=each, germination=germination)
    of = factory.entry(crop, plants=plants, standby=standby)
    assert seeds_of(factory.wave(of=of)) == seeds


@pytest.mark.parametrize(
    ("short_from", "seeds", "last"),
    [
        (day(9, 14), date(2027, 5, 1), date(2027, 4, 30)),  # over in the short days: it stands on
        (day(9, 15), date(2027, 5, 1), day(9, 14)),
        (day(9, 1), day(9, 15), day(9, 14)),
        (day(9, 1), day(9, 14), day(9, 14)),  # it has run to seed by then
        (None, date(2027, 5, 1), day(9, 14)),
    ],
)
def test_what_is_over_in_the_short_days_stands_until_it_runs_to_seed(
    short_from: date | None, seeds: date, last: date
) -> None:
    to_seed = ToSeed(short_from, Dated.on(seeds, "to-seed", "", OURS))
    told = outlook(day(8, 20), day(8, 25), None)
    found = picking_of(PLANTED, factory.bean(), told, year=YEAR, to_seed=to_seed)
    assert found.last is not None
    assert found.last.day == last


def test_holding_days_are_those_of_the_months() -> None:
    # Holds for 6 warm days or 12 cool ones. Ripe on 28 August, four days before September: of six
    # it has used two thirds, and a third of twelve is left, four more days.
    crop = factory.lettuce(holding_days=DayRange(6, 12))
    told = outlook(day(8, 28), day(8, 28), None)
    found = picking_of(PLANTED, crop, told, year=YEAR, to_seed=None)
    assert found.last is not None
    assert found.last.day == day(8, 28) + timedelta(days=4 + 4)
