"""What is still to be got for a season: seed, seedlings, trays and materials, and by when."""

from sowtide.schedule.needs.seed_needs import (
    SeedNeed,
    seed_needs,
    seeds_per_gram,
    to_sow,
    without_room,
)
from sowtide.schedule.needs.thing_needs import (
    CareNeed,
    CountedBy,
    Thing,
    ThingNeed,
    care_needs,
    thing_needs,
    things_of,
)
from sowtide.schedule.needs.tray_needs import SeedlingNeed, tray_needs

__all__ = [
    "CareNeed",
    "CountedBy",
    "SeedNeed",
    "SeedlingNeed",
    "Thing",
    "ThingNeed",
    "care_needs",
    "seed_needs",
    "seeds_per_gram",
    "thing_needs",
    "things_of",
    "to_sow",
    "tray_needs",
    "without_room",
]
