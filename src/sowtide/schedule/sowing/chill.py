"""Whether young plants meet so much cold in spring that they may run to seed."""

from __future__ import annotations

from datetime import date

from sowtide.climate.questions import Climate
from sowtide.days import GrowingYear
from sowtide.garden.crop import Crop


def chilled(crop: Crop, planted: date, climate: Climate, year: GrowingYear) -> float | None:
    """Return the mean of a wave's first days where it chills the crop, or None. [°C]

    A wave planted before midsummer is chilled where the mean of its first `chill_days`, in the
    average of the years, is below the crop's `chill_limit`. Without temperatures nothing is known.
    """
    if crop.chill_limit is None or crop.chill_days is None:
        return None
    if planted >= year.holding(planted).midsummer:
        return None
    mean = climate.weather.mean_over(planted, crop.chill_days)
    return mean if mean is not None and mean < crop.chill_limit else None
