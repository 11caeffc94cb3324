"""The figures of a crop, the file's before the built-in ones, each with where it comes from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sowtide.garden import library
from sowtide.garden.crop import CountedFrom, Crop, Raised, Sort
from sowtide.garden.library import SECTIONS, CropField, Row, Section
from sowtide.garden.varieties import built_in_name, is_like
from sowtide.reasons import OURS, Origin
from sowtide.report.card.values import chore
from sowtide.schedule.waves import DAYS_BEFORE_FROST, need_of
from sowtide.units import Units
from sowtide.values import value

_RULES = {
    "direct_days": "half the days in trays more, an estimate",
    "days_by_sort": "a third each of the days of all sorts",
}
"""What there is to say of figures that stand in no table and no file."""


@value
class Figure:
    """A figure of a crop."""

    section: Section
    """The part of the card that it stands in."""
    field: str
    """Its key in the table of built-in crops, or in the file."""
    label: str
    """What a grower calls it."""
    value: str | None
    unit: str | None = None
    """As written in the table or the file; both None where it matters and nobody knows it. The unit
    of a word or a bare number is None."""
    note: str | None = None
    """What else there is to say of it, or None."""
    origin: Origin | None = None
    """Where it comes from; None where nobody knows it."""
    built_in: Figure | None = None
    """The built-in figure that the file's takes the place of, or None."""
    is_rule: bool = False
    """Whether it follows from a rule of sowtide's own and stands in no table."""


def figures_of(crop: Crop, units: Units | None) -> tuple[Figure, ...]:
    """Return the figures of a crop in the order of its card.

    Parameters
    ----------
    crop
        A crop of a garden, or a built-in one as it stands.
    units
        What the garden's file is written in; None without a file.
    """
    rows = _rows(crop)
    return tuple(
        figure
        for section, fields in SECTIONS.items()
        for field in fields
        for figure in _figures(crop, section, field, rows.get(field.name, ()), units)
    )


def cover_figures(name: str) -> tuple[Figure, ...]:
    """Return the figures of a cover crop by its canonical name, in the order of its card."""
    rows = _by_field(name)
    return tuple(
        _built_in(section, field, row)
        for section, fields in SECTIONS.items()
        for field in fields
        for row in rows.get(field.name, ())
    )


def _rows(crop: Crop) -> dict[str, tuple[Row, ...]]:
    name = built_in_name(crop)
    if name is None:
        return {}
    rows = _by_field(name)
    if is_like(crop):
        rows.pop("names", None)  # they are not its own
    if crop.ready is not None:
        rows.pop("ready_about", None)  # the grower's days go before
    return rows


def _by_field(name: str) -> dict[str, tuple[Row, ...]]:
    rows: dict[str, tuple[Row, ...]] = {}
    for row in library.rows(name):
        rows[row.field] = (*rows.get(row.field, ()), row)
    return rows


def _figures(
    crop: Crop, section: Section, field: CropField, rows: tuple[Row, ...], units: Units | None
) -> Iterator[Figure]:
    """Yield the figures of one field: none, one, or of chores several."""
    origin = _origin(crop, field, rows)
    if origin is not None:
        written, unit = _written(crop, field, units)
        built_in = _built_in(section, field, rows[0]) if rows else None
        yield Figure(
            section=section,
            field=field.name,
            label=field.label,
            value=written,
            unit=unit,
            note=_RULES.get(field.name),
            origin=origin,
            built_in=built_in,
            is_rule=origin == OURS,
        )
    elif rows:
        for row in rows:
            yield _built_in(section, field, row)
    elif field.is_missed and not (field.name == "yield_per_row" and _has_yield(crop)):
        yield Figure(section, field.name, field.label, None)


def _has_yield(crop: Crop) -> bool:
    """Whether something is known of what a crop yields, if not by the row."""
    return crop.yield_per_plant is not None or "yield_per_area" in _rows(crop)


def _built_in(section: Section, field: CropField, row: Row) -> Figure:
    label = chore(row.value)[0] if row.field == "chore" else field.label
    unit = None if row.unit == "-" else row.unit
    origin = Origin(source=row.source)
    return Figure(
        section=section,
        field=row.field,
        label=label,
        value=row.value,
        unit=unit,
        note=row.note or None,
        origin=origin,
    )


def _origin(crop: Crop, field: CropField, rows: tuple[Row, ...]) -> Origin | None:
    """Return where a field's figure comes from unless that is a row of the table, or nowhere."""
    name = field.name
    if field.part is not None:
        found = crop.origin("heat")
        is_own = found.file is not None and _is_own_heat(crop, field.part, rows)
        return found if is_own else None
    origin = crop.origins.get(name)
    if origin is not None and origin.file is not None:
        return origin
    if rows:
        return None
    if name == "days_before_frost":  # what stands over the winter goes in before it
        return None if crop.hardiness.is_tender or crop.overwinters else OURS
    if name == "days_by_sort":
        return OURS if crop.sorts and crop.origin("days_to_harvest").file is None else None
    if name == "direct_days":
        from_planting_out = crop.counted_from is CountedFrom.PLANTING_OUT
        return OURS if crop.raised is Raised.EITHER and from_planting_out else None
    return OURS if field.is_ours else None


def _is_own_heat(crop: Crop, part: str, rows: tuple[Row, ...]) -> bool:
    """Whether a part of ``heat`` is the grower's: the file is known to hold some of it."""
    own = getattr(crop.heat, part)
    found = library.find(crop.kind)
    known = found.values.get("heat") if found is not None and rows else None
    return own is not None and own != getattr(known, part, None)


def _written(crop: Crop, field: CropField, units: Units | None) -> tuple[str, str | None]:
    """Return a figure of a crop as it would be written in a file, and its unit."""
    if field.part is not None:
        found = getattr(crop.heat, field.part)
    elif field.name == "days_by_sort":
        found = tuple((sort, replace(crop, sort=sort).days_of_sort) for sort in Sort)
    elif field.name == "direct_days":
        found = need_of(crop, Raised.DIRECT, colder_by=0).days
    else:
        found = getattr(crop, field.name)
    if field.name == "days_before_frost" and found is None:
        found = DAYS_BEFORE_FROST[crop.hardiness]
    return field.kind.written(found, units)
