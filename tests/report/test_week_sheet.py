"""The week's sheet in the terminal: whole screens, and what must hold of any week."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from factory import (
    FIRST_FROST,
    LONG,
    TODAY,
    WIDE,
    bean,
    entry,
    lettuce,
    problem,
    season,
    task,
    wave,
    week_sheet,
)
from printed import page, week_text
from sowtide.climate.choose import climate_of
from sowtide.diagnostics import Problem, Severity
from sowtide.garden.crop import AfterFrost
from sowtide.reasons import OURS, Dated
from sowtide.report.formats.terminal.cells import cells, shortened
from sowtide.report.kit.cautions import CAUTIONS, Caution, cautions_of
from sowtide.report.week import REPORT, view
from sowtide.schedule.season import Season
from sowtide.schedule.waves.conditions import Conditions
from sowtide.schedule.waves.wave import Stand, Verdict, Wave
from sowtide.schedule.waves.windows import Prospects
from sowtide.schedule.work.task import (
    Amount,
    DayPart,
    Delay,
    Kind,
    Picking,
    Seedlings,
    Task,
    WeekSheet,
)

SCREEN = """\
HERON LANE PLOT                               WEEK 29   Mon 13 – Sun 19 Jul 2026
81 days to the average first frost (2 Oct).
--------------------------------------------------------------------------------
CANNOT SLIP
 k7 [ ] Thu 16  Long 1  sow           bush-bean-4  80 seeds, 12 ft of row. Last
                                                   safe day Sat 18 Jul. Waiting
                                                   costs: 70 in 100, 23 Jul 37,
                                                   30 Jul 12
PICK                   Mon Tue Wed Thu Fri Sat Sun
 today                          v
 c3 bush-bean-1 Long 1 [ ]         [ ]         [ ]  to 8 Aug  3 lb
    bush bean: pods no thicker than a pencil
BENCH
 q9 [ ] Mon 13  sow in trays  lettuce-1    75 seeds, for 60 plants; safe until
                                           26 Jul
LONG 1
 h2 [ ] Fri 17  thin          bush-bean-2  to 4 in
LONG 2
 p1 [ ] late    pull out      bush-bean-3  60 plants, picked out; overdue since
                                           Thu 9 Jul
PROBLEMS
 error: bush-bean-3: no room for 60 plants on 29 Jul. Plant fewer, or name
     another bed.
SEEDLINGS  how many  ready from  too old after  for
lettuce-1        60      10 Aug         24 Aug  Long 1, 10 Aug
NEXT WEEK: Fri 24 Jul: thin bush-bean-4
--------------------------------------------------------------------------------
Pick with clean hands, box and knife; cool running water before anyone eats it.
Help: call the office, 555-0100
Rests on two average frost dates"""

BY_WORK = """\
SOW IN TRAYS
 q9 [ ] Mon 13  bench   lettuce-1    75 seeds, for 60 plants; safe until 26 Jul
PULL OUT
 p1 [ ] late    Long 2  bush-bean-3  60 plants, picked out; overdue since
                                     Thu 9 Jul
THIN
 h2 [ ] Fri 17  Long 1  bush-bean-2  to 4 in
"""


BY_DAY = """\
WED 15 JUL, today
 pick bush-bean-1
THU 16 JUL
 pick bush-bean-1
 k7 [ ] Long 1  sow           bush-bean-4  80 seeds, 12 ft of row. Last safe day
                                           Sat 18 Jul. Waiting costs: 70 in 100,
                                           23 Jul 37, 30 Jul 12
FRI 17 JUL, morning
 f1 [ ] Long 1  look          bush-bean-2  leaves dry
FRI 17 JUL
 h2 [ ] Long 1  thin          bush-bean-2  to 4 in
SAT 18 JUL
 pick bush-bean-1
"""


def the_week() -> WeekSheet:
    """Return 13–19 July 2026 with work of every sort."""
    sown = wave(number=4, plant=date(2026, 7, 16))
    made = week_sheet()
    sow = task(of=sown, text="12 ft of row", last_day=date(2026, 7, 18))
    tray = replace(
        made.tasks[0],
        text="for 60 plants",
        amount=Amount(75, "seeds"),
        last_day=date(2026, 7, 26),
    )
    thin = task(
        Kind.THIN, wave(number=2), due=date(2026, 7, 17), code="h2", text="to 4 in", amount=None
    )
    pull = task(
        Kind.PULL,
        wave(number=3, stands=(Stand(WIDE, 60),)),
        due=date(2026, 7, 9),
        code="p1",
        bed="Long 2",
        text="picked out",
        amount=Amount(60, "plants"),
        overdue=True,
    )
    picking = made.pickings[0]
    picked = replace(picking.task, cautions=("picking",), amount=Amount(3, "lb"))
    return replace(
        made,
        cannot_slip=(sow,),
        tasks=(pull, tray, sow, thin),
        pickings=(replace(picking, task=picked),),
        next_week=(replace(made.next_week[0], wave=sown),),
    )


def the_season() -> Season:
    """Return the season of that week, with somebody to call."""
    made = season()
    site = replace(made.garden.site, help="call the office, 555-0100")
    return replace(made, garden=replace(made.garden, site=site))


def screen(sheet: WeekSheet, of: Season | None = None, *, width: int = 80, by: str = "bed") -> str:
    """Return the sheet as it is piped."""
    return "\n".join(week_text(sheet, of or season(), width=width, by=by)) + "\n"


def flat(text: str) -> str:
    """Return a text as one line of single spaces."""
    return " ".join(text.split())


def nothing() -> WeekSheet:
    """Return a week without work."""
    return replace(week_sheet(), cannot_slip=(), pickings=(), tasks=(), bench=(), next_week=())


def test_the_sheet_by_bed_at_80_columns() -> None:
    assert screen(the_week(), the_season()).startswith(SCREEN)


def test_the_sheet_by_kind_of_work_keeps_the_order_of_a_walk() -> None:
    text = screen(the_week(), the_season(), by="work")
    assert BY_WORK in text
    before, _, after = SCREEN.partition("BENCH\n")
    assert text.startswith(before)
    assert text.count("[ ]") == SCREEN.count("[ ]")
    assert after.partition("SEEDLINGS")[2] in text


def test_the_sheet_by_day_has_each_day_in_the_order_of_the_day_and_of_a_walk() -> None:
    made = the_week()
    days = (date(2026, 7, 15), date(2026, 7, 16), date(2026, 7, 18))
    early = task(
        Kind.LOOK,
        wave(number=2),
        due=date(2026, 7, 17),
        code="f1",
        text="leaves dry",
        amount=None,
    )
    late, tray, sow, thin = made.tasks
    week = replace(
        made,
        overdue=(late,),
        pickings=(replace(made.pickings[0], days=days),),
        tasks=(tray, sow, thin, replace(early, part=DayPart.MORNING)),
    )
    text = screen(week, by="day")
    assert BY_DAY in text
    assert "CANNOT SLIP" not in text
    assert text.index("OVERDUE") < text.index("PICK") < text.index("MON 13 JUL")
    assert text.count("[ ]") == 3 + len(made.tasks) + 1


def test_what_cannot_slip_is_said_once() -> None:
    assert screen(the_week()).count("k7 [ ]") == 1


def test_the_frost_is_counted_from_the_first_day_of_the_week() -> None:
    made = season()
    week = nothing()
    # 30 March to 8 May is 39 days, to 2 October 186.
    spring = replace(week, first=date(2026, 3, 30), last=date(2026, 4, 5), week="2026-W14")
    assert "39 days to the average last frost (8 May), 186 days to" in flat(screen(spring, made))
    late = replace(week, first=date(2026, 10, 5), last=date(2026, 10, 11), week="2026-W41")
    assert "3 days past the average first frost (2 Oct)." in flat(screen(late, made))
    first = replace(week, first=FIRST_FROST, last=FIRST_FROST + timedelta(days=6))
    assert "The average first frost (2 Oct) is the first day of this week." in screen(first, made)


def test_a_place_without_frost_says_so() -> None:
    made = season()
    grown = replace(made.garden, site=replace(made.garden.site, frost=()))
    conditions = Conditions(climate_of(grown.site, grown.year), grown.site, grown.year)
    assert "No frost here." in screen(nothing(), replace(made, garden=grown, conditions=conditions))


def test_a_week_that_runs_over_the_new_year_names_both_years() -> None:
    week = replace(nothing(), first=date(2026, 12, 28), last=date(2027, 1, 3), week="2026-W53")
    assert "WEEK 53   Mon 28 Dec 2026 – Sun 3 Jan 2027" in screen(week)


def test_an_empty_week_is_kind_and_names_the_next_work() -> None:
    text = flat(screen(nothing()))
    assert "Nothing to sow, plant, pick or pull this week" in text
    # The season's next date after 19 July: bush-bean-3 has no room; lettuce-1 was sown on 13 July
    # and is hardened off from 3 August; bush-bean-2, sown on 1 July, is picked from 20 August.
    assert "Next: Mon 3 Aug, harden off lettuce-1." in text
    coming = replace(nothing(), next_week=(task(Kind.THIN, due=date(2026, 7, 24)),))
    assert "Next: Fri 24 Jul, thin bush-bean-1." in flat(screen(coming))
    over = replace(nothing(), first=date(2026, 11, 30), last=date(2026, 12, 6))
    assert "Nothing more is dated this season." in flat(screen(over))


def test_the_grid_follows_the_days_of_the_sheet() -> None:
    sunday = date(2026, 7, 12)
    made = the_week()
    picking = replace(made.pickings[0], days=(sunday, date(2026, 7, 15)))
    week = replace(made, first=sunday, last=date(2026, 7, 18), pickings=(picking,))
    text = screen(week)
    head = next(each for each in text.splitlines() if each.startswith("PICK"))
    row = next(each for each in text.splitlines() if each.startswith(" c3"))
    assert head.endswith("Sun Mon Tue Wed Thu Fri Sat")
    assert [head[at : at + 3] for at in range(len(row)) if row.startswith("[ ]", at)] == [
        "Sun",
        "Wed",
    ]


def test_what_ripe_looks_like_is_said_once_for_neighbouring_waves_of_a_crop() -> None:
    picking = the_week().pickings[0]
    second = replace(picking, task=replace(picking.task, wave=wave(number=2), code="c4"))
    text = screen(replace(the_week(), pickings=(picking, second)))
    assert text.count("pods no thicker than a pencil") == 1
    assert text.index("c4 bush-bean-2") < text.index("pods no thicker")


def test_a_wave_without_room_says_so() -> None:
    homeless = wave(number=3, plant=date(2026, 7, 16), stands=())
    text = screen(replace(the_week(), tasks=(task(of=homeless, bed=None),), cannot_slip=()))
    assert "NO ROOM\n k7 [ ] Thu 16  sow  bush-bean-3" in text
    assert "no room: no bed has space for this wave" in flat(text)


def test_seedlings_that_will_be_too_old_or_have_no_room_are_marked() -> None:
    tray = week_sheet().bench[0]
    old = replace(tray, too_old=date(2026, 8, 1))
    homeless = replace(tray, beds=())
    text = screen(replace(the_week(), bench=(old, homeless)))
    assert "Long 1, 10 Aug: too old" in text
    assert "no room on 10 Aug" in text


def test_a_last_day_that_has_passed_or_never_comes_is_not_said() -> None:
    gone = task(Kind.LOOK, due=date(2026, 7, 18), last_day=date(2026, 7, 14))
    never = task(last_day=date(2026, 12, 31))
    text = flat(screen(replace(the_week(), tasks=(gone, never), cannot_slip=())))
    assert "safe" not in text.partition("SEEDLINGS")[0].lower()


@pytest.mark.parametrize(("last", "gone"), [(TODAY - timedelta(days=1), True), (TODAY, False)])
def test_what_is_late_says_its_last_day_once_that_has_gone(last: date, gone: bool) -> None:
    late = task(due=date(2026, 7, 10), last_day=last, overdue=True)
    text = flat(screen(replace(nothing(), overdue=(late,))))
    said = f"its last day was {last.day} Jul"
    assert (said in text) is gone
    assert (f"safe until {last.day} Jul" in text) is not gone


@pytest.mark.parametrize(("ahead", "said"), [(-1, False), (0, True), (14, True), (15, False)])
def test_the_last_safe_day_is_said_from_two_weeks_before_it(ahead: int, said: bool) -> None:
    due = date(2026, 7, 17)
    sow = task(due=due, last_day=due + timedelta(days=ahead))
    text = flat(screen(replace(nothing(), tasks=(sow,))))
    assert ("safe until" in text) is said


@pytest.mark.parametrize(
    ("last", "said"), [(date(2026, 12, 30), True), (date(2026, 12, 31), False)]
)
def test_the_last_day_of_the_year_is_no_last_safe_day(last: date, said: bool) -> None:
    # Where frost ends nothing every day is safe, up to the growing year's last: no limit.
    sow = task(due=date(2026, 12, 28), last_day=last)
    soon = flat(screen(replace(the_week(), cannot_slip=(), tasks=(sow,))))
    assert ("safe until 30 Dec" in soon) is said
    must = flat(screen(replace(the_week(), cannot_slip=(sow,), tasks=())))
    assert ("Last safe day Wed 30 Dec" in must) is said
    assert "31 Dec" not in soon + must


def test_a_busy_next_week_names_what_is_sown_planted_pulled_and_picked() -> None:
    day = date(2026, 7, 21)
    tasks = tuple(task(Kind.SOW, wave(number=n), due=day) for n in range(1, 18))
    few = screen(replace(the_week(), next_week=tasks[:16]))
    more = (task(Kind.PULL, due=day), *(task(Kind.THIN, wave(number=n), due=day) for n in (1, 2)))
    many = flat(screen(replace(the_week(), next_week=(*tasks, *more))))
    assert "sow bush-bean-1, bush-bean-2, " in flat(few)
    assert "bush-bean-15 and bush-bean-16" in flat(few)
    following = few.partition("NEXT WEEK:")[2].partition("\n---")[0].splitlines()[1:]
    assert len(following) > 1
    assert all(each.startswith("  ") and not each.startswith("   ") for each in following)
    assert "NEXT WEEK Tue 21 Jul: sow bush-bean-1, bush-bean-2, " in many
    assert "bush-bean-16 and bush-bean-17, pull out bush-bean-1, thin 2 " in many


def test_next_week_says_a_wave_in_two_beds_once() -> None:
    both = tuple(task(bed=each.name, due=date(2026, 7, 21)) for each in (LONG, WIDE))
    assert "Tue 21 Jul: sow bush-bean-1\n" in screen(replace(the_week(), next_week=both))


def test_cautions_come_once_and_only_where_they_apply() -> None:
    twice = replace(the_week(), pickings=the_week().pickings * 2)
    assert screen(twice).count("clean hands") == 1
    assert "clean hands" not in screen(replace(the_week(), pickings=()))
    assert "Help" not in screen(replace(the_week(), pickings=()), the_season())


def test_a_quiet_sheet_leaves_out_what_it_says_every_week_but_no_caution_of_a_spray(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def quietly() -> str:
        return flat("\n".join(page(REPORT, view((the_week(),), the_season(), quiet=True), 80)))

    assert screen(the_week(), the_season()).count("\n-----") == 2
    assert "clean hands" not in quietly()
    assert "Rests on" not in quietly()
    assert "Help" not in quietly()
    assert quietly().endswith("NEXT WEEK: Fri 24 Jul: thin bush-bean-4")
    label = Caution("picking", "Read the label again.", "US EPA", always=True)
    monkeypatch.setattr("sowtide.report.kit.cautions.CAUTIONS", (label,))
    assert quietly().endswith("Read the label again. Help: call the office, 555-0100")


def test_what_is_always_said_is_what_can_hurt() -> None:
    assert {each.slug for each in CAUTIONS if each.always} == {
        "spray",
        "dust",
        "no-label",
        "manure",
        "heat",
    }


def test_several_weeks_say_their_foot_once() -> None:
    weeks = (the_week(), replace(the_week(), week="2026-W30"))
    text = flat("\n".join(page(REPORT, view(weeks, the_season()), 80)))
    for said in ("clean hands", "Rests on", "Help: "):
        assert text.count(said) == 1


def test_work_that_is_put_off_says_from_when() -> None:
    made = the_week()
    moved = replace(made.tasks[-1], planned=date(2026, 7, 14))
    bound = replace(moved, planned=None, cannot_wait=True)
    assert "to 4 in; put off from Tue 14 Jul" in flat(screen(replace(made, tasks=(moved,))))
    assert "to 4 in; no working day, and the next is too late" in flat(
        screen(replace(made, tasks=(bound,)))
    )


def test_a_look_that_comes_too_late_says_it_once() -> None:
    late = wave(plant=date(2026, 7, 1), verdict=Verdict.TOO_LATE)
    text = "is it up? It is too late to sow it again and be safe"
    look = task(Kind.LOOK, late, due=date(2026, 7, 14), text=text, amount=None)
    said = flat(screen(replace(the_week(), cannot_slip=(), tasks=(look,))))
    assert said.count("too late") == 1
    again = replace(look, text="is it up?", last_day=date(2026, 7, 18))
    assert "is it up?; too late" in flat(screen(replace(the_week(), tasks=(again,))))


def test_beds_that_begin_alike_stay_told_apart_at_60_columns() -> None:
    names = ("Long bed by the north fence", "Long bed by the south fence")
    picking = the_week().pickings[0]
    pickings = tuple(
        replace(picking, task=replace(picking.task, bed=name, id=f"{n}", code=f"c{n}"))
        for n, name in enumerate(names)
    )
    text = screen(replace(the_week(), pickings=pickings), width=60)
    assert max(map(cells, text.splitlines())) <= 60
    for number, name in enumerate(names):
        assert f"\n    {name}\n" in text.partition(f" c{number} bush-bean-1 ")[2]
    wide = screen(replace(the_week(), pickings=pickings), width=80)
    assert " c0 bush-bean-1 Long bed by the north f… [ ]" in wide
    assert " c1 bush-bean-1 Long bed by the south f… [ ]" in wide


def test_every_caution_has_a_source_and_an_unknown_one_is_refused() -> None:
    assert all(each.source and each.text.endswith(".") for each in CAUTIONS)
    assert len({each.slug for each in CAUTIONS}) == len(CAUTIONS)
    with pytest.raises(ValueError, match="no such caution: juggling"):
        cautions_of(frozenset({"juggling", "picking"}))


def test_a_shortened_name_keeps_its_number() -> None:
    assert shortened("kale-2", 6) == "kale-2"
    assert shortened("summer-squash-12", 12) == "summer-s…-12"
    assert shortened("kale", 3) == "ka…"


def test_the_last_day_to_sow_again_is_said_once() -> None:
    look = task(
        Kind.LOOK,
        due=date(2026, 7, 18),
        text="is it up? Fewer than half: sow again by 18 Jul",
        amount=None,
        last_day=date(2026, 7, 18),
    )
    text = flat(screen(replace(the_week(), cannot_slip=(look,), tasks=())))
    assert "sow again by 18 Jul PICK" in text
    assert "Last safe day" not in text


@pytest.mark.parametrize(("last", "said"), [(date(2026, 7, 30), True), (date(2026, 7, 31), False)])
def test_a_safe_day_far_off_is_not_said(last: date, said: bool) -> None:
    sow = task(due=date(2026, 7, 16), last_day=last)
    text = flat(screen(replace(the_week(), cannot_slip=(), tasks=(sow,))))
    assert (f"safe until {last.day} Jul" in text) is said


def test_next_week_names_a_kind_of_work_once_a_day() -> None:
    day = date(2026, 7, 24)
    tasks = (
        task(of=wave(number=1), due=day),
        task(of=wave(lettuce(raised=bean().raised)), due=day),
        task(Kind.THIN, wave(number=3), due=day),
        task(of=wave(number=4), due=date(2026, 7, 25)),
    )
    text = screen(replace(the_week(), next_week=tasks))
    assert (
        "NEXT WEEK: Fri 24 Jul: sow bush-bean-1 and lettuce-1, thin bush-bean-3; Sat 25 Jul: sow "
        "bush-bean-4"
    ) in flat(text)


def test_what_is_brought_in_says_before_what() -> None:
    picking = the_week().pickings[0]

    def said(frost: date = date(2026, 8, 10), **changes: object) -> str:
        made = wave(bean(**changes))
        end = Dated.on(frost, "frost-end", "frost", OURS)
        made = replace(made, judged=replace(made.judged, end=end))
        of = replace(picking, task=replace(picking.task, wave=made))
        return flat(screen(replace(the_week(), pickings=(of,))))

    bring = AfterFrost.BRING_IN
    assert "pods no thicker than a pencil; bring in before a hard frost" in said(after_frost=bring)
    assert "bush bean: bring in before a hard frost" in said(after_frost=bring, pick_when=None)
    assert "bring in" not in said()
    # picked until 24 July: a frost of 21 August is four weeks off, and no word is lost on it
    last = picking.until
    assert "bring in" in said(after_frost=bring, frost=last + timedelta(days=27))
    assert "bring in" not in said(after_frost=bring, frost=last + timedelta(days=28))


@pytest.mark.parametrize(
    ("verdict", "mark"),
    [
        (Verdict.TOO_LATE, "; too late"),
        (Verdict.TOO_EARLY, "; too early"),
        (Verdict.TOO_HOT, "; too hot"),
        (Verdict.CHANCY, "; chancy, 64 in 100"),
    ],
)
def test_work_for_a_wave_that_is_not_safe_is_marked(verdict: Verdict, mark: str) -> None:
    risky = wave(plant=date(2026, 7, 16), verdict=verdict, odds=0.64)
    sow = task(of=risky, text="12 ft of row")
    text = flat(screen(replace(the_week(), cannot_slip=(), tasks=(sow,))))
    assert f"80 seeds, 12 ft of row{mark}" in text
    pull = task(Kind.PULL, risky, amount=None, text="picked out")
    assert mark not in flat(screen(replace(the_week(), cannot_slip=(), tasks=(pull,))))
    assert mark in flat(screen(replace(the_week(), cannot_slip=(sow,), tasks=(sow,))))


def test_too_early_is_not_said_of_work_after_the_planting() -> None:
    early = wave(plant=date(2026, 4, 20), verdict=Verdict.TOO_EARLY)
    thin = task(Kind.THIN, early, amount=None, text="to 4 in")
    assert "too early" not in screen(replace(the_week(), cannot_slip=(), tasks=(thin,)))


def warned(code: str = "too-late", of: str | None = "bush-bean-4", **changes: object) -> Problem:
    """Return a warning about a wave."""
    made = {"severity": Severity.WARNING, "message": f"{of} is late", "hint": "sow kale", **changes}
    return problem(code, of, **made)


def problems_on(sheet: WeekSheet, of: Season) -> str:
    """Return the block of problems as one line, without its title."""
    text = screen(sheet, of)
    if "PROBLEMS" not in text:
        return ""
    return flat(text.partition("PROBLEMS\n")[2].partition("SEEDLINGS")[0])


def test_problems_of_the_waves_on_the_sheet_stand_after_the_work() -> None:
    sown = wave(number=4, plant=date(2026, 7, 16), verdict=Verdict.TOO_LATE)
    other = wave(number=5, plant=date(2026, 8, 20), verdict=Verdict.TOO_LATE)
    note = warned(severity=Severity.NOTE, message="only a note")
    made = season(sown, other, problems=(warned(), warned(of="bush-bean-5"), note))
    text = screen(the_week(), made)
    assert text.index("LONG 2") < text.index("PROBLEMS\n") < text.index("SEEDLINGS")
    assert problems_on(the_week(), made) == (
        "warning: bush-bean-4 is late. Sow kale. 1 more in the plan: `sowtide check` lists it."
    )
    assert "PROBLEMS" not in screen(the_week(), season(sown, problems=(note,)))


def test_problems_of_next_weeks_work_and_of_pickings_count() -> None:
    coming = replace(the_week(), cannot_slip=(), tasks=(), pickings=())
    assert "bush-bean-4 is late" in problems_on(coming, season(wave(), problems=(warned(),)))
    picked = replace(the_week(), cannot_slip=(), tasks=(), next_week=())
    late = warned("too-late", "bush-bean-1", message="bush-bean-1 would be ready after the frost")
    assert "after the frost" in problems_on(picked, season(wave(), problems=(late,)))


@pytest.mark.parametrize(
    ("day", "trays", "said"),
    [
        (date(2026, 7, 12), False, False),
        (date(2026, 7, 13), False, True),
        (date(2026, 7, 26), False, True),
        (date(2026, 7, 27), False, False),
        (date(2026, 8, 23), True, True),  # 28 nursery days: sown on 26 July
        (date(2026, 8, 24), True, False),
        (date(2026, 7, 20), True, True),  # planted out on that day
    ],
)
def test_waves_without_room_count_where_they_would_be_sown_or_planted(
    day: date, trays: bool, said: bool
) -> None:
    homeless = wave(lettuce() if trays else bean(), plant=day, number=9, stands=())
    trouble = warned("no-room", homeless.id, severity=Severity.ERROR, message="no room for it")
    made = season(homeless, problems=(trouble,))
    assert ("error: no room for it" in problems_on(the_week(), made)) is said


def test_what_is_past_mending_is_no_problem_of_the_week() -> None:
    planted = wave(plant=date(2026, 5, 20), verdict=Verdict.TOO_EARLY)
    for code in ("too-early", "rotation"):
        made = season(planted, problems=(warned(code, "bush-bean-1"),))
        assert problems_on(the_week(), made) == ""
    late = season(planted, problems=(warned("too-late", "bush-bean-1"),))
    assert "is late" in problems_on(the_week(), late)


def test_a_series_that_may_bolt_is_a_problem_of_each_of_its_waves() -> None:
    asked = entry()
    waves = tuple(
        wave(of=asked, number=n, plant=date(2026, 6, 1), may_bolt=n > 1) for n in (1, 2, 4)
    )
    bolting = warned("may-bolt", "bush-bean-2", message="bush-bean-2 and bush-bean-4 may bolt")
    made = season(*waves, problems=(bolting,))

    def only(of: Wave) -> WeekSheet:
        return replace(the_week(), pickings=(), cannot_slip=(), tasks=(task(of=of),), next_week=())

    assert "may bolt" in problems_on(only(waves[1]), made)
    assert "may bolt" in problems_on(only(waves[2]), made)
    assert problems_on(only(waves[0]), made) == ""


def test_problems_of_no_wave_come_last_on_every_sheet() -> None:
    none = warned("no-wave", None, severity=Severity.ERROR, message="kale has no wave")
    made = season(wave(number=4, plant=date(2026, 7, 16)), problems=(none, warned()))
    assert problems_on(the_week(), made) == (
        "warning: bush-bean-4 is late. Sow kale. error: kale has no wave. Sow kale."
    )
    assert "kale has no wave" in problems_on(nothing(), made)
    over = replace(none, severity=Severity.NOTE)
    assert problems_on(nothing(), season(wave(), problems=(over,))) == ""


def test_many_problems_are_counted_after_the_first_with_errors_before_warnings() -> None:
    many = tuple(warned(message=f"trouble {n:02}") for n in range(12))
    fatal = warned(severity=Severity.ERROR, message="no way")
    text = problems_on(the_week(), season(wave(), problems=(*many, fatal)))
    assert text.startswith("error: no way. ")
    assert "trouble 08" in text
    assert "trouble 09" not in text
    assert "3 more in the plan: `sowtide check` lists them." in text


@pytest.mark.parametrize("width", [60, 80])
def test_days_with_their_year_are_not_cut_among_the_seedlings(width: int) -> None:
    tray = week_sheet().bench[0]
    far = replace(
        tray,
        ready=date(2027, 4, 20),
        too_old=date(2027, 5, 20),
        plant=date(2027, 4, 20),
        beds=("Behind the long wall", "Before the long wall"),
    )
    lines = screen(replace(the_week(), bench=(far,)), width=width).splitlines()
    text = flat("\n".join(lines))
    assert "20 Apr 2027 20 May 2027" in text
    assert "Behind the long wall and Before the long wall, 20 Apr 2027" in text
    assert max(map(cells, lines)) <= width


def test_seedlings_are_too_old_from_the_day_after_their_last_and_without_a_bed_have_no_room() -> (
    None
):
    tray = replace(week_sheet().bench[0], too_old=date(2026, 8, 24), beds=("Gate",))

    def said(**changes: object) -> str:
        bench = (replace(tray, **changes),)
        return flat(screen(replace(the_week(), bench=bench)).split("SEEDLINGS")[1])

    assert "Gate, 24 Aug NEXT" in said(plant=date(2026, 8, 24))
    assert "Gate, 25 Aug: too old NEXT" in said(plant=date(2026, 8, 25))
    assert "no room on 25 Aug NEXT" in said(plant=date(2026, 8, 25), beds=())
    assert "stand by for a gap NEXT" in said(plant=None, beds=())


@pytest.mark.parametrize(("trays", "shown"), [(24, 24), (25, 1)])
def test_of_more_than_two_dozen_sowings_in_trays_those_of_the_week_are_listed(
    trays: int, shown: int
) -> None:
    later = replace(week_sheet().bench[0], plant=date(2026, 8, 10), too_old=date(2026, 8, 24))
    due = replace(later, plant=date(2026, 7, 19))  # the sheet's last day
    bench = (due, *[later] * (trays - 1))
    said = flat(screen(replace(the_week(), bench=bench)).split("SEEDLINGS")[1])
    assert said.split("NEXT WEEK")[0].count("lettuce-") == shown
    assert ("and 24 tray sowings for later weeks" in said) is (trays == 25)


def test_a_week_before_the_season_says_what_comes_first_in_it() -> None:
    early = replace(nothing(), first=date(2025, 11, 3), last=date(2025, 11, 9))
    text = flat(screen(early))
    assert "This week lies in 2025, and the file plans 2026, the season ahead." in text
    assert "Nothing is planned for this week. Next: " in text
    assert "season: 2025" not in text
    half_a_year = date(2026, 1, 1) - timedelta(days=183)  # from there on it is the season ahead
    for first, ahead in ((half_a_year, True), (half_a_year - timedelta(days=1), False)):
        said = flat(screen(replace(early, first=first, last=first + timedelta(days=6))))
        assert ("the season ahead" in said) is ahead


def test_what_it_is_too_late_to_start_is_asked_for_in_one_line() -> None:
    hope, none = Delay(30, 0.9, 0.3, over=False), Delay(120, 0.9, 0.01, over=True)
    sown = {number: wave(number=number, plant=date(2026, 5, number)) for number in (1, 2, 3)}

    def late(number: int, delay: Delay | None, kind: Kind = Kind.SOW) -> Task:
        return task(
            kind,
            sown[number],
            due=date(2026, 5, number),
            code=f"c{number}{kind.value[0]}",
            overdue=True,
            delay=delay,
        )

    tasks = (late(1, none), late(1, None, Kind.PREPARE), late(2, none), late(3, hope))
    pull = late(2, None, Kind.PULL)
    text = flat(screen(replace(nothing(), overdue=(*tasks, pull))))
    assert "Too late now for bush-bean-1, -2. Left out? `sowtide did bush-bean-1 skipped`" in text
    assert text.count("Too late now") == 1
    for code, shown in (("c1s", False), ("c1p", False), ("c2s", False), ("c3s", True)):
        assert (f" {code} [ ]" in text) is shown
    assert " c2p [ ]" in text  # what stands is still to be pulled out
    alone = flat(screen(replace(nothing(), overdue=tasks[:1])))
    assert "OVERDUE Too late now for bush-bean-1. Left out?" in alone


@pytest.mark.parametrize("first", [date(2027, 3, 15), date(2025, 3, 17)])
def test_a_week_of_another_year_says_that_the_file_plans_another(first: date) -> None:
    text = flat(screen(replace(nothing(), first=first, last=first + timedelta(days=6))))
    year = first.year
    assert f"This week lies in {year}, but the file plans 2026: " in text
    assert f"write `season: {year}` to plan that year." in text
    assert "frost (" not in text
    assert "sit down" not in text
    assert "Nothing is planned for this week." in text
    across = replace(nothing(), first=date(2025, 12, 29), last=date(2026, 1, 4))
    assert "the file plans" not in flat(screen(across))


NAMES = st.sampled_from(("kale", "summer squash", "an extraordinarily long name of a crop"))
BEDS = st.sampled_from(("Gate", "Long 1", "the bed behind the old glasshouse", None))


WORK = st.tuples(st.sampled_from(Kind), NAMES, BEDS, st.none() | st.dates())


def week_of(works: list[tuple[Kind, str, str | None, date | None]], slipping: int) -> WeekSheet:
    """Return a week of work, its names and beds of any length."""
    tasks, pickings, bench = [], [], []
    for number, (kind, name, where, last) in enumerate(works, start=1):
        crop = (lettuce if kind is Kind.SOW_IN_TRAYS else bean)(name=name)
        grown: Wave = wave(crop, number=number)
        work = task(kind, grown, bed=where, code=f"c{number}", last_day=last)
        if kind is Kind.PICK:
            pickings.append(Picking(work, (date(2026, 7, 14),), date(2026, 8, 1)))
        else:
            tasks.append(work)
        if kind is Kind.SOW_IN_TRAYS:
            day = date(2026, 8, 1)
            beds = (where or "Gate",) * number
            bench.append(Seedlings(grown, grown.plants, day, day, day, day, beds))
    return replace(
        week_sheet(),
        cannot_slip=tuple(tasks[:slipping]),
        tasks=tuple(tasks),
        pickings=tuple(pickings),
        bench=tuple(bench),
        next_week=tuple(tasks),
    )


@given(
    st.lists(WORK, min_size=1, max_size=8),
    st.integers(min_value=0, max_value=3),
    st.integers(min_value=60, max_value=140),
    st.sampled_from(("bed", "day", "work")),
)
@settings(max_examples=80, deadline=None)
def test_no_line_is_too_wide_and_every_task_has_one_box(
    works: list[tuple[Kind, str, str | None, date | None]], slipping: int, width: int, by: str
) -> None:
    week = week_of(works, slipping)
    text = screen(week, width=width, by=by)
    assert [each for each in text.splitlines() if cells(each) > width] == []
    for each in week.tasks:
        assert text.count(f" {each.code} [ ]") == 1
        assert each.wave.id in flat(text)
    for picking in week.pickings:
        assert f" {picking.task.code} " in text


def test_of_many_seedlings_those_due_in_the_week_are_listed_and_the_others_counted() -> None:
    """Sunday is the 19th: 24 are planted out later, one then, one too old, one without a bed."""
    first, sunday = week_sheet().bench[0], date(2026, 7, 19)
    monday = sunday + timedelta(days=1)

    def called(name: str) -> Wave:
        return replace(first.wave, id=name)

    later = [replace(first, wave=called(f"later-{n}"), plant=monday) for n in range(24)]
    now = (
        replace(first, wave=called("out"), plant=sunday),
        replace(first, wave=called("old"), plant=monday, too_old=sunday),
        replace(first, wave=called("homeless"), beds=()),
    )
    few = screen(replace(the_week(), bench=tuple(later)))
    assert all(f"\nlater-{n} " in few for n in range(24))
    text = screen(replace(the_week(), bench=(*later, *now)))
    assert [name for name in ("out", "old", "homeless") if f"\n{name} " in text] == [
        "out",
        "old",
        "homeless",
    ]
    assert "later-" not in text
    assert " and 24 tray sowings for later weeks: `sowtide calendar`\n" in text


@pytest.mark.parametrize(
    ("odds", "said"),
    [
        ((0.86, 0.86, 0.86), ""),  # the time for it is over, and waiting costs no year
        ((0.86, 0.86, 0.4), "Waiting costs: 86 in 100, 30 Jul 40"),
        ((0.86, 0.4, 0.4), "Waiting costs: 86 in 100, 23 Jul 40"),
        ((0.4, 0.86, 0.9), ""),  # the heat is over by then
    ],
)
def test_waiting_that_costs_nothing_is_not_told(
    odds: tuple[float, ...], said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    by_day = dict(zip((16, 23, 30), odds, strict=True))
    monkeypatch.setattr(
        Prospects, "promise", lambda _, planted: (by_day[planted.day], Verdict.CHANCY)
    )
    text = flat(screen(the_week()))
    assert (said or "Last safe day Sat 18 Jul") in text
    assert ("Waiting costs" in text) is bool(said)
