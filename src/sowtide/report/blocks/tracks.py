"""Days from left to right."""

from __future__ import annotations

from datetime import date

from sowtide.values import value


@value
class Mark:
    """Days of a track with one sign."""

    sign: str
    """One character, drawn over what comes before it in the track."""
    first: date
    """The first of the days."""
    beyond: date | None = None
    """The day after the last of them; None for the first day alone."""


@value
class Track:
    """Days from left to right, with what is known of them."""

    label: str
    """What it is of."""
    start: date
    """Its first day."""
    marks: tuple[Mark, ...]
    """What is drawn."""


@value
class Tracks:
    """Tracks of as many days each, one below the other, the months over them."""

    days: int
    """Days in each track. [days]"""
    head: date
    """The first of the days that the names of the months stand for."""
    tracks: tuple[Track, ...]
    """At least one."""
    key: tuple[tuple[str, str], ...]
    """What each sign means."""


@value
class WeekStrip:
    """Weeks in a row."""

    label: str
    """What they are of."""
    signs: str
    """A character for each week; a space is a gap."""


@value
class WeekStrips:
    """Rows of weeks, one below the other, the months over them."""

    first: date
    """The Monday of the first week."""
    today: date | None
    """The Monday of the week that it is; None where that is not shown."""
    strips: tuple[WeekStrip, ...]
    """At least one, all of as many weeks."""
    key: tuple[tuple[str, str], ...]
    """What the signs mean."""
