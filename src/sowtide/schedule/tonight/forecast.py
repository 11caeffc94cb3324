"""Tonight's forecast, and how cold it may get where the plants are."""

from __future__ import annotations

from enum import Enum

from sowtide.garden.model import Bed
from sowtide.values import value

CLEAR_AND_CALM = 4 * 5 / 9
"""How much colder air is 3 in. above the ground than in the screen, on clear calm nights. [°C]

4 °F on average: measured by the University of Vermont.
"""

HOLDS = 4 * 5 / 9
"""What a sheet or a light fleece keeps off, unless the grower says how much. [°C]

2–3 °F for light row cover, about 5 °F for heavier: Penn State area columns; 4 °F is ours.
"""


class Sky(Enum):
    """What is known of the night's sky."""

    CLEAR = "clear"
    CLOUDY = "cloudy"
    NOT_SAID = "not said"


@value
class Forecast:
    """What is forecast for the night."""

    low: float
    """The lowest temperature forecast. [°C]"""
    sky: Sky = Sky.NOT_SAID
    """Clear and calm, cloudy, or nobody said."""
    holds: float = HOLDS
    """What the grower's sheets keep off. [°C]"""


def air_at(forecast: Forecast, bed: Bed, *, colder_by: float) -> float:
    """Return how cold it may get in a bed, under the cover that it has already. [°C]

    Parameters
    ----------
    forecast
        What is forecast.
    bed
        The bed.
    colder_by
        How much colder the garden is than the forecast's place, on clear nights. [°C]
    """
    colder = colder_by + bed.colder_by
    if forecast.sky is Sky.CLOUDY:
        colder = 0.0
    elif forecast.sky is Sky.CLEAR:
        colder = max(colder, CLEAR_AND_CALM)
    return forecast.low - colder + bed.cover
