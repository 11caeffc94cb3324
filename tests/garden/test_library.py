"""The built-in crops: the whole table is sound and read lean, and its page is current.

Its figures are compared with the published tables in the modules test_published_*.
"""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import MISSING, fields
from typing import get_args, get_origin, get_type_hints

import pytest

import library_page
from sowtide.days import DayRange
from sowtide.garden.crop import AfterFrost, Crop, Hardiness, Heat, Raised, Weather
from sowtide.garden.library import builtin as library
from sowtide.garden.library.crop_fields import CROP_FIELDS
from sowtide.garden.library.table import COVER_CROP, Row

NAMES = library.names()
COVERS = library.cover_names()
EVERY = (*NAMES, *COVERS)
COUNTS_AND_WORDS = "-"
UNITS = {"days", "in", "cm", "°F", "°C", "h", "%", "years", COUNTS_AND_WORDS}
UNITS |= {"days at °F", "% at °F", "°F·d", "seeds/g", "g", "oz/100 ft²"}
UNITS |= {"lb/10 ft", "ears/10 ft", "heads/10 ft", "fruits/10 ft", "bunches/10 ft", "kg/m²"}
OF_COVERS = {
    *("use", "sow_after_frost", "sow_before_frost", "days_to_dig_in", "winter"),
    *("dig_in_when", "rest_days", "sowing_rate", "fixes_nitrogen"),
}
"""Rows that only cover crops have."""


def crop(name: str) -> library.LibraryCrop:
    """Return a built-in crop that there must be."""
    found = library.find(name)
    assert found is not None, name
    return found


def days(name: str, field: str) -> DayRange:
    """Return a figure that must be a range of days."""
    value = crop(name).values[field]
    assert isinstance(value, DayRange), (name, field)
    return value


def number(name: str, field: str) -> float:
    """Return a figure that must be a number."""
    value = crop(name).values[field]
    assert isinstance(value, int | float), (name, field)
    return value


# The table is sound


def test_the_families_are_those_of_the_crops() -> None:
    # the list of families is read without taking the crops apart; cover crops have theirs
    of_crops = {crop(name).values["family"] for name in NAMES}
    rows = (row for name in COVERS for row in library.rows(name))
    assert library.families() == of_crops | {row.value for row in rows if row.field == "family"}
    assert "buckwheat family" in library.families()


def test_there_are_enough_crops_of_every_kind() -> None:
    assert len(NAMES) >= 75
    assert len(COVERS) == 6
    for field, kinds in (
        ("raised", Raised),
        ("hardiness", Hardiness),
        ("after_frost", AfterFrost),
        ("weather", Weather),
    ):
        assert {crop(name).values[field] for name in NAMES} == set(kinds), field


@pytest.mark.parametrize("name", EVERY)
def test_every_row_is_of_a_known_field(name: str) -> None:
    for row in library.rows(name):
        assert row.field in CROP_FIELDS, row
        assert row.field not in OF_COVERS or name in COVERS, row


@pytest.mark.parametrize("name", EVERY)
def test_every_figure_has_a_unit_and_a_source(name: str) -> None:
    known = set(library.source_keys())
    for row in library.rows(name):
        assert row.value.strip() == row.value != "", row
        assert row.unit in UNITS, row
        assert row.source in known, row


def test_no_source_is_unused_and_every_one_says_how_far_to_trust_it() -> None:
    used = {row.source for name in EVERY for row in library.rows(name)}
    assert used == set(library.source_keys())
    for key in used:
        assert library.source(key).endswith(")"), key


@pytest.mark.parametrize("name", EVERY)
def test_no_figure_but_a_chore_stands_twice_and_other_names_come_first(name: str) -> None:
    named = [row.field for row in library.rows(name) if row.field != "chore"]
    assert len(named) == len(set(named))
    assert named[0] == "names"
    assert (named[1] == "use") == (name in COVERS)


@pytest.mark.parametrize("name", EVERY)
def test_every_crop_has_its_chores_and_they_say_when(name: str) -> None:
    chores = [row.value for row in library.rows(name) if row.field == "chore"]
    assert 1 <= len(chores) <= 3
    for chore in chores:
        assert re.match(
            r"(sow|up|plant|flower|first pick|picking|pull out|dig in)( \+\d+)?: [a-z]", chore
        ), chore


def test_crops_stand_together_in_the_table() -> None:
    lines = _table().splitlines()
    assert lines[0] == "crop\tfield\tvalue\tunit\tsource\tnote"
    order = [line.split("\t")[0] for line in lines[1:]]
    changes = [one for one, before in zip(order, ["", *order], strict=False) if one != before]
    assert len(changes) == len(set(changes)) == len(EVERY)
    assert all(line.count("\t") == 5 for line in lines)


def _table() -> str:
    return (library_page.PAGE.parents[1] / "src/sowtide/garden/library/data/crops.tsv").read_text(
        "utf-8"
    )


def test_a_cover_crop_says_that_it_is_one() -> None:
    for name in COVERS:
        assert library.rows(name)[1].value == COVER_CROP


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_has_the_type_of_its_field(name: str) -> None:
    hints = get_type_hints(Crop)
    values = crop(name).values
    required = {f.name for f in fields(Crop) if f.default is f.default_factory is MISSING}
    assert required - {"name", "kind", "worthwhile_days"} <= set(values)
    for field, value in values.items():
        is_tuple = get_origin(hints[field]) is tuple
        known = (hints[field],) if is_tuple else get_args(hints[field]) or (hints[field],)
        allowed = [get_origin(each) or each for each in known]
        assert type(value) in allowed, (field, value)
    assert set(crop(name).sources) == set(values)


@pytest.mark.parametrize("name", NAMES)
def test_the_figures_of_a_crop_agree_with_each_other(name: str) -> None:
    values = crop(name).values
    for field, value in values.items():
        if isinstance(value, DayRange):
            assert 0 < value.low <= value.high, field
    assert (values["picking_days"] == 1) == ("holding_days" in values)
    assert ("nursery_days" in values) == (values["raised"] is not Raised.DIRECT)
    if "nursery_days" in values:
        assert days(name, "nursery_days").low >= number(name, "hardening_days") > 0
    if "soil_min" in values and "soil_max" in values:
        assert number(name, "soil_min") < number(name, "soil_max")
    heat = values.get("heat", Heat())
    assert isinstance(heat, Heat)
    if heat.base is not None:
        assert heat.base < number(name, "rated_at")
    if heat.upper is not None:
        assert heat.upper > number(name, "rated_at")
    if values["weather"] is Weather.WARM:
        assert "warm_limit" not in values
    hardiness = values["hardiness"]
    assert isinstance(hardiness, Hardiness)
    assert not ("days_before_frost" in values and hardiness.is_tender)
    assert not ("days_after_frost" in values and not hardiness.is_tender)
    if "germination" in values:
        assert 0 < number(name, "germination") < 1
    assert ("chill_limit" in values) == ("chill_days" in values)
    assert number(name, "in_row") > 0 < number(name, "between_rows")


def test_what_is_not_sown_as_seeds_is_said() -> None:
    # Common practice, no source
    sown = {name: crop(name).values.get("sown_as") for name in NAMES}
    assert {name: what for name, what in sown.items() if what} == {
        "garlic": "cloves",
        "shallot": "sets",
        "potato": "seed tubers",
        "early potato": "seed tubers",
        "sweet potato": "slips",
    }


def test_what_frost_leaves() -> None:
    # Common practice, no source: roots and leeks stand, what is lifted or cut for store is brought
    # in, garlic and sprouting broccoli winter in the bed
    for name in ("carrot", "leek", "parsnip", "celeriac", "rutabaga", "salsify"):
        assert crop(name).values["after_frost"] is AfterFrost.STANDS, name
    for name in ("potato", "winter squash", "pumpkin", "sweet potato", "onion"):
        assert crop(name).values["after_frost"] is AfterFrost.BRING_IN, name
    for name in ("bush bean", "tomato", "basil", "leaf lettuce"):
        assert crop(name).values["after_frost"] is AfterFrost.ENDS, name
    wintering = [name for name in NAMES if crop(name).values.get("overwinters")]
    assert wintering == ["garlic", "sprouting broccoli"]


# It is read lean, and its page is current


def test_importing_and_finding_load_nothing_heavy() -> None:
    code = (
        "import sys; from sowtide.garden import library; library.find('tomato');"
        "print(*sorted({'difflib', 'csv', 'importlib.resources'} & set(sys.modules)))"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, encoding="utf-8"
    )
    assert run.stdout.strip() == ""


def test_only_the_crops_asked_for_are_taken_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []
    rows = library.rows

    def listening(name: str) -> tuple[Row, ...]:
        asked.append(name)
        return rows(name)

    monkeypatch.setattr(library, "rows", listening)
    library._crop.cache_clear()
    library.find("courgettes")
    assert asked == ["summer squash"]


def test_the_page_is_current() -> None:
    assert library_page.PAGE.read_text(encoding="utf-8") == library_page.page(), (
        "run: python tests/library_page.py"
    )
