"""What waiting costs: `fits` shows the same planting week after week."""

from __future__ import annotations

from datetime import date, timedelta

import gardens
from printed import fits_text
from sowtide.schedule.fits.answer import Answer
from sowtide.schedule.fits.one_more import WEEKS

FILE = gardens.text()


def asked(on: date) -> tuple[Answer, list[str]]:
    answer = gardens.ask(FILE, on=on)
    return answer, list(fits_text((answer,), gardens.season(FILE), width=80))


def test_the_same_planting_is_judged_week_by_week() -> None:
    """50 days, 14 of them picked, first frost 1 October, spread 11 days.

    Each week later has the odds of a frost a week sooner, as far as the allowance stays the same.
    """
    answer, lines = asked(date(2026, 7, 10))
    days = [judged.stages.plant.day for judged in answer.weekly]
    assert days == [date(2026, 7, 10) + timedelta(weeks=week) for week in range(len(days))]
    assert 4 <= len(days) <= WEEKS
    odds = [judged.odds or 0.0 for judged in answer.weekly]
    assert odds == sorted(odds, reverse=True)
    assert odds[0] > 0.9
    assert odds[-1] < 0.2
    begin = lines.index("IF YOU WAIT  the same, sown on other days")
    assert lines[begin + 1].split() == ["sown", "first", "pick", "picked", "in", "100"]
    assert [line.split()[1:3] for line in lines[begin + 2 : begin + 2 + len(days)]] == [
        [str(day.day), day.strftime("%b")] for day in days
    ]


def test_it_stops_at_the_first_week_that_comes_to_nothing() -> None:
    answer, lines = asked(date(2026, 7, 24))
    assert 1 < len(answer.weekly) < WEEKS
    assert answer.weekly[-1].stages.first_pick is None
    assert all(judged.stages.first_pick for judged in answer.weekly[:-1])
    assert any("nothing" in line and "too late" in line for line in lines)


def test_waiting_is_shown_where_it_is_what_makes_a_crop_possible() -> None:
    """A cool crop that would be ripe in the hot weeks comes to something if it is sown later."""
    leaf = gardens.leaf(days_to_harvest="40", picking_days="21", warm_limit="24")
    file = gardens.text(crops=[leaf], too_hot="07-01..08-20")
    answer = gardens.ask(file, "leaf", on=date(2026, 6, 20))
    lines = list(fits_text((answer,), gardens.season(file), width=80))
    picks = [judged.stages.first_pick is not None for judged in answer.weekly]
    assert picks[0] is False
    assert picks[-1] is True
    begin = lines.index("IF YOU WAIT  the same, sown on other days")
    assert "nothing" in lines[begin + 2]
    assert "too hot" in lines[begin + 2]


def test_where_no_week_comes_to_anything_none_is_shown() -> None:
    answer, lines = asked(date(2026, 10, 20))
    assert [judged.stages.first_pick for judged in answer.weekly] == [None]
    assert not any(line.startswith("IF YOU WAIT") for line in lines)


def test_it_is_left_out_where_waiting_costs_nothing() -> None:
    """Five weeks behind the last frost, and five months before the first."""
    file = gardens.text(frost="{last: 05-08, first: 11-10}")
    answer = gardens.ask(file, on=date(2026, 6, 12))
    lines = list(fits_text((answer,), gardens.season(file), width=80))
    assert len(answer.weekly) == WEEKS
    assert not any(line.startswith("IF YOU WAIT") for line in lines)


def test_it_ends_with_the_growing_year() -> None:
    file = gardens.text(frost="none")
    answer = gardens.ask(file, on=date(2026, 12, 20))
    assert [judged.stages.plant.day.day for judged in answer.weekly] == [20, 27]


def test_a_crop_over_the_winter_has_no_weeks() -> None:
    winter = gardens.crop("bulb", overwinters="yes", ready="06-25..07-20", hardiness="hardiest")
    answer = gardens.ask(gardens.text(crops=[winter]), "bulb", on=date(2026, 10, 10))
    assert answer.weekly == ()
