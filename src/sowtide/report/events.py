"""What a view has to put into a calendar: days with a name, each known by a key that stays."""

from __future__ import annotations

from datetime import date

from sowtide.values import value


@value
class DayEvent:
    """Something on a day, or on several in a row."""

    key: str
    """What it is known by within the season, whenever it is written again."""
    first: date
    beyond: date
    """Its first day, and the day after its last."""
    kind: str
    """What kind of work it is."""
    title: str
    """What it says in a line."""
    place: str
    """Where; empty for nowhere in particular."""
    words: str
    """What else there is to say."""
    must: bool
    """Whether it cannot be put off."""
    is_off: bool = False
    """Whether it will not be: once written, it stays as one that fell through."""


@value
class SeasonEvents:
    """The events of a garden's season."""

    garden: str
    """What the site is called."""
    season: int
    """The growing year planned."""
    today: date
    """The day it is looked at from."""
    events: tuple[DayEvent, ...]
    """In order of their days."""
