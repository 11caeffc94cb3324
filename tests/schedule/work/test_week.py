"""A week's work, counted by hand: what is due on which day, how much of it, and what cannot slip.

The weeks are Monday to Sunday of 2026: 1–7 June, 8–14 June and so on. The fruit crop, without a
fall allowance, is safe until 19 July.
"""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from gardens import crop, text, wave
from sowtide.schedule.work.codes import codes_of
from sowtide.schedule.work.jobs import picking_days
from sowtide.schedule.work.task import Kind, Task, WeekSheet
from sowtide.schedule.work.week import week_sheets

WIDE = "{bed: Wide, size: 2 x 10}"
TRAYS = {
    "raised": "trays",
    "nursery_days": "21-35",
    "hardening_days": "7",
    "counted_from": "planting out",
}


def _sheet(first: tuple[int, int], *entries: str, **keys: object) -> WeekSheet:
    keys = {"fall_allowance": "0"} | keys
    season = gardens.season(text(*entries, **keys))  # type: ignore[arg-type]
    return week_sheets(season.garden, season.waves, date(2026, *first), weeks=1)[0]


def _due(tasks: tuple[Task, ...]) -> list[tuple[Kind, date]]:
    return [(task.kind, task.due) for task in tasks]


def _all(*entries: str, **keys: object) -> list[Task]:
    """Return every task of the season but pickings, week after week."""
    season = gardens.season(text(*entries, **{"fall_allowance": "0"} | keys))  # type: ignore[arg-type]
    first = date(2026, 1, 5).toordinal()
    weeks = (date.fromordinal(first + 7 * number) for number in range(52))
    return [
        task
        for week in weeks
        for sheet in week_sheets(season.garden, season.waves, week, weeks=1)
        for task in sheet.tasks
    ]


def _day(month: int, day: int) -> date:
    return date(2026, month, day)


def test_all_the_work_of_a_sowing() -> None:
    # sown 1 Jun, up 11 Jun, looked at 5 days after, thinned 10 days after, gone on 4 Aug
    tasks = _all(wave(start="06-01"), crops=[crop(seeds_per_plant="2")])
    assert _due(tuple(tasks)) == [
        (Kind.PREPARE, _day(5, 25)),
        (Kind.SOW, _day(6, 1)),
        (Kind.LOOK, _day(6, 16)),
        (Kind.THIN, _day(6, 21)),
        (Kind.PULL, _day(8, 4)),
    ]
    assert {task.bed for task in tasks} == {"Long"}
    assert not any(task.overdue for task in tasks)


def test_all_the_work_of_seedlings() -> None:
    # out on 1 Jun: sown 11 May, hardened from 25 May
    tasks = _all(wave(start="06-01"), crops=[crop(**TRAYS)])
    assert _due(tuple(tasks)) == [
        (Kind.SOW_IN_TRAYS, _day(5, 11)),
        (Kind.HARDEN_OFF, _day(5, 25)),
        (Kind.PREPARE, _day(5, 25)),
        (Kind.PLANT_OUT, _day(6, 1)),
        (Kind.PULL, _day(8, 4)),
    ]
    assert [task.bed for task in tasks] == [None, None, "Long", "Long", "Long"]


def test_one_seed_for_a_plant_needs_no_thinning() -> None:
    kinds = [task.kind for task in _all(wave(start="06-01"))]
    assert Kind.THIN not in kinds


def test_seeds_allow_for_those_that_fail() -> None:
    # 7 plants, 2 seeds each, 80 % come up: 17.5, so 18
    (task,) = _sheet(
        (6, 1),
        wave(start="06-01", plants="7"),
        crops=[crop(seeds_per_plant="2", germination="80%")],
    ).tasks
    assert task.amount is not None
    assert (task.amount.value, task.amount.unit) == (18, "seeds")
    # exactly 10 plants at 50 %: 20, not 21
    (task,) = _sheet(
        (6, 1), wave(start="06-01", plants="10"), crops=[crop(germination="50%")]
    ).tasks
    assert task.amount is not None
    assert task.amount.value == 20


def test_a_wave_without_room_makes_no_work() -> None:
    entries = [wave(start="06-01", plants="10"), wave(start="06-02", plants="10", name="two")]
    assert {task.wave.id for task in _all(*entries)} == {"fruit-1"}
    assert {task.wave.id for task in _all(*entries, crops=[crop(**TRAYS)])} == {"fruit-1"}


def test_a_split_wave_is_sown_bed_by_bed() -> None:
    sheet = _sheet((6, 1), wave(start="06-01", plants="25"), beds=[gardens.BED, WIDE])
    assert [(task.bed, task.amount and task.amount.value) for task in sheet.tasks] == [
        ("Long", 10),
        ("Wide", 15),
    ]


def test_preparing_waits_for_the_space() -> None:
    # the first is gone on 4 Aug; the second goes in on 6 Aug, a week ahead would be 30 Jul
    tasks = _all(wave(start="06-01", plants="10"), wave(start="08-06", plants="10", name="two"))
    assert (Kind.PREPARE, _day(8, 4)) in _due(tuple(tasks))
    assert (Kind.PREPARE, _day(7, 30)) not in _due(tuple(tasks))


@pytest.mark.parametrize(("week", "slips"), [((6, 29), False), ((7, 6), False), ((7, 13), True)])
def test_a_last_safe_day_inside_the_week_cannot_slip(week: tuple[int, int], slips: bool) -> None:
    # sown on each Monday; the last safe day is Sunday 19 July
    entry = wave(start=f"{week[0]:02}-{week[1]:02}")
    sheet = _sheet(week, entry)
    assert [task.kind for task in sheet.cannot_slip] == ([Kind.SOW] if slips else [])
    (sown,) = [task for task in sheet.tasks if task.kind is Kind.SOW]
    assert sown.last_day == _day(7, 19)


def test_sowing_in_trays_cannot_slip_beyond_the_last_safe_planting() -> None:
    # out by 19 July, so sown by 28 June
    sheet = _sheet((6, 22), wave(start="07-13"), crops=[crop(**TRAYS)])
    (sown,) = [task for task in sheet.tasks if task.kind is Kind.SOW_IN_TRAYS]
    assert (sown.due, sown.last_day) == (_day(6, 22), _day(6, 28))
    assert sown in sheet.cannot_slip


def test_seedlings_must_be_out_before_they_are_too_old() -> None:
    # sown 11 May, too old after 35 days: 15 Jun, well before 19 Jul
    sheet = _sheet((6, 1), wave(start="06-01"), crops=[crop(**TRAYS)])
    (out,) = [task for task in sheet.tasks if task.kind is Kind.PLANT_OUT]
    assert out.last_day == _day(6, 15)


def test_the_last_day_to_sow_again() -> None:
    # sown 1 July, looked at on 16 July: sow again by 19 July; sown 6 July, looked at on 21 July:
    # too late
    (look,) = [task for task in _all(wave(start="07-01")) if task.kind is Kind.LOOK]
    assert (look.due, look.last_day) == (_day(7, 16), _day(7, 19))
    assert "19 Jul" in look.text
    (look,) = [task for task in _all(wave(start="07-06")) if task.kind is Kind.LOOK]
    assert (look.due, look.last_day) == (_day(7, 21), None)
    assert "too late" in look.text
    # sown 4 July, looked at on 19 July, the last safe day itself
    (look,) = [task for task in _all(wave(start="07-04")) if task.kind is Kind.LOOK]
    assert (look.due, look.last_day) == (_day(7, 19), _day(7, 19))
    assert "sow again by 19 Jul" in look.text


def test_a_sowing_on_the_last_safe_day_may_be_sown_again_on_it() -> None:
    made = gardens.only(text(wave(start="07-19"), fall_allowance="0"))
    assert made.sow_again_by == _day(7, 19)
    (sown,) = [task for task in _all(wave(start="07-19")) if task.kind is Kind.SOW]
    assert sown.last_day == _day(7, 19)
    late = gardens.only(text(wave(start="07-20"), fall_allowance="0"))
    assert late.sow_again_by is None


def test_seeds_are_counted_without_a_fault_of_fractions() -> None:
    # 3 plants of 2.1 seeds, of which 70 in 100 come up: nine, though in floats it is a little more
    made = crop(seeds_per_plant="2.1", germination="70%")
    (sown,) = [t for t in _all(wave(start="06-01", plants="3"), crops=[made]) if t.kind is Kind.SOW]
    assert sown.amount is not None
    assert sown.amount.value == 9
    made = crop(seeds_per_plant="2.1", germination="69%")  # 9.13
    (sown,) = [t for t in _all(wave(start="06-01", plants="3"), crops=[made]) if t.kind is Kind.SOW]
    assert sown.amount is not None
    assert sown.amount.value == 10


def test_a_late_sowing_has_no_last_day() -> None:
    (sown,) = [task for task in _all(wave(start="07-25")) if task.kind is Kind.SOW]
    assert sown.last_day is None


# Picking


def test_the_grid_follows_the_pick_gap_across_weeks() -> None:
    # picked 21 Jul – 3 Aug every three days: 21, 24, 27, 30 Jul, 2 Aug
    made = gardens.only(text(wave(start="06-01"), crops=[crop(pick_gap="3")], fall_allowance="0"))
    days = [
        picking_days(made, _day(*first), _day(*last))
        for first, last in (
            ((7, 13), (7, 19)),
            ((7, 20), (7, 26)),
            ((7, 27), (8, 2)),
            ((8, 3), (8, 9)),
        )
    ]
    assert days == [
        (),
        (_day(7, 21), _day(7, 24)),
        (_day(7, 27), _day(7, 30), _day(8, 2)),
        (),
    ]


def test_picking_begins_with_the_early_end_and_lasts_to_the_last_pick() -> None:
    # 50–60 days: 21 Jul; the last pick is 31 Jul + 13 = 13 Aug: 21, 28 Jul, 4, 11 Aug
    line = crop(days_to_harvest="50-60", pick_gap="7")
    made = gardens.only(text(wave(start="06-01"), crops=[line], fall_allowance="0"))
    found = picking_days(made, _day(7, 1), _day(8, 31))
    assert found == (_day(7, 21), _day(7, 28), _day(8, 4), _day(8, 11))


def test_a_crop_cut_once_is_offered_each_week_while_it_stands() -> None:
    # ready on Tuesday 21 Jul, warm: holds 10 days, to Friday 31 Jul
    line = crop(picking_days="1", holding_days="10-20")
    made = gardens.only(text(wave(start="06-01"), crops=[line], fall_allowance="0"))
    assert picking_days(made, _day(7, 13), _day(7, 19)) == ()
    assert picking_days(made, _day(7, 20), _day(7, 26)) == (_day(7, 21),)
    assert picking_days(made, _day(7, 27), _day(8, 2)) == (_day(7, 27),)
    assert picking_days(made, _day(8, 3), _day(8, 9)) == ()


def test_a_picking_on_the_sheet() -> None:
    sheet = _sheet((7, 20), wave(start="06-01"), crops=[crop(pick_gap="3", pick_when="red")])
    (picking,) = sheet.pickings
    assert picking.days == (_day(7, 21), _day(7, 24))
    assert picking.until == _day(8, 3)
    assert (picking.task.kind, picking.task.due) == (Kind.PICK, _day(7, 21))
    assert picking.task.text == "red"
    assert picking.task.cautions == ("picking",)
    assert sheet.tasks == ()


def test_nothing_is_picked_on_the_day_of_the_frost() -> None:
    # 5 Aug + 50 = 24 Sep; the frost is on Thursday 1 Oct
    made = gardens.only(text(wave(start="08-05"), fall_allowance="0"))
    assert picking_days(made, _day(9, 28), _day(10, 4)) == (_day(9, 28), _day(9, 29), _day(9, 30))


# The bench, the next week, the codes


@pytest.mark.parametrize(
    ("week", "there"), [((5, 4), False), ((5, 11), True), ((6, 1), True), ((6, 8), False)]
)
def test_seedlings_are_on_the_bench_from_sowing_to_planting_out(
    week: tuple[int, int], there: bool
) -> None:
    # sown Monday 11 May, out on Monday 1 June
    sheet = _sheet(week, wave(start="06-01", plants="4"), crops=[crop(**TRAYS)])
    assert bool(sheet.bench) == there
    for each in sheet.bench:
        assert (each.sown, each.ready, each.too_old) == (_day(5, 11), _day(6, 1), _day(6, 15))
        assert (each.plant, each.beds, each.wave.plants) == (_day(6, 1), ("Long",), 4)


@pytest.mark.parametrize(
    ("week", "standing"), [((6, 1), ["plant", "stand by"]), ((6, 15), ["stand by"]), ((6, 22), [])]
)
def test_seedlings_stand_by_until_the_day_on_which_they_are_too_old(
    week: tuple[int, int], standing: list[str]
) -> None:
    # Sown on Monday 11 May, out on 1 June, too old after 35 days: on Monday 15 June they still are.
    sheet = _sheet(week, wave(start="06-01", plants="4", standby="2"), crops=[crop(**TRAYS)])
    assert ["plant" if each.plant else "stand by" for each in sheet.bench] == standing
    assert {each.too_old for each in sheet.bench} <= {_day(6, 15)}


def test_seedlings_sown_on_the_sheets_last_day_are_on_the_bench() -> None:
    # out on Sunday 7 June, sown 21 days before on Sunday 17 May
    asked, made = wave(start="06-07", plants="4"), [crop(**TRAYS)]
    assert [each.sown for each in _sheet((5, 11), asked, crops=made).bench] == [_day(5, 17)]
    assert _sheet((5, 4), asked, crops=made).bench == ()


def test_a_look_at_next_week() -> None:
    sheet = _sheet((7, 13), wave(start="06-01"), wave(start="07-20", name="two"))
    assert _due(sheet.next_week) == [(Kind.SOW, _day(7, 20)), (Kind.PICK, _day(7, 21))]
    assert _due(sheet.tasks) == [(Kind.PREPARE, _day(7, 13))]


def test_every_task_of_a_season_is_on_one_sheet_only_and_has_its_own_name() -> None:
    tasks = _all(
        wave(every="9", plants="2"),
        wave("vine", every="11", plants="2"),
        crops=[crop(seeds_per_plant="2"), crop("vine", **TRAYS)],
        beds=[gardens.BED, WIDE],
    )
    names = [task.id for task in tasks]
    assert len(names) > 50
    assert len(set(names)) == len(names)


def test_codes_are_unique_on_a_sheet_and_the_same_on_the_next() -> None:
    entries = [wave(start="06-09", plants="1", name=f"row-{number}") for number in range(10)]
    this, following = _sheet((6, 1), *entries), _sheet((6, 8), *entries)
    codes = [task.code for task in this.tasks + this.next_week]
    assert len(set(codes)) == len(codes)
    announced = {task.id: task.code for task in this.next_week}
    assert {task.id: task.code for task in following.tasks} == announced


def test_codes_are_unique_among_many_tasks() -> None:
    # four letters of twenty make 160,000 codes; among 3,000 tasks some would be the same
    names = {f"row-{number}:sow" for number in range(3000)}
    codes = codes_of(names)
    assert set(codes) == names
    assert len(set(codes.values())) == 3000
    assert {len(code) for code in codes.values()} == {4, 5}
    alone = codes_of({"row-1:sow"})
    assert alone["row-1:sow"] == codes["row-1:sow"][:4]


def test_codes_are_unique_over_the_sheets_of_several_weeks() -> None:
    entries = [wave(start="06-09", plants="1", name=f"row-{number}") for number in range(10)]
    made = gardens.season(text(*entries))
    sheets = week_sheets(made.garden, made.waves, date(2026, 6, 1), weeks=3)
    tasks = {task.id: task.code for sheet in sheets for task in sheet.tasks + sheet.next_week}
    assert len(set(tasks.values())) == len(tasks)
    assert [sheet.first.day for sheet in sheets] == [1, 8, 15]


def test_tasks_come_by_day_then_in_the_order_of_work() -> None:
    sheet = _sheet(
        (6, 1),
        wave(start="06-03", name="b", beds="[Wide]"),
        wave(start="06-03", name="a", beds="[Long]"),
        wave("vine", start="06-22"),
        wave("vine", start="06-24", name="c"),
        crops=[crop(), crop("vine", **TRAYS)],
        beds=[gardens.BED, WIDE],
    )
    assert [(task.kind, task.due, task.bed) for task in sheet.tasks] == [
        (Kind.SOW_IN_TRAYS, _day(6, 1), None),
        (Kind.SOW_IN_TRAYS, _day(6, 3), None),
        (Kind.SOW, _day(6, 3), "Long"),
        (Kind.SOW, _day(6, 3), "Wide"),
    ]


def test_what_cannot_slip_stands_in_the_order_of_its_days() -> None:
    # Sown on Tuesday, safe to Sunday 19 July; seedlings for Wednesday are too old after Thursday.
    tray = crop("tray", **TRAYS | {"nursery_days": "21-22"})
    sheet = _sheet(
        (7, 13),
        wave(start="07-14"),
        wave("tray", start="07-15"),
        crops=[crop(), tray],
    )
    assert [(task.due.day, task.last_day) for task in sheet.cannot_slip] == [
        (14, _day(7, 19)),
        (15, _day(7, 16)),
    ]
