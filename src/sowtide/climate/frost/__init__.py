"""When it freezes, from dates given at one or more temperatures."""

from sowtide.climate.frost.curve import ASSUMED_SPREAD
from sowtide.climate.frost.depth import FrostDepth
from sowtide.climate.frost.in_leaf import SurvivalInLeaf
from sowtide.climate.frost.on_curve import DAYS_PER_DEGREE_F, FrostHalf
from sowtide.climate.frost.place_frosts import PlaceFrosts
from sowtide.climate.frost.survival import Survival, with_springs
from sowtide.climate.frost.thresholds import FrostRow, frost_table

__all__ = [
    "ASSUMED_SPREAD",
    "DAYS_PER_DEGREE_F",
    "FrostDepth",
    "FrostHalf",
    "FrostRow",
    "PlaceFrosts",
    "Survival",
    "SurvivalInLeaf",
    "frost_table",
    "with_springs",
]
