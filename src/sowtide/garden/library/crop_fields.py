"""The figures of crops, one table: what each is called, how it is written, and how it is told.

The built-in table, the grower's file and the card of a crop all walk it. The order is the order in
which a grower needs the figures.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import Enum

from sowtide.garden import readers
from sowtide.garden.crop import (
    AfterFrost,
    CountedFrom,
    Hardiness,
    HeatMethod,
    Raised,
    Sort,
    Weather,
)
from sowtide.garden.library import kinds as of
from sowtide.garden.library.kinds import FigureKind, Wording
from sowtide.values import value


class Section(Enum):
    """A part of a crop's card, with its heading; the first has none."""

    NAMES = ""
    TIMING = "TIMING"
    FROST = "FROST"
    WARMTH = "WARMTH AND DAYLIGHT"
    SEED = "SEED AND SOIL"
    SPACE = "SPACE"
    PICKING = "PICKING"
    YIELD = "YIELD"
    CHORES = "CHORES"


@value
class CropField:
    """A figure that crops may have."""

    name: str
    """Its name in the table of built-in crops and, where a date hangs on it, as a field of
    `sowtide.garden.crop.Crop` and as a key of the file."""
    label: str
    """What a grower calls it."""
    kind: FigureKind
    """How it is read, converted and written."""
    words: Mapping[str, str] = field(default_factory=dict)
    """What some values are called on the card."""
    before: str = ""
    behind: str = ""
    """What stands around any other on the card."""
    part: str | None = None
    """The part of ``heat`` that it is, or None."""
    is_missed: bool = False
    """Whether a crop that nobody knows it of is told so."""
    is_needed: bool = False
    """Whether a crop that is not built in must have it."""
    is_ours: bool = False
    """Whether every crop has it, if need be by a rule of sowtide's own."""

    @property
    def key(self) -> str:
        """Its key in a file; empty where it has none."""
        if self.kind.read is None:
            return ""
        return self.name if self.part is None else f"heat: {self.part}"


SECTIONS: dict[Section, tuple[CropField, ...]] = {
    Section.NAMES: (
        CropField("botanical", "botanical name", of.TOLD),
        CropField("botanical_family", "botanical family", of.TOLD),
        CropField("family", "family", of.LOWER_TEXT, is_needed=True),
        CropField("names", "also called", of.TOLD),
        CropField("use", "grown as", of.TOLD),
        CropField("variety", "variety", of.TEXT),
    ),
    Section.TIMING: (
        CropField(
            "raised",
            "how it is started",
            of.choice(Raised),
            {
                "direct": "sown direct",
                "trays": "raised in trays",
                "either": "sown direct or raised in trays",
            },
            is_needed=True,
        ),
        CropField("nursery_days", "in trays", of.span(readers.day_range(1))),
        CropField("nursery_share", "  that put it ahead by", of.BUILT_IN_SHARE, behind=" of them"),
        CropField("hardening_days", "hardening off, of these", of.count(0)),
        CropField(
            "days_to_harvest",
            "days to first pick",
            of.span(readers.day_range(1)),
            is_needed=True,
        ),
        CropField(
            "sorts",
            "  of all sorts",
            of.BUILT_IN_YES,
            {"yes": "yes; main ones unless you write `sort`"},
        ),
        CropField("days_by_sort", "  by sort", of.BY_SORT),
        CropField("sort", "  grown are", of.choice(Sort)),
        CropField("counted_from", "  counted from", of.choice(CountedFrom), is_needed=True),
        CropField("direct_days", "  if sown direct", of.span()),
        CropField(
            "sow_every",
            "from wave to wave",
            of.TOLD,
            {"once": "sown or planted once, not in waves"},
            is_missed=True,
        ),
        CropField(
            "overwinters",
            "over the winter",
            of.YES_NO,
            {
                "yes": "planted after midsummer it stands to the next season",
                "no": "frost ends it",
            },
        ),
        CropField("ready", "first pick after winter", of.DAYS_OF_YEAR),
        CropField("ready_about", "ready after the winter", of.READY_TIME),
        CropField("runs_to_seed", "after the winter to seed", of.SEED_TIME),
        CropField("sow_after_frost", "sow from", FigureKind(said=Wording.AFTER_LAST_FROST)),
        CropField(
            "sow_before_frost", "sow at the latest", FigureKind(said=Wording.BEFORE_FIRST_FROST)
        ),
        CropField("days_to_dig_in", "days to digging in", of.TOLD),
        CropField("dig_in_when", "dig in", of.TOLD),
        CropField("rest_days", "then wait before sowing", of.TOLD),
    ),
    Section.FROST: (
        CropField(
            "hardiness",
            "hardiness of the harvest",
            of.choice(Hardiness, Wording.HARDINESS),
            is_needed=True,
        ),
        CropField(
            "after_frost",
            "after such a frost",
            of.choice(AfterFrost),
            {
                "ends": "it is over",
                "stands": "it stands, and is picked until the ground freezes",
                "bring in": "bring it in at once",
            },
            is_ours=True,
        ),
        CropField("days_before_frost", "plant from", of.count(0, said=Wording.BEFORE_LAST_FROST)),
        CropField("days_after_frost", "plant from", of.count(0), behind=" after the last frost"),
        CropField("planted_in", "planted only", of.PLANTING_TIMES),
        CropField("nights_min", "waits for nights of", of.TEMPERATURE, behind=", a mean of 11"),
        CropField(
            "winter",
            "in winter",
            of.TOLD,
            {
                "stands": "it stands, and grows on in spring",
                "killed": "killed by frost, and lies as a mulch",
            },
        ),
        CropField("killed_at", "killed at", of.TEMPERATURE, before="about "),
        CropField("flowers_killed_at", "  flowers and pods", of.TEMPERATURE),
    ),
    Section.WARMTH: (
        CropField("weather", "weather it likes", of.choice(Weather), is_needed=True),
        CropField("growth_least", "grows from", of.TOLD),
        CropField("growth_best", "grows best at", of.TOLD),
        CropField("growth_most", "grows up to", of.TOLD),
        CropField(
            "warm_limit", "heat spoils it above", of.TEMPERATURE, behind=", the mean of 15 days"
        ),
        CropField(
            "root",
            "  as it grows",
            of.YES_NO,
            {"yes": "a root, which such heat makes tough", "no": "no root"},
        ),
        CropField(
            "long_day",
            "bolts in days longer than",
            of.number(readers.decimal(1, 24), "h"),
            behind=" of daylight",
        ),
        CropField(
            "chill_limit", "plants chilled below", of.TEMPERATURE, behind=", the mean of a day"
        ),
        CropField(
            "chill_days", "  and may bolt after", of.count(1), before="about ", behind=" so cold"
        ),
        CropField(
            "fruit_set_high", "sets no fruit, days above", of.TEMPERATURE, behind=", a week's mean"
        ),
        CropField("fruit_set_low", "  or nights above", of.TEMPERATURE, behind=", a week's mean"),
        CropField(
            "rated_at", "its days are right at", of.TEMPERATURE, behind=", the mean of a day"
        ),
        CropField("curve_base", "growth counts from", of.CURVE_TEMPERATURE),
        CropField("curve_best", "  fastest at", of.CURVE_TEMPERATURES),
        CropField("curve_ceiling", "  none from", of.CURVE_TEMPERATURE),
        CropField("light", "want of light counts", of.BUILT_IN_NUMBER),
        CropField("heat_base", "heat units count above", of.TEMPERATURE, part="base"),
        CropField("heat_upper", "  and no more above", of.TEMPERATURE, part="upper"),
        CropField("heat_units", "heat to first pick", of.DEGREE_DAYS, part="units"),
        CropField("heat_method", "  counted by", of.choice(HeatMethod), part="method"),
    ),
    Section.SEED: (
        CropField("sown_as", "what is sown", of.TEXT),
        CropField(
            "seeds_per_plant",
            "sown for each plant",
            of.number(readers.above_zero(1000)),
            is_ours=True,
        ),
        CropField("germination", "usual germination", of.SHARE, is_ours=True),
        CropField("seeds_per_gram", "size of the seed", of.TOLD),
        CropField("seed_piece", "each weighs", of.TOLD),
        CropField("sowing_rate", "how much seed", of.TOLD),
        CropField("up_days", "shows after", of.count(0), is_ours=True),
        CropField("soil_min", "soil no colder than", of.TEMPERATURE, is_missed=True),
        CropField("soil_good", "  good from", of.TEMPERATURE),
        CropField("soil_max", "soil no warmer than", of.TEMPERATURE),
        CropField("soil_best", "soil best at", of.TOLD),
        CropField("emergence", "days to show", of.BY_TEMPERATURE),
        CropField("germinates", "seedlings, %", of.BY_TEMPERATURE),
    ),
    Section.SPACE: (
        CropField("in_row", "in a bed, in the row", of.LENGTH, is_needed=True),
        CropField("between_rows", "in a bed, between rows", of.LENGTH, is_needed=True),
        CropField("spacing_rows", "in long rows", of.SPACING),
        CropField("spacing_trained", "  trained up", of.SPACING),
        CropField("spacing_sprawling", "  left to sprawl", of.SPACING),
        CropField("spacing_earthed", "  earthed up", of.SPACING),
        CropField("rotation", "same bed again after", of.count(0, 20, "years"), is_ours=True),
    ),
    Section.PICKING: (
        CropField("pick_when", "ripe when", of.TEXT, is_missed=True),
        CropField(
            "picking_days", "picked for", of.count(1), {"1": "cut or lifted once"}, is_needed=True
        ),
        CropField("pick_gap", "  every", of.count(1, 365)),
        CropField(
            "holding_days", "stands without spoiling", of.span(readers.warm_cool, Wording.WARM_COOL)
        ),
        CropField("worthwhile_days", "worth it if picked for", of.count(1), is_ours=True),
        CropField("flower_to_pick", "open flower to pick", of.count(0)),
        CropField(
            "needs_bees", "bees at the flowers", of.YES_NO, {"yes": "needed", "no": "not needed"}
        ),
        CropField("fixes_nitrogen", "feeds the soil nitrogen", of.TOLD),
    ),
    Section.YIELD: (
        CropField("yield_per_row", "yield of a row", of.TOLD, is_missed=True),
        CropField("yield_per_area", "yield of a bed", of.TOLD),
        CropField("yield_per_plant", "yield of a plant", of.YIELD),
    ),
    Section.CHORES: (CropField("chore", "chore", of.CHORE),),
}
"""The figures of a crop, by the parts of its card."""

CROP_FIELDS = {each.name: each for fields in SECTIONS.values() for each in fields}
"""The same by name, in the same order."""
