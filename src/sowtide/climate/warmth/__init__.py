"""What daily temperatures do: growth by warmth, hot weeks, the winter."""

from sowtide.climate.warmth.aligned import LONGEST_YEAR, Years
from sowtide.climate.warmth.barren import Barren, left_by_heat
from sowtide.climate.warmth.fruit_set import FruitGap, gap_of, too_hot_to_set
from sowtide.climate.warmth.gathered import Gathered, totals_of
from sowtide.climate.warmth.heat import accumulated, missing_before
from sowtide.climate.warmth.hot_odds import HotOdds, hot_odds
from sowtide.climate.warmth.hot_weeks import centred_means, hot_spans
from sowtide.climate.warmth.over_winter import (
    Standing,
    Wintered,
    grown_by,
    standing_of,
    winter_of,
    wintered,
)
from sowtide.climate.warmth.reached import Reached, days_until, reached_in
from sowtide.climate.warmth.running import running_mean
from sowtide.climate.warmth.sunlight import autumn_light

__all__ = [
    "LONGEST_YEAR",
    "Barren",
    "FruitGap",
    "Gathered",
    "HotOdds",
    "Reached",
    "Standing",
    "Wintered",
    "Years",
    "accumulated",
    "autumn_light",
    "centred_means",
    "days_until",
    "gap_of",
    "grown_by",
    "hot_odds",
    "hot_spans",
    "left_by_heat",
    "missing_before",
    "reached_in",
    "running_mean",
    "standing_of",
    "too_hot_to_set",
    "totals_of",
    "winter_of",
    "wintered",
]
