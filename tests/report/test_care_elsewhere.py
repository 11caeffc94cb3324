"""Care beside the week's sheet: in the phone's calendar, in why, and in a part of the garden."""

from __future__ import annotations

import json
from datetime import date

import gardens
import printed
from gardens import wave
from sowtide.report.week import REPORT, view
from sowtide.schedule.only import Only
from sowtide.schedule.season import Season
from tended import garden_with, season_with

MONDAY = date(2026, 7, 20)
"""The fruit of 1 June is picked from 21 July to 3 August, every other day."""

SPRAY = (
    "name: mildew, do: spray, on: fruit, from: 07-22, every: 60, amount: 5 l per 8 m2, "
    "label: {days_before_harvest: 3}"
)
EARLY = "name: early, do: spray, on: fruit, from: 07-10, label: {days_before_harvest: 3}"
FEED = "name: dry feed, do: feed, on: everything, from: 07-10, every: 40, amount: 30 g per plant"
BEDS = ("{bed: One, size: 1 x 4}", "{bed: Two, size: 1 x 4}")
WAVES = (
    wave(start="06-01", plants="4", beds="[One]"),
    wave("leaf", start="06-25", plants="4", beds="[Two]"),
)
SOWN = ("on: 2026-06-01, wave: fruit-1, did: sown", "on: 2026-06-25, wave: leaf-1, did: sown")


def events_of(season: Season, first: date = MONDAY) -> list[str]:
    """Return the events of a week in the phone's calendar, a text each."""
    sheets = gardens.sheets(season, first)
    written = printed.form(REPORT, view(sheets, season), "ics").replace("\r\n ", "")
    return [part.replace("\\,", ",").replace("\\;", ";") for part in written.split("BEGIN:VEVENT")]


def test_an_event_of_a_spray_says_how_much_till_when_and_to_read_the_label() -> None:
    season = season_with(garden_with(SPRAY, waves=WAVES, beds=BEDS))
    (spray,) = [each for each in events_of(season) if "SUMMARY:spray" in each]
    assert "DTSTART;VALUE=DATE:20260722" in spray
    assert "2.5 l" in spray.partition("DESCRIPTION")[2]  # 5 l on 8 m2, for 4 m2
    assert "not picked until 2026-07-26" in spray
    assert "read the label again first" in spray
    assert "When it is done: sowtide did" in spray


def test_what_is_overdue_is_an_event_of_today() -> None:
    fed = "on: 2026-06-01, wave: fruit-1, did: fed, with: dry feed"
    sown = "on: 2026-06-01, wave: fruit-1, did: sown"
    file = garden_with(FEED.replace("40", "50"), waves=WAVES, beds=BEDS)
    season = season_with(file, sown, fed, today=date(2026, 7, 23))
    (feed,) = [each for each in events_of(season) if "SUMMARY:feed fruit-1" in each]
    assert "DTSTART;VALUE=DATE:20260723" in feed
    assert "overdue since 2026-07-21" in feed


def test_why_lists_the_care_of_its_wave_alone() -> None:
    fed = "on: 2026-07-10, wave: fruit-1, did: fed, with: dry feed"
    season = season_with(
        garden_with(FEED, EARLY, SPRAY, waves=WAVES, beds=BEDS), *SOWN, fed, today=MONDAY
    )
    fruit, leaf = season.waves
    care = {each["routine"]: each for each in json.loads(printed.why_json(fruit, season))["care"]}
    assert set(care) == {"dry feed", "early", "mildew"}
    assert [(day["date"], day["done"]) for day in care["dry feed"]["days"]] == [
        ("2026-07-10", True)
    ]
    (day,) = care["mildew"]["days"]
    assert (day["date"], day["done"], day["blocked_until"]) == ("2026-07-22", False, "2026-07-26")
    # Three days after 10 July nothing is picked yet: the first pick is on the 21st.
    assert [day["blocked_until"] for day in care["early"]["days"]] == [None]
    (feed,) = json.loads(printed.why_json(leaf, season))["care"]
    assert (feed["routine"], feed["bed"], feed["does"]) == ("dry feed", "Two", "feed")


def test_a_part_of_the_garden_has_its_own_care_alone() -> None:
    scouted = "on: 2026-07-10, wave: fruit-1, did: scouted, found: many"
    season = season_with(
        garden_with(FEED, SPRAY, waves=WAVES, beds=BEDS), *SOWN, scouted, today=MONDAY
    )
    assert season.care is not None
    one, two = (season.care.part(Only((bed,), None)) for bed in ("One", "Two"))
    assert {dose.plot.bed.name for dose in one.doses} == {"One"}
    assert {dose.routine.name for dose in two.doses} == {"dry feed"}
    assert [look.wave for look in one.looks] == ["fruit-1"]
    assert two.looks == ()
