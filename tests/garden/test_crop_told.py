"""What a crop's figures come to: what kills it, how it is raised, the days of its sort."""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from factory import FILE, bean
from sowtide.days import DayRange
from sowtide.garden.crop import AfterFrost, Crop, Hardiness, Raised, Sort
from sowtide.reasons import OURS, Origin

PRINTED = {"days_to_harvest": Origin(source="practice")}
WRITTEN = {"days_to_harvest": Origin(FILE, 3)}


@pytest.mark.parametrize(
    ("hardiness", "killed_at", "flowers", "plants", "picked"),
    [
        (Hardiness.TENDER, None, None, 0.0, 0.0),
        (Hardiness.TENDER, -1.5, None, -1.5, -1.5),
        (Hardiness.TENDER, None, -1.0, 0.0, 0.0),  # the plants go before their flowers
        (Hardiness.HARDY, -9.0, -2.0, -9.0, -2.0),
        (Hardiness.HARDY, -9.0, -12.0, -9.0, -9.0),
    ],
)
def test_a_night_that_its_flowers_or_its_plants_do_not_stand_ends_it(
    hardiness: Hardiness,
    killed_at: float | None,
    flowers: float | None,
    plants: float,
    picked: float,
) -> None:
    crop = bean(hardiness=hardiness, killed_at=killed_at, flowers_killed_at=flowers)
    assert (crop.plants_killed_at, crop.killing_temperature) == (plants, picked)
    assert (crop.lost_at(in_leaf=True), crop.lost_at(in_leaf=False)) == (plants, picked)


@pytest.mark.parametrize(
    ("after", "killed_at", "again"),
    [
        (AfterFrost.STANDS, -9.0, True),
        (AfterFrost.STANDS, None, False),  # nobody knows what kills it in frozen ground
        (AfterFrost.ENDS, -9.0, False),
        (AfterFrost.BRING_IN, -9.0, False),
        (AfterFrost.ENDS, None, False),
    ],
)
def test_what_stands_in_frozen_ground_is_pulled_again_when_it_thaws(
    after: AfterFrost, killed_at: float | None, again: bool
) -> None:
    assert bean(after_frost=after, killed_at=killed_at).pulled_again is again


@pytest.mark.parametrize(
    ("raised", "unless_said"),
    [
        (Raised.DIRECT, Raised.DIRECT),
        (Raised.TRAYS, Raised.TRAYS),
        (Raised.EITHER, Raised.DIRECT),
    ],
)
def test_what_may_be_either_is_sown_direct_unless_said(raised: Raised, unless_said: Raised) -> None:
    assert bean(raised=raised).raised_unless_said is unless_said


def sorts(**changes: object) -> Crop:
    """Return a crop of 60 to 90 days that span all its sorts: ten days for each."""
    plain = {"days_to_harvest": DayRange(60, 90), "sorts": True, "origins": PRINTED}
    return bean(**plain | changes)


@pytest.mark.parametrize(
    ("changes", "days"),
    [
        ({"sort": Sort.EARLY}, (60, 70)),
        ({"sort": Sort.MAIN}, (70, 80)),
        ({"sort": Sort.LATE}, (80, 90)),
        ({"sort": Sort.LATE, "days_to_harvest": DayRange(60, 61)}, (61, 61)),  # 60 2/3 to 61
        ({"sort": Sort.EARLY, "sorts": False}, (60, 90)),
        ({"sort": Sort.EARLY, "origins": WRITTEN}, (60, 90)),  # the grower's own days stand
        ({"sort": Sort.LATE, "days_by_sort": ((Sort.LATE, DayRange(95, 99)),)}, (95, 99)),
        ({"sort": Sort.MAIN, "days_by_sort": ((Sort.LATE, DayRange(95, 99)),)}, (70, 80)),
        (
            {"sort": Sort.LATE, "origins": WRITTEN, "days_by_sort": ((Sort.LATE, DayRange(5, 9)),)},
            (60, 90),
        ),
    ],
)
def test_a_sort_has_its_own_days_or_a_third_of_those_of_all(
    changes: dict[str, object], days: tuple[int, int]
) -> None:
    assert sorts(**changes).days_of_sort == DayRange(*days)


def test_another_sort_goes_by_a_name_of_its_own() -> None:
    main = sorts()
    early = main.of_sort(Sort.EARLY)
    assert early is not None
    assert (early.name, early.sort, early.sortless) == (
        "bush bean (early)",
        Sort.EARLY,
        "bush bean",
    )
    late = early.of_sort(Sort.LATE)
    assert late is not None
    assert late.name == "bush bean (late)"
    assert main.of_sort(Sort.MAIN) is main
    assert sorts(sorts=False).of_sort(Sort.EARLY) is None
    assert sorts(origins=WRITTEN).of_sort(Sort.EARLY) is None
    told_apart = sorts(sorts=False, days_by_sort=((Sort.LATE, DayRange(95, 99)),))
    assert told_apart.spans_sorts
    assert told_apart.of_sort(Sort.LATE) is not None


@pytest.mark.parametrize(
    ("variety", "title"),
    [
        (None, "bush bean"),
        ("Bush Bean", "bush bean"),
        ("Dwarf", "bush bean 'Dwarf'"),
    ],
)
def test_a_crop_is_called_with_its_variety(variety: str | None, title: str) -> None:
    assert bean(variety=variety).title == title


def test_a_plant_takes_its_spacing_each_way_and_one_picking_is_cut_once() -> None:
    crop = bean(in_row=100_000, between_rows=300_000)  # 10 cm by 30 cm
    assert crop.area_per_plant == 30_000_000_000  # 300 cm²
    assert [bean(picking_days=days).cut_once for days in (1, 2, 21)] == [True, False, False]
    assert bean(origins=PRINTED).origin("days_to_harvest") == Origin(source="practice")
    assert bean(origins=PRINTED).origin("up_days") is OURS


def test_a_crop_of_ones_own_is_ahead_by_all_its_days_in_trays() -> None:
    # 60 days from sowing, 30 of them in trays: picked 30 days after 1 June.
    own = gardens.crop(
        raised="trays", nursery_days="30-40", hardening_days="7", days_to_harvest="60"
    )
    wave = gardens.only(gardens.text(gardens.wave(start="06-01"), crops=(own,)))
    assert wave.stages.first_pick is not None
    assert [end.day for end in wave.stages.first_pick] == [date(2026, 7, 1)] * 2
    assert wave.stages.sow.day == date(2026, 5, 2)
