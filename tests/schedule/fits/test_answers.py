"""What an answer says of its beds, its order among others, and how one more wave is started."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import gardens
from factory import LONG, TODAY, WIDE, answer, bean, entry, judged, lettuce, spot, wave
from sowtide.days import DateSpan, DayRange
from sowtide.garden.crop import Crop, Raised, Sort
from sowtide.schedule.fits.answer import Spot
from sowtide.schedule.fits.one_more import best_first, last_wave, raised_as
from sowtide.schedule.fits.question import Question
from sowtide.schedule.waves import HeatHarm, Verdict

DAY = timedelta(days=1)
CHANCY = {"verdict": Verdict.CHANCY, "odds": 0.6}


@pytest.mark.parametrize(
    ("verdict", "high", "later", "harm"),
    [
        (Verdict.CHANCY, 33.0, 1, HeatHarm.DROPS_FLOWERS),
        (Verdict.CHANCY, 33.0, 0, None),  # the run that it lies in is no later one
        (Verdict.CHANCY, None, 1, None),  # it drops no flowers
        (Verdict.SAFE, 33.0, 1, None),
        (Verdict.TOO_LATE, 33.0, 1, None),
    ],
)
def test_chancy_between_two_safe_runs_is_what_heat_makes_drop_its_flowers(
    verdict: Verdict, high: float | None, later: int, harm: HeatHarm | None
) -> None:
    crop = bean(fruit_set_high=high)
    first = TODAY + later * DAY
    found = answer(
        crop,
        judged=judged(crop, TODAY, verdict=verdict),
        windows=(DateSpan(first - 40 * DAY, first - 20 * DAY), DateSpan(first, first + 9 * DAY)),
    )
    assert found.heat is harm
    hot = judged(crop, TODAY, verdict=Verdict.TOO_HOT, heat=HeatHarm.SPOILS_SEED)
    assert answer(crop, judged=hot).heat is HeatHarm.SPOILS_SEED


def good(*spots: Spot, given: bool) -> list[date]:
    found = answer(spots=spots, day_given=given)
    return [each.free_from for each in found.good]


def test_on_the_day_given_beds_count_that_are_open_on_it() -> None:
    before, on, after = TODAY - 5 * DAY, TODAY, TODAY + DAY
    spots = (
        spot(LONG, on),
        spot(WIDE, after),  # not yet
        spot(WIDE, before, free_until=TODAY),  # to the last day of its room
        spot(WIDE, before, free_until=TODAY - DAY),
        spot(WIDE, before, free_until=None),  # safe on that day alone
        spot(LONG, on, **CHANCY),
    )
    assert good(*spots, given=True) == [on, before]
    # Else it is the day of the bed that comes first
    assert good(*spots, given=False) == [on, before]
    assert good(spots[1], spots[0], given=False) == [after, on]
    assert good(spots[1], spots[0], given=True) == [on]
    assert good(spots[5], given=False) == good(given=True) == []
    winter = spot(LONG, on, verdict=None, odds=None)
    assert good(winter, given=True) == [on]


def test_the_likeliest_bed_for_all_of_it_at_some_risk() -> None:
    beds = [
        spot(LONG, TODAY, plants=60, verdict=Verdict.CHANCY, odds=odds) for odds in (0.55, 0.7, 0.6)
    ]
    small = spot(LONG, TODAY, plants=59, verdict=Verdict.CHANCY, odds=0.75)
    assert answer(spots=(*beds, small, spot(LONG, TODAY))).whole is beds[1]
    assert answer(spots=(small, spot(LONG, TODAY))).whole is None


def test_it_fits_with_all_its_plants() -> None:
    assert answer(spots=(spot(LONG, TODAY, plants=60),)).fits
    assert not answer(spots=(spot(LONG, TODAY, plants=59),)).fits
    assert answer(spots=(spot(LONG, TODAY, plants=30), spot(WIDE, TODAY, plants=30))).fits
    assert not answer(spots=()).fits


def test_of_several_varieties_those_come_first_that_fit_then_the_one_asked_for() -> None:
    def of(name: str, odds: float, *, fits: bool) -> tuple[str, object]:
        crop = bean(name=name)
        made = answer(crop, judged=judged(crop, TODAY, odds=odds))
        return name, made if fits else answer(crop, judged=judged(crop, TODAY, odds=odds), spots=())

    told = dict(
        [
            of("asked no", 0.99, fits=False),
            of("poor", 0.7, fits=True),
            of("Asked", 0.6, fits=True),
            of("good", 0.9, fits=True),
            of("none", 0.1, fits=False),
        ]
    )
    found = best_first(told.values(), asked="aSKED")  # type: ignore[arg-type]
    assert [each.crop.name for each in found] == ["Asked", "good", "poor", "asked no", "none"]


EITHER = bean(raised=Raised.EITHER, nursery_days=DayRange(28, 42))


@pytest.mark.parametrize(
    ("crop", "seedlings", "last", "raised"),
    [
        (bean(), True, None, Raised.DIRECT),
        (lettuce(), False, None, Raised.TRAYS),
        (EITHER, False, None, Raised.DIRECT),
        (EITHER, True, None, Raised.TRAYS),
        (EITHER, False, Raised.TRAYS, Raised.TRAYS),  # as its last wave was
        (EITHER, False, Raised.DIRECT, Raised.DIRECT),
        (EITHER, True, Raised.DIRECT, Raised.TRAYS),
    ],
)
def test_how_one_more_is_started(
    crop: Crop, seedlings: bool, last: Raised | None, raised: Raised
) -> None:
    before = None if last is None else wave(of=entry(crop, raised=last))
    question = Question(crop, None, None, None, seedlings)
    assert raised_as(question, before) is raised


def test_its_last_wave_is_the_one_planted_last_of_its_own_sort_first() -> None:
    corn = bean(name="corn", sorts=True, origins={})
    early = corn.of_sort(Sort.EARLY)
    assert early is not None
    waves = (
        wave(corn, date(2026, 6, 1), number=1),
        wave(corn, date(2026, 6, 20), number=2),
        wave(corn, date(2026, 6, 10), number=3),
        wave(bean(), date(2026, 7, 1)),
    )
    assert last_wave(corn, waves) is waves[1]
    assert last_wave(early, waves) is waves[1]  # of another sort
    own = wave(early, date(2026, 5, 20))
    assert last_wave(early, (*waves, own)) is own
    assert last_wave(lettuce(), waves) is None


def test_what_stands_the_winter_is_told_no_safe_days_and_no_weeks() -> None:
    line = gardens.crop(overwinters="yes", hardiness="hardiest", ready="06-25..07-20")
    found = gardens.ask(gardens.text(crops=[line]), on=date(2026, 10, 1))
    assert found.verdict is None
    assert (found.windows, found.last_safe, found.frost_limit) == ((), None, None)
    assert (found.weekly, found.cover) == ((), None)
    spring = gardens.ask(gardens.text(crops=[line]), on=date(2026, 5, 1))
    assert spring.verdict is not None
    assert spring.windows
    assert spring.last_safe == spring.windows[-1].last
    weeks = [judged.stages.plant.day for judged in spring.weekly]
    assert weeks == [date(2026, 5, 1) + 7 * week * DAY for week in range(6)]
