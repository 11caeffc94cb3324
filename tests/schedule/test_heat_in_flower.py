"""What heat drops is picked nowhere: plan, week, calendar, supply, fits and why say the same.

A hot summer at 33° N by monthly normals: frosts 15 March and 15 November, July and August at a mean
of 30 °C with maxima of 36 °C.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from functools import cache

import pytest

import gardens
from printed import fits_text, why_text
from sowtide.climate.warmth.fruit_set import FruitGap
from sowtide.days import DateSpan
from sowtide.garden.crop import Raised
from sowtide.schedule.checks.growth import little_fruit
from sowtide.schedule.season import Season
from sowtide.schedule.supply import supply_of
from sowtide.schedule.waves import HeatHarm, PickGap, Verdict, Wave, picked_spans
from sowtide.schedule.work.jobs import picking_days

PLACE = """
site:
  name: Hot
  latitude: 33
  units: us
  frost:
    last: 03-15
    first: 11-15
    normals:
      max: [55, 60, 68, 77, 85, 93, 97, 97, 89, 79, 67, 57]
      min: [35, 39, 46, 54, 63, 71, 75, 74, 67, 55, 45, 37]
season: 2026
beds: [{bed: North, size: 40 x 100}]
waves:
  - {crop: bush bean, plants: 60, from: 06-20}
  - {crop: tomato, plants: 12, from: 03-25}
  - {crop: tomato, name: fall tomato, plants: 12, from: 07-05}
  - {crop: pole bean, plants: 30, from: 07-05}
  - {crop: leaf lettuce, plants: 60, from: 07-01}
  - {crop: leaf lettuce, name: from trays, raised: trays, plants: 60, from: 07-01}
"""


@cache
def season() -> Season:
    return gardens.season(PLACE)


def wave(name: str) -> Wave:
    return next(each for each in season().waves if each.id == f"{name}-1")


@pytest.mark.parametrize(
    ("days", "share", "said"), [(7, 0.5, True), (6, 0.5, False), (7, 0.49, False)]
)
def test_a_gap_of_a_week_in_half_of_the_years_is_worth_saying(
    days: int, share: float, said: bool
) -> None:
    begins = date(2026, 8, 3)
    flowers = FruitGap(begins, begins, share, years=20)
    gap = PickGap(flowers, DateSpan(begins, begins + timedelta(days=days - 1)))
    assert little_fruit._is_worth_saying(gap) is said


def test_beans_sown_in_june_set_nothing() -> None:
    """Nobody sows beans there in June and July: from memory, as growers' calendars have it."""
    beans = wave("bush-bean")
    assert beans.stages.first_pick is None
    assert beans.judged.verdict is Verdict.TOO_HOT
    assert beans.judged.heat is HeatHarm.DROPS_FLOWERS
    assert (beans.judged.odds or 0) < 0.1
    assert (beans.judged.expected_picking_days or 0) < 1
    (said,) = [each for each in season().problems if each.code == "never-finishes"][:1]
    assert "flowers in heat that sets no fruit: there is nothing to pick" in said.message


def test_spring_and_autumn_beans_are_safe_and_summer_lies_between() -> None:
    """Sown 10 March to 5 May, then from August: from memory, two weeks and more either way."""
    found = season().conditions.prospects(wave("bush-bean").crop, Raised.DIRECT)
    spring, autumn = found.windows
    assert date(2026, 3, 1) <= spring.first <= date(2026, 3, 20)
    assert date(2026, 4, 10) <= spring.last <= date(2026, 5, 19)
    assert date(2026, 7, 20) <= autumn.first <= date(2026, 8, 15)
    assert date(2026, 8, 20) <= autumn.last <= date(2026, 9, 20)


@pytest.mark.parametrize("crop", ["bush-bean", "pole-bean"])
def test_between_spring_and_autumn_it_is_too_hot_and_after_both_too_late(crop: str) -> None:
    found = season().conditions.prospects(wave(crop).crop, Raised.DIRECT)
    spring, autumn = found.windows

    def verdicts(first: date, last: date) -> set[Verdict | None]:
        days = (last - first).days
        return {found.judge_on(first + timedelta(days=day)).verdict for day in range(days)}

    assert verdicts(spring.last, autumn.first) == {Verdict.SAFE, Verdict.CHANCY, Verdict.TOO_HOT}
    late = verdicts(autumn.last, date(2026, 11, 1))
    assert late == {Verdict.SAFE, Verdict.CHANCY, Verdict.TOO_LATE}


@pytest.mark.parametrize(
    ("gap", "spans"),
    [
        (("07-25", "08-01"), [("07-21", "07-24"), ("08-02", "08-03")]),
        (("07-25", "08-02"), [("07-21", "07-24"), ("08-03", "08-03")]),  # one day is left
        (("07-25", "08-03"), [("07-21", "07-24")]),
        (("07-22", "08-03"), [("07-21", "07-21")]),
        (("07-21", "07-24"), [("07-25", "08-03")]),
        (("07-01", "07-20"), [("07-21", "08-03")]),  # before the first pick: it takes nothing
        (("07-01", "07-21"), [("07-22", "08-03")]),
        (("08-03", "08-20"), [("07-21", "08-02")]),
        (("08-04", "08-20"), [("07-21", "08-03")]),
    ],
)
def test_a_gap_parts_the_picking_days_to_the_day(
    gap: tuple[str, str], spans: list[tuple[str, str]]
) -> None:
    # Sown on 1 June, picked from 21 July to 3 August.
    def days(first: str, last: str) -> DateSpan:
        return DateSpan(date.fromisoformat(f"2026-{first}"), date.fromisoformat(f"2026-{last}"))

    found = gardens.only(gardens.text(gardens.wave(start="06-01")))
    without = wave("tomato").judged.pick_gap
    assert without is not None
    judged = replace(found.judged, pick_gap=replace(without, picks=days(*gap)))
    parted = replace(found, judged=judged)
    assert list(picked_spans(parted)) == [days(*span) for span in spans]


def test_tomatoes_of_early_july_are_picked_in_the_autumn() -> None:
    """Plants of early July for autumn: from memory, as growers' calendars have it."""
    tomato = wave("fall-tomato")
    first, last = tomato.stages.first_pick, tomato.stages.last_pick
    assert first is not None
    assert last is not None
    gap = tomato.judged.pick_gap
    assert gap is not None
    assert first[0].day == gap.picks.last + timedelta(days=1)
    # Ripe on 24 and 30 September but for the heat; sixty days on from the later of them it would
    # be picked out, but the frost of 15 November comes first.
    waits = [step.days for step in first[0].steps if step.rule == "fruit-set"]
    assert waits == [(first[0].day - date(2026, 9, 24)).days]
    assert last.day == date(2026, 11, 14)
    assert (tomato.judged.odds or 0) > 0.6


def test_what_heat_takes_comes_off_the_picking_days() -> None:
    # Sixty days from 25 June on end on 23 August; from 26 July on all flowers have dropped.
    tomato = wave("tomato")
    first, last = tomato.stages.first_pick, tomato.stages.last_pick
    assert first is not None
    assert last is not None
    gap = tomato.judged.pick_gap
    assert gap is not None
    assert gap.picks == DateSpan(last.day + timedelta(days=1), first[1].day + timedelta(days=59))


def test_week_and_supply_have_nothing_where_the_plan_has_nothing() -> None:
    of_tomato = next(each for each in supply_of(season()) if each.crop.kind == "tomato")
    spans = [span for each in of_tomato.waves for span in picked_spans(each)]
    most = max(week.expected for week in of_tomato.weeks)
    told = 0
    for week in of_tomato.weeks:
        days = [week.week + timedelta(days=number) for number in range(7)]
        if not any(day in span for span in spans for day in days) and week.week < date(2026, 11, 9):
            assert 3 * week.expected < most, week  # seasons cooler than usual have some
            told += 1
        elif all(day in span for span in spans[1:] for day in days[:2]):
            assert week.expected > 0, week
    assert told > 8
    for each in season().waves:
        days = picking_days(each, date(2026, 3, 1), date(2026, 12, 31))
        assert all(any(day in span for span in picked_spans(each)) for day in days)
        gap = each.judged.pick_gap
        if gap is not None:
            assert not [day for day in days if day in gap.picks]


def test_fits_says_no_for_the_day_and_names_the_heat() -> None:
    answer = gardens.ask(PLACE, "bush bean", plants=20, on=date(2026, 6, 20))
    said = " ".join(" ".join(fits_text((answer,), season())).split())
    assert said.startswith("No, too hot: its flowers drop in the heat, and most of it sets no")


def test_why_tells_the_same_days() -> None:
    tomato = wave("fall-tomato")
    gap = tomato.judged.pick_gap
    assert gap is not None
    text = " ".join(" ".join(why_text(tomato, season(), width=80)).split())
    assert "its first flowers dropped in the heat" in text
    assert f"nothing to pick from {gap.picks.first.day} Sep to {gap.picks.last.day} Oct" in text


@pytest.mark.parametrize(
    ("name", "hot"), [("leaf-lettuce", True), ("from-trays", False)], ids=["sown", "from trays"]
)
def test_seed_is_not_sown_into_soil_that_is_too_hot_for_it(name: str, *, hot: bool) -> None:
    """Lettuce seed lies dormant in soil above 80 °F: Utah State University, leafy greens."""
    lettuce = wave(name)
    assert lettuce.judged.verdict is Verdict.TOO_HOT  # picked in the hot weeks, both
    assert (lettuce.judged.heat is HeatHarm.SPOILS_SEED) is hot
    soil = season().climate.weather.soil(lettuce.stages.plant.day)
    assert soil is not None
    assert soil.about > 26.7


def test_no_safe_day_has_soil_too_hot_for_its_seed() -> None:
    found = season().conditions.prospects(wave("leaf-lettuce").crop, Raised.DIRECT)
    assert found.crop.soil_max is not None
    days = [
        day
        for run in found.windows
        for day in (run.first + timedelta(days=n) for n in range((run.last - run.first).days + 1))
    ]
    assert days
    for day in days:
        soil = season().climate.weather.soil(day)
        assert soil is not None
        assert soil.about <= found.crop.soil_max
    warm = date(2026, 9, 10)
    assert warm not in days
    assert found.judge(gardens.planted(warm)).verdict is Verdict.TOO_HOT
