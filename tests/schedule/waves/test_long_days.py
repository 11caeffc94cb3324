"""Crops that run to seed in long days are noted where they would be picked in them."""

from __future__ import annotations

from datetime import date

import pytest
from astral import Observer, sun

import gardens

CROP = gardens.leaf(long_day="14", days_to_harvest="40", picking_days="14", hardiness="hardy")


def noted(start: str, *, latitude: float = 45, **more: str) -> list[str]:
    wave = gardens.wave("leaf", start=start, **more)
    file = gardens.text(wave, crops=[CROP], latitude=latitude, frost="none", fall_allowance="0")
    problems = gardens.season(file).problems
    return [each.message for each in problems if each.code == "long-days"]


def test_the_first_pick_in_longer_days_is_noted() -> None:
    # 45° N: astral's days pass 14 hours on 26 April and fall below on 17 August. Picked 40 days
    # after sowing; two days are left to each side, since astral's sunrise is a little later.
    place = Observer(45, 0)
    days = {24: 4, 28: 4, 15: 8, 19: 8}
    longer = []
    for day, month in days.items():
        begin, end = sun.daylight(place, date(2026, month, day))
        longer.append((end - begin).total_seconds() > 14 * 3600)
    assert longer == [False, True, True, False]
    assert [bool(noted(start)) for start in ("03-15", "03-19", "07-06", "07-10")] == longer


def test_a_series_is_noted_once() -> None:
    assert noted("03-10", every="14", count="3") == [
        "leaf-2 and leaf-3 would be picked in days longer than 14 hours and may run to seed"
    ]


@pytest.mark.parametrize(("latitude", "notes"), [(10, 0), (-45, 0), (60, 1)])
def test_it_hangs_on_the_latitude(latitude: float, notes: int) -> None:
    # Picked on 11 June: never 14 hours at 10° N; midwinter at 45° S.
    start = "05-02" if latitude > 0 else "2027-05-02"
    assert len(noted(start, latitude=latitude)) == notes


def test_other_crops_are_not_noted() -> None:
    file = gardens.text(gardens.wave("leaf", start="05-02"), crops=[gardens.leaf()], frost="none")
    assert "long-days" not in [code for code, _ in gardens.codes(gardens.season(file))]
