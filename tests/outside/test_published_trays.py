"""Weeks in trays, and the first planting before the last frost, beside the published tables."""

from __future__ import annotations

from datetime import date

import pytest

import gardens
import published_tables
from published_tables import Table, span
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.library import builtin as library
from sowtide.garden.library.table import Row
from sowtide.garden.planting_times import YearMark
from sowtide.garden.varieties import built_in_crop


def _weeks(figure: str) -> str:
    low, high = span(figure)
    return f"{7 * low:g}-{7 * high:g}"


@pytest.mark.parametrize("table", published_tables.of("nursery_days"), ids=lambda table: table.name)
def test_weeks_in_trays(table: Table) -> None:
    agrees = published_tables.agreement(table)

    def near(figure: str, row: Row) -> bool:
        return agrees(_weeks(figure), row)

    def same(figure: str, row: Row) -> bool:
        return published_tables.same(_weeks(figure), row)

    assert published_tables.complaints(table, near, same) == []


def test_tray_days_are_whole_weeks() -> None:
    for crop in library.names():
        row = published_tables.row_of(crop, "nursery_days")
        if row is not None:
            assert all(end % 7 == 0 for end in span(row.value)), crop


def test_most_crops_spend_about_six_weeks_in_trays_and_vines_three() -> None:
    # Virginia Cooperative Extension, read in a newspaper's copy: a rule of thumb
    for family, weeks in {"squash family": 3, "cabbage family": 6, "nightshade family": 6}.items():
        middles = [
            sum(span(row.value)) / 14
            for crop in library.names()
            if (row := published_tables.row_of(crop, "nursery_days"))
            and _built_in(crop).family == family
        ]
        assert sum(middles) / len(middles) == pytest.approx(weeks, abs=1.5), family


# Days before the average last frost


@pytest.mark.parametrize("name", ["vce-426-331", "vce-426-331-tender", "usu-spring-classes"])
def test_days_from_the_last_frost(name: str) -> None:
    def agrees(figure: str, row: Row) -> bool:
        least = min(abs(end) for end in span(figure))  # the later, the safer
        return least == int(row.value)

    table = published_tables.table(name)
    assert published_tables.complaints(table, agrees) == []
    for field, column in table.columns.items():
        for crop, row in published_tables.claims(field, table.source):
            line = published_tables.line_of(
                table, crop, row
            )  # a relative's, where the note says so
            assert line is None or agrees(line.figures[column], row), crop


def _earliest(crop: Crop, last: date, sure: str) -> int:
    """Return the days from the average last frost to the first planting day of the whole engine."""
    frost = f"{{last: {last:%m-%d}, first: 10-15}}"
    conditions = gardens.season(gardens.text(frost=frost, sure=sure, latitude=38)).conditions
    raised = Raised.DIRECT if crop.raised is Raised.EITHER else crop.raised
    return (conditions.prospects(crop, raised).earliest.day - last).days


def _built_in(name: str) -> Crop:
    found = library.find(name)
    assert found is not None
    return built_in_crop(found)


LAST_FROSTS = [date(2026, 4, 1), date(2026, 4, 20), date(2026, 5, 15)]


@pytest.mark.parametrize("last", LAST_FROSTS, ids=str)
@pytest.mark.parametrize("sure", ["50%", "80%"])
def test_virginias_first_plantings_come_out_of_the_engine(last: date, sure: str) -> None:
    # Virginia Cooperative Extension 426-331, 2006: beet and cabbage plants 40 days before the
    # average last frost, broccoli and Brussels sprouts plants 30. No odds move them.
    lines = published_tables.table("vce-426-331").lines
    hardy = [line for line in lines if int(line.figures["first"]) <= -30]
    assert len(hardy) == 4
    for line in hardy:
        crop = _built_in(line.crop)
        assert _earliest(crop, last, sure) == int(line.figures["first"]), line.crop


@pytest.mark.parametrize("last", LAST_FROSTS, ids=str)
def test_virginias_first_beans_come_out_of_the_engine(last: date) -> None:
    # The same: bush and pole bean from the column of 10 days before. No rule of ours says so: at
    # even odds they may be sown as many days before the average as they take to come up, 11.
    columns = {
        line.crop: line.figures["first"] for line in published_tables.table("vce-426-331").lines
    }
    for name in ("bush bean", "pole bean"):
        assert _earliest(_built_in(name), last, "50%") == pytest.approx(int(columns[name]), abs=3)
    # Lima beans from the column of 20 days after, which holds for four years in five
    assert 0 <= _earliest(_built_in("lima bean"), last, "80%") - int(columns["lima bean"]) < 10


def test_no_day_counts_from_anything_but_the_last_frost() -> None:
    for name in library.names():
        crop = _built_in(name)
        if crop.planted_in and crop.planted_in[0].first.mark is not YearMark.LAST_FROST:
            continue  # corn salad is sown after the summer, sprouting broccoli goes out about it
        assert len({_earliest(crop, last, "80%") for last in LAST_FROSTS}) == 1, name
