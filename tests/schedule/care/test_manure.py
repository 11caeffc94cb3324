"""Raw manure closes its bed to picking: the days of 7 CFR 205.203(c)(1)."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from gardens import wave
from tended import care_with, garden_with

DUG_IN = date(2026, 4, 1)


@pytest.mark.parametrize(
    ("keys", "days"),
    [
        ("made_of: raw manure", 120),
        ("made_of: raw manure, touches_soil: no", 90),
        ("made_of: composted manure", None),
        ("made_of: heat-treated manure", None),
    ],
)
def test_raw_manure_closes_its_bed_for_so_many_days(keys: str, days: int | None) -> None:
    # not less than 120 days before harvest of what touches soil, 90 days before the rest
    care = care_with(garden_with(f"name: manure, do: feed, on: Long, from: 04-01, {keys}"))
    until = {block.until for block in care.blocks}
    assert until == (set() if days is None else {DUG_IN + timedelta(days=days)})


def test_it_closes_whatever_is_picked_there_but_is_dug_in_once() -> None:
    waves = (wave(start="05-20"), wave("leaf", start="06-01"))
    manure = "name: manure, do: feed, on: Long, from: 04-01, made_of: raw manure"
    care = care_with(garden_with(manure, waves=waves))
    assert [dose.plot.wave.id for dose in care.doses] == ["fruit-1"]
    assert {block.wave for block in care.blocks} == {"fruit-1", "leaf-1"}


def test_it_closes_the_last_day_of_picking_too() -> None:
    # Planted on 1 June, picked until 3 August.
    manure = "name: manure, do: feed, on: Long, from: 08-03, made_of: raw manure"
    assert [(each.wave, each.first) for each in care_with(garden_with(manure)).blocks] == [
        ("fruit-1", date(2026, 8, 3))
    ]


def test_what_is_in_another_bed_is_not_closed() -> None:
    beds = ("{bed: One, size: 1 x 4}", "{bed: Two, size: 1 x 4}")
    waves = (wave(start="05-20", beds="[One]"), wave("leaf", start="06-01", beds="[Two]"))
    manure = "name: manure, do: feed, on: One, from: 04-01, made_of: raw manure"
    care = care_with(garden_with(manure, waves=waves, beds=beds))
    assert {block.wave for block in care.blocks} == {"fruit-1"}
