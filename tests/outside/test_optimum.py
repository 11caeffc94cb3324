"""Placed area times days against the best possible, found by OR-tools' CP-SAT.

The most that a hundred invented gardens can hold stands in `optima.tsv`; that it is the most is
found again for some of them here, for all by ``python tests/optima.py``. Where it is not proven the
bound stands for it: then the true share is higher than the one told. `pytest -s` prints the shares.
"""

from __future__ import annotations

import sys
from collections import defaultdict
from statistics import median

import pytest

import gardens
from optima import GARDENS, PLANT, Optimum, days_of, found, garden, proven
from sowtide.schedule.packing.repack import area_days, repacked
from sowtide.schedule.season import Season

PROVEN = 95
"""At least so many optima are proven; all hundred were with OR-tools 9.15."""


@pytest.mark.parametrize("seed", range(0, GARDENS, 12))
def test_the_most_that_a_garden_can_hold_is_what_the_table_has(seed: int) -> None:
    of = proven()[seed]
    assert of.is_proven
    assert found(gardens.season(garden(seed))) == of


def test_nearly_all_of_the_table_is_proven() -> None:
    assert len(proven()) == GARDENS
    assert sum(each.is_proven for each in proven()) >= PROVEN
    assert all(each.named_first <= each.best <= each.asked for each in proven())


def _is_feasible(season: Season) -> bool:
    """Recount every bed on every day."""
    taken: dict[tuple[str, int], int] = defaultdict(int)
    for each in season.waves:
        assert len(each.stands) <= 1
        for stand in each.stands:
            assert stand.bed in each.entry.beds
            first, until = each.stages.plant.day, each.stages.pull_out.day
            for day in range(first.toordinal(), until.toordinal() + stand.bed.rest):
                taken[stand.bed.name, day] += stand.plants * PLANT
    areas = {bed.name: bed.area for bed in season.garden.beds}
    return all(area <= areas[name] for (name, _), area in taken.items())


def _share(season: Season, of: Optimum, most: int) -> float:
    assert _is_feasible(season)
    assert sum(days_of(season)) == of.asked  # else the optimum is of another garden
    return area_days(season.waves) / PLANT / most


def _told(name: str, shares: list[float]) -> tuple[float, float]:
    shares.sort()
    middle, tenth = median(shares), shares[len(shares) // 10 - 1]
    sys.stdout.write(f"{name}: middle {middle:.3f}, worst tenth {tenth:.3f}\n")
    return middle, tenth


def test_the_order_of_planting_costs_room() -> None:
    shares = []
    for seed, of in enumerate(proven()):
        file = garden(seed).replace("split: no", "split: no, first: yes")
        shares.append(_share(gardens.season(file), of, of.best))
    middle, tenth = _told("in order of planting day, among equals", shares)
    assert shares[-1] <= 1
    assert middle >= 0.84
    assert tenth >= 0.71


def test_packing_afresh_is_near_the_best() -> None:
    as_they_are, repacking = [], []
    for seed, of in enumerate(proven()):
        before = gardens.season(garden(seed))
        as_they_are.append(_share(before, of, of.named_first))
        repacking.append(_share(repacked(before), of, of.best))
    middle, tenth = _told("in order of planting day, what names its beds first", as_they_are)
    assert middle >= 0.93
    assert tenth >= 0.77
    middle, tenth = _told("packed afresh", repacking)
    assert repacking[-1] <= 1
    assert middle >= 0.98
    assert tenth >= 0.95
