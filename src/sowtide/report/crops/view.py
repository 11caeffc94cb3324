"""All crops there are: the file's own, the built-in ones, and cover crops."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from enum import Enum
from typing import Any

from sowtide.days import DayRange
from sowtide.garden import library
from sowtide.garden.crop import CountedFrom, Crop, Hardiness, Raised
from sowtide.garden.library import CoverCrop, Row, cover_crops
from sowtide.garden.model import Garden
from sowtide.garden.varieties import built_in_crop, built_in_name, is_like
from sowtide.reasons import Origin
from sowtide.report.kinds import Unsaid
from sowtide.values import value

ONCE = "once"
"""What stands for the days between waves of a crop that is sown once."""
COLUMNS = (
    *("name", "variety", "use", "names", "family", "botanical", "raised", "days_to_harvest"),
    *("counted_from", "hardiness", "sow_every", "sow_after_frost", "sow_before_frost"),
    *("days_to_dig_in", "winter", "file", "line"),
)


class InWinter(Enum):
    """What becomes of a cover crop."""

    KILLED = "killed"
    STANDS = "stands"


@value
class ListedCrop:
    """A crop in the list; its place is where the file first speaks of it.

    `every` is the interval between waves as the table has it, ``once``, or None; `is_changed` says
    whether a crop of the file takes the place of this built-in one.
    """

    name: str
    variety: str | None
    names: tuple[str, ...]
    family: str
    botanical: str | None
    raised: Raised
    days_to_harvest: tuple[int, int]
    counted_from: CountedFrom
    hardiness: Hardiness
    sow_every: tuple[int, int] | None
    sown_once: bool | None
    file: str | None
    line: int | None
    title: Unsaid[str]
    every: Unsaid[str | None]
    is_changed: Unsaid[bool]


@value
class ListedCover:
    """A cover crop in the list."""

    name: str
    names: tuple[str, ...]
    family: str
    botanical: str | None
    sow_after_frost: int
    sow_before_frost: int
    days_to_dig_in: tuple[int, int]
    winter: InWinter


@value
class CropsView:
    """What ``crops`` says: the file's own crops before the built-in ones, and cover crops.

    `file` is the garden's label; None without a garden.
    """

    crops: tuple[ListedCrop, ...]
    cover_crops: tuple[ListedCover, ...]
    own: Unsaid[tuple[ListedCrop, ...]]
    built_in: Unsaid[tuple[ListedCrop, ...]]
    file: Unsaid[str | None]


def view(garden: Garden | None) -> CropsView:
    """Return all crops; a garden's own first, in order of name."""
    of_file = own_crops(garden)
    own = tuple(_listed(crop, place=place) for crop, place in of_file)
    built_in = _built_in(crop for crop, _ in of_file)
    return CropsView(
        crops=(*own, *built_in),
        cover_crops=tuple(map(_cover, cover_crops())),
        own=own,
        built_in=built_in,
        file=None if garden is None else garden.label,
    )


def own_crops(garden: Garden | None) -> tuple[tuple[Crop, Origin], ...]:
    """Return the crops and varieties that a garden's file speaks of, and where it first does."""
    if garden is None:
        return ()
    entries: dict[int, Origin] = {}
    for entry in garden.entries:
        entries.setdefault(id(entry.crop), Origin(entry.span.file, entry.span.line))
    own = []
    for crop in garden.crops:
        defined = crop.origins.get("name")
        if defined is None and crop.variety is None:
            continue  # a built-in crop that an entry asks for
        own.append((crop, defined or entries.get(id(crop)) or Origin(garden.label)))
    return tuple(own)


def _built_in(own: Iterable[Crop]) -> tuple[ListedCrop, ...]:
    """Return the built-in crops as they stand, in order of family, then of name.

    Those that the file's ``crops`` change are remembered, not a variety of a wave.
    """
    changed = {crop.kind for crop in own if "name" in crop.origins and not is_like(crop)}
    found = (library.find(name) for name in library.names())
    crops = [built_in_crop(each) for each in found if each is not None]
    crops.sort(key=lambda crop: (crop.family, crop.name.casefold()))
    return tuple(_listed(crop, is_changed=crop.name in changed) for crop in crops)


def _listed(crop: Crop, *, place: Origin | None = None, is_changed: bool = False) -> ListedCrop:
    name = built_in_name(crop)
    rows = {} if name is None else _first(library.rows(name))
    every = rows.get("sow_every")
    interval = None
    if every is not None and every != ONCE:
        low, _, high = every.partition("-")
        interval = int(low), int(high or low)
    return ListedCrop(
        name=crop.name,
        variety=crop.variety,
        names=() if place is not None and is_like(crop) else _names(rows),
        family=crop.family,
        botanical=rows.get("botanical"),
        raised=crop.raised,
        days_to_harvest=_days(crop.days_to_harvest),
        counted_from=crop.counted_from,
        hardiness=crop.hardiness,
        sow_every=interval,
        sown_once=None if every is None else every == ONCE,
        file=None if place is None else place.file,
        line=None if place is None else place.line,
        title=crop.title,
        every=every,
        is_changed=is_changed,
    )


def _cover(of: CoverCrop) -> ListedCover:
    rows = _first(library.rows(of.name))
    return ListedCover(
        name=of.name,
        names=_names(rows),
        family=of.family,
        botanical=rows.get("botanical"),
        sow_after_frost=of.sow_after_frost,
        sow_before_frost=of.sow_before_frost,
        days_to_dig_in=_days(of.days_to_dig_in),
        winter=InWinter.KILLED if of.winter_kills else InWinter.STANDS,
    )


def _days(days: DayRange) -> tuple[int, int]:
    return days.low, days.high


def _first(rows: Iterable[Row]) -> dict[str, str]:
    """Return the first value of each field."""
    found: dict[str, str] = {}
    for row in rows:
        found.setdefault(row.field, row.value)
    return found


def _names(rows: Mapping[str, str]) -> tuple[str, ...]:
    return tuple(rows["names"].split(", ")) if "names" in rows else ()


def rows(of: CropsView) -> Iterator[Mapping[str, Any]]:
    """Yield a row for each crop and cover crop; ranges as ``46-65``, names parted by commas."""
    for crop in of.crops:
        harvest = "-".join(map(str, crop.days_to_harvest))
        yield _row(crop, "crop") | {"days_to_harvest": harvest, "sow_every": crop.every}
    for cover in of.cover_crops:
        yield _row(cover, "cover crop") | {
            "days_to_dig_in": "-".join(map(str, cover.days_to_dig_in))
        }


def _row(of: ListedCrop | ListedCover, use: str) -> dict[str, Any]:
    row = {name: getattr(of, name, None) for name in COLUMNS}
    row = {name: each.value if isinstance(each, Enum) else each for name, each in row.items()}
    return row | {"use": use, "names": ", ".join(of.names)}
