"""How many times the packet's days crops take in a cool summer and in a warm spring, on records.

In a warm place they take what the packet says. In a cool one, crops that like it cool take it too,
and those that want warmth half as long again and more: beans 64 to 84 days in the field at
Corvallis, Oregon (1961 to 1968, read in an abstract).
"""

from __future__ import annotations

from datetime import date
from functools import cache

import pytest

import replayed
from sowtide.garden.crop import Weather
from sowtide.reasons import OURS, Dated
from sowtide.schedule.season import Season

LEAVES = ("leaf lettuce", "head lettuce", "spinach", "kale", "cabbage", "broccoli", "cauliflower")
ROOTS = ("radish", "beet", "chard", "carrot", "kohlrabi", "turnip", "potato", "early potato")
COOL = (*LEAVES, *ROOTS, "pea", "broad bean")
WARM = ("bush bean", "pepper", "cucumber", "summer squash", "sweet corn", "tomato", "bush tomato")


@cache
def _season(place: str) -> Season:
    return replayed.season(replayed.record(place), latitude=replayed.LATITUDES[place])


def _times_the_packet(name: str, place: str, day: date) -> float:
    found = replayed.prospects(_season(place), name)
    planted = Dated.on(day, "written", "planted", OURS)
    picks = _season(place).climate.waves.outlook(planted, found.need).first_pick
    days = found.need.days
    return sum((pick.day - day).days for pick in picks) / (days.low + days.high)


@pytest.mark.parametrize("name", [*COOL, *WARM])
def test_in_a_warm_place_the_packets_days_are_right(name: str) -> None:
    # Clemson: 16 to 22 °C from April to June, 22 to 26 °C from the middle of May
    warm = replayed.crop(name).weather is Weather.WARM
    day = date(2026, 5, 15) if warm else date(2026, 4, 1)
    assert 0.87 <= _times_the_packet(name, "clemson", day) <= 1.1


@pytest.mark.parametrize("place", ["wageningen", "fulda"])
def test_in_a_cool_summer_only_what_wants_warmth_is_slow(place: str) -> None:
    # June to August 15.5 to 17 °C
    took = {name: _times_the_packet(name, place, date(2026, 6, 1)) for name in (*COOL, *WARM)}
    assert all(0.97 <= took[name] <= 1.15 for name in COOL)
    assert all(1.3 <= took[name] <= 1.8 for name in WARM)
    # 50 to 60 days of beans are 64 to 84 in Corvallis, 1.3 to 1.4 times
    assert took["bush bean"] == pytest.approx(1.35, abs=0.1)
