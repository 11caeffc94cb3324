"""The published tables are sound, and every published figure of the library stands in one."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

import published_tables
from published_tables import Line, Table
from sowtide.garden.library import builtin as library
from sowtide.garden.library.table import Row

TABLES = published_tables.tables()
NO_TABLE = {"memory", "practice", "sowtide"}
"""Sources that publish nothing."""

# Each is compared with its tables by one of the modules test_published_*.
COMPARED = {
    *("days_to_harvest", "picking_days", "nursery_days"),
    *("fruit_set_high", "fruit_set_low"),
    *("days_before_frost", "days_after_frost", "chill_limit", "chill_days"),
    *("emergence", "germinates", "soil_min", "soil_best", "soil_max"),
    *("growth_least", "growth_best", "growth_most", "heat_base", "heat_upper", "heat_units"),
    *("curve_base", "curve_best", "curve_ceiling"),
    *("hardiness", "killed_at", "seeds_per_gram", "germination", "botanical_family"),
    *("in_row", "between_rows", "spacing_rows", "yield_per_row", "yield_per_area", "sow_every"),
}


def test_there_is_a_table_for_everything_compared() -> None:
    assert {field for table in TABLES for field in table.columns} == COMPARED


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.name)
def test_a_table_says_what_it_is(table: Table) -> None:
    assert "Trust: " in table.prose
    assert len(table.prose.splitlines()) >= 3, "title with publisher, figures, trust"
    assert table.head["agrees"]
    assert "called" in table.head or "named" not in table.head
    assert table.lines
    for line in table.lines:
        assert line.crop.strip() == line.crop != "", line.place
        assert line.printed.strip() == line.printed != "", line.place
        assert line.kept.strip() == line.kept, line.place
        assert all(figure.strip() == figure != "" for figure in line.figures.values()), line.place


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.name)
def test_no_row_stands_twice(table: Table) -> None:
    rows = [(line.crop, line.printed) for line in table.lines]
    assert len(rows) == len(set(rows))


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.name)
def test_crops_go_by_the_librarys_names(table: Table) -> None:
    for line in table.lines:
        known = line.crop in library.names()
        assert known == (line.kept != published_tables.NO_CROP), line.place


@pytest.mark.parametrize("field", sorted(COMPARED))
def test_every_published_figure_stands_in_its_table(field: str) -> None:
    for source in sorted(set(library.source_keys()) - NO_TABLE):
        tables = [table for table in published_tables.of(field) if table.source == source]
        for crop, row in published_tables.claims(field, source):
            lines = [published_tables.line_of(table, crop, row) for table in tables]
            assert any(lines), f"{crop}: {field} of {source}: {row.note!r}"


FIGURE = r"(\d[\d.]*(?:\N{EN DASH}[\d.]+)?(?: \N{MULTIPLICATION SIGN} [\d.\N{EN DASH}]+)?)"


@pytest.mark.parametrize(
    "table", [each for each in TABLES if "called" in each.head], ids=lambda table: table.name
)
def test_what_notes_tell_of_a_source_is_what_it_has(table: Table) -> None:
    named = re.compile(rf"{re.escape(table.head['called'])}(?: about)? {FIGURE}")
    for field in table.columns:
        for crop in library.names():
            row = published_tables.row_of(crop, field)
            for told in named.findall(row.note) if row is not None else ():
                assert told in _figures(table.head["called"], field, crop), f"{crop}: {row}"


def _figures(called: str, field: str, crop: str) -> set[str]:
    """Return a publisher's figures of a crop, or, if it has none, of its relatives, as notes do."""
    tables = [each for each in published_tables.of(field) if each.head.get("called") == called]
    lines = [line for each in tables for line in each.lines]
    of_crop = [line for line in lines if line.crop == crop] or lines
    written = {
        figure.replace("-", "\N{EN DASH}").replace("x", "\N{MULTIPLICATION SIGN}")
        for line in of_crop
        for figure in line.figures.values()
    }
    return written | {end for figure in written for end in figure.split("\N{EN DASH}")}


# The comparison itself


def _table(kept: str = "", crop: str = "pea", days: str = "58-77", **head: str) -> Table:
    line = Line(crop, "row", {"days": days}, kept, "here")
    head = {"source": "another", "called": "NDSU", "agrees": "exactly", **head}
    return Table("made", "", head, {"days_to_harvest": "days"}, (line,))


def _complaints(table: Table) -> list[str]:
    return published_tables.complaints(table, published_tables.same)


def test_agreement_is_no_complaint_and_needs_no_reason() -> None:
    assert _complaints(_table()) == []
    assert "agrees, yet" in _complaints(_table(kept="a reason"))[0]


def test_another_figure_needs_a_reason() -> None:
    assert "no reason is given" in _complaints(_table(days="50-77"))[0]
    assert _complaints(_table(days="50-77", kept="a reason")) == []


def test_what_claims_a_source_has_its_figure_or_tells_it() -> None:
    claiming = _table(days="50-77", kept="a reason", source="ndsu-h912")
    assert "claims this source" in _complaints(claiming)[0]
    told = _table(days="70-80", kept="a reason", source="ndsu-h912")  # Minnesota's, in the note
    assert _complaints(told) == []
    # the other row of the same crop is the one claimed
    both = replace(claiming, lines=(*claiming.lines, *_table().lines))
    assert _complaints(both) == []


def test_a_note_names_the_other_figures_or_who_has_them() -> None:
    unnamed = _table(days="50-77", kept="a reason", named="yes")
    assert "published 50-77" in _complaints(unnamed)[0]
    assert _complaints(_table(days="70-80", kept="a reason", named="yes")) == []
    assert _complaints(_table(days="1", kept="a reason", named="yes", called="Minnesota")) == []
    untold = f"{published_tables.UNTOLD}a reason"
    assert _complaints(_table(days="50-77", kept=untold, named="yes")) == []
    assert _complaints(_table(days="70-80", kept=untold, named="yes")) != []  # it is told
    assert _complaints(_table(days="60-77", kept="within", named="yes")) == []
    other = f"{published_tables.ANOTHER_THING}pea shoots"
    assert _complaints(_table(days="50-77", kept=other, named="yes")) == []


def test_what_the_library_lacks_is_marked_and_lacking() -> None:
    assert _complaints(_table(crop="asparagus")) != []
    assert _complaints(_table(crop="asparagus", kept=published_tables.NO_CROP)) == []
    assert _complaints(_table(kept=published_tables.NO_CROP)) != []
    assert _complaints(_table(kept=published_tables.NO_FIGURE)) != []
    unheard = replace(
        _table(kept=published_tables.NO_FIGURE, crop="radish"), columns={"heat_units": "days"}
    )
    assert _complaints(unheard) == []
    assert _complaints(replace(_table(crop="radish"), columns={"heat_units": "days"})) != []


@pytest.mark.parametrize(
    ("figure", "value", "same", "overlaps", "twofold"),
    [
        ("46-65", "46-65", True, True, True),
        ("46-65", "65-70", False, True, True),
        ("46-65", "66-70", False, False, True),
        ("10", "20", False, False, True),
        ("10", "21", False, False, False),
        ("20", "9.9", False, False, False),
        ("-40", "-40", True, True, True),
    ],
)
def test_ranges_are_compared(
    figure: str, value: str, same: bool, overlaps: bool, twofold: bool
) -> None:
    row = Row("days_to_harvest", value, "days", "memory", "")
    assert published_tables.same(figure, row) == same
    assert published_tables.overlaps(figure, row) == overlaps
    assert published_tables.within_factor(2)(figure, row) == twofold


def test_a_borrowed_row_is_found_by_what_its_note_calls_it() -> None:
    table = published_tables.table("harrington-minges-1954-emergence")
    for note, printed in {
        "at 68 °F; the row of cabbage, a near relative": "cabbage",
        "the row of snap bean, the same species": "bean, snap",
        "the row of muskmelon": "muskmelon",
    }.items():
        row = Row("up_days", "6", "days", "harrington-minges-1954", note)
        found = published_tables.line_of(table, "mizuna", row)
        assert found is not None
        assert found.printed == printed
    assert published_tables.line_of(table, "mizuna", replace(row, note="")) is None
