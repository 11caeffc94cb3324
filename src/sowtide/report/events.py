"""What a view has to put into a calendar: days with a name, each known by a key that stays."""

from __future__ import annotations

from datetime import date

from sowtide.values import value


@value
class DayEvent:
    """Something on a day, or on several in a row.

    Parameters
    ----------
    key
        What it is known by within the season, whenever it is written again.
    first, beyond
        Its first day, and the day after its last.
    kind
        What kind of work it is.
    title
        What it says in a line.
    place
        Where; empty for nowhere in particular.
    words
        What else there is to say.
    must
        Whether it cannot be put off.
    is_off
        Whether it will not be: once written, it stays as one that fell through.
    """

    key: str
    first: date
    beyond: date
    kind: str
    title: str
    place: str
    words: str
    must: bool = False
    is_off: bool = False


@value
class SeasonEvents:
    """The events of a garden's season.

    Parameters
    ----------
    garden
        What the site is called.
    season
        The growing year planned.
    today
        The day it is looked at from.
    events
        In order of their days.
    """

    garden: str
    season: int
    today: date
    events: tuple[DayEvent, ...]
