"""Work on the days on which there is someone to do it, counted by hand.

2026: 1 June is a Monday. The fruit crop is up 10 days after its sowing, looked at 5 days later,
picked 50 days after its sowing for 14 days, and gone the day after. Safe until 19 July.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import gardens
from gardens import BED, crop, text, wave
from sowtide.garden.read import read_garden
from sowtide.schedule.season import Season
from sowtide.schedule.work import Kind, Task, week_sheets

TRAYS = {
    "raised": "trays",
    "nursery_days": "21-35",
    "hardening_days": "7",
    "counted_from": "planting out",
}


def _season(*entries: str, days: str = "", away: str = "", **keys: object) -> Season:
    file = text(*entries, **{"fall_allowance": "0"} | keys)  # type: ignore[arg-type]
    file += f"working_days: {days}\n" if days else ""
    file += f"away: {away}\n" if away else ""
    return gardens.season(file)


def _tasks(season: Season) -> list[Task]:
    sheets = week_sheets(season.garden, season.waves, date(2026, 1, 5), weeks=52)
    return [task for sheet in sheets for task in sheet.tasks]


def _picked(season: Season) -> list[date]:
    sheets = week_sheets(season.garden, season.waves, date(2026, 1, 5), weeks=52)
    return [day for sheet in sheets for each in sheet.pickings for day in each.days]


def _due(season: Season) -> list[tuple[Kind, str]]:
    return [(task.kind, f"{task.due:%m-%d}") for task in _tasks(season)]


def test_work_waits_for_the_next_working_day() -> None:
    # planned: prepared Tue 26 May, sown Tue 2 Jun, looked at Wed 17 Jun, gone on Wed 5 Aug
    found = _season(wave(start="06-02"), days="[sat, Wednesday]")
    assert _due(found) == [
        (Kind.PREPARE, "05-27"),
        (Kind.SOW, "06-03"),
        (Kind.LOOK, "06-20"),  # a day later than 17 June, too: Thursday, so on Saturday
        (Kind.PULL, "08-05"),
    ]
    planned = [task.planned for task in _tasks(found)]
    assert planned == [date(2026, 5, 26), date(2026, 6, 2), date(2026, 6, 17), None]
    assert found.waves[0].stages.sow.day == date(2026, 6, 2)


@pytest.mark.parametrize(
    ("away", "due", "waits"),
    [
        ("[07-13..07-18]", "07-19", True),  # the last safe day itself
        ("[07-13..07-19]", "07-14", False),
        ("[07-13..07-15, 07-16..07-18]", "07-19", True),
    ],
)
def test_nothing_waits_longer_than_its_last_safe_day(away: str, due: str, waits: bool) -> None:
    found = _season(wave(start="07-14"), away=away)
    (sown,) = [task for task in _tasks(found) if task.kind is Kind.SOW]
    assert (f"{sown.due:%m-%d}", sown.cannot_wait) == (due, not waits)
    said = [problem.wave for problem in found.problems if problem.code == "no-working-day"]
    assert said == ([] if waits else ["fruit-1"])


@pytest.mark.parametrize(("back", "stuck"), [("06-17", False), ("06-18", True)])
def test_seedlings_wait_until_they_are_too_old(back: str, stuck: bool) -> None:
    # sown on 13 May, 21 days before 3 June; too old 35 days after their sowing, on 17 June
    away = f"[06-03..{date.fromisoformat(f'2026-{back}') - timedelta(days=1)}]"
    found = _season(wave(start="06-03"), away=away, crops=[crop(**TRAYS)])
    (out,) = [task for task in _tasks(found) if task.kind is Kind.PLANT_OUT]
    assert (f"{out.due:%m-%d}", out.cannot_wait) == ("06-03" if stuck else back, stuck)


@pytest.mark.parametrize(("back", "stuck"), [("06-09", False), ("06-10", True)])
def test_seedlings_are_hardened_off_before_they_are_planted_out(back: str, stuck: bool) -> None:
    # planted out on 10 June, hardened off from 3 June: at the latest on the day before
    away = f"[06-03..{date.fromisoformat(f'2026-{back}') - timedelta(days=1)}]"
    found = _season(wave(start="06-10"), away=away, crops=[crop(**TRAYS)])
    (hardened,) = [task for task in _tasks(found) if task.kind is Kind.HARDEN_OFF]
    assert (f"{hardened.due:%m-%d}", hardened.cannot_wait) == ("06-03" if stuck else back, stuck)


@pytest.mark.parametrize("sown", ["07-15", "07-16"])
@pytest.mark.parametrize(("back", "stuck"), [("07-19", False), ("07-20", True)])
def test_the_bed_is_cleared_for_what_is_planted_next(sown: str, back: str, stuck: bool) -> None:
    # gone on 15 July, 64 days after 12 May; the next is sown on that day or the day after, at the
    # latest on 19 July
    away = f"[07-15..{date.fromisoformat(f'2026-{back}') - timedelta(days=1)}]"
    entries = (wave(start="05-12", plants="10"), wave(start=sown, name="next", plants="10"))
    (pulled, _) = [t for t in _tasks(_season(*entries, away=away)) if t.kind is Kind.PULL]
    assert (f"{pulled.due:%m-%d}", pulled.cannot_wait) == ("07-15" if stuck else back, stuck)


def test_work_waits_over_weeks() -> None:
    # sown 20 days late, so looked at 20 days after 17 June
    found = _season(wave(start="06-02"), away="[05-20..06-21]")
    assert _due(found) == [
        (Kind.PREPARE, "06-22"),
        (Kind.SOW, "06-22"),
        (Kind.LOOK, "07-07"),
        (Kind.PULL, "08-05"),
    ]


def test_the_bed_is_cleared_for_what_is_planted_weeks_later() -> None:
    # gone on 25 June, 64 days and 9 for the cold after 13 April; the next, sown on 16 July, waits
    # for 19 July at most
    entries = (wave(start="04-13", plants="10"), wave(start="07-16", name="next", plants="10"))
    found = _season(*entries, away="[06-25..07-25]")
    (pulled, _) = [task for task in _tasks(found) if task.kind is Kind.PULL]
    assert (pulled.due, pulled.cannot_wait) == (date(2026, 6, 25), True)


def test_picking_waits_over_weeks() -> None:
    # planned for 22 July and, 13 days later, 4 August
    found = _season(wave(start="06-02"), away="[07-20..07-31]", crops=[crop(pick_gap="13")])
    assert _picked(found) == [date(2026, 8, 1), date(2026, 8, 4)]


def test_picking_is_on_working_days_until_the_last_pick() -> None:
    # planned every day from Wed 22 July to Tue 4 August; the last working day of it is Sat 1 August
    found = _season(wave(start="06-02"), days="[sat, wed]", crops=[crop(pick_gap="1")])
    days = [f"{day:%m-%d}" for day in _picked(found)]
    assert days == ["07-22", "07-25", "07-29", "08-01"]


def test_a_crop_cut_once_is_cut_on_the_first_working_day() -> None:
    # cut on Wed 22 July, stands until Thu 30 July
    once = crop(picking_days="1", holding_days="8")
    found = _season(wave(start="06-02"), days="[sat]", crops=[once])
    assert _picked(found) == [date(2026, 7, 25)]


@pytest.mark.parametrize(
    ("away", "said"),
    [("[07-22..07-24]", True), ("[07-15..07-22]", True), ("[07-23..08-10]", False)],
)
def test_a_first_pick_while_nobody_is_there_is_said(away: str, said: bool) -> None:
    found = _season(wave(start="06-02"), away=away)
    assert ("away-first-pick", "fruit-1") in gardens.codes(found) or not said
    assert ("away-first-pick" in dict(gardens.codes(found))) is said


@pytest.mark.parametrize(("until", "said"), [("07-29", False), ("07-30", True)])
def test_what_is_cut_once_may_hold_until_someone_is_back(until: str, said: bool) -> None:
    # ready on 22 July and standing for 8 days: until 30 July
    once = crop(picking_days="1", holding_days="8")
    found = _season(wave(start="06-02"), away=f"[07-20..{until}]", crops=[once])
    assert ("away-first-pick" in dict(gardens.codes(found))) is said


def test_what_would_never_be_picked_keeps_its_days() -> None:
    found = _season(wave(start="06-02"), away="[07-20..08-10]")
    assert _picked(found)[0] == date(2026, 7, 22)
    assert "away-first-pick" in dict(gardens.codes(found))


@pytest.mark.parametrize(
    ("keys", "code"),
    [
        ("working_days: [weekend]", "choice"),
        ("away: [08-14..08-01]", "date-range"),
        ("away: all year", "date-range"),
        ("away: 08-01", "date-range"),
    ],
)
def test_what_is_no_day_to_work_on_or_to_be_away_is_refused(keys: str, code: str) -> None:
    reading = read_garden(f"{text(wave(), beds=[BED])}{keys}\n".encode(), "garden.yaml")
    assert [problem.code for problem in reading.problems] == [code]
