"""Even pickings against the outside: peas two weeks apart, and corn spaced by its heat."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

import numpy as np
import pytest

from replayed import LATITUDES, record, season
from sowtide.schedule.season import Season

RECORDS = ("seattle", "wageningen", "fulda", "clemson")
CROPS = ("pea", "bush bean", "leaf lettuce")
WAVES = 5


def _planted(name: str, crop: str, spaced: str) -> Season:
    raised = ", raised: direct" if crop == "leaf lettuce" else ""
    wave = f"{{crop: {crop}, plants: 10, from: earliest, {spaced}, until: 08-15, count: {WAVES}"
    return season(record(name), f"{wave}{raised}}}", latitude=LATITUDES[name])


def _gaps(of: Season) -> list[int]:
    """Return the days from one first pick to the next. [days]"""
    firsts = [wave.stages.first_pick[0].day for wave in of.waves if wave.stages.first_pick]
    return [(later - earlier).days for earlier, later in pairwise(firsts)]


@pytest.mark.parametrize("name", RECORDS)
def test_peas_sown_two_weeks_apart_in_early_spring_ripen_about_a_week_apart(name: str) -> None:
    """ATTRA, Scheduling Vegetable Plantings for Continuous Harvest, 2008."""
    gaps = _gaps(_planted(name, "pea", "every: 14"))
    assert 2 <= gaps[0] <= 9
    assert np.mean(gaps[:2]) <= 9


@pytest.mark.parametrize("crop", CROPS)
@pytest.mark.parametrize("name", RECORDS)
def test_the_spread_of_picking_gaps_is_at_most_half(name: str, crop: str) -> None:
    by_days = _gaps(_planted(name, crop, "every: 14"))
    even = _gaps(_planted(name, crop, "pick_every: 9"))
    number = min(len(by_days), len(even))  # of peas in the south heat leaves no more
    assert number >= 2
    by_days, even = by_days[:number], even[:number]
    spread, mended = (max(gaps) - min(gaps) for gaps in (by_days, even))
    assert mended <= spread / 2, (by_days, even)


def _heat(first: date, last: date) -> float:
    """Return the heat from a day on and before another: base 50, no more than 86 °F. [°F·d]"""
    kept = record("clemson")
    assert kept.tmax is not None
    at, stop = ((day - kept.first).days for day in (first, last))
    low, high = (
        np.array(temperatures[at:stop]) * 9 / 5 + 32 for temperatures in (kept.tmin, kept.tmax)
    )
    return float(((np.clip(low, 50, 86) + np.clip(high, 50, 86)) / 2 - 50).sum())


@pytest.mark.parametrize("days", [4, 7])
def test_as_much_heat_lies_between_plantings_of_corn_as_between_their_pickings(days: int) -> None:
    """Scheduling Sweet Corn Plantings, University of Connecticut and of Vermont Extension.

    Base 50 °F; the next planting waits for the heat that the days from one harvest to the next
    bring. The heat to harvest is Oregon State's for 'Jubilee', 1,539 °F-days, 50 to 86.

    On the single year 2012 of Clemson: what is planted so is picked so many days apart, and the
    heat between two plantings is that between their pickings, to a warm day's on either side.
    """
    corn = "sweet corn: {heat: {base: 50, upper: 86, units: 1539, method: clip}}"
    found = season(
        record("clemson"),
        f"{{crop: sweet corn, plants: 10, from: 04-10, pick_every: {days}, until: 07-01}}",
        latitude=LATITUDES["clemson"],
        years="2012-2012",
        year=2013,
        crops=(corn,),
    )
    assert len(found.waves) >= 6
    assert set(_gaps(found)) <= {days, days + 1}
    for earlier, later in pairwise(found.waves):
        assert earlier.stages.first_pick is not None
        assert later.stages.first_pick is not None
        # The same days of 2012, which is what is known of 2013.
        dates = [
            each.replace(year=2012)
            for each in (
                earlier.stages.plant.day,
                later.stages.plant.day,
                earlier.stages.first_pick[0].day,
                later.stages.first_pick[0].day,
            )
        ]
        planting, picking = _heat(dates[0], dates[1]), _heat(dates[2], dates[3])
        assert abs(planting - picking) <= 36  # the most that a day can bring
