"""A season lived through: thirty Mondays in three gardens, with slips, losses and a spell away.

Each Monday the week's sheet is asked for; by Sunday most of it is done and noted. Whatever happens,
nothing noted contradicts itself, what was done is asked for no more, what was not is overdue until
it is, and no bed is over-full in silence. Of a small garden six Mondays are worked out by hand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from random import Random

import pytest

import gardens
from sowtide.diagnostics import Span
from sowtide.garden.journal import Did, Happening, Journal
from sowtide.garden.model import Garden
from sowtide.schedule.happened import contradictions
from sowtide.schedule.noting import Details, happenings_of
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Status
from sowtide.schedule.work import Kind, Task, WeekSheet
from sowtide.season import load, load_demo, season_of

ROOT = Path(__file__).parents[2]
MONDAYS = 30
_WEEK = timedelta(days=7)

Answer = Callable[[Season, WeekSheet], list[Happening]]
"""What a grower notes in a week."""


class Life:
    """A season as it is lived: Mondays one after the other, and the journal that grows."""

    def __init__(self, garden: Garden) -> None:
        self.garden = garden
        self.noted: list[Happening] = []
        self.plan = season_of(garden, garden.year.first)

    def season(self, day: date) -> Season:
        """Return the season as it is seen from a day."""
        journal = Journal("journal.yaml", tuple(self.noted))
        return season_of(self.garden, day, None, journal, like=self.plan)

    def note(self, happenings: Iterable[Happening]) -> None:
        """Write entries down, each below the last."""
        for each in happenings:
            span = Span("journal.yaml", len(self.noted) + 1)
            self.noted.append(replace(each, span=span))


def sheet_of(season: Season, monday: date) -> WeekSheet:
    """Return the sheet of a week."""
    (found,) = gardens.sheets(season, monday)
    return found


def tick(season: Season, task: Task, on: date) -> list[Happening]:
    """Return what is noted when a task is ticked off by its code."""
    seen = replace(season, today=on)
    code = f"{task.code}=none" if task.kind is Kind.SCOUT else task.code
    return list(happenings_of((code,), Details(on), seen))


def most_of_it(chance: Random) -> Answer:
    """Return a grower who does most of what is due, some of it late, and loses a wave at times."""

    def answer(season: Season, sheet: WeekSheet) -> list[Happening]:
        done: list[Happening] = []
        for task in (*sheet.overdue, *sheet.tasks):
            if chance.random() < 0.15:
                continue  # forgotten
            on = min(max(task.due, sheet.first) + timedelta(days=chance.randint(0, 2)), sheet.last)
            done += tick(season, task, on)
        for picking in sheet.pickings:
            wave = picking.task.wave
            first = wave.done is None or wave.done.first_pick is None
            did = Did.FIRST_PICKED if first else Did.PICKED
            done.append(Happening(sheet.last, did, Span("", 1), wave=wave.id))
        if chance.random() < 0.1:
            standing = [w for w in season.waves if w.status in (Status.SOWN, Status.PLANTED)]
            for wave in standing[:1]:
                done.append(Happening(sheet.last, Did.LOST, Span("", 1), wave=wave.id))
        return done

    return answer


def garden_called(name: str) -> Garden:
    """Return one of the three gardens."""
    if name == "demo":
        found = load_demo().garden
    elif name == "allotment":
        found = load(ROOT / "examples/allotment/garden.yaml").garden
    else:
        found = gardens.read(SMALL)
    assert found is not None
    return found


def check(life: Life, season: Season, sheet: WeekSheet, monday: date) -> None:
    """Check what holds on every Monday."""
    assert contradictions(life.garden, life.noted) == ()
    assert all(task.due < monday and task.overdue for task in sheet.overdue)
    told = {each.wave for each in season.problems if each.code == "journal-crowded"}
    today = monday.toordinal()
    for bed, stays in zip(season.room.beds, season.room.stays, strict=True):
        for day in {max(stay.first, today) for stay in stays}:
            standing = [stay for stay in stays if stay.first <= day < stay.until]
            over = sum(stay.area for stay in standing) > bed.area
            assert not over or told & {stay.wave for stay in standing}
    for wave in season.waves:
        if wave.done is not None and wave.done.pull_out is not None:
            assert wave.status in (Status.OVER, Status.LOST)
            assert wave.stages.pull_out.day == wave.done.pull_out


@pytest.mark.parametrize("seed", [1, 2])
@pytest.mark.parametrize("name", ["demo", "allotment", "small"])
def test_thirty_mondays_of_most_of_it(name: str, seed: int) -> None:
    life = Life(garden_called(name))
    answer = most_of_it(Random(seed))
    monday = life.garden.year.first + timedelta(days=(70 - life.garden.year.first.weekday()))
    ticked: set[str] = set()
    away = {12, 13}
    for week in range(MONDAYS):
        season = life.season(monday)
        sheet = sheet_of(season, monday)
        check(life, season, sheet, monday)
        assert not ticked & {task.id for task in (*sheet.overdue, *sheet.tasks)}
        if week not in away:
            known = list(life.noted)
            for each in answer(season, sheet):
                # One that contradicts what was noted the same week is not written down.
                if not contradictions(life.garden, (*life.noted, _below(life, each))):
                    life.note([each])
            added = life.noted[len(known) :]
            ticked |= _settled(sheet, added)
        monday += _WEEK
    assert len(life.noted) > 15


def _below(life: Life, each: Happening) -> Happening:
    return replace(each, span=Span("journal.yaml", len(life.noted) + 1))


def _settled(sheet: WeekSheet, added: list[Happening]) -> set[str]:
    """Return the tasks of sowing and planting that were noted as done."""
    noted = {(each.wave, each.did) for each in added}
    stage = {"sow": Did.SOWN, "sow in trays": Did.SOWN, "plant out": Did.PLANTED_OUT}
    return {
        task.id
        for task in (*sheet.overdue, *sheet.tasks)
        if (task.wave.id, stage.get(task.kind.value)) in noted and len(task.wave.stands) == 1
    }


SMALL = gardens.text(
    gardens.wave(plants="2", start="06-01", every="14", count="4"), fall_allowance="0"
)
"""Sown on 1, 15 and 29 June and 13 July; up after 10 days, picked from the 50th for 14 days."""


CARE = """care:
  - {name: tea, do: feed, on: fruit, from: sowing + 14, every: 14, amount: 1 l per plant}
  - {name: soak, do: water, on: fruit, every: 7, amount: 20 mm}
  - {name: mist, do: spray, on: fruit, against: fungus, from: up, every: 14,
     label: {days_before_harvest: 3}}
"""


def _lines(sheet: WeekSheet) -> list[str]:
    late = [f"late {t.kind.value} {t.wave.id} {t.due:%m-%d}" for t in sheet.overdue if not t.care]
    now = (t for t in sheet.tasks if not t.care)
    return [*late, *(f"{t.kind.value} {t.wave.id} {t.due:%m-%d}" for t in now)]


def _care(sheet: WeekSheet) -> list[str]:
    return sorted(
        f"{'late ' if late else ''}{t.care.routine} {' '.join(t.care.waves)} {t.due:%m-%d}"
        for late, tasks in ((True, sheet.overdue), (False, sheet.tasks))
        for t in tasks
        if t.care
    )


def test_six_mondays_worked_out_by_hand() -> None:
    life = Life(gardens.read(SMALL + CARE))

    def on(monday: date) -> list[str]:
        return _lines(sheet_of(life.season(monday), monday))

    def care(monday: date) -> list[str]:
        return _care(sheet_of(life.season(monday), monday))

    def note(*entries: tuple[str, str, Did]) -> None:
        life.note(
            Happening(date.fromisoformat(f"2026-{day}"), did, Span("", 1), wave=wave)
            for day, wave, did in entries
        )

    def done(monday: date) -> list[str]:
        doses = life.season(monday).care.doses
        return [f"{d.routine.name} {d.plot.wave.id} {d.day:%m-%d}" for d in doses if d.noted]

    # 1 June: sow the first; its bed was to be prepared a week before, and nothing is noted yet.
    assert on(date(2026, 6, 1)) == ["sow fruit-1 06-01"]
    # Watering goes round on Mondays, and 1 June is one.
    assert care(date(2026, 6, 1)) == ["soak fruit-1 06-01"]
    # Sown three days late. All that follows in the series steps on from 4 June: 18 June, 2 and 16
    # July. The bed for the second is prepared a week ahead, on 11 June.
    note(("06-04", "fruit-1", Did.SOWN))
    assert on(date(2026, 6, 8)) == ["prepare fruit-2 06-11"]
    # Nothing is noted of care: Monday's water is due, and the 1st's counts as done. Sprayed as it
    # comes up, 10 days after 4 June; fed from 14 days after, in the week that follows.
    assert care(date(2026, 6, 8)) == ["mist fruit-1 06-14", "soak fruit-1 06-08"]
    # Watered on Thursday, and from it counted on: 11 + 7 = 18 June. Fed on 4 + 14 = 18 June.
    note(("06-11", "fruit-1", Did.WATERED))
    assert done(date(2026, 6, 15)) == ["soak fruit-1 06-11"]
    assert care(date(2026, 6, 15)) == ["soak fruit-1 06-18", "tea fruit-1 06-18"]
    # 15 June: the bed was not prepared. Up on 14 June; looked at 5 days later, on the 19th.
    assert on(date(2026, 6, 15)) == [
        "late prepare fruit-2 06-11",
        "sow fruit-2 06-18",
        "look fruit-1 06-19",
    ]
    # Away for two weeks. 29 June: sowing presses most, then the look whose last day is the next
    # sowing or so; the bed for the third was due on the 25th.
    late = on(date(2026, 6, 29))
    assert late[-1] == "sow fruit-3 07-02"
    assert sorted(late[:-1]) == [
        "late look fruit-1 06-19",
        "late prepare fruit-2 06-11",
        "late prepare fruit-3 06-25",
        "late sow fruit-2 06-18",
    ]
    # Water is noted since the 11th, so that of the 18th is late. Of feeding and spraying nothing is
    # noted: done on their days, 18 June and 14 and 28 June, and next on 18 June + 14 = 2 July and
    # 28 June + 14 = 12 July, a week on. The second is not sown, and gets nothing.
    assert care(date(2026, 6, 29)) == ["late soak fruit-1 06-18", "tea fruit-1 07-02"]
    # Back home: the first is up, the second sown on 29 June and so prepared. From it the third
    # moves to 13 July; its bed is to be prepared on 6 July. The fourth would come on the 27th: too
    # late. Frost comes on 1 October, in 80 years of 100 after 1 October − 0.84 × 11 = 21 September,
    # and a wave of 27 July is picked till 28 September.
    note(("06-29", "fruit-1", Did.UP), ("06-29", "fruit-2", Did.SOWN))
    assert on(date(2026, 7, 6)) == ["prepare fruit-3 07-06"]
    # Watered on 29 June, sprayed on the 30th, fed on 1 July: next on 29 June + 7 = 6 July, and in
    # the week after on 30 June + 14 = 14 July and 1 + 14 = 15 July. The second was not watered on
    # Monday the 29th, the day it was sown; it is up and sprayed on 29 June + 10 = 9 July.
    note(
        ("06-29", "fruit-1", Did.WATERED),
        ("06-30", "fruit-1", Did.SPRAYED),
        ("07-01", "fruit-1", Did.FED),
    )
    assert done(date(2026, 7, 6)) == [
        "soak fruit-1 06-11",
        "soak fruit-1 06-29",
        "mist fruit-1 06-30",
        "tea fruit-1 07-01",
    ]
    assert care(date(2026, 7, 6)) == [
        "late soak fruit-2 06-29",
        "mist fruit-2 07-09",
        "soak fruit-1 07-06",
    ]
    # The first is lost on 10 July; the second was up on 9 July, to be looked at on the 14th. The
    # third is sown on its day, and prepared by it.
    note(("07-10", "fruit-1", Did.LOST), ("07-13", "fruit-3", Did.SOWN))
    assert on(date(2026, 7, 13)) == ["look fruit-2 07-14"]
    # The lost one's care of the 13th to the 15th is gone. The second's spray of the 9th is late:
    # sprays are noted since 30 June. It is fed on 29 June + 14 = 13 July. The third is watered on
    # the Monday on which it is sown.
    assert care(date(2026, 7, 13)) == [
        "late mist fruit-2 07-09",
        "late soak fruit-2 06-29",
        "soak fruit-3 07-13",
        "tea fruit-2 07-13",
    ]
    season = life.season(date(2026, 7, 13))
    assert [wave.status for wave in season.waves] == [
        Status.LOST,
        Status.SOWN,
        Status.SOWN,
    ]
    assert [f"{wave.stages.plant.day:%m-%d}" for wave in season.waves] == [
        "06-04",
        "06-29",
        "07-13",
    ]


LATE = """site:
  name: Hill End
  latitude: 44.5
  units: us
  frost: {last: 05-12, first: 09-28}
  warmest_month: 72
  coldest_month: 18
  too_hot: 06-20..08-10
season: 2026
beds: [{bed: A, size: 4 x 12}, {bed: B, size: 4 x 12}]
waves:
  - {crop: pea, plants: 20, from: 04-20, beds: [A]}
  - {crop: bush bean, plants: 20, from: 06-08, beds: [B]}
  - {crop: spinach, plants: 20, from: 05-04, beds: [B]}
"""


def test_what_is_late_is_over_once_no_safe_day_is_left_and_hardly_a_year_brings_it() -> None:
    life = Life(gardens.read(LATE))
    life.note([Happening(date(2026, 4, 20), Did.SOWN, Span("", 1), wave="pea-1")])
    small: dict[str, list[date]] = {"bush-bean-1": [], "spinach-1": []}
    over: dict[str, list[date]] = {"bush-bean-1": [], "spinach-1": []}
    for week in range(24):
        monday = date(2026, 6, 1) + week * _WEEK
        for task in sheet_of(life.season(monday), monday).overdue:
            if task.delay is not None:
                small[task.wave.id] += [monday] if task.delay.now < 0.05 else []
                over[task.wave.id] += [monday] if task.delay.over else []
    # The frost of autumn ends what is sown late: from there on nothing is to be hoped for.
    assert over["bush-bean-1"] == small["bush-bean-1"]
    assert over["bush-bean-1"][0] == date(2026, 8, 10)
    # Spinach sown in June runs into the heat; but it has safe days again, and is waited for.
    heat = [day for day in small["spinach-1"] if day.month < 8]
    assert len(heat) > 3
    assert over["spinach-1"] == [day for day in small["spinach-1"] if day not in heat]
    assert over["spinach-1"][0] == date(2026, 9, 7)


def test_nobody_thins_what_is_being_picked() -> None:
    life = Life(gardens.read(LATE.replace("06-20", "07-20")))
    life.note([Happening(date(2026, 4, 20), Did.SOWN, Span("", 1), wave="pea-1")])
    season = life.season(date(2026, 6, 8))
    (pea,) = (wave for wave in season.waves if wave.id == "pea-1")
    assert pea.stages.first_pick is not None
    picked = pea.stages.first_pick[0].day

    def asked(day: date) -> bool:
        monday = day - timedelta(days=day.weekday())
        sheet = sheet_of(life.season(day), monday)
        return any(t.kind is Kind.LOOK and t.wave.id == "pea-1" for t in sheet.overdue)

    assert asked(picked - timedelta(days=1))
    assert not asked(picked)
