"""How long seed takes to show, in the soil it is sown into."""

from __future__ import annotations

from sowtide.climate.soil import Soil
from sowtide.garden.crop import Crop
from sowtide.reasons import Origin
from sowtide.units import fahrenheit
from sowtide.values import value

SLOWEST = 60
"""Seed that takes longer has rotted or been eaten: sowtide's own reading. [days]"""


@value
class Emergence:
    """Days from sowing to the seedlings showing."""

    days: int
    """[days]"""
    text: str
    """What they are, in a grower's words."""
    origin: Origin
    """Where they come from."""


def emergence_of(crop: Crop, soil: Soil | None) -> Emergence:
    """Return the days a crop takes to show in a soil.

    They were counted at several soil temperatures for many crops; for the others, where nothing is
    known of the soil, and where the grower wrote `up_days`, they are those of the crop.

    Parameters
    ----------
    crop
        The crop.
    soil
        What the soil is likely to be, or None where nothing is known of it.
    """
    plain = Emergence(crop.up_days, "days to emergence", crop.origin("up_days"))
    if soil is None or soil.at_least or crop.emergence is None or crop.origin("up_days").file:
        return plain
    counted = crop.emergence.at(soil.about)
    if counted is None:
        return plain
    days = min(int(counted + 0.5), SLOWEST)
    about = f"{fahrenheit(soil.about):.0f} °F, {soil.about:.0f} °C"
    text = f"days to emergence in soil of about {about}, an estimate"
    return Emergence(days, text, crop.origin("emergence"))
