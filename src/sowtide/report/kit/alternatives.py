"""What else could be done where something does not fit."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from sowtide.report.blocks import Text, together
from sowtide.report.kinds import Share, Unsaid
from sowtide.report.kit import words
from sowtide.schedule.fits import Instead, Way
from sowtide.values import value


@value
class Alternative:
    """Something else that would fit, in one sentence, its day and its odds."""

    what: Way
    text: str
    plant: date
    odds: Share | None
    years: Unsaid[int | None]


def alternatives(of: Iterable[Instead]) -> tuple[Alternative, ...]:
    """Return what else would fit."""
    return tuple(
        Alternative(what=e.what, text=e.text, plant=e.plant, odds=e.odds, years=e.years) for e in of
    )


def alternative(of: Alternative) -> Text:
    """Return it as an item of a list, with its odds behind it where there are any."""
    text = words.unbroken(words.sentence(of.text)[:-1])
    if of.odds is not None:
        text += f": {together(words.odds(of.odds, years=of.years))}"
    return Text(text, first="- ")
