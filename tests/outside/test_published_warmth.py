"""Temperatures for growth, heat bases and heat limits beside the published tables."""

from __future__ import annotations

import pytest

import published_tables
from published_tables import Table, span
from sowtide.garden.crop import Weather
from sowtide.garden.library import builtin as library
from sowtide.garden.library.table import Row
from sowtide.garden.varieties import built_in_crop
from sowtide.units import celsius

KNOTT = published_tables.table("knott-monthly-means")
ECOCROP = published_tables.table("fao-ecocrop-temperatures")


def _celsius(row: Row) -> float:
    return celsius(float(row.value)) if row.unit == "°F" else float(row.value)


def test_growth_is_knotts_row_by_row() -> None:
    assert len(KNOTT.lines) >= 60
    found = published_tables.complaints(KNOTT, published_tables.same)
    assert found == []
    for field in KNOTT.columns:
        for crop, row in published_tables.claims(field, KNOTT.source):
            assert row.unit == "°F", crop


def test_growth_is_ecocrops_where_knott_has_none_and_told_where_he_has() -> None:
    def same(figure: str, row: Row) -> bool:
        return row.source == ECOCROP.source and published_tables.same(figure, row)

    knotts = {line.crop for line in KNOTT.lines}
    for line in ECOCROP.lines:
        assert not line.kept, line.place
        for field, column in ECOCROP.columns.items():
            row = published_tables.row_of(line.crop, field)
            assert row is not None, line.place
            assert (line.crop in knotts) != (row.source == ECOCROP.source), line.place
            if row.source == ECOCROP.source:
                assert same(line.figures[column], row), line.place
                assert row.unit == "°C", line.place
            else:
                figure = line.figures[column].replace("-", "\N{EN DASH}")
                assert row.note == f"FAO Ecocrop {figure} °C", line.place


def test_knott_and_ecocrop_agree_on_where_crops_grow_best() -> None:
    # Both read from their tables; Knott's months in °F. Their best ranges meet, within 3 °C.
    best = {line.crop: span(line.figures["best"]) for line in ECOCROP.lines}
    for line in KNOTT.lines:
        if line.crop in best:
            low, high = (celsius(end) for end in span(line.figures["best"]))
            least, most = best[line.crop]
            assert least - 3 <= high, line.crop
            assert low <= most + 3, line.crop


def test_cool_crops_are_those_that_knott_puts_under_75_fahrenheit() -> None:
    for line in KNOTT.lines:
        weather = published_tables.row_of(line.crop, "weather")
        assert weather is not None
        low, _ = span(line.figures["best"])
        if int(line.figures["least"]) >= 50:
            assert weather.value == Weather.WARM.value, line.crop
        else:
            assert (weather.value, low <= 60) == (Weather.COOL.value, True), line.crop


def test_heat_spoils_what_knott_puts_at_75_fahrenheit() -> None:
    most = {line.crop: line.figures["most"] for line in KNOTT.lines}
    claimed = dict(published_tables.claims("warm_limit", KNOTT.source))
    assert len(claimed) >= 25
    for crop, row in claimed.items():
        line = published_tables.line_of(KNOTT, crop, row)
        assert line is not None, crop
        assert (row.value, row.unit) == ("75", "°F") == (line.figures["most"], "°F"), crop
    # These stand the summer or are eaten with its marks; common practice, no source
    stand = {"carrot", "chard", "kale", "collard", "parsnip", "celeriac"}
    stand |= {"parsley", "sprouting broccoli"}
    spoilt = {crop for crop, figure in most.items() if figure == "75"}
    assert spoilt - set(claimed) == stand


def test_crops_are_rated_where_they_grow_well() -> None:
    # The point is the library's own; the range is Knott's, widened by 3 °F
    for line in KNOTT.lines:
        rated = published_tables.row_of(line.crop, "rated_at")
        assert rated is not None, line.crop
        low, high = span(line.figures["best"])
        assert low - 3 <= float(rated.value) <= high + 3, line.crop


@pytest.mark.parametrize("table", published_tables.of("heat_base"), ids=lambda table: table.name)
def test_heat_bases_and_heat_units(table: Table) -> None:
    published = (lambda figure: float(figure)) if table.head["unit"] == "°C" else celsius_of

    def near(figure: str, row: Row) -> bool:
        if row.field == "heat_units":
            return published_tables.same(figure, row)
        apart = abs(published(figure) - _celsius(row))
        return apart <= (8 if table.head["agrees"] == "within 8 °C" else 0.01)

    def same(figure: str, row: Row) -> bool:
        return published_tables.same(figure, row) and row.unit.startswith(table.head["unit"])

    assert published_tables.complaints(table, near, same) == []
    for field in table.columns:
        for crop, row in published_tables.claims(field, table.source):
            line = published_tables.line_of(table, crop, row)
            assert line is not None, crop
            assert same(line.figures[table.columns[field]], row), crop


def celsius_of(figure: str) -> float:
    """Return a published temperature in °F as °C."""
    return celsius(float(figure))


def test_cold_that_makes_plants_bolt_is_ecocrops_within_a_degree() -> None:
    def near(figure: str, row: Row) -> bool:
        if row.field == "chill_days":
            return published_tables.same(figure, row)
        return _celsius(row) == pytest.approx(float(figure), abs=1 / 1.8)

    (table,) = published_tables.of("chill_limit")
    assert published_tables.complaints(table, near) == []
    for field, column in table.columns.items():
        for crop, row in published_tables.claims(field, table.source):
            line = published_tables.line_of(table, crop, row)
            assert line is not None, crop
            least, _ = span(line.figures[column])  # of a range, the fewest days
            assert near(f"{least:g}", row), crop


def test_heat_that_keeps_flowers_from_setting_is_cornells() -> None:
    (table,) = published_tables.of("fruit_set_high")
    assert published_tables.complaints(table, published_tables.same) == []
    for field in ("fruit_set_high", "fruit_set_low"):
        claims = {crop for crop, _ in published_tables.claims(field, table.source)}
        assert claims == {line.crop for line in table.lines}


def test_the_engine_has_the_bases_in_celsius() -> None:
    # North Carolina State: bean 50 °F, cabbage 40; SWAT+: broccoli 4 °C, eggplant 15
    for name, base in {"bush bean": 10.0, "cabbage": 40 / 9, "broccoli": 4, "eggplant": 15}.items():
        found = library.find(name)
        assert found is not None
        assert built_in_crop(found).heat.base == pytest.approx(base)


def test_no_crop_grows_by_heat_below_what_ecocrop_says_it_grows_at() -> None:
    # A base lies near the least temperature for growth: within 7 °C, of whichever source. Ecocrop's
    # shallot is one of the tropics; the library's has the base of onion.
    for line in ECOCROP.lines:
        if line.crop == "shallot":
            continue
        base = published_tables.row_of(line.crop, "heat_base")
        if base is not None:
            assert _celsius(base) == pytest.approx(float(line.figures["least"]), abs=7), line.crop
