"""Events as an iCalendar file, RFC 5545: whole days, each known again when it is written anew."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING
from uuid import UUID, uuid5

from sowtide.report.choices import FormChoices
from sowtide.report.events import DayEvent, SeasonEvents

if TYPE_CHECKING:  # imported where a calendar is written
    from icalendar import Alarm, Event, Todo

PRODUCT = "-//sowtide//sowtide//EN"
_SPACE = UUID("6f6a1d0e-3c0b-5f0e-9b4e-2c1a7d8e5b11")
"""The name space of the keys, drawn once and kept for good. [UUID]"""
_COUNTED_FROM = date(2026, 1, 1)
"""Revisions are counted in days from here, unless the grower counts them."""
_EVENING_BEFORE = timedelta(hours=-6)


def calendar_file(of: SeasonEvents, chosen: FormChoices) -> str:
    """Write events as a file that a phone takes, and takes again with what has moved.

    The same events, seen from the same day, give the same characters.
    """
    from icalendar import Calendar

    made = Calendar()
    made.add("prodid", PRODUCT)
    made.add("version", "2.0")
    made.add("calscale", "GREGORIAN")
    made.add("method", "PUBLISH")
    made.add("x-wr-calname", f"{of.garden} {of.season}")
    for event in of.events:
        made.add_component(_entry(event, of, chosen))
    text: str = made.to_ical(sorted=False).decode("utf-8")
    return text


def _entry(event: DayEvent, of: SeasonEvents, chosen: FormChoices) -> Event | Todo:
    from icalendar import Event, Todo

    made: Event | Todo = Todo() if chosen.todos else Event()
    revision = chosen.revision
    if revision is None:
        revision = max((of.today - _COUNTED_FROM).days, 0)
    made.add("uid", f"{uuid5(_SPACE, f'{of.garden}/{of.season}/{event.key}')}@sowtide")
    made.add("dtstamp", datetime(of.today.year, of.today.month, of.today.day, tzinfo=UTC))
    made.add("sequence", revision)
    if chosen.todos:  # a task has the day it is due by, an event the day after its last
        made.add("due", event.beyond - timedelta(days=1))
    else:
        made.add("dtstart", event.first)
        made.add("dtend", event.beyond)
    made.add("summary", event.title)
    if event.place:
        made.add("location", event.place)
    if event.words:
        made.add("description", event.words)
    made.add("categories", [event.kind])
    if not chosen.todos:
        made.add("transp", "TRANSPARENT")
    if event.is_off:
        made.add("status", "CANCELLED")
    elif event.must:
        made.add_component(_alarm(event, todo=chosen.todos))
    return made


def _alarm(event: DayEvent, *, todo: bool) -> Alarm:
    """Return an alarm on the evening before, which is early enough to get the seed out.

    That of a task counts from the day it is due by, as it has no start (RFC 5545, 3.8.6.3).
    """
    from icalendar import Alarm

    made = Alarm()
    made.add("action", "DISPLAY")
    made.add("description", event.title)
    made.add("trigger", _EVENING_BEFORE, {"related": "END"} if todo else {})
    return made
