"""Hardiness beside the published lists: the undisputed, and each list within one class."""

from __future__ import annotations

import pytest

import published_tables
from published_tables import Table
from sowtide.garden.crop import Hardiness
from sowtide.garden.library import builtin as library
from sowtide.garden.library.table import Row
from sowtide.units import celsius

CLASSES = list(Hardiness)
"""From the tenderest to the hardiest."""

# What each list's words come to in classes of the part picked: killed at 36, 32, 28, 24, 20 °F.
MEANS = {
    "umn-m1227-cold": {
        "killed by frost": Hardiness.TENDER,
        "light frost": Hardiness.HALF_HARDY,
        "high 20s": Hardiness.HALF_HARDY,
        "to 20": Hardiness.HARDIEST,
        "overwinters": Hardiness.HARDIEST,
    },
    "purdue-ho186": {"very hardy": Hardiness.HARDY, "hardy": Hardiness.HALF_HARDY},
    "csu-720": {
        "hardy": Hardiness.HARDY,
        "semi-hardy": Hardiness.HALF_HARDY,
        "tender": Hardiness.TENDER,
        "very tender": Hardiness.VERY_TENDER,
    },
    "ok-hla-6004-cold": {"hardy": Hardiness.HARDY, "semi-hardy": Hardiness.HALF_HARDY},
    "fall-frost-tolerance": {
        "no frost": Hardiness.TENDER,
        "very light frost": Hardiness.TENDER,
        "light frost": Hardiness.HALF_HARDY,
        "blackens in the 40s": Hardiness.VERY_TENDER,
    },
}

TENDER = frozenset({Hardiness.TENDER, Hardiness.VERY_TENDER})
HALF_HARDY = frozenset({Hardiness.HALF_HARDY})
HARDY = frozenset({Hardiness.HARDY, Hardiness.HARDIEST})
HARDIEST = frozenset({Hardiness.HARDIEST})
# What Minnesota, Colorado State, Purdue and Iowa State agree on
UNDISPUTED = {
    **dict.fromkeys(("bush bean", "pole bean", "runner bean", "lima bean", "sweet corn"), TENDER),
    **dict.fromkeys(("tomato", "bush tomato", "pepper", "hot pepper", "eggplant"), TENDER),
    **dict.fromkeys(("cucumber", "pickling cucumber", "summer squash", "winter squash"), TENDER),
    **dict.fromkeys(("pumpkin", "melon", "watermelon"), TENDER),
    **dict.fromkeys(("kale", "collard", "Brussels sprouts"), HARDIEST),
    **dict.fromkeys(("cabbage", "winter cabbage"), HARDY),
    **dict.fromkeys(("beet", "carrot", "chard"), HALF_HARDY),
}


def _class(row: Row) -> Hardiness:
    return Hardiness(row.value)


def _apart(one: Hardiness, other: Hardiness) -> int:
    return abs(CLASSES.index(one) - CLASSES.index(other))


def _killed_at(fahrenheit: float) -> Hardiness:
    """Return the class that is given up at that temperature or just above it."""
    killed = [each for each in CLASSES if each.killed_at >= celsius(fahrenheit) - 1e-6]
    return killed[-1]


def test_classes_run_from_tender_to_hardy() -> None:
    killed = [each.killed_at for each in CLASSES]
    assert killed == sorted(killed, reverse=True)
    assert [_killed_at(at).value for at in (35, 32, 30, 25, 24, 20)] == [
        *("very tender", "tender", "tender", "half-hardy", "hardy", "hardiest")
    ]


@pytest.mark.parametrize("name", UNDISPUTED)
def test_hardiness_is_what_nobody_disputes(name: str) -> None:
    row = published_tables.row_of(name, "hardiness")
    assert row is not None
    assert _class(row) in UNDISPUTED[name]


@pytest.mark.parametrize("name", MEANS)
def test_hardiness_is_within_a_class_of_each_list(name: str) -> None:
    means = MEANS[name]

    def same(figure: str, row: Row) -> bool:
        return _class(row) is means[figure]

    def near(figure: str, row: Row) -> bool:
        return _apart(_class(row), means[figure]) <= 1

    assert published_tables.complaints(published_tables.table(name), near, same) == []


def test_hardiness_is_within_a_class_of_field_notes_from_virginia() -> None:
    def same(figure: str, row: Row) -> bool:
        return _class(row) is _killed_at(float(figure))

    def near(figure: str, row: Row) -> bool:
        return _apart(_class(row), _killed_at(float(figure))) <= 1

    assert published_tables.complaints(published_tables.table("dawling-2012"), near, same) == []


def test_no_class_is_hardier_than_what_ecocrop_says_kills_the_resting_plant() -> None:
    table = published_tables.table("fao-ecocrop-killing")

    def no_hardier(figure: str, row: Row) -> bool:
        return _class(row).killed_at >= float(figure)

    assert published_tables.complaints(table, no_hardier) == []
    # and a class that claims it is the nearest such class, or one milder or harder
    for crop, row in published_tables.claims("hardiness", table.source):
        (line,) = (each for each in table.lines if each.crop == crop)
        killed = float(line.figures["resting"])
        nearest = [CLASSES[0], *(each for each in CLASSES if each.killed_at >= killed)][-1]
        assert _apart(_class(row), nearest) <= 1, crop


@pytest.mark.parametrize("table", published_tables.of("killed_at"), ids=lambda table: table.name)
def test_own_killing_temperatures_are_the_published_ones_within_a_degree(table: Table) -> None:
    def near(figure: str, row: Row) -> bool:
        published = celsius(float(figure)) if table.head["unit"] == "°F" else float(figure)
        return abs(_celsius(row) - published) <= 1

    assert published_tables.complaints(table, near) == []


def test_own_killing_temperatures_are_colder_than_the_class() -> None:
    # the class is the nearest that is milder, so that without temperatures nothing is promised
    for crop in library.names():
        killed = published_tables.row_of(crop, "killed_at")
        hardiness = published_tables.row_of(crop, "hardiness")
        assert hardiness is not None
        if killed is not None:
            assert _celsius(killed) < _class(hardiness).killed_at, crop


def _celsius(row: Row) -> float:
    return celsius(float(row.value)) if row.unit == "°F" else float(row.value)


def _all_lists() -> list[Table]:
    return [published_tables.table(name) for name in MEANS]


def test_disputed_crops_lie_within_what_the_lists_say() -> None:
    # Where lists disagree by two classes, the library keeps none of the extremes or says whose
    for crop in library.names():
        said = {
            MEANS[table.name][line.figures["cold"]]
            for table in _all_lists()
            for line in table.lines
            if line.crop == crop
        }
        row = published_tables.row_of(crop, "hardiness")
        assert row is not None
        if len(said) > 1 and max(_apart(a, b) for a in said for b in said) >= 2:
            assert row.note, crop
