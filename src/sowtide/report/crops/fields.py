"""What each figure of a crop is called, and in which part of its card it stands.

The order is the order in which a grower needs them.
"""

from __future__ import annotations

from enum import Enum

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
class Field:
    """A figure that crops may have.

    Parameters
    ----------
    name
        Its key in the table of built-in crops and, where `sowtide.garden.crop.Crop` has it, there.
    label
        What a grower calls it.
    unit
        Its unit in a file, where that is always the same; None for words, bare numbers and what
        is written in the units of the garden.
    missed
        Whether a crop that nobody knows it of is told so.
    """

    name: str
    label: str
    unit: str | None = None
    missed: bool = False


_DAYS, _YEARS, _SHARE, _HOURS = "days", "years", "%", "h"

FIELDS: dict[Section, tuple[Field, ...]] = {
    Section.NAMES: (
        Field("botanical", "botanical name"),
        Field("botanical_family", "botanical family"),
        Field("family", "family"),
        Field("names", "also called"),
        Field("use", "grown as"),
        Field("variety", "variety"),
    ),
    Section.TIMING: (
        Field("raised", "how it is started"),
        Field("nursery_days", "in trays", _DAYS),
        Field("hardening_days", "hardening off, of these", _DAYS),
        Field("days_to_harvest", "days to first pick", _DAYS, missed=True),
        Field("counted_from", "  counted from"),
        Field("direct_days", "  if sown direct", _DAYS),
        Field("sow_every", "from wave to wave", _DAYS, missed=True),
        Field("overwinters", "over the winter"),
        Field("ready", "first pick after winter"),
        Field("sow_after_frost", "sow from", _DAYS),
        Field("sow_before_frost", "sow at the latest", _DAYS),
        Field("days_to_dig_in", "days to digging in", _DAYS),
        Field("dig_in_when", "dig in"),
        Field("rest_days", "then wait before sowing", _DAYS),
    ),
    Section.FROST: (
        Field("hardiness", "hardiness of the harvest"),
        Field("after_frost", "after such a frost"),
        Field("days_before_frost", "plant from", _DAYS),
        Field("days_after_frost", "plant from", _DAYS),
        Field("winter", "in winter"),
        Field("killed_at", "killed at"),
    ),
    Section.WARMTH: (
        Field("weather", "weather it likes"),
        Field("growth_least", "grows from"),
        Field("growth_best", "grows best at"),
        Field("growth_most", "grows up to"),
        Field("warm_limit", "heat spoils it above"),
        Field("long_day", "bolts in days longer than", _HOURS),
        Field("chill_limit", "plants chilled below"),
        Field("chill_days", "  and may bolt after", _DAYS),
        Field("fruit_set_high", "sets no fruit, days above"),
        Field("fruit_set_low", "  or nights above"),
        Field("rated_at", "its days are right at"),
        Field("curve_base", "growth counts from"),
        Field("curve_best", "  fastest at"),
        Field("curve_ceiling", "  none from"),
        Field("heat_base", "heat units count above"),
        Field("heat_upper", "  and no more above"),
        Field("heat_units", "heat to first pick"),
        Field("heat_method", "  counted by"),
    ),
    Section.SEED: (
        Field("sown_as", "what is sown"),
        Field("seeds_per_plant", "sown for each plant"),
        Field("germination", "usual germination", _SHARE),
        Field("seeds_per_gram", "size of the seed"),
        Field("sowing_rate", "how much seed"),
        Field("up_days", "shows after", _DAYS),
        Field("soil_min", "soil no colder than", missed=True),
        Field("soil_good", "  good from"),
        Field("soil_max", "soil no warmer than"),
        Field("soil_best", "soil best at"),
        Field("emergence", "days to show"),
        Field("germinates", "seedlings, %"),
    ),
    Section.SPACE: (
        Field("in_row", "in a bed, in the row"),
        Field("between_rows", "in a bed, between rows"),
        Field("spacing_rows", "in long rows"),
        Field("spacing_trained", "  trained up"),
        Field("spacing_sprawling", "  left to sprawl"),
        Field("rotation", "same bed again after", _YEARS),
    ),
    Section.PICKING: (
        Field("pick_when", "ripe when", missed=True),
        Field("picking_days", "picked for", _DAYS),
        Field("pick_gap", "  every", _DAYS),
        Field("holding_days", "stands without spoiling", _DAYS),
        Field("worthwhile_days", "worth it if picked for", _DAYS),
        Field("flower_to_pick", "open flower to pick", _DAYS),
        Field("needs_bees", "bees at the flowers"),
        Field("fixes_nitrogen", "feeds the soil nitrogen"),
    ),
    Section.YIELD: (
        Field("yield_per_row", "yield of a row", missed=True),
        Field("yield_per_area", "yield of a bed"),
        Field("yield_per_plant", "yield of a plant"),
    ),
    Section.CHORES: (Field("chore", "chore"),),
}
"""The figures of a crop's card, by its parts."""

_STAGES = {
    "sow": ("at sowing", "after sowing"),
    "up": ("once it is up", "after it is up"),
    "plant": ("at planting", "after planting"),
    "flower": ("when it flowers", "after flowering"),
    "first pick": ("at the first pick", "after first pick"),
    "picking": ("while picking", "into the picking"),
    "pull out": ("at pulling out", "after pulling out"),
    "dig in": ("at digging in", "after digging in"),
}


def chore(written: str) -> tuple[str, str]:
    """Return when a chore is done and what it is, from the table's ``plant +28: water well``.

    Examples
    --------
    >>> chore("plant +28: look under the leaves")
    ('28 days after planting', 'look under the leaves')
    >>> chore("flower: take the net off")
    ('when it flowers', 'take the net off')
    """
    stage, _, words = written.partition(": ")
    name, plus, days = stage.partition(" +")
    at, after = _STAGES[name]
    return (f"{days} days {after}" if plus else at), words
