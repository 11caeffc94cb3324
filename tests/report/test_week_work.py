"""How a piece of the week's work is said, case by case, and the small lists at the sheet's end.

The week is Monday 13 to Sunday 19 July 2026, looked at on Wednesday; the task is a sowing on the
day after.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import factory
from sowtide.report.kinds import AmountView
from sowtide.report.week import WeekBy, view
from sowtide.report.week.bench import coming_free, next_week
from sowtide.report.week.task_events import events
from sowtide.report.week.tasks_view import DelayView
from sowtide.report.week.view import Coming, SheetView, SpaceView, WeekView
from sowtide.report.week.work import block_of, item_of, waves_of
from sowtide.schedule.waves.wave import Verdict
from sowtide.schedule.work.task import DayPart, Kind

WEEK = view(
    (replace(factory.week_sheet(), tasks=(factory.task(),)),), factory.season(), by=WeekBy.BED
)
SHEET = WEEK.first
TASK = next(each for each in SHEET.tasks if each.kind is Kind.SOW)
TODAY = date(2026, 7, 15)
DUE = date(2026, 7, 16)
DAY = timedelta(days=1)


def told(
    of: WeekView = WEEK, *, must: bool = False, sheet: SheetView = SHEET, **changes: Any
) -> str:
    """Return how the task is to be done, as the sheet says it."""
    made: dict[str, Any] = {"due": DUE, "text": "12 ft of row", "amount": None, "last_day": None}
    judged = changes.pop("judged", None)
    task = replace(TASK, **(made | changes))
    if judged is not None:
        assert task.judged is not None
        task = replace(task, judged=replace(task.judged, **judged))
    return item_of(task, sheet, of, must=must).words.plain.replace("\N{NO-BREAK SPACE}", " ")


ROW = "12 ft of row"


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({}, ROW),
        ({"amount": AmountView(80, "seeds")}, f"80 seeds, {ROW}"),
        ({"amount": AmountView(80, "seeds"), "text": ""}, "80 seeds"),
        ({"part": DayPart.EVENING}, f"evening: {ROW}"),
        ({"overdue": True}, f"{ROW}; overdue since Thu 16 Jul"),
        ({"due": date(2026, 7, 12)}, f"{ROW}; overdue since Sun 12 Jul"),  # of the week before
        ({"due": date(2026, 7, 13)}, ROW),
        ({"wait_until": date(2026, 7, 20)}, f"{ROW}; in this heat not before Mon 20 Jul"),
        ({"planned": date(2026, 7, 14)}, f"{ROW}; put off from Tue 14 Jul"),
        ({"cannot_wait": True}, f"{ROW}; no working day, and the next is too late"),
        ({"has_room": False}, f"{ROW}; no room: no bed has space for this wave"),
        (
            {"kind": Kind.SPRAY, "blocked_until": date(2026, 7, 20)},
            f"{ROW}; not picked until Mon 20 Jul",
        ),
        ({"kind": Kind.PICK, "blocked_until": date(2026, 7, 20)}, ROW),
        ({"delay": DelayView(3, 0.83, 0.64, False)}, f"{ROW}; today 64 in 100 (83)"),
        ({"judged": {"verdict": Verdict.CHANCY}}, f"{ROW}; chancy, 83 in 100"),
        ({"judged": {"verdict": Verdict.CHANCY}, "kind": Kind.PULL}, ROW),
        ({"judged": {"verdict": Verdict.CHANCY}, "kind": Kind.LOOK}, ROW),
        (
            {"judged": {"verdict": Verdict.CHANCY}, "kind": Kind.LOOK, "last_day": DUE},
            f"{ROW}; chancy, 83 in 100",
        ),
        ({"judged": {"verdict": Verdict.TOO_EARLY}}, f"{ROW}; too early"),
        ({"judged": {"verdict": Verdict.TOO_EARLY}, "kind": Kind.THIN}, ROW),
    ],
)
def test_a_piece_of_work_says_how_it_is_done_and_what_speaks_against_it(
    changes: dict[str, Any], said: str
) -> None:
    assert told(**changes) == said


@pytest.mark.parametrize(
    ("last", "changes", "said"),
    [
        (DUE, {}, "; safe until 16 Jul"),
        (DUE - DAY, {}, ""),  # it has passed before the day of the work
        (DUE + 14 * DAY, {}, "; safe until 30 Jul"),
        (DUE + 15 * DAY, {}, ""),
        (DUE, {"must": True}, ". Last safe day Thu 16 Jul"),
        (date(2026, 12, 30), {"must": True}, ". Last safe day Wed 30 Dec"),
        (date(2026, 12, 31), {"must": True}, ""),  # nothing ends it in this year
        (DUE, {"kind": Kind.LOOK}, ""),
    ],
)
def test_the_last_safe_day_is_said_where_it_is_near(
    last: date, changes: dict[str, Any], said: str
) -> None:
    assert told(last_day=last, **changes, sheet=replace(SHEET, waiting=())) == ROW + said


def test_what_waiting_costs_is_said_of_what_cannot_slip_alone() -> None:
    costs = f"{ROW}. Waiting costs: 70 in 100, 23 Jul 37, 30 Jul 12"
    assert told(must=True) == costs
    assert told(must=False) == ROW
    assert told(must=True, id="another") == ROW


def test_of_work_whose_last_day_has_passed_that_is_said() -> None:
    monday = date(2026, 7, 13)
    late = {"due": monday, "last_day": TODAY - DAY, "overdue": True}
    since = f"{ROW}; overdue since Mon 13 Jul"
    assert told(**late) == f"{since}; its last day was 14 Jul"
    assert told(**(late | {"last_day": TODAY})) == f"{since}; safe until 15 Jul"
    assert told(**(late | {"overdue": False})) == f"{ROW}; safe until 14 Jul"
    for now, again in ((0.8, ", safe again today"), (0.79, "")):  # sure of 80 in 100
        text = told(**late, delay=DelayView(3, 0.83, now, False))
        assert text.endswith(f"; its last day was 14 Jul{again}")
    by_day = replace(WEEK, by=WeekBy.DAY)
    assert told(by_day, part=DayPart.EVENING) == ROW  # its title says so


@pytest.mark.parametrize(
    ("waves", "said"),
    [
        (("bush-bean-1",), "bush-bean-1"),
        (("a-very-long-name-of-a-crop-1",), "a-very-long-name-of-a-crop-1"),
        (("bush-bean-1", "bush-bean-12"), "bush-bean-1, -12"),
        (("bush-bean-1", "kale-leaves-1"), "2 waves"),  # 26 cells; names have 22
        (("bush-bean-1", "kale-tip-1"), "2 waves"),
        (("bush-bean-1", "kale-ti-1"), "bush-bean-1, kale-ti-1"),
    ],
)
def test_the_waves_of_one_piece_of_work_are_named_or_counted(
    waves: tuple[str, ...], said: str
) -> None:
    assert waves_of(replace(TASK, waves=waves)) == said


@pytest.mark.parametrize(
    ("bed", "beds", "block"),
    [
        ("Hill 12", ("Hill 1", "Hill 12"), "Hill"),
        ("Hill 12", ("Hill 12", "Hill 1", "Tunnel 1", "Gate"), "Hill"),
        ("Hill 12", ("Hill 12", "Tunnel 1"), ""),
        ("Hill 12", ("Hill 12", "Hill top"), ""),
        ("Hill", ("Hill", "Hill 1"), ""),
        ("Hill top", ("Hill top", "Hill 1"), ""),
        ("12", ("12", "13"), ""),
        ("Low Hill 1", ("Low Hill 1", "Low Hill 2"), "Low Hill"),
    ],
)
def test_beds_are_of_a_block_where_others_are_numbered_alike(
    bed: str, beds: tuple[str, ...], block: str
) -> None:
    assert block_of(bed, beds) == block


MONDAY, SUNDAY = date(2026, 7, 13), date(2026, 7, 19)


def flat(*blocks: Any) -> str:
    texts = (
        f"{each.title} {each.beside or ''}" if hasattr(each, "beside") else each.words
        for each in blocks
    )
    said = (each if isinstance(each, str) else each.plain for each in texts)
    return " | ".join(said).replace("\N{NO-BREAK SPACE}", " ")


def space(bed: str, first: date, **changes: Any) -> SpaceView:
    made = SpaceView(bed=bed, from_=first, until=None, area_m2=4.0, leaves=(), area=4 * 10**12)
    return replace(made, **changes)


def test_spaces_that_come_free_are_told_besides_those_that_are_free_already() -> None:
    spaces = (
        space("A", MONDAY - DAY),
        space("B", MONDAY, until=SUNDAY),
        space("C", SUNDAY, leaves=("pea-1",)),
        space("D", SUNDAY, leaves=("pea-1", "pea-2")),
    )
    sheet = replace(SHEET, openings=spaces, start_now=())
    assert flat(*coming_free(sheet, WEEK)) == (
        "COMES FREE besides 1 space free already | B: Mon 13 Jul until Sun 19 Jul, 43.1 ft² | "
        "C: Sun 19 Jul, 43.1 ft², as pea-1 leaves | "
        "D: Sun 19 Jul, 43.1 ft², as pea-1 and pea-2 leave"
    )
    alone = replace(sheet, openings=spaces[1:2])
    assert flat(*coming_free(alone, WEEK)).startswith("COMES FREE  | B: Mon 13 Jul until")
    assert flat(*coming_free(replace(sheet, openings=spaces[:1]), WEEK)) == ""


@pytest.mark.parametrize(("number", "rest"), [(6, []), (7, ["and 1 more: `sowtide fits`"])])
def test_of_many_spaces_six_are_told_and_the_rest_counted(number: int, rest: list[str]) -> None:
    spaces = tuple(space(f"B{n}", MONDAY) for n in range(number))
    _, *told_of = map(flat, coming_free(replace(SHEET, openings=spaces, start_now=()), WEEK))
    assert told_of == [*(f"B{n}: Mon 13 Jul, 43.1 ft²" for n in range(6)), *rest]


def coming(kind: Kind, wave: str, due: date) -> Coming:
    return Coming(due=due, kind=kind.value, wave=wave)


def test_a_busy_week_to_come_is_told_day_by_day_with_its_small_work_counted() -> None:
    sow = [coming(Kind.SOW, f"pea-{n}", SUNDAY + DAY) for n in range(2)]
    quiet = replace(SHEET, next_week=(*sow, coming(Kind.THIN, "bean-1", SUNDAY + 2 * DAY)))
    assert flat(*next_week(quiet, WEEK.setting.year)) == (
        "NEXT WEEK: Mon 20 Jul: sow pea-0 and pea-1; Tue 21 Jul: thin bean-1"
    )
    assert list(next_week(replace(SHEET, next_week=()), WEEK.setting.year)) == []
    thin = [coming(Kind.THIN, f"bean-{n}", SUNDAY + 2 * DAY) for n in range(14)]
    feed = [coming(Kind.FEED, f"kale-{n}", SUNDAY + 2 * DAY) for n in range(3)]
    year = WEEK.setting.year
    sixteen = flat(*next_week(replace(SHEET, next_week=(*sow, *thin, *feed)), year))
    assert sixteen.startswith(
        "NEXT WEEK: Mon 20 Jul: sow pea-0 and pea-1; Tue 21 Jul: thin bean-0,"
    )
    seventeen = (*sow, *thin, coming(Kind.LOOK, "leek-1", SUNDAY + 2 * DAY), *feed)
    assert flat(*next_week(replace(SHEET, next_week=seventeen), year)) == (
        "NEXT WEEK  | Mon 20 Jul: sow pea-0 and pea-1 | "
        "Tue 21 Jul: feed kale-0, kale-1 and kale-2, look 1, thin 14"
    )


def event(**changes: Any) -> tuple[str, date, str, str]:
    """Return a task as an event: its title, its day, where, and what is said."""
    made: dict[str, Any] = {"due": DUE, "text": "to 4 in", "amount": None, "kind": Kind.THIN}
    task = replace(TASK, **(made | changes))
    of = replace(SHEET, tasks=(task,), pickings=(), cannot_slip=())
    (found,) = events(replace(WEEK, first=of, sheets=(of,))).events
    said, _, _ = found.words.partition(" When it is done: ")
    return found.title, found.first, found.place, said


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({}, "To 4 in."),
        ({"amount": AmountView(60, "plants")}, "60 plants, to 4 in."),
        ({"text": "", "amount": AmountView(60, "plants")}, "60 plants."),
        ({"blocked_until": date(2026, 7, 20)}, "To 4 in, not picked until 2026-07-20."),
        ({"wait_until": date(2026, 7, 20)}, "To 4 in, in this heat not before 2026-07-20."),
        ({"kind": Kind.SPRAY}, "To 4 in, read the label again first."),
        ({"kind": Kind.DUST}, "To 4 in, read the label again first."),
        ({"overdue": True}, "To 4 in, overdue since 2026-07-16."),
    ],
)
def test_an_event_of_the_week_says_what_the_sheet_does(changes: dict[str, Any], said: str) -> None:
    assert event(**changes)[3] == said


def test_only_what_cannot_slip_is_an_event_that_must_be() -> None:
    of = replace(SHEET, tasks=(TASK, replace(TASK, id="other")), cannot_slip=(TASK.id,))
    found = events(replace(WEEK, first=of, sheets=(of,))).events
    assert {each.key: each.must for each in found if each.kind == "sow"} == {
        TASK.id: True,
        "other": False,
    }


def test_an_event_that_is_overdue_stands_on_today() -> None:
    assert event(overdue=True, due=date(2026, 7, 9))[1] == TODAY
    assert event(overdue=True, due=DUE)[1] == DUE
    assert event(overdue=False, due=date(2026, 7, 13))[1] == date(2026, 7, 13)
    assert event()[0] == "thin bush-bean-1"
    assert event(waves=(), place="Gate", bed=None)[::2] == ("thin Gate", "")
