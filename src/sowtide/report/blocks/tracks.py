"""Days from left to right."""

from __future__ import annotations

from datetime import date

from sowtide.values import value


@value
class Mark:
    """Days of a track with one sign.

    Parameters
    ----------
    sign
        One character, drawn over what comes before it in the track.
    first
        The first of the days.
    beyond
        The day after the last of them; None for the first day alone.
    """

    sign: str
    first: date
    beyond: date | None = None


@value
class Track:
    """Days from left to right, with what is known of them.

    Parameters
    ----------
    label
        What it is of.
    start
        Its first day.
    marks
        What is drawn.
    """

    label: str
    start: date
    marks: tuple[Mark, ...]


@value
class Tracks:
    """Tracks of as many days each, one below the other, the months over them.

    Parameters
    ----------
    days
        Days in each track. [days]
    head
        The first of the days that the names of the months stand for.
    tracks
        At least one.
    key
        What each sign means.
    """

    days: int
    head: date
    tracks: tuple[Track, ...]
    key: tuple[tuple[str, str], ...]


@value
class WeekStrip:
    """Weeks in a row.

    Parameters
    ----------
    label
        What they are of.
    signs
        A character for each week; a space is a gap.
    """

    label: str
    signs: str


@value
class WeekStrips:
    """Rows of weeks, one below the other, the months over them.

    Parameters
    ----------
    first
        The Monday of the first week.
    today
        The Monday of the week that it is; None where that is not shown.
    strips
        At least one, all of as many weeks.
    key
        What the signs mean.
    """

    first: date
    today: date | None
    strips: tuple[WeekStrip, ...]
    key: tuple[tuple[str, str], ...]
