"""The journal wins: what happened replaces what was planned, and everything after it moves.

The invented crop is sown direct, up after 10 days, first picked after 50 and picked for 14 days; a
plant takes a square metre and the bed holds ten. Without an allowance for the fall dates are plain
sums.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

import gardens
from printed import calendar_text, plan_form, plan_text, week_form, week_text, why_text
from sowtide.schedule.packing import repacked
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Status, Wave
from sowtide.schedule.work import Kind, WeekSheet, week_sheets
from sowtide.season import season_of

TODAY = date(2026, 8, 1)
NO_SLOWER = "0"
FILE = gardens.text(
    gardens.wave(plants="2", start="06-01", every="14", count="4"), fall_allowance=NO_SLOWER
)
TRAYS = gardens.text(
    gardens.wave(plants="4", start="06-01", every="14", count="3"),
    crops=(
        gardens.crop(
            raised="trays", nursery_days="28-42", hardening_days="7", counted_from="planting out"
        ),
    ),
)


def lived(file: str, *entries: str, today: date = TODAY) -> Season:
    """Return the season of a garden and of a journal; its entries are written without brackets."""
    return gardens.lived(file, today, *entries)


def wave(season: Season, name: str) -> Wave:
    """Return a wave by name."""
    return next(each for each in season.waves if each.id == name)


def days(wave: Wave) -> list[str]:
    """Return planting, both ends of the first pick, last pick and pulling out, as MM-DD."""
    first, last = wave.stages.first_pick, wave.stages.last_pick
    assert first is not None
    assert last is not None
    dated = (wave.stages.plant, *first, last, wave.stages.pull_out)
    return [f"{each.day:%m-%d}" for each in dated]


def planted(season: Season) -> list[str]:
    """Return the planting days of the waves, as MM-DD."""
    return [f"{each.stages.plant.day:%m-%d}" for each in season.waves]


def sheet(season: Season, first: date) -> WeekSheet:
    """Return the sheet of the week that begins on a day."""
    (found,) = gardens.sheets(season, first)
    return found


def test_what_was_sown_late_moves_its_own_dates_and_the_rest_of_the_series() -> None:
    plan = lived(FILE, today=gardens.EARLY)
    assert planted(plan) == ["06-01", "06-15", "06-29", "07-13"]
    # 15 June + 50 = 4 August; + 13 = 17 August; gone on the 18th.
    assert days(wave(plan, "fruit-2")) == ["06-15", "08-04", "08-04", "08-17", "08-18"]
    season = lived(FILE, "on: 2026-06-18, wave: fruit-2, did: sown")
    # Three days late: all its dates three days on, and the waves behind it every 14 days from it.
    assert planted(season) == ["06-01", "06-18", "07-02", "07-16"]
    assert days(wave(season, "fruit-2")) == ["06-18", "08-07", "08-07", "08-20", "08-21"]


def test_a_wave_that_was_left_out_does_not_stop_the_next_from_being_dated_by_what_happened() -> (
    None
):
    season = lived(
        FILE,
        "on: 2026-06-04, wave: fruit-1, did: sown",
        "on: 2026-07-01, wave: fruit-3, did: sown",
    )
    # 4 June + 14 = 18 June for the second; the third was sown on 1 July, + 14 = 15 July.
    assert planted(season) == ["06-04", "06-18", "07-01", "07-15"]


def test_the_first_pick_moves_the_last_and_why_shows_the_line_of_the_journal() -> None:
    season = lived(
        FILE,
        "on: 2026-06-01, wave: fruit-1, did: sown",
        "on: 2026-07-25, wave: fruit-1, did: first picked",
    )
    found = wave(season, "fruit-1")
    # 25 July + 13 = 7 August, the 14th day of picking.
    assert days(found) == ["06-01", "07-25", "07-25", "08-07", "08-08"]
    assert found.stages.last_pick is not None
    begun = found.stages.last_pick.steps[0]
    assert (begun.rule, begun.origin.file, begun.origin.line) == ("journal", "journal.yaml", 2)
    assert begun.text == "first picked, as the journal says"


def test_a_picking_after_the_planned_last_is_the_last() -> None:
    season = lived(
        FILE,
        "on: 2026-06-01, wave: fruit-1, did: sown",
        "on: 2026-07-10, wave: fruit-1, did: first picked",
        "on: 2026-07-28, wave: fruit-1, did: picked",
        today=date(2026, 7, 29),
    )
    # From 10 July 14 days end on 23 July; it was picked on the 28th all the same.
    assert days(wave(season, "fruit-1")) == ["06-01", "07-10", "07-10", "07-28", "07-29"]


def test_a_picking_is_the_first_only_before_the_planned_day_unless_it_is_called_so() -> None:
    # Planned for 21 July, the last 13 days on, on 3 August.
    sown = "on: 2026-06-01, wave: fruit-1, did: sown"
    for did, on, last in (
        ("picked", "07-18", "07-31"),  # 18 July + 13
        ("picked", "07-25", "08-03"),
        ("first picked", "07-25", "08-07"),  # 25 July + 13
    ):
        season = lived(FILE, sown, f"on: 2026-{on}, wave: fruit-1, did: {did}")
        assert days(wave(season, "fruit-1"))[3] == last


@pytest.mark.parametrize(
    ("on", "first"), [("07-30", ["07-30", "07-30"]), ("07-31", ["07-21", "07-31"])]
)
def test_a_picking_on_the_latest_planned_day_may_be_a_later_one(on: str, first: list[str]) -> None:
    # Planned between 21 and 31 July.
    crop = gardens.crop(days_to_harvest="50-60")
    file = gardens.text(gardens.wave(start="06-01"), crops=(crop,), fall_allowance=NO_SLOWER)
    sown = "on: 2026-06-01, wave: fruit-1, did: sown"
    season = lived(file, sown, f"on: 2026-{on}, wave: fruit-1, did: picked")
    assert days(wave(season, "fruit-1"))[1:3] == first


@pytest.mark.parametrize(
    ("first", "last", "ended"),
    [
        ("09-25", "09-30", "frost"),
        ("09-18", "09-30", "frost"),  # + 13 days is the day of the frost: nothing is picked on it
        ("09-17", "09-30", "picked out"),
        ("09-16", "09-29", "picked out"),
    ],
)
def test_picking_that_begins_late_still_ends_with_the_frost(
    first: str, last: str, ended: str
) -> None:
    # Killed in half of the years on 1 October: + 13 days from 25 September would be 8 October.
    season = lived(
        gardens.text(gardens.wave(plants="4", start="07-20"), fall_allowance=NO_SLOWER),
        "on: 2026-07-20, wave: fruit-1, did: sown",
        f"on: 2026-{first}, wave: fruit-1, did: first picked",
        today=date(2026, 9, 26),
    )
    found = wave(season, "fruit-1")
    out = date.fromisoformat(f"2026-{last}") + timedelta(days=1)
    assert days(found) == ["07-20", first, first, last, f"{out:%m-%d}"]
    assert found.judged.ended_by.value == ended


@pytest.mark.parametrize(("did", "status"), [("pulled", Status.OVER), ("lost", Status.LOST)])
def test_what_is_gone_frees_its_space_that_day(did: str, status: Status) -> None:
    # Two waves of ten fill the bed one after the other: the second has room once the first is out.
    file = gardens.text(
        gardens.wave(plants="10", start="06-01"),
        gardens.wave(name="next", plants="10", start="07-01"),
    )
    assert wave(lived(file, today=gardens.EARLY), "next-1").status is Status.NO_ROOM
    gone = f"on: 2026-06-30, wave: fruit-1, did: {did}"
    season = lived(file, "on: 2026-06-01, wave: fruit-1, did: sown", gone, today=date(2026, 6, 30))
    found = wave(season, "fruit-1")
    assert (found.status, found.stages.pull_out.day) == (status, date(2026, 6, 30))
    assert found.stages.first_pick is None
    assert found.judged.ended_by.value == did
    assert wave(season, "next-1").stands


@pytest.mark.parametrize(("gone", "last"), [("08-03", "08-02"), ("08-04", "08-03")])
def test_what_is_pulled_was_picked_until_the_day_before(gone: str, last: str) -> None:
    # Sown on 1 June, picked from 21 July to 3 August as planned.
    file = gardens.text(gardens.wave(plants="10", start="06-01"), fall_allowance="0")
    notes = (
        "on: 2026-06-01, wave: fruit-1, did: sown",
        f"on: 2026-{gone}, wave: fruit-1, did: pulled",
    )
    found = wave(lived(file, *notes, today=date(2026, 8, 10)), "fruit-1")
    assert found.stages.last_pick is not None
    assert f"{found.stages.last_pick.day:%m-%d}" == last


@pytest.mark.parametrize(("gone", "picked"), [("07-21", None), ("07-22", ["07-21", "07-21"])])
def test_what_is_pulled_on_the_day_of_its_first_pick_was_not_picked(
    gone: str, picked: list[str] | None
) -> None:
    notes = (
        "on: 2026-06-01, wave: fruit-1, did: sown",
        f"on: 2026-{gone}, wave: fruit-1, did: pulled",
    )
    stages = wave(lived(FILE, *notes, today=date(2026, 8, 10)), "fruit-1").stages
    if picked is None:
        assert (stages.first_pick, stages.last_pick) == (None, None)
    else:
        assert stages.first_pick is not None
        assert [f"{each.day:%m-%d}" for each in stages.first_pick] == picked


def test_half_lost_keeps_half() -> None:
    file = gardens.text(
        gardens.wave(plants="10", start="06-01"),
        gardens.wave(name="next", plants="5", start="07-01"),
        gardens.wave(name="more", plants="1", start="07-01"),
    )
    lost = "on: 2026-06-20, wave: fruit-1, did: lost, plants: 5"
    season = lived(file, "on: 2026-06-01, wave: fruit-1, did: sown", lost, today=date(2026, 6, 21))
    found = wave(season, "fruit-1")
    assert (found.plants, found.status) == (5, Status.SOWN)
    assert wave(season, "next-1").stands
    assert wave(season, "more-1").status is Status.NO_ROOM  # 5 + 5 plants are all the bed holds


def test_all_its_plants_gone_in_parts_are_the_wave() -> None:
    season = lived(
        FILE,
        "on: 2026-06-01, wave: fruit-1, did: sown, plants: 3",
        "on: 2026-06-20, wave: fruit-1, did: lost, plants: 2",
        "on: 2026-06-25, wave: fruit-1, did: lost, plants: 1",
    )
    found = wave(season, "fruit-1")
    assert (found.status, found.stages.pull_out.day) == (Status.LOST, date(2026, 6, 25))


def test_plants_and_beds_are_those_it_was_given() -> None:
    file = gardens.text(
        gardens.wave(plants="8", start="06-01"),
        gardens.wave(name="next", plants="6", start="06-10"),
        beds=("{bed: Long, size: 1 x 10}", "{bed: Low, size: 1 x 10}"),
    )
    season = lived(
        file,
        "on: 2026-06-01, wave: fruit-1, bed: Low, did: sown, plants: 5",
        "on: 2026-06-01, wave: fruit-1, bed: Long, did: sown, plants: 2",
    )
    found = wave(season, "fruit-1")
    assert {stand.bed.name: stand.plants for stand in found.stands} == {"Low": 5, "Long": 2}
    assert found.plants == 7
    # Eight square metres are left in Long: the first bed with room for six.
    assert [stand.bed.name for stand in wave(season, "next-1").stands] == ["Long"]


def test_seedlings_sown_late_are_planted_out_when_they_are_ready() -> None:
    plan = lived(TRAYS, today=gardens.EARLY)
    assert f"{wave(plan, 'fruit-1').stages.sow.day:%m-%d}" == "05-04"  # 1 June − 28 days
    # Sown on 10 May: ready 28 days on, on 7 June; the next wave 14 days behind it.
    season = lived(TRAYS, "on: 2026-05-10, wave: fruit-1, did: sown", today=date(2026, 5, 12))
    assert planted(season) == ["06-07", "06-21", "07-05"]
    found = wave(season, "fruit-1")
    assert (found.status, f"{found.stages.sow.day:%m-%d}") == (Status.SOWN, "05-10")
    assert found.stages.too_old is not None
    assert f"{found.stages.too_old.day:%m-%d}" == "06-21"  # 10 May + 42


def test_seedlings_sown_early_wait_for_their_day_unless_they_grow_too_old() -> None:
    # 20 April + 28 = 18 May, + 42 = 1 June: they wait for 1 June. From 10 April on, + 42 = 22 May.
    for sown, out in (("04-20", "06-01"), ("04-10", "05-22")):
        entry = f"on: 2026-{sown}, wave: fruit-1, did: sown"
        season = lived(TRAYS, entry, today=date(2026, 4, 21))
        assert planted(season)[0] == out


def test_planting_where_there_is_no_room_is_said_and_kept_out_of_the_way_of() -> None:
    file = gardens.text(
        gardens.wave(plants="8", start="06-01"),
        gardens.wave(name="next", plants="8", start="06-10"),
        gardens.wave(name="more", plants="2", start="08-05"),
    )
    season = lived(
        file,
        "on: 2026-06-01, wave: fruit-1, bed: Long, did: sown",
        "on: 2026-06-10, wave: next-1, bed: Long, did: sown",
        today=date(2026, 6, 11),
    )
    told = [each for each in season.problems if each.code == "journal-crowded"]
    assert [(each.wave, each.span.line) for each in told if each.span] == [("next-1", 2)]
    assert [stand.bed.name for stand in wave(season, "next-1").stands] == ["Long"]
    # fruit-1 leaves on 1 June + 50 + 14 = 4 August; next-1 stands till 13 August.
    assert wave(season, "more-1").stands


def test_what_is_overdue_takes_its_room_from_today_on() -> None:
    file = gardens.text(
        gardens.wave(plants="8", start="06-01"),
        gardens.wave(name="next", plants="8", start="06-10"),
    )
    season = lived(
        file,
        "on: 2026-05-20, bed: Long, did: prepared",
        "on: 2026-06-10, wave: next-1, bed: Long, did: sown",
        today=date(2026, 6, 15),
    )
    # fruit-1 was not sown on 1 June; now next-1 stands in the bed.
    assert [each.code for each in season.problems] == ["no-room"]
    assert wave(season, "fruit-1").stands == ()
    assert [stand.bed.name for stand in wave(season, "next-1").stands] == ["Long"]


def test_a_bed_that_the_entry_does_not_name_is_where_it_stands() -> None:
    file = gardens.text(
        gardens.wave(plants="4", start="06-01", beds="[Long]"),
        beds=("{bed: Long, size: 1 x 10}", "{bed: Low, size: 1 x 10, colder_by: 3}"),
    )
    season = lived(file, "on: 2026-06-01, wave: fruit-1, bed: Low, did: sown")
    found = wave(season, "fruit-1")
    assert [stand.bed.name for stand in found.stands] == ["Low"]
    # It is killed there at a frost of 0 °C in the bed, 3 °C at the station: sooner in the fall.
    long = wave(lived(file, today=gardens.EARLY), "fruit-1").judged
    assert (found.judged.odds or 0) < (long.odds or 0)


def test_a_skipped_wave_takes_no_room_and_has_no_problems() -> None:
    season = lived(
        FILE,
        "on: 2026-06-01, wave: fruit-1, did: sown",
        "on: 2026-06-16, wave: fruit-2, did: skipped",
    )
    found = wave(season, "fruit-2")
    assert (found.status, found.stands, found.blocked) == (Status.SKIPPED, (), None)
    assert "fruit-2" not in {problem.wave for problem in season.problems}
    assert planted(season)[2] == "06-29"  # the rest as it was planned


def test_a_wave_more_than_the_plan_has_is_the_growers_own_and_a_far_one_a_slip() -> None:
    own = lived(FILE, "on: 2026-07-28, wave: fruit-5, did: sown")
    assert planted(own)[4] == "07-28"
    assert not [each for each in own.problems if each.code == "journal-wave"]
    file = gardens.text(gardens.wave(plants="1", start="06-01", every="14", until="07-01"))
    far = lived(file, "on: 2026-07-28, wave: fruit-44, did: sown")
    (told,) = [each for each in far.problems if each.code == "journal-wave"]
    assert (told.message, told.hint) == ("there is no wave 'fruit-44'", "fruit has 3 waves")


def test_nothing_is_overdue_before_the_first_entry() -> None:
    monday = date(2026, 6, 29)
    without = season_of(gardens.read(FILE), TODAY)
    assert [wave.status for wave in without.waves] == [Status.PAST] * 4
    begun = "on: 2026-06-27, bed: Long, did: watered"
    season = lived(FILE, begun, today=monday)
    # 1 and 15 June lie before the first entry; 29 June is today.
    assert [wave.status for wave in season.waves] == [Status.PAST] * 2 + [Status.PLANNED] * 2
    # fruit-2, sown on 15 June, was up on the 25th: look 5 days on, on 30 June; nothing is late.
    assert sheet(season, monday).overdue == ()
    later = lived(FILE, begun, today=date(2026, 7, 3))
    late = sheet(later, monday).overdue
    assert [(task.wave.id, task.kind.value, task.due.day) for task in late] == [
        ("fruit-2", "look", 30),  # its last day to sow again comes before the last to sow
        ("fruit-3", "sow", 29),
    ]
    assert all(task.overdue for task in late)
    assert wave(later, "fruit-3").status is Status.PLANNED


def test_overdue_work_stays_until_it_is_done_or_skipped() -> None:
    begun = "on: 2026-06-20, bed: Long, did: watered"
    week = date(2026, 7, 6)
    open_ = sheet(lived(FILE, begun, today=week), week)
    assert ("fruit-3", "sow") in [(task.wave.id, task.kind.value) for task in open_.overdue]
    for settled in ("did: sown", "did: skipped"):
        entry = f"on: 2026-07-05, wave: fruit-3, {settled}"
        found = sheet(lived(FILE, begun, entry, today=week), week)
        assert "fruit-3" not in [task.wave.id for task in found.overdue]
    # Only one stage left out: the look at fruit-2, and no other.
    skip = "on: 2026-07-01, wave: fruit-2, did: skipped, skips: up"
    kinds = [
        (task.wave.id, task.kind.value)
        for task in sheet(lived(FILE, begun, skip, today=week), week).overdue
    ]
    assert ("fruit-2", "look") not in kinds
    assert ("fruit-3", "sow") in kinds


def test_seedlings_without_room_are_cared_for_and_those_that_are_lost_are_not() -> None:
    # Sown 28 days before they go out on 15 June, hardened off from the 8th. The bed holds ten: with
    # eight planted in it on 1 June there is no room for four.
    full = "on: 2026-06-01, wave: fruit-1, bed: Long, did: planted out, plants: 8"
    sown = "on: 2026-05-18, wave: fruit-2, did: sown, plants: 4"
    season = lived(TRAYS, full, sown, today=date(2026, 6, 8))
    assert wave(season, "fruit-2").stands == ()
    of_week = sheet(season, date(2026, 6, 8))
    told = [(each.kind, each.due) for each in of_week.tasks if each.wave.id == "fruit-2"]
    assert told == [(Kind.HARDEN_OFF, date(2026, 6, 8))]
    (row,) = [each for each in of_week.bench if each.wave.id == "fruit-2"]
    assert (row.plants, row.beds) == (4, ())
    text = " ".join(" ".join(week_text(of_week, season)).split())
    assert "no room on 15 Jun" in text.partition("SEEDLINGS")[2]
    # Not sown, nothing is to be done for it; lost, there are none on the bench any more.
    unsown = sheet(lived(TRAYS, full, today=date(2026, 6, 8)), date(2026, 6, 8))
    assert "fruit-2" not in {each.wave.id for each in (*unsown.tasks, *unsown.bench)}
    gone = "on: 2026-06-05, wave: fruit-2, did: lost"
    for others in ((full,), ()):
        season = lived(TRAYS, *others, sown, gone, today=date(2026, 6, 8))
        lost = sheet(season, date(2026, 6, 8))
        assert "fruit-2" not in {each.wave.id for each in (*lost.tasks, *lost.bench)}
        found = wave(season, "fruit-2")
        assert (found.status, found.blocked) == (Status.LOST, None)
        assert "fruit-2" not in {named for _, named in gardens.codes(season)}


def test_what_is_left_out_or_lost_is_not_said_to_lack_room() -> None:
    # Of four waves the second is skipped and the seedlings of the third are lost; the bed is full,
    # so that the fourth has no room.
    file = TRAYS.replace("count: 3", "count: 4")
    season = lived(
        file,
        "on: 2026-06-01, wave: fruit-1, bed: Long, did: planted out, plants: 10",
        "on: 2026-06-02, wave: fruit-2, did: skipped",
        "on: 2026-06-01, wave: fruit-3, did: sown",
        "on: 2026-06-20, wave: fruit-3, did: lost",
        today=date(2026, 6, 22),
    )
    says = [why_text(wave(season, f"fruit-{number}"), season)[0] for number in (2, 3, 4)]
    assert [each.rpartition(", ")[2] for each in says] == [
        "skipped",
        "lost",
        "no room in any of its beds",
    ]
    (said,) = [each for each in calendar_text(season) if "NO ROOM" in each]
    assert said == "NO ROOM: fruit-4 (13 Jul)"


def test_what_is_late_says_what_that_costs() -> None:
    # Planned for 20 July: ripe on 8 September, 14 days to 21 September. Eight days later the last
    # of them is 29 September: frosts come on 1 October give or take 11 days.
    file = gardens.text(gardens.wave(plants="4", start="07-20"), fall_allowance=NO_SLOWER)
    season = lived(file, "on: 2026-07-01, bed: Long, did: watered", today=date(2026, 7, 28))
    task = sheet(season, date(2026, 7, 27)).overdue[0]
    assert task.kind.value == "prepare"
    sow = next(each for each in sheet(season, date(2026, 7, 27)).overdue if each.delay)
    assert sow.delay is not None
    assert sow.delay.days == 8
    # P(first frost > last day) = 1 − Φ((last + 1 − 1 October) / 11): −9/11 and −1/11.
    assert sow.delay.planned == pytest.approx(0.7934, abs=1e-4)
    assert sow.delay.now == pytest.approx(0.5362, abs=1e-4)


def test_packing_afresh_leaves_what_was_planted_where_it_is() -> None:
    # Sown today in Low: it stays there, though both would fit into Long.
    file = gardens.text(
        gardens.wave(plants="8", start="06-01"),
        gardens.wave(name="next", plants="9", start="06-10"),
        beds=("{bed: Long, size: 1 x 17}", "{bed: Low, size: 1 x 10}"),
    )
    entry = "on: 2026-06-01, wave: fruit-1, bed: Low, did: sown, plants: 8"
    season = repacked(lived(file, entry, today=date(2026, 6, 1)))
    assert [place.bed.name for place in wave(season, "fruit-1").stands] == ["Low"]
    assert [place.bed.name for place in wave(season, "next-1").stands] == ["Long"]
    assert wave(season, "fruit-1").status is Status.SOWN


CONFIRMS = (
    "on: 2026-06-01, wave: fruit-1, bed: Long, did: sown, plants: 2",
    "on: 2026-06-11, wave: fruit-1, did: up",
    "on: 2026-06-15, wave: fruit-2, bed: Long, did: sown, plants: 2",
    "on: 2026-07-21, wave: fruit-1, did: first picked",
    "on: 2026-07-13, wave: fruit-4, bed: Long, did: skipped",
)


def _outputs(season: Season) -> tuple[str, str, str]:
    week = week_sheets(
        season.garden,
        season.waves,
        date(2026, 7, 27),
        weeks=2,
        accounts=season.accounts,
        conditions=season.conditions,
    )
    return plan_form(season, "json"), week_form(week, season, "json"), plan_form(season, "csv")


def _planned(season: Season) -> list[tuple[object, ...]]:
    """What a plan says of its waves, but for how far they have come and how it was counted."""
    return [
        (
            each.id,
            *days(each),
            each.stands,
            each.bed_free and each.bed_free.day,
            each.judged.odds,
            each.judged.expected_picking_days,
            each.judged.verdict,
            each.judged.margin,
            each.judged.ended_by,
            each.sow_again_by,
        )
        for each in season.waves
    ]


def test_a_journal_that_only_confirms_the_plan_changes_nothing() -> None:
    without = season_of(gardens.read(FILE), TODAY)
    season = lived(FILE, *CONFIRMS[:4])
    assert _planned(season) == _planned(without)
    assert season.problems == without.problems
    in_june = date(2026, 6, 16)  # later, what was not noted has no room before today
    season, without = (
        lived(FILE, *CONFIRMS[:3], today=in_june),
        season_of(gardens.read(FILE), in_june),
    )
    assert [stay for stays in season.room.stays for stay in stays] == [
        stay for stays in without.room.stays for stay in stays
    ]


@given(st.permutations(CONFIRMS))
def test_entries_in_any_order_give_the_same_season(shuffled: list[str]) -> None:
    assert _outputs(lived(FILE, *shuffled)) == _outputs(lived(FILE, *CONFIRMS))


def test_taking_back_restores_the_bytes_of_every_output() -> None:
    before = _outputs(lived(FILE, *CONFIRMS[:3]))
    moved = "on: 2026-07-04, wave: fruit-3, did: sown, plants: 1"
    assert _outputs(lived(FILE, *CONFIRMS[:3], moved)) != before
    assert _outputs(lived(FILE, *CONFIRMS[:3], moved, f"{moved}, undone: yes")) == before


@st.composite
def journals(draw: st.DrawFn) -> list[str]:
    """Draw what may have happened: sown some days off, somewhere; lost, pulled or left out."""
    entries = []
    for name, first, every in (("fruit", date(2026, 6, 1), 14), ("other", date(2026, 6, 8), 21)):
        for number in range(1, 4):
            wave, planned = f"wave: {name}-{number}", first + timedelta(days=every * (number - 1))
            what = draw(st.sampled_from(("nothing", "skipped", "sown", "sown")))
            if what == "skipped":
                entries.append(f"on: {planned}, {wave}, did: skipped")
            if what != "sown":
                continue
            sown = planned + timedelta(days=draw(st.integers(-5, 9)))
            plants = draw(st.integers(1, 9))
            bed = draw(st.sampled_from(("", ", bed: Long", ", bed: Low")))
            entries.append(f"on: {sown}, {wave}, did: sown, plants: {plants}{bed}")
            gone = draw(st.sampled_from(("", "did: lost", "did: pulled", "did: pulled, sick: yes")))
            if gone:
                on = sown + timedelta(days=draw(st.integers(0, 20)))
                some = draw(st.sampled_from(("", f", plants: {draw(st.integers(1, plants))}")))
                entries.append(f"on: {on}, {wave}, {gone}{some}")
    return entries


TWO_BEDS = gardens.text(
    gardens.wave(plants="6", start="06-01", every="14", count="4"),
    gardens.wave("other", plants="7", start="06-08", every="21", count="3"),
    gardens.wave("fruit", name="amid", plants="3", start="07-05", overlap="20", first="yes"),
    crops=(gardens.crop(), gardens.crop("other", family="kin of none")),
    beds=("{bed: Long, size: 1 x 10, rest: 2}", "{bed: Low, size: 1 x 10}"),
)


@given(journals(), st.sampled_from((date(2026, 6, 25), date(2026, 7, 10), TODAY)))
def test_no_bed_is_ever_over_full_in_silence(entries: list[str], today: date) -> None:
    season = lived(TWO_BEDS, *entries, today=today)
    told = {each.wave for each in season.problems if each.code == "journal-crowded"}
    for bed, stays in zip(season.room.beds, season.room.stays, strict=True):
        for day in {stay.first for stay in stays}:
            standing = [stay for stay in stays if stay.first <= day < stay.until]
            over = sum(stay.area for stay in standing) > bed.area
            assert not over or told & {stay.wave for stay in standing}


HOT = gardens.text(
    gardens.wave("leaf", plants="2", start="05-01", every="10", raised="trays"),
    crops=(
        gardens.leaf(
            raised="trays",
            nursery_days="28-42",
            counted_from="planting out",
            days_to_harvest="30",
            picking_days="7",
            worthwhile_days="7",
        ),
    ),
    too_hot="07-10..08-20",
    fall_allowance=NO_SLOWER,
)


def test_seedlings_that_are_sown_are_not_kept_over_a_gap() -> None:
    # Picked for 7 days from 30 days after planting, up to 9 July: planted by 3 June. So on 1, 11,
    # 21 and 31 May, and then in late summer.
    plan = lived(HOT, today=date(2026, 5, 25))
    assert planted(plan)[:4] == ["05-01", "05-11", "05-21", "05-31"]
    assert planted(plan)[4] > "07-01"
    late = "on: 2026-05-25, wave: leaf-3, did: planted out"
    # Four days late leaf-4 would go out on 4 June, a day too late: but its seedlings are there.
    moved = lived(HOT, late, "on: 2026-05-03, wave: leaf-4, did: sown", today=date(2026, 5, 25))
    assert planted(moved)[3] == "06-04"
    assert planted(moved)[4] == planted(plan)[4]
    # Without seedlings it waits for the end of the heat.
    assert planted(lived(HOT, late, today=date(2026, 5, 25)))[3] == planted(plan)[4]


def test_seedlings_of_a_wave_that_the_series_has_no_more_are_planted_out() -> None:
    # Every 14 days until 29 June: 1, 15 and 29 June. With the second two days late the third would
    # come on 1 July, after the end; its seedlings, sown on 1 June, go out all the same.
    until = TRAYS.replace("count: 3", "until: 06-29").replace("plants: 4", "plants: 3")
    today = date(2026, 6, 20)
    assert planted(lived(until, today=today)) == ["06-01", "06-15", "06-29"]
    late = "on: 2026-06-17, wave: fruit-2, did: planted out"
    sown = "on: 2026-06-01, wave: fruit-3, did: sown"
    assert planted(lived(until, late, today=today)) == ["06-01", "06-17"]
    season = lived(until, late, sown, today=today)
    assert planted(season) == ["06-01", "06-17", "07-01"]
    assert gardens.codes(season) == []
    # What was only prepared for it is no mistake, and no wave.
    prepared = "on: 2026-06-19, wave: fruit-3, bed: Long, did: prepared"
    season = lived(until, late, prepared, today=today)
    assert planted(season) == ["06-01", "06-17"]
    assert gardens.codes(season) == [("journal-over", None)]


def test_what_is_planted_out_is_on_the_bench_no_more_though_its_week_is_not_over() -> None:
    today = date(2026, 6, 1)
    still, planted = (
        lived(TRAYS, "on: 2026-05-04, wave: fruit-1, did: sown", *more, today=today)
        for more in ((), ("on: 2026-06-01, wave: fruit-1, did: planted out",))
    )
    on_bench = [
        [each.wave.id for each in gardens.sheets(season, today)[0].bench]
        for season in (still, planted)
    ]
    assert on_bench == [["fruit-1"], []]  # fruit-2 is not noted as sown


def test_seedlings_that_are_lost_stand_nowhere_and_nothing_is_promised_of_them() -> None:
    """Sown on 18 May, lost on 1 June: hardening off and planting out are no more."""
    season = lived(
        TRAYS,
        "on: 2026-05-04, wave: fruit-1, did: sown",
        "on: 2026-05-18, wave: fruit-2, did: sown",
        "on: 2026-06-01, wave: fruit-2, did: lost",
        "on: 2026-06-01, wave: fruit-3, did: skipped",
        today=date(2026, 6, 1),
    )
    lost = wave(season, "fruit-2")
    assert (lost.status, lost.stands, lost.stages.harden_off) == (Status.LOST, (), None)
    assert [each.code for each in season.problems] == []  # two of three waves are left out by word
    plan = plan_text(season)
    at = next(number for number, each in enumerate(plan) if each.startswith("fruit-2"))
    assert plan[at].split() == ["fruit-2", "18", "May", "1", "Jun"]
    assert plan[at + 1].strip() == "lost"
    wide = plan_text(season, width=120)
    assert [each.split()[-1] for each in wide if each.startswith(("fruit-2", "fruit-3"))] == [
        "lost",
        "skipped",
    ]
    assert not any(each.startswith("fruit-2") for each in plan_text(season, by="bed"))
    told = why_text(lost, season, width=80)
    assert not any(each.startswith(("harden off", "plant out")) for each in told)
    assert "verdict  none: lost" in told
    bench = next(each for each in calendar_text(season) if "1o" in each)
    assert "2" not in bench
    assert "3" not in bench


def test_plants_are_shared_out_evenly_over_beds_that_are_noted_without_a_number() -> None:
    file = gardens.text(
        gardens.wave(plants="9", start="06-01"),
        beds=("{bed: Long, size: 1 x 10}", "{bed: Low, size: 1 x 10}"),
    )
    sown = (f"on: 2026-06-01, wave: fruit-1, bed: {bed}, did: sown" for bed in ("Low", "Long"))
    found = wave(lived(file, *sown), "fruit-1")
    assert {stand.bed.name: stand.plants for stand in found.stands} == {"Long": 5, "Low": 4}
