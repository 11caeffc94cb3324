"""One wave: dated, judged, and one after another in a series."""

from sowtide.schedule.sowing import (
    DAYS_BEFORE_FROST,
    Doubt,
    chilled,
    doubt,
    doubt_of,
    is_lost,
    seed_in_doubt,
)
from sowtide.schedule.waves.conditions import Conditions
from sowtide.schedule.waves.demands import need_of
from sowtide.schedule.waves.last_days import last_days
from sowtide.schedule.waves.no_date import no_winter_date
from sowtide.schedule.waves.pick_gap import HeatHarm, PickGap
from sowtide.schedule.waves.series import MOST_WAVES, Over, Planting, Series, series_of
from sowtide.schedule.waves.stages import picked_in, picked_out, picked_spans, seeds_of
from sowtide.schedule.waves.wave import (
    LOOK_AFTER_UP,
    SAFE,
    SURER,
    Blocked,
    Done,
    Gap,
    Holder,
    Judged,
    Kept,
    Opening,
    Overlap,
    Stages,
    Stand,
    Status,
    Verdict,
    Wave,
)
from sowtide.schedule.waves.windows import Prospects

__all__ = [
    "DAYS_BEFORE_FROST",
    "LOOK_AFTER_UP",
    "MOST_WAVES",
    "SAFE",
    "SURER",
    "Blocked",
    "Conditions",
    "Done",
    "Doubt",
    "Gap",
    "HeatHarm",
    "Holder",
    "Judged",
    "Kept",
    "Opening",
    "Over",
    "Overlap",
    "PickGap",
    "Planting",
    "Prospects",
    "Series",
    "Stages",
    "Stand",
    "Status",
    "Verdict",
    "Wave",
    "chilled",
    "doubt",
    "doubt_of",
    "is_lost",
    "last_days",
    "need_of",
    "no_winter_date",
    "picked_in",
    "picked_out",
    "picked_spans",
    "seed_in_doubt",
    "seeds_of",
    "series_of",
]
