"""The built-in crops: the whole table is sound, and says what its sources say.

The published figures stand here a second time, taken from the sources and not from the table.
"""

from __future__ import annotations

import subprocess
import sys
from dataclasses import MISSING, fields
from typing import get_args, get_type_hints

import pytest

import library_page
from sowtide.days import DayRange
from sowtide.garden import library
from sowtide.garden.crop import AfterFrost, Crop, Hardiness, Heat, Raised, Weather

NAMES = library.names()
COUNTS_AND_WORDS = "-"
UNITS = {"days", "in", "cm", "°F", "°C", "h", "%", "years", COUNTS_AND_WORDS}

# NDSU Extension H-912, June 2010: days to maturity from field planting, early and late. Its rows
# for summer squash (80–120) and winter squash (50–68) are printed swapped and are put right here.
NDSU_H912 = {
    "bush bean": (46, 65),
    "pole bean": (56, 72),
    "beet": (50, 80),
    "Brussels sprouts": (90, 100),
    "cabbage": (62, 110),
    "carrot": (60, 85),
    "cauliflower": (55, 65),
    "sweet corn": (70, 100),
    "cucumber": (60, 70),
    "eggplant": (70, 85),
    "kohlrabi": (55, 65),
    "head lettuce": (60, 85),
    "leaf lettuce": (40, 50),
    "pea": (58, 77),
    "pepper": (60, 80),
    "potato": (90, 120),
    "radish": (22, 40),
    "spinach": (40, 50),
    "summer squash": (50, 68),
    "winter squash": (80, 120),
    "tomato": (65, 100),
    "turnip": (40, 75),
}
# University of Minnesota Extension M1227, 2008: days to maturity of midsummer sowings.
UMN_M1227 = {
    "basil": (30, 60),
    "broccoli": (50, 70),
    "turnip": (50, 60),
    "scallion": (60, 70),
    "cilantro": (60, 70),
}
# University of Missouri Extension G6201, 2015 print; chard from an older edition.
MISSOURI_G6201 = {"kale": (50, 65), "cabbage": (70, 80), "beet": (55, 65)}
MISSOURI_G6201_OLDER = {"chard": (55, 65)}
# Oklahoma State Extension HLA-6004.
OK_HLA_6004 = {"tomato": (70, 90)}
# FAO Ecocrop.
ECOCROP = {"collard": (60, 85), "leek": (120, 150), "pak choi": (40, 60)}
DAYS_TO_HARVEST = {
    "ndsu-h912": NDSU_H912,
    "umn-m1227": UMN_M1227,
    "missouri-g6201": MISSOURI_G6201,
    "missouri-g6201-older": MISSOURI_G6201_OLDER,
    "ok-hla-6004": OK_HLA_6004,
    "fao-ecocrop": ECOCROP,
}

# Harrington & Minges 1954 through Knott's Handbook 1997: days to emergence at 68 °F.
EMERGENCE_AT_68F = {
    "bean": 11,
    "beet": 6,
    "cabbage": 6,
    "carrot": 7,
    "cauliflower": 6,
    "sweet corn": 7,
    "cucumber": 6,
    "eggplant": 13,
    "lettuce": 3,
    "onion": 5,
    "pea": 8,
    "pepper": 13,
    "radish": 4,
    "spinach": 6,
    "tomato": 8,
    "turnip": 2,
}
ROW_OF = {
    "bush bean": "bean",
    "pole bean": "bean",
    "leaf lettuce": "lettuce",
    "head lettuce": "lettuce",
    "summer squash": "cucumber",
    "winter squash": "cucumber",
    "chard": "beet",
    "scallion": "onion",
    "leek": "onion",
    "kale": "cabbage",
    "collard": "cabbage",
    "broccoli": "cabbage",
    "Brussels sprouts": "cabbage",
    "kohlrabi": "cabbage",
    "pak choi": "cabbage",
    "arugula": "cabbage",
}

# University of Delaware Weekly Crop Update after Mid-Atlantic recommendations, Table A-4: weeks.
TRAY_WEEKS = {
    "broccoli": (4, 7),
    "cabbage": (6, 7),
    "cauliflower": (6, 8),
    "cucumber": (2, 4),
    "eggplant": (6, 9),
    "leaf lettuce": (4, 6),
    "head lettuce": (4, 6),
    "pepper": (7, 9),
    "summer squash": (2, 4),
    "tomato": (5, 6),
}

# FAO Irrigation and Drainage Paper 56, Table 11: longest total from planting to the end of the
# late season, later than any first pick. Kale, collard, kohlrabi, turnip and pak choi have its row
# for crucifers.
FAO56_TOTAL = {
    "broccoli": 135,
    "cabbage": 165,
    "carrot": 150,
    "cauliflower": 140,
    "leaf lettuce": 105,
    "head lettuce": 105,
    "scallion": 70,
    "spinach": 100,
    "radish": 40,
    "eggplant": 140,
    "pepper": 125,
    "tomato": 155,
    "cucumber": 130,
    "winter squash": 120,
    "summer squash": 90,
    "beet": 70,
    "potato": 165,
    "bush bean": 90,
    "pea": 110,
    "sweet corn": 140,
    "kale": 95,
    "collard": 95,
    "kohlrabi": 95,
    "turnip": 95,
    "pak choi": 95,
}

# University of Arizona Master Gardener Manual: intensive spacing, inches.
ARIZONA_INTENSIVE = {
    "bush bean": (4, 6),
    "pole bean": (6, 12),
    "beet": (2, 4),
    "chard": (6, 9),
    "spinach": (4, 6),
    "carrot": (2, 3),
    "radish": (2, 3),
    "turnip": (4, 6),
    "kohlrabi": (6, 9),
    "cabbage": (15, 18),
    "kale": (15, 18),
    "collard": (12, 15),
    "broccoli": (12, 18),
    "cauliflower": (15, 18),
    "Brussels sprouts": (15, 18),
    "leaf lettuce": (4, 6),
    "head lettuce": (10, 12),
    "leek": (3, 6),
    "pea": (2, 4),
    "sweet corn": (15, 18),
    "cucumber": (12, 18),
    "summer squash": (18, 24),
    "winter squash": (24, 36),
    "tomato": (18, 24),
    "pepper": (12, 15),
    "eggplant": (18, 24),
    "potato": (10, 12),
}

# 7 CFR 201.31: least germination of seed sold between states, per cent.
FEDERAL_FLOOR = {
    "bush bean": 70,
    "pole bean": 70,
    "beet": 65,
    "chard": 65,
    "spinach": 60,
    "carrot": 55,
    "radish": 75,
    "turnip": 80,
    "kohlrabi": 75,
    "cabbage": 75,
    "kale": 75,
    "collard": 80,
    "broccoli": 75,
    "cauliflower": 75,
    "Brussels sprouts": 70,
    "leaf lettuce": 80,
    "head lettuce": 80,
    "scallion": 70,
    "leek": 60,
    "pea": 80,
    "sweet corn": 75,
    "cucumber": 80,
    "summer squash": 75,
    "winter squash": 75,
    "tomato": 75,
    "pepper": 55,
    "eggplant": 60,
    "pak choi": 75,
}

# University of Florida IFAS: least and highest soil temperature for germination, °F.
UF_IFAS_SOIL = {
    "bush bean": (60, 95),
    "beet": (40, 95),
    "chard": (40, 95),
    "spinach": (32, 75),
    "carrot": (40, 95),
    "radish": (40, 95),
    "cabbage": (40, 95),
    "broccoli": (40, 95),
    "cauliflower": (40, 95),
    "pea": (40, 85),
    "sweet corn": (50, 106),
    "cucumber": (60, 106),
    "summer squash": (65, 106),
    "winter squash": (65, 106),
    "tomato": (50, 95),
    "pepper": (60, 95),
}

# Knott's Handbook 1997: crops with a highest monthly mean of 75 °F for quality, in so far as heat
# spoils them: kale, collard, chard, carrot and potato are on its list too and stand the summer.
SPOILT_OVER_75F = {
    "pea",
    "beet",
    "radish",
    "turnip",
    "spinach",
    "leaf lettuce",
    "head lettuce",
    "broccoli",
    "cabbage",
    "cauliflower",
    "Brussels sprouts",
    "kohlrabi",
}

TENDER = {Hardiness.TENDER, Hardiness.VERY_TENDER}
HARDY = {Hardiness.HARDY, Hardiness.HARDIEST}
HALF_HARDY = {Hardiness.HALF_HARDY}
# What Minnesota, Colorado State, Purdue and Iowa State agree on.
UNDISPUTED = {
    **dict.fromkeys(("bush bean", "pole bean", "tomato", "pepper", "eggplant"), TENDER),
    **dict.fromkeys(("cucumber", "summer squash", "winter squash", "sweet corn"), TENDER),
    **dict.fromkeys(("kale", "collard", "Brussels sprouts", "cabbage"), HARDY),
    **dict.fromkeys(("beet", "carrot", "chard"), HALF_HARDY),
}

# Iowa State and West Virginia University Extension, families to rotate; the rest botany.
FAMILIES = {
    "bean family": {"bush bean", "pole bean", "pea"},
    "grass family": {"sweet corn"},
    "squash family": {"cucumber", "summer squash", "winter squash"},
    "nightshade family": {"tomato", "pepper", "eggplant", "potato"},
    "mint family": {"basil"},
    "lettuce family": {"leaf lettuce", "head lettuce"},
    "beet family": {"beet", "chard", "spinach"},
    "carrot family": {"carrot", "cilantro"},
    "onion family": {"scallion", "leek", "garlic"},
    "cabbage family": {
        *("kale", "collard", "broccoli", "cabbage", "cauliflower", "Brussels sprouts"),
        *("kohlrabi", "radish", "turnip", "pak choi", "arugula"),
    },
}


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


def claiming(source: str, field: str) -> set[str]:
    """Return the crops that have a figure from a source."""
    return {name for name in NAMES if crop(name).sources.get(field) == source}


# The table is sound


def test_the_families_are_those_of_the_crops() -> None:
    found = [library.find(name) for name in NAMES]
    assert library.families() == {crop.values["family"] for crop in found if crop is not None}


def test_there_are_enough_crops() -> None:
    assert len(NAMES) >= 24
    assert {crop(n).values["raised"] for n in NAMES} == set(Raised)
    assert {crop(n).values["hardiness"] for n in NAMES} == set(Hardiness)
    assert {crop(n).values["after_frost"] for n in NAMES} == set(AfterFrost)


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_has_a_unit_and_a_source(name: str) -> None:
    known = set(library.source_keys())
    for row in library.rows(name):
        assert row.value.strip() == row.value != "", row
        assert row.unit in UNITS, row
        assert row.source in known, row


def test_no_source_is_unused_and_every_one_says_how_far_to_trust_it() -> None:
    used = {row.source for name in NAMES for row in library.rows(name)}
    assert used == set(library.source_keys())
    for key in used:
        assert library.source(key).endswith(")"), key


@pytest.mark.parametrize("name", NAMES)
def test_no_figure_stands_twice_and_other_names_come_first(name: str) -> None:
    named = [row.field for row in library.rows(name)]
    assert len(named) == len(set(named))
    assert named[0] == "names"


def test_crops_stand_together_in_the_table() -> None:
    text = (library_page.PAGE.parents[1] / "src/sowtide/garden/data/crops.tsv").read_text("utf-8")
    lines = text.splitlines()
    assert lines[0] == "crop\tfield\tvalue\tunit\tsource\tnote"
    order = [line.split("\t")[0] for line in lines[1:]]
    changes = [one for one, before in zip(order, ["", *order], strict=False) if one != before]
    assert len(changes) == len(set(changes)) == len(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_has_the_type_of_its_field(name: str) -> None:
    hints = get_type_hints(Crop)
    values = crop(name).values
    required = {f.name for f in fields(Crop) if f.default is f.default_factory is MISSING}
    assert required - {"name", "kind", "worthwhile_days"} <= set(values)
    for field, value in values.items():
        allowed = get_args(hints[field]) or (hints[field],)
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


# It says what its sources say


@pytest.mark.parametrize("source", DAYS_TO_HARVEST)
def test_days_to_harvest_are_those_of_the_source(source: str) -> None:
    published = DAYS_TO_HARVEST[source]
    claimed = claiming(source, "days_to_harvest")
    assert claimed
    for name in claimed:
        assert days(name, "days_to_harvest") == DayRange(*published[name]), name


def test_days_to_harvest_have_no_other_source_but_memory() -> None:
    rest = {"memory"} | set(DAYS_TO_HARVEST)
    assert {crop(name).sources["days_to_harvest"] for name in NAMES} <= rest
    assert claiming("memory", "days_to_harvest") == {"arugula", "garlic"}


def test_what_is_not_sown_as_seeds_is_said() -> None:
    # Common practice, no source.
    assert {name: crop(name).values["sown_as"] for name in claiming("practice", "sown_as")} == {
        "garlic": "cloves",
        "potato": "seed tubers",
    }
    assert all("sown_as" not in crop(name).values for name in set(NAMES) - {"garlic", "potato"})


def test_emergence_is_that_of_harrington_and_minges_at_68_fahrenheit() -> None:
    claimed = claiming("harrington-minges-1954", "up_days")
    assert len(claimed) >= 24
    for name in claimed:
        assert number(name, "up_days") == EMERGENCE_AT_68F[ROW_OF.get(name, name)], name
        note = next(row.note for row in library.rows(name) if row.field == "up_days")
        relative = ROW_OF.get(name, name)
        if relative not in name:
            assert f"the row of {relative}, a near relative" in note, name


def test_nursery_days_are_the_published_tray_weeks() -> None:
    assert claiming("mid-atlantic-a4", "nursery_days") == set(TRAY_WEEKS)
    for name, (low, high) in TRAY_WEEKS.items():
        assert days(name, "nursery_days") == DayRange(7 * low, 7 * high), name
    # Planting spreadsheet, Sustainable Vegetable Production Education: 4–6 weeks
    assert days("Brussels sprouts", "nursery_days") == DayRange(28, 42)


@pytest.mark.parametrize("name", FAO56_TOTAL)
def test_first_pick_is_no_later_than_faos_whole_season(name: str) -> None:
    assert days(name, "days_to_harvest").high <= FAO56_TOTAL[name]


def test_spacing_is_the_wider_of_the_published_hand_worked_beds() -> None:
    assert claiming("arizona-intensive", "in_row") == set(ARIZONA_INTENSIVE)
    for name, (_, wide) in ARIZONA_INTENSIVE.items():
        assert number(name, "in_row") == number(name, "between_rows") == wide * 25_400, name
    for name, inches in {"basil": 12, "scallion": 3}.items():  # Kansas State master gardeners
        assert number(name, "in_row") == number(name, "between_rows") == inches * 25_400, name


@pytest.mark.parametrize("name", FEDERAL_FLOOR)
def test_germination_is_fifteen_points_above_the_federal_floor(name: str) -> None:
    expected = min(FEDERAL_FLOOR[name] + 15, 95) / 100
    assert number(name, "germination") == pytest.approx(expected)


@pytest.mark.parametrize("name", UF_IFAS_SOIL)
def test_soil_temperatures_are_floridas(name: str) -> None:
    low, high = UF_IFAS_SOIL[name]
    assert number(name, "soil_min") == pytest.approx((low - 32) / 1.8)
    assert number(name, "soil_max") == pytest.approx((high - 32) / 1.8)


def test_lettuce_seed_sleeps_above_80_fahrenheit() -> None:
    # Utah Vegetable Production Guide: lettuce seed dormant in soil over 80 °F (26.7 °C)
    for name in ("leaf lettuce", "head lettuce"):
        assert number(name, "soil_max") == pytest.approx(26.667, abs=0.001)


def test_heat_spoils_the_crops_that_knott_puts_at_75_fahrenheit() -> None:
    # pak choi and arugula have the limit of Chinese cabbage and mustard greens, also 75 °F
    assert claiming("knott-monthly-means", "warm_limit") == SPOILT_OVER_75F | {
        "pak choi",
        "arugula",
    }
    for name in NAMES:
        if "warm_limit" in crop(name).values:
            assert number(name, "warm_limit") == pytest.approx(23.889, abs=0.001), name
    for name in ("kale", "collard", "chard", "carrot", "leek", "potato"):
        assert "warm_limit" not in crop(name).values, name


@pytest.mark.parametrize("name", UNDISPUTED)
def test_hardiness_is_what_nobody_disputes(name: str) -> None:
    assert crop(name).values["hardiness"] in UNDISPUTED[name]


def test_days_before_the_last_frost_are_virginias() -> None:
    # Virginia Cooperative Extension 426-331, 2006: first column with a planting mark
    published = {"beet": 40, "cabbage": 40, "broccoli": 30, "Brussels sprouts": 30}
    assert claiming("vce-426-331", "days_before_frost") == set(published)
    for name, before in published.items():
        assert number(name, "days_before_frost") == before, name


def test_snap_beans_are_picked_for_georgias_eighteen_days() -> None:
    # University of Georgia Extension, Polk County, 2021
    assert crop("bush bean").values["picking_days"] == 18


def test_heat_bases_are_the_published_ones() -> None:
    # North Carolina State: bean 50 °F; cabbage, pea and turnip 40 °F
    # Oregon State: sweet corn 50 to 86 °F; SWAT+: broccoli 4, tomato 10, eggplant 15 °C
    published = {"bush bean": 10.0, "cabbage": 4.444, "pea": 4.444, "turnip": 4.444}
    published |= {"sweet corn": 10.0, "broccoli": 4.0, "tomato": 10.0, "eggplant": 15.0}
    for name, base in published.items():
        heat = crop(name).values["heat"]
        assert isinstance(heat, Heat)
        assert heat.base == pytest.approx(base, abs=0.001), name
    corn = crop("sweet corn").values["heat"]
    assert isinstance(corn, Heat)
    assert corn.upper == pytest.approx(30.0)


def test_families_are_those_that_are_rotated_together() -> None:
    found: dict[object, set[str]] = {}
    for name in NAMES:
        found.setdefault(crop(name).values["family"], set()).add(name)
    assert found == FAMILIES
    # Iowa State and West Virginia University Extension: two or three years
    for name in NAMES:
        if crop(name).sources["rotation"] == "iowa-state-rotation":
            assert crop(name).values["rotation"] in (2, 3), name


def test_what_frost_leaves() -> None:
    # Common practice, no source
    assert crop("carrot").values["after_frost"] is AfterFrost.STANDS
    assert crop("leek").values["after_frost"] is AfterFrost.STANDS
    assert crop("potato").values["after_frost"] is AfterFrost.BRING_IN
    assert crop("winter squash").values["after_frost"] is AfterFrost.BRING_IN
    assert [n for n in NAMES if crop(n).values.get("overwinters")] == ["garlic"]


# It is found by any name a grower has for it


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("bush bean", "bush bean"),
        ("Bush-Beans", "bush bean"),
        ("green beans", "bush bean"),
        ("haricot  vert", "bush bean"),
        ("aubergines", "eggplant"),
        ("Zucchini", "summer squash"),
        ("courgettes", "summer squash"),
        ("summer squashes", "summer squash"),
        ("tomatoes", "tomato"),
        ("radishes", "radish"),
        ("cabbages", "cabbage"),
        ("BRUSSELS SPROUTS", "Brussels sprouts"),
        ("brussels sprout", "Brussels sprouts"),
        ("lettuce", "leaf lettuce"),
        ("romaine lettuces", "head lettuce"),
        ("rocket", "arugula"),
        ("coriander", "cilantro"),
        ("bok_choy", "pak choi"),
        ("swiss chard", "chard"),
        ("beetroots", "beet"),
        ("spring-onions", "scallion"),
        ("collards", "collard"),
        ("mangetout", "pea"),
    ],
)
def test_found_by_name(written: str, name: str) -> None:
    assert crop(written).name == name


@pytest.mark.parametrize("name", NAMES)
def test_every_name_and_its_plural_finds_its_own_crop(name: str) -> None:
    others = [row.value for row in library.rows(name) if row.field == "names"]
    for written in [name, *others[0].split(", ")]:
        assert crop(written).name == name, written
        assert crop(written + "s").name == name, written


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("brocolli", "broccoli"),
        ("zuchini", "summer squash"),
        ("aubergene", "eggplant"),
        ("tomatos", "tomato"),
        ("cauliflour", "cauliflower"),
        ("brussel sprouts", "Brussels sprouts"),
        ("letuce", "leaf lettuce"),
        ("raddishes", "radish"),
    ],
)
def test_misspelt_names_are_near(written: str, name: str) -> None:
    found = library.find(written)
    near = library.near(written)
    assert name in near
    assert len(near) <= 3
    assert found is None or found.name == name


@pytest.mark.parametrize("written", ["", "s", "es", "-", "lawn", "crop", "bush bean 1"])
def test_what_is_no_crop_is_not_found(written: str) -> None:
    assert library.find(written) is None


@pytest.mark.parametrize("written", ["", "xyzzy", "gravel"])
def test_what_is_like_no_crop_is_near_none(written: str) -> None:
    assert library.near(written) == ()


def test_unknown_keys_are_said() -> None:
    with pytest.raises(KeyError):
        library.source("nobody")
    with pytest.raises(KeyError):
        library.rows("nothing")


# It is read lean, and its page is current


def test_importing_and_finding_load_nothing_heavy() -> None:
    code = (
        "import sys; from sowtide.garden import library; library.find('tomato');"
        "print(*sorted({'difflib', 'csv', 'yaml', 'importlib.resources'} & set(sys.modules)))"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, encoding="utf-8"
    )
    assert run.stdout.strip() == ""


def test_only_the_crops_asked_for_are_taken_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []
    rows = library.rows

    def listening(name: str) -> tuple[library.Row, ...]:
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
