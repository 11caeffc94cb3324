"""Days to harvest and days of picking beside the published tables, row by row."""

from __future__ import annotations

import importlib.util
from dataclasses import replace
from pathlib import Path
from types import ModuleType

import pytest

import published_tables
from published_tables import Table, span
from sowtide.garden.library import builtin as library

NDSU = "ndsu-h912"
SWAPPED = ("summer squash", "winter squash")


def _put_right(table: Table) -> Table:
    """Return North Dakota's table with the rows of the two squashes changed over."""
    if table.name != NDSU:
        return table
    figures = {line.crop: line.figures for line in table.lines if line.crop in SWAPPED}
    other = dict(zip(SWAPPED, reversed(SWAPPED), strict=True))
    lines = (
        replace(line, figures=figures[other[line.crop]]) if line.crop in SWAPPED else line
        for line in table.lines
    )
    return replace(table, lines=tuple(lines))


@pytest.mark.parametrize(
    "table", published_tables.of("days_to_harvest"), ids=lambda table: table.name
)
def test_days_to_harvest(table: Table) -> None:
    agrees = published_tables.agreement(table)
    found = published_tables.complaints(_put_right(table), agrees, published_tables.same)
    assert found == []


@pytest.mark.parametrize("table", published_tables.of("picking_days"), ids=lambda table: table.name)
def test_picking_days(table: Table) -> None:
    agrees = published_tables.agreement(table)
    assert published_tables.complaints(table, agrees, published_tables.same) == []


# The erratum of H-912


def _days(table: str, crop: str) -> tuple[float, float]:
    (found,) = (line for line in published_tables.table(table).lines if line.crop == crop)
    return span(found.figures["days"])


def _meet(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return one[0] <= other[1] and other[0] <= one[1]


@pytest.mark.parametrize("other", ["ok-hla-6004", "fao-ecocrop-cycle"])
@pytest.mark.parametrize("crop", SWAPPED)
def test_north_dakotas_squashes_are_printed_swapped(crop: str, other: str) -> None:
    elsewhere = _days(other, crop)
    (wrong,) = (each for each in SWAPPED if each != crop)
    assert not _meet(_days(NDSU, crop), elsewhere)  # as printed
    assert _meet(_days(NDSU, wrong), elsewhere)  # put right


@pytest.mark.parametrize("crop", SWAPPED)
def test_the_library_has_them_put_right_and_says_so(crop: str) -> None:
    (wrong,) = (each for each in SWAPPED if each != crop)
    row = published_tables.row_of(crop, "days_to_harvest")
    assert row is not None
    assert row.source == NDSU
    assert span(row.value) == _days(NDSU, wrong)
    assert "swapped" in row.note


# FAO-56 bounds them from above

# FAO Irrigation and Drainage Paper 56 (1998), Table 11, in the transcription of K. Thorp and
# others (USDA Agricultural Research Service): days from planting to the end of the late season,
# later than any first pick. By its row, the crops; a row of a kind serves its relatives.
FAO56 = {
    "broccoli": ("broccoli",),
    "cabbage": ("cabbage", "winter cabbage"),
    "carrots": ("carrot",),
    "cauliflower": ("cauliflower",),
    "celery": ("celery",),
    "crucifers": (
        *("kale", "collard", "kohlrabi", "turnip", "mustard greens", "pak choi", "mizuna"),
        *("tatsoi", "arugula", "Chinese cabbage"),
    ),
    "lettuce": ("leaf lettuce", "butterhead lettuce", "head lettuce"),
    "onion dry": ("onion",),
    "onion green": ("scallion",),
    "spinach": ("spinach",),
    "radish": ("radish",),
    "eggplant": ("eggplant",),
    "sweet peppers bell": ("pepper",),
    "tomato": ("tomato", "bush tomato"),
    "cantaloupe": ("melon",),
    "sweet melons": ("melon",),
    "cucumber": ("cucumber", "pickling cucumber"),
    "pumpkin winter squash": ("pumpkin", "winter squash"),
    "squash zucchini": ("summer squash",),
    "water melons": ("watermelon",),
    "beets table": ("beet",),
    "potato": ("potato", "early potato"),
    "sweet potato": ("sweet potato",),
    "beans green": ("bush bean", "pole bean"),
    "faba bean broad": ("broad bean",),
    "green gram cowpeas": ("cowpea",),
    "peas": ("pea", "snap pea", "snow pea"),
    "maize sweet": ("sweet corn",),
}
# Its stages sum to 100 days, the total is 110, in the transcription; whether the paper has it so is
# not known. All other rows of vegetables add up.
DO_NOT_ADD_UP = {("green gram cowpeas", "mar"), ("maize sweet", "apr")}
RESTING = {"oct", "nov", "dec", "jan"}
"""Months of planting after which a crop lies still for months that count with it."""


def _transcription() -> ModuleType:
    """Load the module of tables by its path: its package would load a library of plots."""
    package = importlib.util.find_spec("pyfao56")
    assert package is not None
    assert package.origin is not None
    path = Path(package.origin).parent / "tools" / "tables.py"
    spec = importlib.util.spec_from_file_location("fao56_tables", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def fao56() -> list[tuple[str, str, int, int]]:
    """Row, months of planting, sum of the stages and total of FAO-56's Table 11. [days]"""
    table = _transcription().FAO56Tables().table11
    rows = zip(*(table[name] for name in table.columns), strict=True)
    return [
        (crop, months, sum(map(int, stages)), int(total))
        for crop, *stages, total, months, _ in rows
        if crop in FAO56
    ]


def test_every_row_of_fao56_is_there(fao56: list[tuple[str, str, int, int]]) -> None:
    assert {crop for crop, *_ in fao56} == set(FAO56)
    assert len(fao56) >= 60


def test_all_but_two_rows_of_fao56_add_up(fao56: list[tuple[str, str, int, int]]) -> None:
    wrong = {(crop, months) for crop, months, stages, total in fao56 if stages != total}
    assert wrong == DO_NOT_ADD_UP


@pytest.mark.parametrize("printed", FAO56)
def test_first_picks_come_before_faos_season_is_over(
    printed: str, fao56: list[tuple[str, str, int, int]]
) -> None:
    seasons = [
        stages  # the smaller of the two, where they differ
        for crop, months, stages, _ in fao56
        if crop == printed and not RESTING.issuperset(months.split())
    ]
    for crop in FAO56[printed]:
        row = published_tables.row_of(crop, "days_to_harvest")
        assert row is not None
        early, late = span(row.value)
        assert late <= max(seasons), crop
        assert early <= min(seasons), crop


def test_few_days_to_harvest_are_from_memory() -> None:
    # Those that no extension table has, or has for another kind or part of the crop
    from_memory = {crop for crop, _ in published_tables.claims("days_to_harvest", "memory")}
    assert len(from_memory) <= 0.4 * len(library.names())
    published = {
        line.crop
        for table in published_tables.of("days_to_harvest")
        for line in table.lines
        if table.head["agrees"] == "exactly" and not line.kept
    }
    assert from_memory & published == set()
