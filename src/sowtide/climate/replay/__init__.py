"""Every recorded year lived through again, for one crop."""

from __future__ import annotations

from sowtide.climate.replay.recorded import RecordClimate

__all__ = [
    "RecordClimate",
]
