"""What every page needs in order to say days and amounts: the year, the units, what safe means."""

from __future__ import annotations

from datetime import date

from sowtide.days import GrowingYear
from sowtide.garden.model import Garden
from sowtide.garden.site import Sure
from sowtide.units import Units
from sowtide.values import value


@value
class Setting:
    """A garden's name, year and ways of saying things."""

    name: str
    """What the site is called."""
    year: GrowingYear
    """The growing year planned."""
    units: Units
    """The grower's units."""
    sure: Sure
    """How sure a planting must be to be called safe."""
    today: date | None
    """The day it is looked at from; None where no page says it."""


def setting_of(garden: Garden, today: date | None = None) -> Setting:
    """Return the setting of a garden's pages."""
    site = garden.site
    return Setting(name=site.name, year=garden.year, units=site.units, sure=site.sure, today=today)
