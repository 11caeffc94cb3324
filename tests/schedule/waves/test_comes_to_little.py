"""Why a planting comes to little, to the day: heat that is soon over, and winters that kill."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from datetime import date, timedelta
from typing import cast

import pytest

import gardens
from made_years import CROPS
from sowtide.climate.answers import Chances, FruitSet, Green, Need, Outlook
from sowtide.climate.questions import Climate, Fates
from sowtide.reasons import Dated
from sowtide.schedule.waves.comes_to_little import heat_harms, stands_winter

PLANTED = date(2026, 7, 1)
LETTUCE = replace(CROPS["lettuce"], fruit_set=FruitSet(high=33.0, low=None, ripens=15))
PEA = replace(CROPS["lettuce"], green=Green(killed_at=-6.0, ripens=20))


class Told:
    """What becomes of waves, as it is told: days that are worth it, and a first pick."""

    def __init__(self, worth: Collection[int], first_pick: date = PLANTED, *, cool: bool) -> None:
        self._worth, self._first_pick, self._cool = worth, first_pick, cool

    def chances(self, planted: date, need: Need) -> Chances:
        if (need.heat_ends, need.warm_limit, need.fruit_set) == (False, None, None):
            worth = self._cool and planted == PLANTED
        else:
            worth = (planted - PLANTED).days in self._worth
        return Chances(float(worth), None, None, False, False, 0.0)

    def outlook(self, planted: Dated, need: Need) -> Outlook:
        assert need.green is None
        assert need.killed_at < -60  # no night has ever been so cold on a field
        first = planted.then(
            (self._first_pick - planted.day).days, "heat", "ripe", planted.steps[0].origin
        )
        return cast("Outlook", type("Ripe", (), {"first_pick": (first, None)}))


def climate(told: Told) -> Climate:
    return replace(gardens.season(gardens.text()).climate, waves=cast("Fates", told))


@pytest.mark.parametrize(
    ("worth", "last", "cool", "harms"),
    [
        ((14,), 60, True, True),  # worth it again two weeks later
        ((15,), 60, True, False),
        ((1,), 60, True, True),
        ((0,), 60, True, False),  # later, not on the day itself
        ((1, 5), 60, False, False),  # without any heat it would come to nothing, too
        ((), 60, True, False),
        ((10,), 10, True, True),  # on the last day that light and soil allow
        ((10,), 9, True, False),
    ],
)
def test_heat_is_to_blame_that_is_over_in_two_weeks(
    worth: tuple[int, ...], last: int, cool: bool, harms: bool
) -> None:
    found = heat_harms(
        PLANTED,
        LETTUCE,
        climate(Told(worth, cool=cool)),
        last=PLANTED + timedelta(days=last),
        is_worth=lambda chances: chances.odds > 0.5,
    )
    assert found is harms


@pytest.mark.parametrize(
    ("latitude", "planted", "winter_over"),
    [
        # The last day of under ten hours at 40° N is 27 January
        (40.0, date(2026, 10, 1), date(2027, 1, 27)),
        (40.0, date(2026, 5, 1), date(2027, 1, 27)),
        (20.0, date(2026, 10, 1), date(2026, 12, 31)),  # no day is short: the end of its year
        (0.5, date(2026, 10, 1), date(2026, 12, 31)),
        (-20.0, date(2026, 10, 1), date(2027, 6, 30)),
        (-20.0, date(2027, 7, 1), date(2028, 6, 30)),
    ],
)
def test_what_is_picked_after_the_winter_would_stand_it(
    latitude: float, planted: date, winter_over: date
) -> None:
    site = replace(gardens.season(gardens.text()).garden.site, latitude=latitude)
    for days, stands in ((0, False), (1, True)):
        told = climate(Told((), winter_over + timedelta(days=days), cool=True))
        assert stands_winter(planted, PEA, told, site) is stands
        # What frost kills in leaf as in flower has no second chance
        assert not stands_winter(planted, replace(PEA, green=None), told, site)
