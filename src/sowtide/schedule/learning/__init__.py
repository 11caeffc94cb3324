"""What the journal teaches of a crop's days and yield, in this and earlier seasons."""

from sowtide.schedule.learning.own_yields import OwnYield, OwnYields
from sowtide.schedule.learning.posterior import FAR, NOISE, PRIOR, posterior_of
from sowtide.schedule.learning.taught import taught

__all__ = [
    "FAR",
    "NOISE",
    "PRIOR",
    "OwnYield",
    "OwnYields",
    "posterior_of",
    "taught",
]
