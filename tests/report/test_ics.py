"""The plan and the week as iCalendar: read by other libraries, known again on the next import."""

from __future__ import annotations

from datetime import date, datetime, timedelta, timezone
from functools import cache
from pathlib import Path
from typing import Any

import icalendar
import pytest
import vobject

import gardens
from sowtide.days import week_start
from sowtide.report import REPORTS, plan, week
from sowtide.report.choices import FormChoices
from sowtide.report.events import SeasonEvents
from sowtide.report.formats.ics import calendar_file
from sowtide.schedule.season import Season
from sowtide.schedule.work import week_sheets
from sowtide.season import load, load_demo, season_of

EXAMPLES = Path(__file__).parents[2] / "examples"
GARDENS = {
    "demo": date(2026, 7, 16),
    "allotment": date(2026, 11, 20),
    "market-garden": date(2026, 7, 16),
}
each_garden = pytest.mark.parametrize("name", GARDENS)
each_report = pytest.mark.parametrize("command", ["plan", "week"])


@cache
def season(name: str, today: date | None = None) -> Season:
    loaded = load_demo() if name == "demo" else load(EXAMPLES / name / "garden.yaml")
    assert loaded.garden is not None
    return season_of(loaded.garden, today or GARDENS[name], loaded.record, loaded.journal)


def events(command: str, of: Season) -> SeasonEvents:
    make = REPORTS[command].events
    assert make is not None
    return make(plan.view(of) if command == "plan" else _week(of))


def _week(of: Season) -> Any:
    first = week_start(of.today, starts=of.garden.site.week_starts)
    sheets = week_sheets(of.garden, of.waves, first, weeks=2, conditions=of.conditions)
    return week.view(sheets, of)


@cache
def written(command: str, name: str) -> str:
    return calendar_file(events(command, season(name)), FormChoices())


@cache
def components(text: str, kind: str = "VEVENT") -> tuple[Any, ...]:
    return tuple(icalendar.Calendar.from_ical(text).walk(kind))


@each_garden
@each_report
def test_lines_end_and_are_folded_as_the_standard_asks(command: str, name: str) -> None:
    raw = written(command, name).encode("utf-8")
    assert raw.endswith(b"END:VCALENDAR\r\n")
    lines = raw.split(b"\r\n")
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    assert max(map(len, lines)) <= 75
    assert lines[1:4] == [b"PRODID:-//sowtide//sowtide//EN", b"VERSION:2.0", b"CALSCALE:GREGORIAN"]


@each_garden
@each_report
def test_two_libraries_read_the_same_days(command: str, name: str) -> None:
    of = events(command, season(name))
    text = written(command, name)
    wanted = {(e.title, e.first, e.beyond, e.place) for e in of.events}
    one = {
        (str(e["summary"]), e["dtstart"].dt, e["dtend"].dt, str(e.get("location", "")))
        for e in components(text)
    }
    other = {
        (
            e.summary.value,
            e.dtstart.value,
            e.dtend.value,
            e.location.value if hasattr(e, "location") else "",
        )
        for e in vobject.readOne(text).vevent_list
    }
    assert one == other == wanted
    assert all(beyond > first for _, first, beyond, _ in wanted)
    assert all(type(first) is date for _, first, _, _ in one)


@each_garden
@each_report
def test_each_event_has_an_identity_of_its_own(command: str, name: str) -> None:
    found = [str(event["uid"]) for event in components(written(command, name))]
    assert found
    assert len(set(found)) == len(found)


def test_what_is_imported_again_is_the_same_events_later() -> None:
    # Two days later the same waves stand there, with a higher number and a later stamp.
    first = {str(e["uid"]): e for e in components(written("plan", "demo"))}
    later = season("demo", date(2026, 7, 18))
    again = {
        str(e["uid"]): e for e in components(calendar_file(events("plan", later), FormChoices()))
    }
    assert set(first) == set(again)
    for uid, event in again.items():
        assert event["sequence"] == first[uid]["sequence"] + 2
        assert event["dtstamp"].dt - first[uid]["dtstamp"].dt == timedelta(days=2)


def test_a_task_of_the_week_and_its_stage_in_the_plan_are_one_event() -> None:
    of_plan = {str(e["uid"]): str(e["summary"]) for e in components(written("plan", "demo"))}
    of_week = {str(e["uid"]): str(e["summary"]) for e in components(written("week", "demo"))}
    both = set(of_plan) & set(of_week)
    assert {of_plan[uid] for uid in both} == {of_week[uid] for uid in both}
    assert any(of_plan[uid].startswith("sow ") for uid in both)
    assert any(of_plan[uid].startswith("plant out ") for uid in both)


def test_the_stamp_and_the_number_come_from_what_is_asked() -> None:
    of = events("plan", season("demo"))
    text = calendar_file(of, FormChoices(revision=7))
    assert text == calendar_file(of, FormChoices(revision=7))
    for event in components(text):
        assert event["sequence"] == 7
        assert event["dtstamp"].dt == datetime(2026, 7, 16, tzinfo=timezone.utc)  # noqa: UP017


@each_report
def test_what_cannot_slip_rings_on_the_evening_before(command: str) -> None:
    of = events(command, season("demo"))
    musts = {event.title for event in of.events if event.must}
    assert musts
    ringing = set()
    for event in components(written(command, "demo")):
        for alarm in event.walk("VALARM"):
            assert alarm["action"] == "DISPLAY"
            # Whole days begin at midnight: six hours before is 18:00 on the day before.
            assert alarm["trigger"].dt == timedelta(hours=-6)
            ringing.add(str(event["summary"]))
    assert ringing == musts


def test_a_wave_without_room_stays_as_one_that_fell_through() -> None:
    full = [gardens.wave(start=f"06-0{day}", plants="8", name=f"w{day}") for day in (1, 2)]
    of = gardens.season(gardens.text(*full, beds=["{bed: Long, size: 1 x 10}"]), date(2026, 7, 16))
    without = {wave.id for wave in of.waves if not wave.stands}
    assert without == {"w2-1"}  # room for ten, and eight of them taken
    text = calendar_file(events("plan", of), FormChoices())
    off = {
        str(event["summary"]).split()[-1]
        for event in components(text)
        if event.get("status") == "CANCELLED"
    }
    assert off == without


def test_tasks_are_due_on_their_day() -> None:
    of = events("week", season("demo"))
    text = calendar_file(of, FormChoices(todos=True))
    assert not list(components(text))
    due = {(str(e["summary"]), e["due"].dt) for e in components(text, "VTODO")}
    assert due == {(e.title, e.beyond - timedelta(days=1)) for e in of.events}
    # RFC 5545, 3.8.6.3: an alarm counts from the start only where a task has one.
    rings = [alarm["trigger"] for e in components(text, "VTODO") for alarm in e.walk("VALARM")]
    assert rings
    assert {(ring.dt, ring.params.get("related")) for ring in rings} == {
        (timedelta(hours=-6), "END")
    }


def test_categories_are_the_kinds_of_work() -> None:
    kinds = {k for e in components(written("week", "demo")) for k in e["categories"].cats}
    assert {"pick", "prepare", "sow"} <= {str(kind) for kind in kinds}


def test_signs_of_all_sorts_in_names_survive(tmp_path: Path) -> None:
    name = "Möhren, Beet; \\ 'Süd' " + "ü" * 60
    path = tmp_path / "garden.yaml"
    quoted = name.replace("'", "''")
    path.write_text(
        "site: {name: 'Jürgens Garten, hinten', latitude: 48, units: metric,\n"
        "  frost: {last: 05-06, first: 10-01}}\n"
        f"season: 2026\nbeds: [{{bed: '{quoted}', size: 1 x 5}}]\n"
        "waves: [{crop: carrot, name: möhre, plants: 50, from: 05-20}]\n",
        encoding="utf-8",
    )
    loaded = load(path)
    assert loaded.garden is not None, loaded.problems
    of = season_of(loaded.garden, date(2026, 5, 20))
    text = calendar_file(events("plan", of), FormChoices())
    assert max(len(line) for line in text.encode("utf-8").split(b"\r\n")) <= 75
    sown = next(e for e in components(text) if str(e["summary"]) == "sow möhre-1")
    assert str(sown["location"]) == name
    assert vobject.readOne(text).vevent_list[0].location.value == name
    assert str(icalendar.Calendar.from_ical(text)["x-wr-calname"]).startswith("Jürgens Garten, h")
