"""``sowtide crops`` from the outside: with and without a garden, JSON and CSV, wrong names."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from docs_blocks import sowtide
from sowtide.garden.library import builtin as library
from sowtide.report.card.view import COLUMNS as CARD_COLUMNS
from sowtide.report.crops.view import COLUMNS as LIST_COLUMNS

GARDEN = """\
site:
  {name: Test garden, latitude: 42, units: us, frost: {last: 05-06, first: 10-01}}
season: 2026
beds:
  - {bed: North, size: 4 x 10}
crops:
  bush bean: {days_to_harvest: 47-52}
  late bean:
    like: bush bean
    variety: Dusk
    picking_days: 12
  oca: {family: wood-sorrel family, weather: cool, raised: direct, days_to_harvest: 150,
        counted_from: sowing, picking_days: 1, hardiness: tender, in_row: 12, between_rows: 18}
waves:
  - {crop: tomato, variety: Bright, plants: 4, from: 05-20}
  - {name: second, crop: tomato, variety: Early, plants: 4, from: 05-20}
  - {crop: courgette, plants: 2, from: 05-20}
"""
CROP = frozenset(
    (
        "name",
        "variety",
        "names",
        "family",
        "botanical",
        "raised",
        "days_to_harvest",
        "counted_from",
        "hardiness",
        "sow_every",
        "sown_once",
        "file",
        "line",
    )
)
COVER = frozenset(
    (
        "name",
        "names",
        "family",
        "botanical",
        "sow_after_frost",
        "sow_before_frost",
        "days_to_dig_in",
        "winter",
    )
)
CARD = {
    "version",
    "crop",
    "variety",
    "names",
    "built_in",
    "like",
    "figures",
    "varieties",
    "learned",
    "learned_yields",
}
FIGURE = frozenset(
    (
        "field",
        "label",
        "value",
        "unit",
        "source",
        "citation",
        "note",
        "file",
        "line",
        "built_in",
    )
)
BUILT_IN = {"value", "unit", "source", "citation", "note"}

Run = Callable[..., tuple[int, str]]


@pytest.fixture
def empty(tmp_path: Path) -> Run:
    """Run ``sowtide crops`` in a folder without a garden."""
    return lambda *arguments: sowtide(["crops", *arguments], tmp_path)


@pytest.fixture
def here(tmp_path: Path, empty: Run) -> Run:
    """Run ``sowtide crops`` in a folder with a garden.yaml."""
    (tmp_path / "garden.yaml").write_text(GARDEN, encoding="utf-8")
    return empty


def read(result: tuple[int, str]) -> Any:
    code, text = result
    assert code == 0, text
    document = json.loads(text)
    assert document["version"] == 1
    return document


def figure(card: Any, field: str) -> Any:
    (found,) = (each for each in card["figures"] if each["field"] == field)
    return found


# Where the garden comes from


def test_no_garden_is_needed(empty: Run) -> None:
    code, text = empty()
    assert code == 0
    assert text.startswith(f"BUILT IN  {len(library.names())} crops and 6 cover crops\n")
    code, text = empty("bush", "bean")
    assert (code, text.splitlines()[0]) == (0, "bush bean")


def test_the_garden_that_lies_here_is_read(here: Run) -> None:
    code, text = here()
    assert code == 0
    # Own crops in order of name; varieties that only an entry names stand at its line.
    own = text[: text.index("BUILT IN")].splitlines()[2:-1]
    assert [(line[:17].rstrip(), line.split()[-1]) for line in own] == [
        ("bush bean", "7"),
        ("late bean 'Dusk'", "8"),
        ("oca", "12"),
        ("tomato 'Bright'", "15"),
        ("tomato 'Early'", "16"),
    ]
    assert "  bush bean *  " in text
    assert "  summer squash *" not in text, "an entry that only asks for a crop changes nothing"


@pytest.mark.parametrize("how", ["option", "environment", "demo"])
def test_a_garden_that_is_named(
    tmp_path: Path, empty: Run, how: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "plot.yaml"
    path.write_text(GARDEN, encoding="utf-8")
    if how == "option":
        _, text = empty("--garden", str(path))
    elif how == "environment":
        monkeypatch.setattr("docs_blocks._REMOVED", ("NO_COLOR",))
        monkeypatch.setenv("SOWTIDE_GARDEN", str(path))
        _, text = empty()
    else:
        _, text = empty("--demo", "--today", "2026-07-16")
    named = "".join(text.split())  # a long path goes on below
    assert named.startswith("INdemogarden" if how == "demo" else f"IN{path}")


@pytest.mark.parametrize("form", ["text", "json", "csv"])
@pytest.mark.parametrize("name", [[], ["kale"]])
def test_a_garden_that_cannot_be_read_stops_it(
    tmp_path: Path, empty: Run, name: list[str], form: str
) -> None:
    (tmp_path / "garden.yaml").write_text(GARDEN.replace("plants: 2", "plantz: 2"), "utf-8")
    code, text = empty(*name, "--format", form)
    assert code == 1
    assert text.startswith("garden.yaml:17:23: error: unknown key 'plantz' [unknown-key]\n")
    assert "BUILT IN" not in text


def test_a_garden_that_is_named_and_not_there(empty: Run) -> None:
    assert empty("--garden", "gone.yaml") == (2, "sowtide: there is no file gone.yaml\n")


# Names


@pytest.mark.parametrize(
    ("name", "first"),
    [
        ("broccoli", "broccoli"),
        ("zucchini", "summer squash"),
        ("Courgettes", "summer squash"),
        ("EGGPLANTS", "eggplant"),
        ("swede", "rutabaga"),
        ("buckwheat", "buckwheat: sown to cover a bed, not to be picked"),
        ("rye", "winter rye: sown to cover a bed, not to be picked"),
    ],
)
def test_a_crop_is_found_by_any_of_its_names(empty: Run, name: str, first: str) -> None:
    code, text = empty(name)
    assert (code, text.splitlines()[0]) == (0, first)


@pytest.mark.parametrize(
    ("name", "first"),
    [
        ("courgette", "courgette: built in as summer squash"),
        ("summer squash", "courgette: built in as summer squash"),
        ("late bean", "late bean 'Dusk': like bush bean"),
        ("dusk", "late bean 'Dusk': like bush bean"),
        ("oca", "oca: wholly the file's own"),
        ("oat", "oat: sown to cover a bed, not to be picked"),
    ],
)
def test_the_files_own_names_and_varieties(here: Run, name: str, first: str) -> None:
    code, text = here(name)
    assert (code, text.splitlines()[0]) == (0, first)


def test_varieties_that_differ_in_nothing_share_a_card(here: Run) -> None:
    _, text = here("tomato")
    assert text.startswith("tomato; the same for 'Bright' and 'Early'\n")
    assert text.count("\nTIMING\n") == 1


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("brocolli", "There is no crop 'brocolli'. Did you mean 'broccoli'?"),
        ("buckweat", "There is no crop 'buckweat'. Did you mean 'buckwheat'?"),
        ("xyzzy", "There is no crop 'xyzzy'. 'sowtide crops' lists them all."),
    ],
)
def test_a_name_that_is_none(empty: Run, name: str, said: str) -> None:
    assert empty(name) == (2, f"sowtide: {said} See 'sowtide crops --help'.\n")


def test_a_misspelt_name_of_the_file(here: Run) -> None:
    code, text = here("lat baen")
    assert code == 2
    assert "Did you mean 'late bean'" in text


# JSON and CSV


def test_the_list_as_json(here: Run) -> None:
    found = read(here("--format", "json"))
    assert set(found) == {"version", "crops", "cover_crops"}
    assert {frozenset(crop) for crop in found["crops"]} == {CROP}
    assert {frozenset(crop) for crop in found["cover_crops"]} == {COVER}
    own, built_in = found["crops"][:5], found["crops"][5:]
    assert [(crop["name"], crop["file"], crop["line"]) for crop in own] == [
        ("bush bean", "garden.yaml", 7),
        ("late bean", "garden.yaml", 8),
        ("oca", "garden.yaml", 12),
        ("tomato", "garden.yaml", 15),
        ("tomato", "garden.yaml", 16),
    ]
    assert own[0]["days_to_harvest"] == [47, 52]
    assert own[1]["names"] == []
    assert (own[2]["sow_every"], own[2]["sown_once"]) == (None, None)
    assert {crop["name"] for crop in built_in} == set(library.names())
    assert {(crop["file"], crop["line"]) for crop in built_in} == {(None, None)}
    rows = {row.field: row.value for row in library.rows("bush bean")}
    (bean,) = (crop for crop in built_in if crop["name"] == "bush bean")
    assert "-".join(str(day) for day in bean["days_to_harvest"]) == rows["days_to_harvest"]
    assert bean["names"] == rows["names"].split(", ")
    assert next(each for each in built_in if each["name"] == "radish")["sow_every"] == [7, 10]
    winters = {cover["name"]: cover["winter"] for cover in found["cover_crops"]}
    assert (winters["buckwheat"], winters["winter rye"]) == ("killed", "stands")
    once = [crop for crop in built_in if crop["sown_once"]]
    assert once
    assert all(crop["sow_every"] is None for crop in once)


def test_a_card_as_json_has_every_row_as_it_is_written(empty: Run) -> None:
    for name in (*library.names(), *library.cover_names()):
        card = read(empty(name, "--format", "json"))
        assert set(card) == CARD
        assert card["varieties"] is None
        assert {frozenset(each) for each in card["figures"]} == {FIGURE}
        found = {(f["field"], f["value"], f["unit"], f["source"]) for f in card["figures"]}
        for row in library.rows(name):
            unit = None if row.unit == "-" else row.unit
            assert (row.field, row.value, unit, row.source) in found


def test_a_card_as_json_of_what_the_file_changes(here: Run) -> None:
    card = read(here("late bean", "--format", "json"))
    assert (card["crop"], card["variety"]) == ("late bean", "Dusk")
    assert (card["built_in"], card["like"], card["names"]) == ("bush bean", "bush bean", [])
    picked = figure(card, "picking_days")
    assert (picked["value"], picked["unit"]) == ("12", "days")
    assert (picked["file"], picked["line"]) == ("garden.yaml", 11)
    assert (picked["source"], picked["citation"], picked["note"]) == (None, None, None)
    assert set(picked["built_in"]) == BUILT_IN
    (row,) = (row for row in library.rows("bush bean") if row.field == "picking_days")
    assert (picked["built_in"]["value"], picked["built_in"]["source"]) == (row.value, row.source)
    # 12 days of picking are all it needs to be picked for: a rule, not a figure of the table.
    worth = figure(card, "worthwhile_days")
    assert (worth["value"], worth["citation"]) == ("12", "sowtide's own rule")
    assert figure(card, "germination")["citation"] == "sowtide's own estimate"


def test_what_nobody_knows_is_null(here: Run) -> None:
    card = read(here("oca", "--format", "json"))
    assert (card["built_in"], card["like"]) == (None, None)
    unknown = figure(card, "soil_min")
    assert {name: unknown[name] for name in FIGURE - {"field", "label"}} == dict.fromkeys(
        FIGURE - {"field", "label"}
    )


def test_several_crops_of_a_name_stand_beside_the_first(here: Run) -> None:
    card = read(here("bush bean", "--format", "json"))
    assert set(card) == CARD
    assert [each["crop"] for each in card["varieties"]] == ["bush bean", "late bean"]
    assert {k: card[k] for k in card["varieties"][0]} == card["varieties"][0]


def _table(result: tuple[int, str]) -> list[dict[str, str]]:
    code, text = result
    assert code == 0
    return list(csv.DictReader(io.StringIO(text)))


def test_the_list_as_csv(here: Run) -> None:
    rows = _table(here("--format", "csv"))
    assert {tuple(row) for row in rows} == {LIST_COLUMNS}
    assert len(rows) == 5 + len(library.names()) + 6
    bean, rye = rows[0], rows[-1]
    assert (bean["name"], bean["days_to_harvest"], bean["line"]) == ("bush bean", "47-52", "7")
    assert (rye["name"], rye["use"], rye["sow_before_frost"]) == ("winter rye", "cover crop", "-14")
    assert {row["use"] for row in rows} == {"crop", "cover crop"}


def test_a_card_as_csv(here: Run) -> None:
    rows = _table(here("bush bean", "--format", "csv"))
    assert {tuple(row) for row in rows} == {CARD_COLUMNS}
    assert {row["crop"] for row in rows} == {"bush bean", "late bean"}
    days = next(row for row in rows if row["field"] == "days_to_harvest")
    assert (days["value"], days["file"], days["line"]) == ("47-52", "garden.yaml", "7")
    assert days["built_in_unit"] == "days"
    assert days["built_in_source"] != ""
    assert _table(here("oat", "--format", "csv"))[0]["crop"] == "oat"
