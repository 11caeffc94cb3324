"""What gardens full of edges are answered is what was kept, byte for byte."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta

import pytest

from kept.answers import HERE, Kept, difference, kept
from sowtide.garden.read import read_garden
from sowtide.season import season_of

_DAY = timedelta(days=1)


@pytest.mark.parametrize("garden", kept(), ids=lambda each: each.name)
def test_answers_are_those_that_were_kept(garden: Kept) -> None:
    before, now = garden.text, garden.answered()
    if now != before:
        said = difference(before, now)
        pytest.fail(f"now (python tests/kept/answers.py --update {garden.name}):\n{said}", False)


@pytest.mark.parametrize("garden", kept(), ids=lambda each: each.name)
def test_no_question_depends_on_the_clock(garden: Kept) -> None:
    timeless = ("--today", "sowtide schema", "sowtide help", "sowtide crops", "$ cat ")
    asked = [line for line in garden.text.splitlines() if line.startswith("$ ")]
    assert [line for line in asked if not any(each in line for each in timeless)] == []


@pytest.mark.parametrize("name", ["room", "eat", "daily", "away", "night", "south", "polar"])
def test_counted_day_by_day_no_bed_holds_more_than_it_has(name: str) -> None:
    garden = read_garden((HERE / f"{name}.yaml").read_bytes(), "garden.yaml").garden
    assert garden is not None
    season = season_of(garden, garden.year.first)
    taken: Counter[tuple[str, date]] = Counter()
    for wave in season.waves:
        stages = wave.stages
        for stand in wave.stands:
            day = stages.plant.day
            while day < stages.pull_out.day + stand.bed.rest * _DAY:
                young = wave.overlap is not None and day < wave.overlap.until
                area = wave.crop.area_per_plant * stand.plants
                taken[stand.bed.name, day] += -(-area // 4) if young else area
                day += _DAY
    size = {bed.name: bed.area for bed in garden.beds}
    assert [key for key, area in taken.items() if area > size[key[0]]] == []
    assert not any(
        span.first <= day <= span.last
        for bed in garden.beds
        for span in bed.taken
        for name, day in taken
        if name == bed.name
    )
    if name == "room":  # ten plants of a square metre in 10 m², until three days after 1 July
        full = sorted(
            day for (bed, day), area in taken.items() if bed == "North" and area == size[bed]
        )
        assert (full[0], full[-1]) == (date(2026, 5, 12), date(2026, 7, 3))
