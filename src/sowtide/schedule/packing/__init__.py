"""The beds filled afresh, with the whole season in sight."""

from sowtide.schedule.packing.repack import area_days, area_days_asked, repacked

__all__ = [
    "area_days",
    "area_days_asked",
    "repacked",
]
