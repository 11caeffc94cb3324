"""Every recorded year lived through again, for one crop."""

from sowtide.climate.replay.recorded import ReplayedFates
from sowtide.climate.replay.recorded_days import recorded_days

__all__ = [
    "ReplayedFates",
    "recorded_days",
]
