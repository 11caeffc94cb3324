"""When and into what ground a crop may be sown: soil, nights, light, and the cold of spring."""

from sowtide.schedule.sowing.chill import chilled
from sowtide.schedule.sowing.earliest import DAYS_BEFORE_FROST, PlantedWhere, earliest_of
from sowtide.schedule.sowing.emergence import emergence_of
from sowtide.schedule.sowing.hot_roots import spoils_root, too_hot_for_roots
from sowtide.schedule.sowing.planting_limits import (
    AutumnLimit,
    autumn_limit,
    end_of_times,
    times_of,
)
from sowtide.schedule.sowing.seed import (
    Doubt,
    WarmSoil,
    doubt,
    doubt_of,
    is_lost,
    is_too_warm,
    seed_in_doubt,
)
from sowtide.schedule.sowing.to_seed import ToSeed, to_seed_of

__all__ = [
    "DAYS_BEFORE_FROST",
    "AutumnLimit",
    "Doubt",
    "PlantedWhere",
    "ToSeed",
    "WarmSoil",
    "autumn_limit",
    "chilled",
    "doubt",
    "doubt_of",
    "earliest_of",
    "emergence_of",
    "end_of_times",
    "is_lost",
    "is_too_warm",
    "seed_in_doubt",
    "spoils_root",
    "times_of",
    "to_seed_of",
    "too_hot_for_roots",
]
