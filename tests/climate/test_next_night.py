"""How long after an autumn's first frost the next one comes: against numpy, on real records."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

import replayed
from sowtide.climate.frost_record import next_night
from sowtide.climate.record.record import Record


@pytest.mark.parametrize("then", [0.0, -2.2])
@pytest.mark.parametrize("name", ["seattle", "wageningen", "fulda", "clemson"])
def test_it_is_what_a_few_lines_of_numpy_find(name: str, then: float) -> None:
    record = replayed.record(name)
    low = np.array(record.tmin)
    days = np.array([record.first + timedelta(days=n) for n in range(len(low))])
    seasons = range(record.first.year, record.first.year + len(low) // 365 + 2)
    gaps = []
    for year in seasons:
        autumn = (days >= date(year, 7, 1)) & (days < date(year + 1, 7, 1))
        nights = low[autumn]
        cold = np.flatnonzero(nights <= 0.0)
        if not len(cold):
            continue
        later = np.flatnonzero(nights <= then)
        later = later[later > cold[0]]
        if len(later) and not np.isnan(nights[: later[0] + 1]).any():
            gaps.append(later[0] - cold[0])
    found = next_night(record, seasons, south=False, at=0.0, then=then)
    assert found is not None
    assert found.years == len(gaps) > 2
    assert found.days == pytest.approx(np.mean(gaps))


def test_a_day_without_a_reading_hides_what_came_after_it() -> None:
    lows = [5.0, -1.0, 3.0, float("nan"), -1.0]
    record = _record(lows)
    assert next_night(record, [2024], south=False, at=0.0, then=0.0) is None
    found = next_night(_record([5.0, -1.0, 3.0, 2.0, -3.0]), [2024], south=False, at=0, then=-2.2)
    assert found is not None
    assert (found.days, found.years) == (3.0, 1)


def _record(lows: list[float]) -> Record:
    from dataclasses import replace

    known = replayed.record("seattle")
    return replace(known, first=date(2024, 10, 1), tmin=type(known.tmin)("d", lows))
