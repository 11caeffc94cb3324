"""Crops for other programs: the list and one crop's card, as JSON and as CSV.

Figures are written as they are in the table or the file, with their unit beside them; nothing is
converted.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sowtide.days import DayRange
from sowtide.garden.crop import Crop
from sowtide.garden.model import Garden
from sowtide.report.crops.figures import Figure, built_in_name, cover_figures, figures_of, is_like
from sowtide.report.crops.listing import (
    Listed,
    ListedCover,
    built_in_crops,
    listed_covers,
    own_crops,
)
from sowtide.report.crops.words import ONCE, OWN_ESTIMATE, is_estimate
from sowtide.report.formats.csv import table
from sowtide.report.formats.json import Object, Value, written
from sowtide.report.kit.sources import citation
from sowtide.units import Units

LIST_COLUMNS = (
    "name",
    "variety",
    "use",
    "names",
    "family",
    "botanical",
    "raised",
    "days_to_harvest",
    "counted_from",
    "hardiness",
    "sow_every",
    "sow_after_frost",
    "sow_before_frost",
    "days_to_dig_in",
    "winter",
    "file",
    "line",
)
CARD_COLUMNS = (
    "crop",
    "variety",
    "field",
    "label",
    "value",
    "unit",
    "source",
    "note",
    "file",
    "line",
    "built_in_value",
    "built_in_unit",
    "built_in_source",
)


def list_json(garden: Garden | None) -> str:
    """Write all crops: the garden's own first, then the built-in ones; and the cover crops."""
    own = own_crops(garden)
    return written(
        {
            "crops": [_crop(each) for each in (*own, *built_in_crops(own))],
            "cover_crops": [_cover(each) for each in listed_covers()],
        }
    )


def list_csv(garden: Garden | None) -> str:
    """Write a row for each crop and cover crop; ranges as ``46-65``, names parted by commas."""
    own = own_crops(garden)
    rows: list[Object] = []
    for crop in (*own, *built_in_crops(own)):
        every = crop.sow_every
        rows.append({**_crop(crop), "use": "crop", "sow_every": every})
    rows += [{**_cover(cover), "use": "cover crop"} for cover in listed_covers()]
    for row in rows:
        for name in ("days_to_harvest", "days_to_dig_in"):
            row[name] = _joined(row.get(name), "-")
        row["names"] = _joined(row["names"], ", ")
    return table(LIST_COLUMNS, rows)


def card_json(crops: Sequence[Crop], units: Units | None) -> str:
    """Write a crop's figures; where the file has several of that name, all of them beside it."""
    cards = [_card(crop, figures_of(crop, units)) for crop in crops]
    first = dict(cards[0])
    if len(cards) > 1:
        first["varieties"] = cards
    return written(first)


def card_csv(crops: Sequence[Crop], units: Units | None) -> str:
    """Write a row for each figure of each crop."""
    rows = [
        row for crop in crops for row in _rows(crop.name, crop.variety, figures_of(crop, units))
    ]
    return table(CARD_COLUMNS, rows)


def cover_json(name: str) -> str:
    """Write a cover crop's figures."""
    figures = cover_figures(name)
    return written(_object(name, None, built_in=name, like=None, figures=figures))


def cover_csv(name: str) -> str:
    """Write a row for each of its figures."""
    return table(CARD_COLUMNS, _rows(name, None, cover_figures(name)))


def _crop(each: Listed) -> Object:
    crop, every = each.crop, each.sow_every
    interval: list[Value] | None = None
    if every is not None and every != ONCE:
        low, _, high = every.partition("-")
        interval = [int(low), int(high or low)]
    return {
        "name": crop.name,
        "variety": crop.variety,
        "names": list(each.names),
        "family": crop.family,
        "botanical": each.botanical,
        "raised": crop.raised.value,
        "days_to_harvest": _days(crop.days_to_harvest),
        "counted_from": crop.counted_from.value,
        "hardiness": crop.hardiness.value,
        "sow_every": interval,
        "sown_once": None if every is None else every == ONCE,
        "file": each.place.file if each.place else None,
        "line": each.place.line if each.place else None,
    }


def _cover(each: ListedCover) -> Object:
    cover = each.cover
    return {
        "name": cover.name,
        "names": list(each.names),
        "family": cover.family,
        "botanical": each.botanical,
        "sow_after_frost": cover.sow_after_frost,
        "sow_before_frost": cover.sow_before_frost,
        "days_to_dig_in": _days(cover.days_to_dig_in),
        "winter": "killed" if cover.winter_kills else "stands",
    }


def _days(days: DayRange) -> list[Value]:
    return [days.low, days.high]


def _joined(listed: Value, mark: str) -> str | None:
    return mark.join(str(each) for each in listed) if isinstance(listed, list) else None


def _card(crop: Crop, figures: tuple[Figure, ...]) -> Object:
    name = built_in_name(crop)
    like = name if is_like(crop) else None
    return _object(crop.name, crop.variety, built_in=name, like=like, figures=figures)


def _object(
    name: str,
    variety: str | None,
    *,
    built_in: str | None,
    like: str | None,
    figures: tuple[Figure, ...],
) -> Object:
    names = [figure.value or "" for figure in figures if figure.field == "names"]
    return {
        "crop": name,
        "variety": variety,
        "names": [each for of_field in names for each in of_field.split(", ")],
        "built_in": built_in,
        "like": like,
        "figures": [_figure(figure) for figure in figures],
    }


def _figure(figure: Figure) -> Object:
    origin, before = figure.origin, figure.built_in
    key = origin.source if origin else None
    return {
        "field": figure.field,
        "label": figure.label.strip(),
        "value": figure.value,
        "unit": figure.unit,
        "source": key,
        "citation": _citation(figure),
        "note": figure.note,
        "file": origin.file if origin else None,
        "line": origin.line if origin else None,
        "built_in": None if before is None else _built_in(before),
    }


def _built_in(figure: Figure) -> Object:
    key = figure.origin.source if figure.origin else None
    return {
        "value": figure.value,
        "unit": figure.unit,
        "source": key,
        "citation": _citation(figure),
        "note": figure.note,
    }


def _citation(figure: Figure) -> str | None:
    key = figure.origin.source if figure.origin else None
    if key is None:
        return None
    return OWN_ESTIMATE if is_estimate(figure) else citation(key)


def _rows(name: str, variety: str | None, figures: Iterable[Figure]) -> list[Object]:
    rows = []
    for figure in figures:
        row = {"crop": name, "variety": variety, **_figure(figure)}
        if figure.built_in is not None:
            built_in = _built_in(figure.built_in)
            row |= {f"built_in_{field}": value for field, value in built_in.items()}
        rows.append(row)
    return rows
