"""Invented years of daily temperatures, and the needs of a few crops, for tests of the replay."""

from __future__ import annotations

from datetime import date, timedelta
from math import cos, pi
from random import Random

from sowtide.climate.answers import Need, Warmth
from sowtide.days import DayRange, GrowingYear
from sowtide.garden.crop import AfterFrost, HeatMethod
from sowtide.reasons import OURS

YEAR = GrowingYear(2026, south=False)
FIRST = date(2009, 11, 3)
SEASONS = tuple(range(2010, 2022))


def weather(*, seed: int = 4, south: bool = False) -> tuple[list[float], list[float]]:
    """Thirteen invented years of minima and maxima: a wave through the year, and noise."""
    random = Random(seed)
    shift = 182 if south else 0
    lows, highs = [], []
    for day in range(4800):
        season = 11 - 14 * cos(
            2 * pi * ((FIRST + timedelta(days=day + shift)).timetuple().tm_yday - 20) / 365
        )
        noise = random.gauss(0, 3.5)
        lows.append(season - 6 + noise)
        highs.append(season + 5 + noise + random.random() * 3)
    return lows, highs


def need(
    *,
    days: tuple[int, int] = (46, 65),
    picking: int = 18,
    worthwhile: int = 14,
    killed_at: float = 0.0,
    after_frost: AfterFrost = AfterFrost.ENDS,
    cool: bool = False,
    holds: int = 0,
    least: int = 40,
) -> Need:
    low, high = days
    warmth = Warmth(
        5.0 if cool else 10.0, 30.0, HeatMethod.CLIP, low * 10.0, high * 10.0, high - low + 1, least
    )
    return Need(
        DayRange(low, high),
        "days to harvest",
        OURS,
        cool,
        picking,
        worthwhile,
        killed_at,
        after_frost,
        cool,
        holds,
        warmth,
        24.0 if cool else None,
    )


CROPS = {
    "bean": need(),
    "lettuce": need(cool=True, killed_at=-2.2, days=(40, 50), picking=21),
    "radish": need(
        cool=True, killed_at=-2.2, days=(22, 40), picking=1, worthwhile=7, holds=5, least=20
    ),
    "potato": need(after_frost=AfterFrost.BRING_IN, picking=1, worthwhile=7, days=(90, 120)),
    "kale": need(cool=True, killed_at=-6.7, days=(50, 65), picking=60),
    "chard": need(cool=True, killed_at=-2.2, days=(20, 60), picking=16, worthwhile=10, least=15),
    "cabbage": need(
        cool=True, killed_at=0.0, days=(60, 80), picking=1, worthwhile=7, holds=21, least=20
    ),
    "one number": need(days=(60, 60), picking=30),
}
