"""How long waves take to find their places, beside composing their file.

    python tests/benchmarks/placing.py WAVES BEDS

prints the seconds that `yaml.compose` takes with the C parser, those that finding places takes, and
those that it takes beside to say what blocks the waves without room. Dating the waves is left out:
each wave is dated before, and looked up. Medians of some runs in one process.
"""

from __future__ import annotations

import gc
import sys
from datetime import date
from statistics import median
from time import perf_counter

import yaml

from gardens import garden
from sowtide.climate.choose import climate_of
from sowtide.garden.read import read_garden
from sowtide.schedule.beds.blocked import Blocking
from sowtide.schedule.beds.place_all import place_all
from sowtide.schedule.waves.series import Planting, Series
from sowtide.schedule.waves.wave import Blocked, Judged
from sowtide.schedule.waves.windows import Conditions, Prospects

RUNS = 7

_dated: dict[tuple[int, date], Judged] = {}
_date = Prospects.judge
_explain = Blocking.of
_explaining = [0.0]


def _looked_up(self: Prospects, planted: object) -> Judged:
    key = (id(self), planted.day)  # type: ignore[attr-defined]
    found = _dated.get(key)
    if found is None:
        found = _dated[key] = _date(self, planted)  # type: ignore[arg-type]
    return found


def _timed(self: Blocking, planting: Planting) -> tuple[Judged, Blocked]:
    begun = perf_counter()
    found = _explain(self, planting)
    _explaining[-1] += perf_counter() - begun
    return found


def main(waves: int, beds: int) -> None:
    """Measure and print."""
    text = garden(waves, per_entry=1, beds=beds)
    read = read_garden(text.encode(), "garden.yaml").garden
    assert read is not None
    conditions = Conditions(climate_of(read.site, read.year), read.site, read.year)
    Prospects.judge = _looked_up  # type: ignore[method-assign]
    Blocking.of = _timed  # type: ignore[method-assign]
    composing, placing, explaining = [], [], []
    gc.disable()
    for _ in range(RUNS):
        begun = perf_counter()
        yaml.compose(text, Loader=yaml.CSafeLoader)
        composing.append(perf_counter() - begun)
        series = tuple(Series(entry, conditions) for entry in read.entries)
        begun = perf_counter()
        place_all(series, read.beds, conditions)
        explaining.append(_explaining[-1])
        placing.append(perf_counter() - begun - explaining[-1])
        _explaining.append(0.0)
        gc.collect()
    sys.stdout.write(f"{median(composing)} {median(placing)} {median(explaining)}\n")


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
