"""What the journal teaches of a crop's days and yield, in this and earlier seasons."""

from __future__ import annotations

from sowtide.schedule.learning.observed import Observed, observed_in
from sowtide.schedule.learning.own_yields import OwnYield, OwnYields
from sowtide.schedule.learning.posterior import FAR, FEWEST, NOISE, PRIOR, Posterior, posterior_of
from sowtide.schedule.learning.taught import taught

__all__ = [
    "FAR",
    "FEWEST",
    "NOISE",
    "PRIOR",
    "Observed",
    "OwnYield",
    "OwnYields",
    "Posterior",
    "observed_in",
    "posterior_of",
    "taught",
]
