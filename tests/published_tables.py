"""Published tables beside the library: each is one file, with what it says and how far to trust it.

The files stand in ``published``, tab-separated, a source and a subject to each. Lines that begin
with ``#`` are its head: title, publisher and year, what its figures are, how far it is trusted,
and, as ``key: value``,

- ``source``: its key among the library's sources, if the library claims it;
- ``field``: the library's field that a column is compared with, ``days_to_harvest = days``;
- ``agrees``: how near the library must be;
- ``called``: what the library's notes call it;
- ``named``: ``yes`` if a note must name it, or its figure, wherever the library has another range
  that does not hold it.

The first column is the library's crop, the second the row as the source has it. The last, ``kept``,
is empty where the library must agree; a reason where it keeps another figure, which must then
really differ; or that the library has no such crop or figure, which then must be so. A reason
that begins ``not the same`` is no disagreement, and no note need name it; one that begins
``untold`` says that the note should name the other figure and does not yet.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path

from sowtide.garden.library import builtin as library
from sowtide.garden.library.table import Row
from sowtide.values import value

FOLDER = Path(__file__).with_name("published")
NO_CROP = "no such crop here"
NO_FIGURE = "no such figure here"
ANOTHER_THING = "not the same: "
UNTOLD = "untold: "
NOT_GIVEN = "-"

Agrees = Callable[[str, Row], bool]
"""Whether a published figure and the library's row agree."""


@value
class Line:
    """A row of a published table, and why the library keeps another figure, if it does."""

    crop: str
    printed: str
    figures: Mapping[str, str]
    kept: str
    place: str


@value
class Table:
    """A published table: its name, its head, and the columns the library's fields stand in."""

    name: str
    prose: str
    head: Mapping[str, str]
    columns: Mapping[str, str]
    lines: tuple[Line, ...]

    @property
    def source(self) -> str:
        """Key of the source."""
        return self.head["source"]


@cache
def tables() -> tuple[Table, ...]:
    """Return all published tables, by name."""
    return tuple(_read(path) for path in sorted(FOLDER.glob("*.tsv")))


def table(name: str) -> Table:
    """Return a published table by its name."""
    return next(each for each in tables() if each.name == name)


def of(field: str) -> tuple[Table, ...]:
    """Return the tables that a field of the library is compared with."""
    return tuple(each for each in tables() if field in each.columns)


_names = cache(library.names)


@cache
def row_of(crop: str, field: str) -> Row | None:
    """Return the library's row of a field, or None."""
    return next((row for row in library.rows(crop) if row.field == field), None)


def complaints(table: Table, agrees: Agrees, exactly: Agrees | None = None) -> list[str]:
    """Return what is wrong between a table and the library, line by line.

    Parameters
    ----------
    table
        The table.
    agrees
        Whether a figure and a row are near enough where nothing is kept.
    exactly
        Whether they are the same, as a row that claims the source must be; `agrees` if left out.
    """
    found = []
    for line in table.lines:
        found += [f"{line.place}: {wrong}" for wrong in _wrong(table, line, agrees, exactly)]
    return found


def _wrong(table: Table, line: Line, agrees: Agrees, exactly: Agrees | None) -> Iterator[str]:
    exactly = exactly or agrees
    if line.kept == NO_CROP or line.crop not in _names():
        if line.kept != NO_CROP or library.find(line.crop) is not None:
            yield f"crop and {line.kept!r} do not fit"
        return
    pairs = list(_pairs(table, line))
    missing = [field for field, _, row in pairs if row is None]
    if missing or line.kept == NO_FIGURE:
        if not missing or line.kept != NO_FIGURE:
            yield f"figures missing {missing}, and kept is {line.kept!r}"
        return
    same = True
    for field, figure, row in pairs:
        assert row is not None
        same &= agrees(figure, row)
        if not agrees(figure, row) and not line.kept:
            yield f"{field} is {row.value} {row.unit}, published {figure}; no reason is given"
        if not exactly(figure, row):
            yield from _unsaid(table, line, figure, row, near=agrees(figure, row), exactly=exactly)
    if same and line.kept:
        yield f"agrees, yet a reason is given: {line.kept!r}"


def _unsaid(
    table: Table, line: Line, figure: str, row: Row, *, near: bool, exactly: Agrees
) -> Iterator[str]:
    """What the library's note should say of this line and does not."""
    told = any(written in row.note for written in _written(figure))
    if row.source == table.source:
        of_crop = [each for each in table.lines if each.crop == line.crop]
        column = table.columns[row.field]
        if not told and not any(exactly(each.figures[column], row) for each in of_crop):
            yield f"{row.field} {row.value} claims this source, which has {figure}: {row.note!r}"
    elif table.head.get("named") == "yes" and not near:
        told |= table.head["called"] in row.note or line.kept.startswith(ANOTHER_THING)
        if told == line.kept.startswith(UNTOLD) and not _holds(row, figure):
            yield f"{row.field} {row.value} of {row.source}, published {figure}: {row.note!r}"


def _written(figure: str) -> tuple[str, ...]:
    """Return the ways a note may write a figure, by its printer's signs."""
    dash, minus, times = "\N{EN DASH}", "\N{MINUS SIGN}", "\N{MULTIPLICATION SIGN}"
    sign = minus if figure.startswith("-") else ""
    return figure, sign + figure.lstrip("-").replace("-", dash).replace("x", times)


def _holds(row: Row, figure: str) -> bool:
    """Whether a row's range holds the whole figure."""
    try:
        (low, high), (least, most) = span(figure), span(row.value)
    except AssertionError:  # spacing in rows is no range
        return False
    return least <= low <= high <= most


def _pairs(table: Table, line: Line) -> Iterator[tuple[str, str, Row | None]]:
    """Field, published figure and the library's row, for each figure that is given."""
    for field, column in table.columns.items():
        if line.figures[column] != NOT_GIVEN:
            yield field, line.figures[column], row_of(line.crop, field)


def claims(field: str, source: str) -> Iterator[tuple[str, Row]]:
    """Return the library's crops and rows of a field that name a source."""
    for crop in _names():
        row = row_of(crop, field)
        if row is not None and row.source == source:
            yield crop, row


def line_of(table: Table, crop: str, row: Row) -> Line | None:
    """Return the line that a row rests on: its crop's, or that of a relative its note names."""
    own = next((line for line in table.lines if line.crop == crop), None)
    borrowed = re.search(r"the row of ([\w' ]+)|^(\w+)s, \w+ class", row.note)
    if own is not None or borrowed is None:
        return own
    return _called(table, borrowed[1] or borrowed[2])


def _called(table: Table, name: str) -> Line | None:
    """Return the line of a row as the source calls it, or as the library does."""
    for line in table.lines:
        head, _, tail = line.printed.partition(", ")
        if name in (line.crop, line.printed, f"{tail} {head}"):
            return line
    crop = library.find(name)
    return next((line for line in table.lines if crop and line.crop == crop.name), None)


# Figures as they are written


def span(text: str) -> tuple[float, float]:
    """Return the two ends of a figure: of `46-65` 46 and 65, of `-10` twice itself.

    Examples
    --------
    >>> span("46-65"), span("-10")
    ((46.0, 65.0), (-10.0, -10.0))
    """
    found = re.fullmatch(r"(-?[\d.]+)(?:-([\d.]+))?", text)
    assert found is not None, text
    return float(found[1]), float(found[2] or found[1])


def same(figure: str, row: Row) -> bool:
    """Whether a row has exactly the figure."""
    return span(figure) == span(row.value)


def overlaps(figure: str, row: Row) -> bool:
    """Whether two ranges have a day in common."""
    (low, high), (least, most) = span(figure), span(row.value)
    return low <= most and least <= high


def within_factor(factor: float) -> Agrees:
    """Return whether the middles of two ranges differ by no more than a factor."""

    def agrees(figure: str, row: Row) -> bool:
        (low, high), (least, most) = span(figure), span(row.value)
        ratio = math.sqrt(least * most) / math.sqrt(low * high)
        return 1 / factor <= ratio <= factor

    return agrees


def agreement(table: Table) -> Agrees:
    """Return what a table's head says of how near the library must be."""
    words = table.head["agrees"]
    if factor := re.fullmatch(r"within a factor of ([\d.]+)", words):
        return within_factor(float(factor[1]))
    return {"exactly": same, "overlaps": overlaps}[words]


def _read(path: Path) -> Table:
    prose: list[str] = []
    head: dict[str, str] = {}
    lines: list[Line] = []
    names: list[str] = []
    for number, text in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        if text.startswith("# "):
            key = re.fullmatch(r"# (source|field|unit|agrees|called|named): (.+)", text)
            if key is None:
                prose.append(text[2:])
            else:
                head[key[1]] = key[2]
        elif not names:
            names = text.split("\t")
        else:
            crop, printed, *figures, kept = text.split("\t")
            of_columns = dict(zip(names[2:-1], figures, strict=True))
            lines.append(Line(crop, printed, of_columns, kept, f"{path.name}:{number}: {crop}"))
    assert names[:2] == ["crop", "printed"], path
    assert names[-1] == "kept", path
    columns = dict(pair.split(" = ") for pair in head["field"].split(", "))
    return Table(path.stem, "\n".join(prose), head, columns, tuple(lines))
