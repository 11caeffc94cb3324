"""The page of supply by hand: the sign of each week, gaps and gluts before and after today."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import factory
from printed import page
from sowtide.garden.want import Met
from sowtide.report.blocks import Style
from sowtide.report.kit.setting import setting_of
from sowtide.report.supply import REPORT
from sowtide.report.supply.page import gap_line, strips_of
from sowtide.report.supply.view import (
    PlantYield,
    SupplyConverted,
    SupplyCrop,
    SupplyGap,
    SupplyGlut,
    SupplyView,
    SupplyWeek,
)
from sowtide.schedule.supply import Why

SEASON = factory.season()
MONDAY = date(2026, 7, 13)
"""Of the week in which the page is read, on Wednesday the 15th."""
SUNDAY = MONDAY - timedelta(days=1)


def week(number: int, expected: float, want: float | None, met: Met | None = None) -> SupplyWeek:
    """Return a week, counted from that of today; some of it is wanted as the numbers say."""
    monday = MONDAY + timedelta(days=7 * number)
    return SupplyWeek(
        week="",
        low=expected / 2,
        expected=expected,
        high=2 * expected,
        want=want,
        odds=None,
        got=None,
        monday=monday,
        met=met,
    )


def crop(*weeks: SupplyWeek, name: str = "pea", **changes: Any) -> SupplyCrop:
    made = SupplyCrop(
        crop=name,
        unit="kg",
        weeks=weeks,
        gaps=(),
        gluts=(),
        weeks_unmet=0.0,
        yield_per_plant=PlantYield(0.34, 0.5, None, "as you wrote"),
        converted=(),
        is_wanted=True,
    )
    return replace(made, **changes)


def supply(*crops: SupplyCrop, **changes: Any) -> SupplyView:
    made = SupplyView(
        season=2026,
        basis=SEASON.climate.basis,
        crops=crops,
        without_yield=(),
        in_full=False,
        this_week=MONDAY,
        setting=setting_of(SEASON.garden, SEASON.today),
    )
    return replace(made, **changes)


def said(of: SupplyView) -> str:
    return " ".join(" ".join(page(REPORT, of, 100)).split())


@pytest.mark.parametrize(
    ("one", "sign"),
    [
        (week(0, 4.0, 2.0, Met.ENOUGH), "#"),  # twice what is wanted is no glut yet
        (week(0, 4.1, 2.0, Met.ENOUGH), "*"),
        (week(0, 1.0, 2.0, Met.SOME), "="),
        (week(0, 0.9, 2.0, Met.LESS), " "),
        (week(0, 4.1, None), "*"),  # more than twice the most that is wanted in any week
        (week(0, 4.0, None), "o"),
        (week(0, 0.2, None), "o"),  # from a tenth of that on
        (week(0, 0.19, None), "."),
    ],
)
def test_the_sign_of_a_week_says_what_comes_of_what_is_wanted(one: SupplyWeek, sign: str) -> None:
    wanted = week(2, 2.0, 2.0, Met.ENOUGH)
    found = strips_of([("pea", crop(one, wanted))], MONDAY, SEASON.garden.year)
    assert found.strips[0].signs == f"{sign}.#"
    meant = {"blank" if sign == " " else sign, ".", "#"}
    assert {each for each, _ in found.key} == meant


@pytest.mark.parametrize(("expected", "sign"), [(0.0, "."), (1e-6, "o"), (5.0, "o")])
def test_where_nothing_is_wanted_all_that_is_picked_has_a_sign(expected: float, sign: str) -> None:
    found = strips_of([("pea", crop(week(0, expected, None)))], MONDAY, SEASON.garden.year)
    assert found.strips[0].signs == sign


def test_strips_begin_and_end_with_the_year() -> None:
    year = SEASON.garden.year
    early = replace(week(0, 1, 1, Met.ENOUGH), monday=date(2025, 12, 15))
    late = replace(early, monday=date(2027, 1, 18))
    whole = strips_of([("pea", crop(early, late))], MONDAY, year)
    assert whole.first == date(2025, 12, 29)  # the week of 1 January
    assert len(whole.strips[0].signs) == 53  # to that of 31 December, from Monday the 28th
    one, other = crop(week(1, 1, 1, Met.ENOUGH)), crop(week(-1, 1, 1, Met.ENOUGH))
    both = strips_of([("a", one), ("b", other)], MONDAY, year)
    assert both.first == MONDAY - timedelta(days=7)
    assert [each.signs for each in both.strips] == ["..#", "#.."]


def gap(to: date = SUNDAY, **changes: Any) -> SupplyGap:
    made = SupplyGap(
        from_=to - timedelta(days=6),
        to=to,
        want=4.0,
        expected=0.04,
        why=Why.TOO_HOT,
        waves=(),
        days_late=None,
    )
    return replace(made, **changes)


@pytest.mark.parametrize(
    ("changes", "line"),
    [
        ({}, "pea 6–12 Jul: <0.1 of 4 kg; too hot for it"),
        ({"expected": 0.05}, "pea 6–12 Jul: 0.1 of 4 kg; too hot for it"),
        ({"expected": 0.0}, "pea 6–12 Jul: 0 of 4 kg; too hot for it"),
        ({"want": 10.4, "expected": 9.94}, "pea 6–12 Jul: 9.9 of 10 kg; too hot for it"),
        ({"why": Why.NOT_IN_TIME, "expected": 0.99}, "1 of 4 kg; too late to plant for it"),
        ({"why": Why.NOT_IN_TIME, "expected": 1.0}, "1 of 4 kg; too few plants, too late for more"),
        ({"why": Why.TOO_FEW, "expected": 1.0}, "1 of 4 kg; too few plants"),
        ({"why": Why.NO_ROOM, "waves": ("a-1", "b-2")}, "no room for a-1 and b-2"),
        (
            {"why": Why.SEEDLINGS_LATE, "waves": ("a-1",), "days_late": 1},
            "seedlings 1 day late: a-1",
        ),
        (
            {"why": Why.SEEDLINGS_LATE, "waves": ("a-1", "a-2"), "days_late": 5},
            "seedlings up to 5 days late: a-1 and a-2",
        ),
    ],
)
def test_a_gap_says_what_it_lacks_and_why(changes: dict[str, Any], line: str) -> None:
    text = gap_line("pea", "kg", gap(**changes), SEASON.garden.year)
    assert str(text.words.plain).replace("\N{NO-BREAK SPACE}", " ").endswith(line)


def test_only_what_can_be_mended_is_a_warning() -> None:
    def style(why: Why) -> Style:
        return gap_line("pea", "kg", gap(why=why), SEASON.garden.year).words.spans[-1][1]

    assert style(Why.NO_ROOM) is Style.WARN
    assert style(Why.FROST) is Style.PLAIN


def test_gaps_that_are_over_are_told_in_short() -> None:
    over, now = gap(), gap(SUNDAY + timedelta(days=7))
    some = (week(0, 1, 4, Met.LESS),)
    both = said(supply(crop(*some, gaps=(over, now))))
    assert "GAPS weeks with less than half of what is wanted pea 13–19 Jul: <0.1 of" in both
    assert "gone by: pea 6–12 Jul" in both
    assert "None from this week on." not in both
    gone = said(supply(crop(*some, gaps=(over,)), crop(*some, name="bean", gaps=(over,))))
    assert "wanted None from this week on. gone by: pea 6–12 Jul, bean 6–12 Jul" in gone
    assert "gone by" not in said(supply(crop(*some, gaps=(now,))))
    none = said(supply(crop(*some)))
    assert "No gaps: every week brings half of what is wanted or more." in none
    assert "GAPS" not in none


def test_gluts_say_how_much_and_of_how_many_waves() -> None:
    glut = SupplyGlut(from_=MONDAY, to=MONDAY + timedelta(days=6), want=4, expected=9, waves=1)
    over = replace(glut, from_=SUNDAY - timedelta(days=6), to=SUNDAY)
    some = (week(0, 9, 4, Met.ENOUGH),)
    text = said(supply(crop(*some, gluts=(over, glut, replace(glut, waves=2, want=0)))))
    assert "wanted pea 13–19 Jul: 9 kg, 4 kg wanted pea 13–19 Jul: 9 kg, none wanted, 2" in text
    assert "2 waves at once gone by: pea 6–12 Jul" in text
    assert "GLUTS" not in said(supply(crop(*some)))


def test_the_weeks_that_are_met_are_added_up() -> None:
    one = crop(
        week(-1, 1, 4, Met.LESS),
        week(0, 4, 4, Met.ENOUGH),
        week(1, 3, 4, Met.SOME),
        week(2, 3, None),
        week(3, 3, 0.0, Met.ENOUGH),  # nothing of it is wanted
        weeks_unmet=1.2,
    )
    other = crop(week(0, 4, 4, Met.ENOUGH), name="bean", weeks_unmet=0.0)
    alone = page(REPORT, supply(one), 80)
    assert "pea          3        1      1     1.2" in alone
    assert not any(each.startswith("together") for each in alone)
    both = page(REPORT, supply(one, other), 80)
    assert "together        4        2      1     1.2" in both


def test_a_crop_in_full_has_a_row_for_each_week() -> None:
    full = replace(week(0, 12.6, None), want=10.0, met=Met.ENOUGH, odds=0.83, got=0.0)
    lines = page(REPORT, supply(crop(full, week(1, 0.0, None)), in_full=True), 80)
    assert "13–19 Jul       10         13       6.3–25      83       0" in lines
    assert "20–26 Jul                   0          0–0" in lines
    given = "A plant gives 0.3–0.5 kg, as you wrote. Odds: years of 100 that bring what is wanted."
    assert given in " ".join(lines)
    assert "A plant gives" not in said(supply(crop(full)))


@pytest.mark.parametrize(
    ("amount", "counted"), [(0.254, "0.25 kg"), (0.999, "1 kg"), (1.0, "1 kg"), (1.26, "1.3 kg")]
)
def test_what_is_wanted_in_two_units_is_counted_in_one(amount: float, counted: str) -> None:
    of = crop(week(0, 4, 4, Met.ENOUGH), converted=(SupplyConverted("bunches", amount),))
    assert f"pea is wanted in kg and in bunches: 1 bunch is counted as {counted}, by" in said(
        supply(of)
    )


def test_nothing_wanted_and_nothing_known_are_two_things() -> None:
    nothing = "Nothing is wanted, and nothing is grown that has a yield: see `want:`."
    assert nothing in said(supply())
    assert nothing not in said(supply(without_yield=("pea",)))
    grown = supply(crop(week(0, 4, None), is_wanted=False))
    assert "Nothing is said to be wanted: with `want:` in the file" in said(grown)
    assert "GAPS" not in said(grown)
    assert "No gaps" not in said(grown)
    assert "weeks wanted" not in said(grown)
