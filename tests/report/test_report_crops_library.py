"""The card of every built-in crop shows every row of the table, with its unit and its source."""

from __future__ import annotations

import re

import pytest
from rich.cells import cell_len

import gardens
from printed import card_text, cover_text, crops_text
from sowtide.garden.library import CROP_FIELDS
from sowtide.garden.library import builtin as library
from sowtide.garden.library.table import Row
from sowtide.garden.planting_times import planting_times, ready_time, seed_time
from sowtide.garden.varieties import built_in_crop
from sowtide.report.card.values import chore
from sowtide.units import Units

COVERS = library.cover_names()
EVERY = pytest.mark.parametrize("name", [*library.names(), *COVERS])
LABELS = {field.name: field.label for field in CROP_FIELDS.values()}
VALUES = 26
"""Where values begin on a card of 80 columns. [cells]"""

METRIC = gardens.read(gardens.text())
SAID = {
    "practice": "common practice, no source",
    "memory": "from memory",
    "sowtide": "sowtide's own estimate",
}
# Words of the table that a card says otherwise, and how.
WORDED = {
    ("raised", "direct"): "sown direct",
    ("raised", "trays"): "raised in trays",
    ("raised", "either"): "sown direct or raised in trays",
    ("after_frost", "ends"): "it is over",
    ("after_frost", "stands"): "it stands",
    ("after_frost", "bring in"): "bring it in",
    ("overwinters", "yes"): "stands to the next season",
    ("needs_bees", "yes"): "needed",
    ("root", "yes"): "a root, which such heat makes tough",
    ("sow_every", "once"): "sown or planted once",
    ("winter", "killed"): "killed by frost",
    ("winter", "stands"): "it stands",
    ("picking_days", "1"): "cut or lifted once",
    ("sow_after_frost", "0"): "the day of the average last frost",
    ("days_before_frost", "0"): "the day of the average last frost",
}


def card(name: str, width: int = 80, *, metric: bool = False) -> list[str]:
    units = Units.METRIC if metric else None
    if name in COVERS:
        return list(cover_text(name, units, width=width))
    found = library.find(name)
    assert found is not None
    garden = METRIC if metric else None
    return list(card_text([built_in_crop(found)], garden, width=width))


def blocks(lines: list[str]) -> dict[str, str]:
    """Return what stands right of each label of a card, the lines below it too."""
    found: dict[str, str] = {}
    label = ""
    for line in lines:
        if line[:VALUES].strip():
            label = line[:VALUES].rstrip()
        found[label] = f"{found.get(label, '')} {line[VALUES:].strip()}".strip()
    return found


def foot(lines: list[str]) -> int:
    return lines.index("SOURCES") if "SOURCES" in lines else len(lines)


def told(row: Row) -> str:
    """Return how a card must say the value of a row."""
    if (row.field, row.value) in WORDED:
        return WORDED[row.field, row.value]
    value = row.value.replace("-", "–")
    if row.field == "chore":
        return chore(row.value)[1]
    if row.field in ("days_before_frost", "sow_before_frost", "sow_after_frost"):
        days = int(row.value) * (-1 if row.field == "sow_after_frost" else 1)
        frost = "first" if row.field == "sow_before_frost" else "last"
        return f"{abs(days)} days {'after' if days < 0 else 'before'} the average {frost} frost"
    if row.field == "holding_days" and "-" in row.value:
        warm, cool = row.value.split("-")
        return f"{warm} {'day' if warm == '1' else 'days'} in warm weather, {cool} in cool"
    if row.field.startswith("spacing_"):
        in_row, between = value.split(" x ")
        return f"{in_row} {row.unit}, rows {between} {row.unit} apart"
    if row.field == "killed_at":
        return f"about {row.value} {row.unit}"
    if row.field == "days_by_sort":
        return f"{value.replace(': ', ' ')} days"
    if row.field == "planted_in":
        return "; ".join(map(str, planting_times(row.value)))
    if row.field == "ready_about":
        return str(ready_time(row.value))
    if row.field == "runs_to_seed":
        return str(seed_time(row.value))
    if row.unit == "-":
        return row.value
    unit = {"h": "hours"}.get(row.unit, row.unit)
    return f"{value} {unit[:-1] if value == '1' and unit in ('days', 'years') else unit}"


@EVERY
def test_a_card_has_value_unit_source_and_note_of_every_row(name: str) -> None:
    lines = card(name)
    cited = " ".join(lines[foot(lines) + 1 :])
    numbers = {key: f"[{n}]" for n, key in re.findall(r"\[(\d+)\] .*?\(([\w-]+)\)(?= \[|$)", cited)}
    sources = SAID | numbers
    found = blocks(lines[: foot(lines)])
    places = tuple(LABELS)
    rows = sorted(library.rows(name), key=lambda row: places.index(row.field))
    of_chores = " ".join(line for line in lines if line.startswith("CHORES"))
    for row in rows:
        if row.field in ("emergence", "germinates"):
            continue
        label = chore(row.value)[0] if row.field == "chore" else LABELS[row.field]
        assert told(row) in found[label], row
        assert sources[row.source] in found[label] + of_chores, row
        before = rows[rows.index(row) - 1]
        if row.note != before.note:  # neighbours that share a note say it once
            assert row.note in found[label], row


@EVERY
def test_figures_measured_at_temperatures_stand_in_columns(name: str) -> None:
    lines = card(name)
    for row in library.rows(name):
        if row.field not in ("emergence", "germinates"):
            continue
        points = dict(point.split(": ") for point in row.value.split(", "))
        (line,) = (line for line in lines if line.startswith(LABELS[row.field]))
        above = lines[: lines.index(line)]
        (heads,) = (each for each in above if each.startswith("soil at, °F"))
        ends = {match[0]: match.end() for match in re.finditer(r"\d+", heads)}
        assert points.keys() <= ends.keys()
        for at, figure in points.items():
            assert line[: ends[at]].split()[-1] == figure
            assert line[ends[at] : ends[at] + 1] in ("", " ")


@EVERY
@pytest.mark.parametrize("metric", [False, True])
def test_a_card_keeps_to_its_width(name: str, metric: bool) -> None:
    for width in (60, 80, 120, 140):
        lines = card(name, width, metric=metric)
        assert [line for line in lines if cell_len(line) > width] == []
        assert [line for line in lines if line != line.rstrip()] == []


@EVERY
def test_a_metric_garden_gets_metric_figures_with_the_published_ones_in_brackets(name: str) -> None:
    text = " ".join(" ".join(card(name, metric=True)).split())
    found = blocks(card(name, metric=True))
    for row in library.rows(name):
        if row.unit == "in":
            assert " cm" in found[LABELS[row.field]]
            assert f"{row.value.replace('-', '–').replace(' x ', ' × ')} in)" in text
        if row.unit == "°F":
            assert re.search(r"-?\d °C \(-?[\d–]+ °F\)", found[LABELS[row.field]]), row


def test_every_label_stands_clear_of_what_is_right_of_it() -> None:
    assert max(map(len, LABELS.values())) < VALUES
    stages = ("sow", "up", "plant", "flower", "first pick", "picking", "pull out", "dig in")
    assert max(len(chore(f"{stage}{on}: do it")[0]) for stage in stages for on in ("", " +99")) < 26


@EVERY
def test_a_yield_is_said_to_be_unknown_only_where_there_is_none(name: str) -> None:
    known = any(row.field.startswith("yield_") for row in library.rows(name)) or name in COVERS
    assert ("yield of a row            not known" in card(name)) is not known


def test_every_field_of_the_table_has_a_place_on_the_card() -> None:
    names = (*library.names(), *COVERS)
    assert {row.field for name in names for row in library.rows(name)} <= set(LABELS)


@pytest.mark.parametrize("width", [60, 80, 120, 140])
@pytest.mark.parametrize("garden", [None, METRIC])
def test_the_list_names_every_crop_and_keeps_to_its_width(garden: object, width: int) -> None:
    lines = list(crops_text(METRIC if garden else None, width=width))
    assert [line for line in lines if cell_len(line) > width] == []
    assert [line for line in lines if line != line.rstrip()] == []
    for name in (*library.names(), *COVERS):
        assert any(re.match(rf" *{re.escape(name)}(  |$)", line) for line in lines), name
    assert any("rocket" in line for line in lines) is (width >= 120)


def test_the_list_has_the_figures_of_the_table() -> None:
    lines = list(crops_text(None, width=80))
    for name in library.names():
        rows = {row.field: row.value for row in library.rows(name)}
        (line,) = (line for line in lines if line.startswith(f"  {name}  "))
        every = rows.get("sow_every", "not known").replace("-", "–")
        assert re.split(r"  +", line.strip()) == [
            name,
            rows["days_to_harvest"].replace("-", "–"),
            rows["counted_from"],
            rows["raised"],
            rows["hardiness"],
            every if every in ("once", "not known") else f"{every} days",
        ]
        above = lines[: lines.index(line)]
        family = next(each for each in reversed(above) if not each.startswith(" "))
        assert family == rows["family"]
