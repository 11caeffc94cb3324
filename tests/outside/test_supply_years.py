"""The supply on a real record: pickings of joint years counted again, independently, in numpy."""

from __future__ import annotations

from datetime import date
from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray

from replayed import LATITUDES, grown, record, season
from sowtide.schedule.season import Season
from sowtide.schedule.supply import supply_of
from sowtide.schedule.waves.windows import Prospects

FIRST_YEAR, LAST_YEAR = 1977, 1998
"""Of Wageningen, each with its autumn in the record."""
PLANTED = ("05-28", "06-11", "06-25", "07-09")
PLANTS, EACH, PICKING = 10, 0.2, 18
FINE = 24
"""Parts of a day over which the bearing is added up."""


@cache
def _sown() -> Season:
    """Return a season with four sowings of beans whose days to harvest are one number."""
    bean = f"bush bean: {{days_to_harvest: 52, picking_days: {PICKING}, yield_per_plant: 200 g}}"
    sowings = [
        f"{{crop: bush bean, name: s{number}, plants: {PLANTS}, from: {day}}}"
        for number, day in enumerate(PLANTED)
    ]
    wanted = "want:\n  - {crop: bush bean, amount: 800 g, from: 07-20, until: 10-04}"
    return season(
        record("wageningen"),
        *sowings[:-1],
        f"{sowings[-1]}\n{wanted}",
        latitude=LATITUDES["wageningen"],
        years=f"{FIRST_YEAR}-{LAST_YEAR}",
        crops=(bean,),
    )


def _bearing() -> NDArray[np.float64]:
    """Return how much of a wave's harvest is borne in each part of its picking days."""
    at = (np.arange(PICKING * FINE) + 0.5) / (PICKING * FINE)
    rate = np.where((at < 0.25) | (at > 0.75), 0.5, 1.0)
    return np.asarray(rate / rate.sum())


def _picked(year: int, prospects: Prospects) -> NDArray[np.float64] | None:
    """Return what all sowings bring on each day from 1 May of a year on. [kg]

    None where a day is missing while one of them stands.
    """
    kept, need = record("wageningen"), prospects.need
    warmth = need.warmth
    assert warmth is not None
    assert kept.tmax is not None
    found = np.zeros(400)
    for text in PLANTED:
        month, day = map(int, text.split("-"))
        planted = date(year, month, day)
        at = (planted - kept.first).days
        low, high = np.array(kept.tmin[at : at + 300]), np.array(kept.tmax[at : at + 300])
        frosts = np.flatnonzero(low <= kept.threshold(need.killed_at))
        since = max((date(year, 7, 1) - planted).days, 1)
        end = int(frosts[frosts >= since][0])
        if np.isnan(low[:end]).any() or np.isnan(high[:end]).any():
            return None
        heat = np.cumsum(grown(low, high, warmth))
        pick = max(int(np.searchsorted(heat, warmth.low - 1e-9)) + 1, warmth.least)
        begun = (planted - date(year, 5, 1)).days
        for number, share in enumerate(_bearing().reshape(PICKING, FINE).sum(axis=1)):
            if pick + number < end:
                found[begun + pick + number] += share * PLANTS * EACH
    return found


def test_shares_of_joint_years_are_those_of_an_independent_count() -> None:
    found = _sown()
    (bean,) = supply_of(found)
    prospects = found.prospects(found.waves[0])
    told = [_picked(year, prospects) for year in range(FIRST_YEAR, LAST_YEAR + 1)]
    years = [each for each in told if each is not None]
    in_doubt = 0
    for week in bean.weeks:
        # The week of the planned year, on the same days of each recorded one.
        begun = (week.week - date(2026, 5, 1)).days
        sums = np.array([picked[begun : begun + 7].sum() for picked in years])
        assert abs(week.expected - sums.mean()) < 1e-6, week.week
        if week.want is not None:
            share = np.mean(sums >= week.want - 1e-9)
            assert week.odds == share, week.week
            in_doubt += 0 < share < 1
    assert in_doubt >= 3


@pytest.mark.parametrize(
    ("crop", "begun", "all_of_it"),
    [
        *((crop, "earliest", True) for crop in ("pea", "lettuce", "spinach", "kale")),
        *((crop, "earliest", True) for crop in ("radish", "carrot", "cabbage", "onion", "beet")),
        ("garlic", "10-10", True),
        *((crop, "earliest", False) for crop in ("bush bean", "summer squash", "tomato")),
        ("sweet corn", "earliest", False),
    ],
)
def test_the_weeks_add_up_to_the_yield_of_the_plants_where_nothing_ends_them(
    crop: str, begun: str, all_of_it: bool
) -> None:
    """All of it where every year is picked out, and less as soon as frost ends it in one."""
    found = season(
        record("wageningen"),
        f"{{crop: {crop}, plants: 7, from: {begun}}}",
        latitude=LATITUDES["wageningen"],
    )
    (wave,), (told,) = found.waves, supply_of(found)
    days = wave.judged.expected_picking_days
    assert (days is None or days >= wave.crop.picking_days) is all_of_it
    brought = sum(week.expected for week in told.weeks) / (7 * told.asked.gives.middle)
    if all_of_it:
        assert abs(brought - 1) < 1e-9
    else:
        # Nothing comes in a year without a pick, and no more than all in the others.
        assert wave.judged.odds_of_nothing is not None
        assert 0 < brought <= 1 - wave.judged.odds_of_nothing + 1e-9
        assert brought < 1 - 1e-6
