"""The answer whether one more wave fits: the plain sentence first, then what it rests on."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

import factory
from printed import fits_text
from sowtide.climate.answers import EndedBy
from sowtide.days import DateSpan
from sowtide.report.formats.terminal.cells import cells
from sowtide.schedule.fits.answer import Answer
from sowtide.schedule.waves.wave import Verdict

LATE = date(2026, 8, 1)


def _lines(*answers: Answer, width: int = 80) -> list[str]:
    return list(fits_text(answers, factory.season(), width=width))


def _first(answer: Answer) -> str:
    """Return the sentences before the list of beds, on one line."""
    lines = _lines(answer, width=1000)
    return " ".join(lines[: lines.index("")])


def _no(verdict: Verdict, on: date = LATE, **changes: Any) -> Answer:
    judged = factory.judged(
        plant=on, verdict=verdict, odds=0.61, odds_of_nothing=0.12, expected_picking_days=9.5
    )
    return factory.answer(**{"asked_on": on, "judged": judged, "spots": (), **changes})


@pytest.mark.parametrize("width", [80, 120])
def test_no_line_is_wider_than_the_screen(width: int) -> None:
    two = (factory.answer(), factory.answer(factory.bean(variety="Early Dwarf")))
    assert max(map(len, _lines(*two, width=width))) <= width
    assert max(map(len, _lines(_no(Verdict.TOO_LATE), width=width))) <= width


def test_yes_in_one_sentence() -> None:
    # sown 15 Jul: + 50 = 3 Sep, + 60 = 13 Sep
    assert _first(factory.answer()).startswith(
        "Yes, in Long 1: bush bean sown on Wed 15 Jul: first picks 3–13 Sep, worthwhile picking "
        "(14 days or more) in 83 years of 100, 18 days on average, nothing in 3 of 100."
    )


def test_a_crop_cut_once_is_ready_to_cut() -> None:
    crop = factory.lettuce()
    on = date(2026, 8, 10)
    judged = factory.judged(crop, on)
    spot = replace(factory.spot(free_from=on), judged=judged)
    text = _first(factory.answer(crop, asked_on=on, judged=judged, spots=(spot,)))
    assert text.startswith(
        "Yes, in Long 1: lettuce planted out on Mon 10 Aug: ready to cut 24–29 Sep, with 7 days "
        "or more to cut it in 83 years of 100, nothing in 3 of 100."
    )
    assert "on average" not in text


def test_the_beds_named_take_all_the_plants() -> None:
    spots = (factory.spot(plants=40), factory.spot(factory.WIDE, plants=25))
    assert _first(factory.answer(spots=spots)).startswith("Yes, in Long 1 and Long 2: ")
    few = (factory.spot(plants=40), factory.spot(factory.WIDE, plants=5))
    assert _first(factory.answer(spots=few)).startswith(
        "Yes, but only for 45 of 60 plants, in Long 1 and Long 2: "
    )


def test_too_late() -> None:
    # today is 15 July; sown 1 Aug: + 50 = 20 Sep, + 60 = 30 Sep
    assert _first(_no(Verdict.TOO_LATE)).startswith(
        "No, too late: the last safe day to sow it is 18 Jul. Bush bean sown on Sat 1 Aug: first "
        "picks 20–30 Sep, worthwhile picking (14 days or more) in 61 years of 100, 10 days on "
        "average, nothing in 12 of 100."
    )
    gone = _no(Verdict.CHANCY, last_safe=date(2026, 7, 10))
    assert _first(gone).startswith(
        "No, too late to be safe: the last safe day to sow it was 10 Jul. "
    )


def test_too_early_too_hot_and_between_two_runs() -> None:
    early = _no(Verdict.TOO_EARLY, date(2026, 4, 20))
    assert _first(early).startswith("No, too early: not to be sown before 6 May. ")
    hot = _first(_no(Verdict.TOO_HOT))
    assert hot.startswith("No, too hot: its first pick would fall into the hot weeks. ")
    windows = (
        DateSpan(date(2026, 5, 6), date(2026, 6, 1)),
        DateSpan(date(2026, 8, 9), date(2026, 9, 4)),
    )
    between = _no(Verdict.CHANCY, windows=windows, last_safe=date(2026, 9, 4))
    assert _first(between).startswith("No, not safe on that day: the next safe day is 9 Aug. ")
    assert "Safe days to sow it: 6 May – 1 Jun and 9 Aug – 4 Sep." in _first(between)


def test_between_two_runs_of_safe_days_it_is_the_heat_that_harms_what_drops_its_flowers() -> None:
    windows = (
        DateSpan(date(2026, 5, 6), date(2026, 6, 1)),
        DateSpan(date(2026, 8, 9), date(2026, 9, 4)),
    )
    of = {"windows": windows, "last_safe": date(2026, 9, 4)}
    tender = factory.bean(fruit_set_high=32.0)
    between = _no(Verdict.CHANCY, date(2026, 7, 20), crop=tender, **of)
    assert _first(between).startswith(
        "No, not safe on that day, since its flowers drop in the heat of some years: the next safe"
        " day is 9 Aug. "
    )
    after = _no(Verdict.CHANCY, date(2026, 9, 20), crop=tender, **of)
    assert _first(after).startswith("No, too late to be safe: ")


def test_the_frost_limit_is_said_where_frost_ends_the_crop() -> None:
    answer = _no(Verdict.TOO_HOT)
    assert "By 2 Oct frost has ended it" in _first(answer)
    assert "frost has ended it" not in _first(replace(answer, frost_limit=None))


def test_no_room() -> None:
    none = factory.answer(spots=())
    assert _first(none).startswith(
        "No, there is no room for 60 plants: the day is safe, but the beds are full or closed by "
        "rotation. "
    )
    late = (factory.spot(free_from=date(2026, 8, 3), verdict=Verdict.CHANCY),)
    assert _first(factory.answer(spots=late)).startswith("No, there is no room in time: ")
    another_day = (factory.spot(free_from=date(2026, 7, 17)),)
    assert _first(factory.answer(spots=another_day, day_given=True)).startswith(
        "No, there is no room on that day: the next with room is 17 Jul. "
    )
    one = factory.answer(spots=(), plants=1)
    assert "no room for 1 plant: the day" in _first(one)
    assert "BEDS WITH ROOM for 1 plant" in _lines(one)


def test_no_day_is_safe() -> None:
    text = _first(_no(Verdict.CHANCY, windows=(), last_safe=None))
    assert text.startswith("No, no day of this season is safe for it. ")
    assert "No safe day to sow it. Earliest: 6 May." in text


def test_nothing_to_pick_says_what_ends_it() -> None:
    judged = factory.judged(
        plant=date(2026, 9, 1),
        verdict=Verdict.TOO_LATE,
        odds=0.0,
        odds_of_nothing=0.96,
        expected_picking_days=0.1,
        ended_by=EndedBy.FROST,
    )
    text = _first(factory.answer(asked_on=date(2026, 9, 1), judged=judged, spots=()))
    assert (
        "Bush bean sown on Tue 1 Sep: frost ends it by 2 Oct as a rule, before its first pick; "
        "worthwhile picking (14 days or more) in under 1 year of 100, less than a day on "
        "average, nothing in 96 of 100."
    ) in text


def test_where_nothing_ends_it_no_odds_are_made_up() -> None:
    judged = factory.judged(
        plant=date(2026, 7, 15), end=None, odds=1.0, odds_of_nothing=0.0, margin=None
    )
    spot = replace(factory.spot(), judged=judged)
    text = _first(factory.answer(judged=judged, spots=(spot,), frost_limit=None))
    assert "first picks 3–13 Sep; nothing ends it early in any year." in text
    assert "frost has ended it" not in text


def test_over_the_winter_no_odds_are_given() -> None:
    judged = factory.judged(end=None, verdict=None, odds=None, odds_of_nothing=None)
    text = _first(factory.answer(judged=judged, spots=(), frost_limit=None))
    assert text.startswith("No, there is no room for 60 plants over the winter: ")
    assert "in 100" not in text
    assert "No odds are counted over the winter." in text
    assert text.endswith(
        "Sowtide knows no safe days for it: it counts none for a crop over the winter."
    )
    assert "To be sown from" not in text
    spot = replace(factory.spot(), judged=judged)
    answer = factory.answer(judged=judged, spots=(spot,), frost_limit=None)
    assert _first(answer).startswith("Yes, in Long 1: bush bean sown on Wed 1 Jul: ")
    lines = _lines(answer)
    assert any(each.startswith("Long 1") and each.endswith("winter") for each in lines)
    assert "INSTEAD" not in lines


def test_where_only_some_are_safe_the_bed_that_takes_all_is_said_too() -> None:
    few = factory.spot(plants=11)
    chancy = factory.judged(verdict=Verdict.CHANCY, odds=0.78)
    whole = replace(factory.spot(factory.WIDE, date(2026, 7, 3), plants=60), judged=chancy)
    text = _first(factory.answer(spots=(few, whole)))
    assert text.startswith("Yes, but only for 11 of 60 plants, in Long 1: ")
    assert f"All 60 have room in {factory.WIDE.name} from 3 Jul: 78 in 100." in text
    both = (replace(few, plants=60), whole)
    assert "have room in" not in _first(factory.answer(spots=both))


def test_when_the_seedlings_must_be_sown() -> None:
    def said(on: date) -> str:
        crop = factory.lettuce()
        spot = replace(factory.spot(free_from=on), judged=factory.judged(crop, on))
        return _first(factory.answer(crop, asked_on=on, spots=(spot,)))

    # today is 15 July, 28 nursery days
    assert "Sow its seedlings today, Wed 15 Jul." in said(date(2026, 8, 12))
    assert "Sow its seedlings on Thu 16 Jul." in said(date(2026, 8, 13))
    assert (
        "Its seedlings must have been sown on Tue 14 Jul: if they do not stand ready, it is too "
        "late to raise your own; buy them. "
        "Sown today they go out on Wed 12 Aug."
    ) in said(date(2026, 8, 11))
    assert "seedlings" not in _first(factory.answer())


def test_seedlings_of_a_no_are_not_told_to_be_sown() -> None:
    crop = factory.lettuce()
    on = date(2026, 8, 12)
    judged = factory.judged(crop, on, verdict=Verdict.TOO_LATE)
    text = _first(factory.answer(crop, asked_on=on, judged=judged, spots=()))
    assert "Its seedlings would be sown today, Wed 15 Jul." in text


def test_each_bed_has_a_line() -> None:
    lines = _lines(factory.answer())
    at = lines.index("BEDS WITH ROOM for up to 60 plants")
    assert lines[at + 1 : at + 4] == [
        "bed     plants  sow              first pick        in 100",
        "Long 1      60  15–24 Jul        3–13 Sep              83  safe",
        "Long 2      40  18–24 Jul        6–16 Sep              71  safe",
    ]


def test_a_bed_without_a_safe_day_gives_the_one_day_judged() -> None:
    spot = factory.spot(free_until=None, verdict=Verdict.CHANCY, odds=0.6)
    assert any(
        each.startswith("Long 1      60  20 Jul   ") and each.endswith("chancy")
        for each in _lines(factory.answer(spots=(spot,)))
    )


def test_many_beds_are_counted_not_listed() -> None:
    spots = tuple(factory.spot(factory.bed(f"Row {number}")) for number in range(16))
    lines = _lines(factory.answer(spots=spots))
    assert "and 1 bed more; `--format json` lists them all" in lines
    assert not any(each.startswith("Row 15") for each in lines)


def test_each_variety_has_a_line() -> None:
    early = factory.answer(factory.bean(variety="Early Dwarf"))
    slow = replace(_no(Verdict.CHANCY), crop=factory.bean(variety="Late Giant"))
    lines = _lines(early, slow)
    at = lines.index("VARIETIES")
    assert lines[at + 2].split("  ")[0] == "Early Dwarf"
    assert lines[at + 2].endswith("2 of 2")
    assert "chancy" in lines[at + 3]
    assert lines[at + 3].endswith("none")
    wax = factory.answer(factory.bean(name="wax bean"))
    assert any(
        each.startswith("bush bean 'Early Dwarf'  safe") for each in _lines(early, wax, width=120)
    )
    assert "VARIETIES" not in _lines(early)


def test_what_would_fit_instead() -> None:
    other = factory.instead(text="plant out seedlings on 20 Jul")
    lines = _lines(_no(Verdict.TOO_LATE, instead=(other,)))
    at = lines.index("INSTEAD")
    assert lines[at + 1] == "- Plant out seedlings on 20 Jul: 84 in 100"
    assert any("nothing found" in each for each in _lines(_no(Verdict.TOO_LATE)))
    assert "INSTEAD" not in _lines(factory.answer())


def test_the_last_words_say_what_it_rests_on() -> None:
    text = " ".join(_lines(factory.answer())[-5:])
    assert "Safe means in 80 years of 100 or more. Rests on two average frost dates" in text
    assert text.endswith("Odds, not promises.")


def test_a_crop_that_may_bolt_says_so_after_the_first_sentence() -> None:
    spot = factory.spot(may_bolt=True)
    text = _first(factory.answer(spots=(spot,)))
    assert (
        "nothing in 3 of 100. It would be picked in high summer and may bolt or turn bitter: no "
        "hot weeks are known here. Safe days"
    ) in text
    no = _no(Verdict.CHANCY)
    bolting = replace(no, judged=replace(no.judged, may_bolt=True))
    assert "nothing in 12 of 100. It would be picked in high summer" in _first(bolting)
    assert "bolt" not in _first(factory.answer())


def _bed_lines(answer: Answer, width: int = 80) -> list[str]:
    lines = _lines(answer, width=width)
    at = next(n for n, each in enumerate(lines) if each.startswith("BEDS WITH ROOM"))
    return lines[at + 2 : lines.index("", at)]


def test_beds_in_which_it_is_too_late_are_only_counted_beside_good_ones() -> None:
    late = factory.spot(factory.bed("Gate"), verdict=Verdict.TOO_LATE)
    wall = factory.spot(factory.bed("Wall"), verdict=Verdict.TOO_LATE)
    maybe = factory.spot(factory.bed("Pond"), verdict=Verdict.CHANCY)
    good = factory.spot()
    assert _bed_lines(factory.answer(spots=(good, late, wall)))[1:] == [
        "2 more beds have room only when it is too late"
    ]
    hot = factory.spot(factory.bed("Yard"), verdict=Verdict.TOO_HOT)
    rows = _bed_lines(factory.answer(spots=(good, maybe, hot, late, wall)))
    assert [each.split()[0] for each in rows[:2]] == ["Long", "Pond"]
    assert rows[2:] == ["3 more beds have room only when it is too hot (1) or too late (2)"]
    rows = _bed_lines(factory.answer(spots=(late, wall)))
    assert [each.split()[0] for each in rows] == ["Gate", "Wall"]


def test_a_bed_over_the_winter_is_a_good_one() -> None:
    winter = factory.judged(end=None, verdict=None, odds=None, odds_of_nothing=None)
    spot = replace(factory.spot(), judged=winter)
    late = factory.spot(factory.bed("Gate"), verdict=Verdict.TOO_LATE)
    rows = _bed_lines(factory.answer(judged=winter, spots=(spot, late)))
    assert rows[1:] == ["1 more bed has room only when it is too late"]


def test_different_crops_of_a_kind_are_headed_as_crops() -> None:
    wax, bean = factory.answer(factory.bean(name="wax bean")), factory.answer()
    assert "CROPS" in _lines(wax, bean)
    assert "VARIETIES" not in _lines(wax, bean)
    dwarf = factory.answer(factory.bean(variety="Early Dwarf"))
    assert "CROPS" not in _lines(dwarf, bean)


def test_it_says_when_another_crop_answers_first() -> None:
    wax, bean = factory.answer(factory.bean(name="wax bean")), factory.answer()

    def said(asked: str) -> str:
        return " ".join(fits_text((wax, bean), factory.season(), width=200, asked=asked))

    first = "You asked for bush bean; wax bean, of the same kind, does better. Yes, in Long 1"
    assert said("bush bean").startswith(first)
    assert said("Bush Bean").startswith(first)
    assert "does better" not in said("wax bean")
    assert "does better" not in said("snap bean")


def test_over_the_winter_days_that_nobody_knows_are_not_made_up() -> None:
    judged = factory.judged(end=None, verdict=None, odds=None, odds_of_nothing=None)
    stages = replace(judged.stages, first_pick=None, last_pick=None)
    judged = replace(judged, stages=stages)
    spot = replace(factory.spot(), judged=judged)
    answer = factory.answer(judged=judged, spots=(spot,), frost_limit=None)
    assert "bush bean sown on Wed 1 Jul: nobody knows when it will be ready." in _first(answer)
    assert "not known" in _bed_lines(answer)[0]
    assert "nothing" not in "\n".join(_lines(answer))


@pytest.mark.parametrize("width", [60, 70, 80])
def test_wide_names_and_days_of_another_year_hold(width: int) -> None:
    where = factory.bed("豆豆豆豆豆豆豆豆豆豆豆豆豆 1")
    spot = factory.spot(
        where, date(2026, 12, 28), free_until=date(2027, 1, 4), plants=12_345, odds=0.999, end=None
    )
    crop = factory.bean(name="豆豆豆豆豆豆豆豆豆豆豆豆豆豆豆豆豆豆")
    answers = (
        replace(factory.answer(spots=(spot,)), crop=crop),
        factory.answer(spots=(spot,), last_safe=date(2027, 1, 4)),
    )
    lines = _lines(*answers, width=width)
    assert [each for each in lines if cells(each) > width] == []
    text = "\n".join(lines)
    assert where.name in text
    assert "28 Dec – 4 Jan 2027" in " ".join(text.split())
    assert "…" not in text


def test_a_day_of_another_year_says_that_the_file_plans_another() -> None:
    text = _first(_no(Verdict.TOO_EARLY, date(2027, 2, 1)))
    assert text.startswith(
        "Judged on 1 Feb 2027, but the file plans 2026: write `season: 2027` to plan that year. No,"
    )
    assert "the file plans" not in _first(factory.answer())


def test_the_earliest_day_is_said_only_where_it_is_not_the_first_safe_one() -> None:
    assert "Earliest" not in _first(factory.answer())
    later = factory.answer(windows=(DateSpan(date(2026, 5, 20), date(2026, 7, 18)),))
    assert "Safe days to sow it: 20 May – 18 Jul. Earliest: 6 May." in _first(later)
    assert "Earliest" not in _first(factory.answer(earliest=date(2027, 5, 6)))


@pytest.mark.parametrize("width", range(40, 70))
def test_no_line_breaks_a_day_apart(width: int) -> None:
    other = factory.instead(text="sow lettuce on 10 Jan in Long 2: first picks from 19 Feb")
    lines = _lines(_no(Verdict.TOO_LATE, instead=(other,)), width=width)
    text = "\n".join(each.lstrip() for each in lines)
    assert re.findall(r"\d\n(?:Jan|Feb|Jul)", text) == []
