"""Spacing, yields and the days between sowings beside the published tables."""

from __future__ import annotations

from dataclasses import replace

import pytest

import published_tables
from published_tables import Table, span
from sowtide.garden.library import builtin as library
from sowtide.garden.library import yield_of
from sowtide.garden.library.table import Row
from sowtide.garden.varieties import built_in_crop
from sowtide.units import KILOGRAMS

MICROMETRES_AN_INCH = 25_400
SQUARE_FEET_AN_ACRE = 43_560


def _wider(figure: str, row: Row) -> bool:
    return row.unit == "in" and float(row.value) == span(figure)[1]


def test_beds_are_planted_at_arizonas_wider_figure() -> None:
    table = published_tables.table("arizona-intensive")
    assert len(table.lines) >= 45
    assert published_tables.complaints(table, _wider) == []
    for line in table.lines:
        row = published_tables.row_of(line.crop, "in_row")
        assert row is not None
        both = line.figures["inches"].replace("-", "\N{EN DASH}")
        assert f"{both} in each way, the wider" in row.note, line.place


def test_beds_are_planted_at_kansas_states_figure_where_arizona_has_none() -> None:
    table = published_tables.table("kstate-intensive")
    arizonas = {line.crop for line in published_tables.table("arizona-intensive").lines}

    def near(figure: str, row: Row) -> bool:
        if row.source != "arizona-intensive":
            return _wider(figure, row)
        return span(figure)[0] / 2 <= float(row.value) <= 2 * span(figure)[1]

    assert published_tables.complaints(table, near, lambda *_: True) == []
    claimed = {crop for crop, _ in published_tables.claims("in_row", table.source)}
    assert claimed == {line.crop for line in table.lines if not line.kept} - arizonas


def test_the_engine_has_spacing_in_micrometres() -> None:
    found = library.find("bush bean")
    assert found is not None
    crop = built_in_crop(found)
    assert crop.in_row == crop.between_rows == 6 * MICROMETRES_AN_INCH


@pytest.mark.parametrize("table", published_tables.of("spacing_rows"), ids=lambda table: table.name)
def test_spacing_in_rows(table: Table) -> None:
    def same(figure: str, row: Row) -> bool:
        return row.unit == "in" and row.value == figure

    assert published_tables.complaints(table, same) == []
    for field in ("spacing_trained", "spacing_sprawling", "spacing_earthed"):
        for crop, row in published_tables.claims(field, table.source):
            assert row.value in _of_kind(table, crop), crop


def _of_kind(table: Table, crop: str) -> set[str]:
    """Return the figures of a crop and of its other kinds, such as tomatoes staked or not."""
    kinds = {line.printed.split(",")[0] for line in table.lines if line.crop == crop}
    return {line.figures["inches"] for line in table.lines if line.printed.split(",")[0] in kinds}


# Yields are an order of magnitude only


@pytest.mark.parametrize(
    "table", published_tables.of("yield_per_row"), ids=lambda table: table.name
)
def test_yields(table: Table) -> None:
    assert table.head["agrees"] == "within a factor of 4"
    agrees = published_tables.agreement(table)
    units = {line.crop: line.figures.get("of", "lb") for line in table.lines}

    def near(crop: str) -> published_tables.Agrees:
        unit = f"{units[crop]}/10 ft"
        return lambda figure, row: row.unit == unit and agrees(figure, row)

    for line in table.lines:
        alone = replace(table, lines=(line,))
        assert published_tables.complaints(alone, near(line.crop), lambda *_: True) == []
    for crop, row in published_tables.claims("yield_per_row", table.source):
        (line,) = (each for each in table.lines if each.crop == crop)
        low, high = span(line.figures[table.columns["yield_per_row"]])
        least, most = span(row.value)
        assert least <= low <= high <= most, crop


def test_new_englands_pounds_an_acre_are_worked_out_rightly() -> None:
    lines = published_tables.table("new-england-table-15").lines
    assert len(lines) >= 16
    for line in lines:
        low, _, high = line.figures["acre"].split("-")
        feet = int(line.figures["rows"]) / 12
        worked = [int(acre) * 10 * feet / SQUARE_FEET_AN_ACRE for acre in (low, high)]
        assert span(line.figures["pounds"]) == pytest.approx(worked, abs=0.05), line.place


def test_a_hundred_feet_of_row_bring_what_new_england_has() -> None:
    # Plants of a hundred feet, on the rows of the table, times what the engine has a plant give:
    # from its low to its excellent, or beyond where Kansas State's gardens bring more.
    for line in published_tables.table("new-england-table-15").lines:
        found = library.find(line.crop)
        assert found is not None
        apart = int(line.figures["rows"]) * MICROMETRES_AN_INCH
        crop = replace(built_in_crop(found), between_rows=apart)
        known = yield_of(crop)
        assert known is not None
        plants = 100 * 12 * MICROMETRES_AN_INCH / crop.in_row / float(KILOGRAMS["lb"])
        low, high = (10 * figure for figure in span(line.figures["pounds"]))
        assert known.gives.low * plants <= 1.01 * low, line.place
        assert high <= 1.01 * known.gives.high * plants, line.place
        assert low <= known.gives.middle * plants <= 1.3 * high, line.place


def test_yields_by_area_are_ecocrops() -> None:
    def same(tonnes: str, row: Row) -> bool:
        kilograms = [each / 10 for each in span(tonnes)]  # a tonne a hectare is 0.1 kg/m²
        return row.unit == "kg/m²" and list(span(row.value)) == pytest.approx(kilograms)

    (table,) = published_tables.of("yield_per_area")
    assert published_tables.complaints(table, same) == []


@pytest.mark.parametrize("table", published_tables.of("sow_every"), ids=lambda table: table.name)
def test_days_between_sowings(table: Table) -> None:
    def same(figure: str, row: Row) -> bool:
        return row.value != "once" and row.unit == "days" and published_tables.same(figure, row)

    assert published_tables.complaints(table, same) == []
