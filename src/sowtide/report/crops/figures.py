"""The figures of a crop, the file's before the built-in ones, each with where it comes from."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from typing import Any

from sowtide.days import DayRange, MonthDay
from sowtide.garden import library
from sowtide.garden.crop import CountedFrom, Crop, Raised
from sowtide.garden.library import Row
from sowtide.reasons import OURS, Origin
from sowtide.report.crops import fields as crop_fields
from sowtide.report.crops.fields import FIELDS, Field, Section
from sowtide.schedule.waves import DAYS_BEFORE_FROST, need_of
from sowtide.units import Units, fahrenheit, length_in, show_number
from sowtide.values import value

_POUND = 0.45359237  # [kg], exact by definition
_TEMPERATURES = (
    *("soil_min", "soil_good", "soil_max", "warm_limit", "chill_limit"),
    *("fruit_set_high", "fruit_set_low", "rated_at"),
)
_HEAT = {"heat_base": "base", "heat_upper": "upper", "heat_units": "units", "heat_method": "method"}
_OURS = ("after_frost", "worthwhile_days", "rotation", "up_days", "seeds_per_plant", "germination")
"""What every crop has, if need be by a rule of sowtide's own."""
_RULES = {"direct_days": "half the days in trays more, an estimate"}
"""What there is to say of figures that stand in no table and no file."""


@value
class Figure:
    """A figure of a crop.

    Parameters
    ----------
    section
        The part of the card that it stands in.
    field
        Its key in the table of built-in crops, or in the file.
    label
        What a grower calls it.
    value, unit
        As written in the table or the file; both None where it matters and nobody knows it. The
        unit of a word or a bare number is None.
    note
        What else there is to say of it, or None.
    origin
        Where it comes from; None where nobody knows it.
    built_in
        The built-in figure that the file's takes the place of, or None.
    is_rule
        Whether it follows from a rule of sowtide's own and stands in no table.
    """

    section: Section
    field: str
    label: str
    value: str | None
    unit: str | None = None
    note: str | None = None
    origin: Origin | None = None
    built_in: Figure | None = None
    is_rule: bool = False


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
        for section, fields in FIELDS.items()
        for field in fields
        for figure in _figures(crop, section, field, rows.get(field.name, ()), units)
    )


def cover_figures(name: str) -> tuple[Figure, ...]:
    """Return the figures of a cover crop by its canonical name, in the order of its card."""
    rows = _by_field(name)
    return tuple(
        _built_in(section, field, row)
        for section, fields in FIELDS.items()
        for field in fields
        for row in rows.get(field.name, ())
    )


def is_like(crop: Crop) -> bool:
    """Whether a crop is one of the file's own that takes its numbers from a built-in one."""
    called = library.find(crop.name)
    return crop.kind != crop.name and (called is None or called.name != crop.kind)


def built_in_name(crop: Crop) -> str | None:
    """Return the canonical name of the built-in crop that a crop is, or is like, or None."""
    found = library.find(crop.kind)
    return found.name if found is not None and found.name == crop.kind else None


def _rows(crop: Crop) -> dict[str, tuple[Row, ...]]:
    name = built_in_name(crop)
    if name is None:
        return {}
    rows = _by_field(name)
    if is_like(crop):
        rows.pop("names", None)  # they are not its own
    return rows


def _by_field(name: str) -> dict[str, tuple[Row, ...]]:
    rows: dict[str, tuple[Row, ...]] = {}
    for row in library.rows(name):
        rows[row.field] = (*rows.get(row.field, ()), row)
    return rows


def _figures(
    crop: Crop, section: Section, field: Field, rows: tuple[Row, ...], units: Units | None
) -> Iterator[Figure]:
    """Yield the figures of one field: none, one, or of chores several."""
    origin = _origin(crop, field.name, rows)
    if origin is not None:
        written, unit = _written(crop, field, units)
        built_in = _built_in(section, field, rows[0]) if rows else None
        yield Figure(
            section,
            field.name,
            field.label,
            written,
            unit,
            note=_RULES.get(field.name),
            origin=origin,
            built_in=built_in,
            is_rule=origin == OURS,
        )
    elif rows:
        for row in rows:
            yield _built_in(section, field, row)
    elif field.missed and not (field.name == "yield_per_row" and _has_yield(crop)):
        yield Figure(section, field.name, field.label, None)


def _has_yield(crop: Crop) -> bool:
    """Whether something is known of what a crop yields, if not by the row."""
    return crop.yield_per_plant is not None or "yield_per_area" in _rows(crop)


def _built_in(section: Section, field: Field, row: Row) -> Figure:
    label = crop_fields.chore(row.value)[0] if row.field == "chore" else field.label
    unit = None if row.unit == "-" else row.unit
    origin = Origin(source=row.source)
    return Figure(section, row.field, label, row.value, unit, row.note or None, origin)


def _origin(crop: Crop, name: str, rows: tuple[Row, ...]) -> Origin | None:
    """Return where a field's figure comes from unless that is a row of the table, or nowhere."""
    if name in _HEAT:
        found = crop.origin("heat")
        return found if found.file is not None and _is_own_heat(crop, name, rows) else None
    origin = crop.origins.get(name)
    if origin is not None and origin.file is not None:
        return origin
    if rows:
        return None
    if name == "days_before_frost":  # what stands over the winter goes in before it
        return None if crop.hardiness.is_tender or crop.overwinters else OURS
    if name == "direct_days":
        from_planting_out = crop.counted_from is CountedFrom.PLANTING_OUT
        return OURS if crop.raised is Raised.EITHER and from_planting_out else None
    return OURS if name in _OURS else None


def _is_own_heat(crop: Crop, name: str, rows: tuple[Row, ...]) -> bool:
    """Whether a part of ``heat`` is the grower's: the file is known to hold some of it."""
    part = getattr(crop.heat, _HEAT[name])
    found = library.find(crop.kind)
    known = found.values.get("heat") if found is not None and rows else None
    return part is not None and part != getattr(known, _HEAT[name], None)


def _written(crop: Crop, field: Field, units: Units | None) -> tuple[str, str | None]:
    """Return a figure of a crop as it would be written in a file, and its unit."""
    metric = units is Units.METRIC
    if field.name in _HEAT:
        found = getattr(crop.heat, _HEAT[field.name])
        if isinstance(found, DayRange):
            low, high = (round(end if metric else end * 9 / 5) for end in (found.low, found.high))
            return _range(low, high), "°C·d" if metric else "°F·d"
        return _temperature(found, metric=metric) if isinstance(found, float) else (found, None)
    if field.name == "direct_days":
        return _plain(need_of(crop, Raised.DIRECT, colder_by=0).days), field.unit
    found = getattr(crop, field.name)
    if field.name == "days_before_frost" and found is None:
        found = DAYS_BEFORE_FROST[crop.hardiness]
    if field.name in _TEMPERATURES:
        return _temperature(found, metric=metric)
    if field.name in ("in_row", "between_rows"):
        unit = (units or Units.US).short_unit
        return show_number(length_in(found, unit), 2), unit
    if field.name == "yield_per_plant":
        return show_number(found if metric else found / _POUND, 2), "kg" if metric else "lb"
    if field.name == "germination":
        found *= 100
    return _plain(found), field.unit


def _temperature(celsius: float, *, metric: bool) -> tuple[str, str]:
    return (show_number(celsius), "°C") if metric else (show_number(fahrenheit(celsius)), "°F")


def _plain(found: Any) -> str:
    if isinstance(found, bool):
        return "yes" if found else "no"
    if isinstance(found, Enum):
        return str(found.value)
    if isinstance(found, DayRange):
        return _range(found.low, found.high)
    if isinstance(found, tuple):
        return "..".join(_month_day(day) for day in found)
    return show_number(found, 2) if isinstance(found, float) else str(found)


def _month_day(day: MonthDay) -> str:
    return f"{day.month:02}-{day.day:02}"


def _range(low: int, high: int) -> str:
    return str(low) if low == high else f"{low}-{high}"
