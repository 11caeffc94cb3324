"""The beds filled afresh, with the whole season in sight."""

from __future__ import annotations

from sowtide.schedule.packing.repack import area_days, area_days_asked, repacked

__all__ = [
    "area_days",
    "area_days_asked",
    "repacked",
]
