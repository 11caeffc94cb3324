"""What the list of crops says of each: the file's own crops, the built-in ones, cover crops."""

from __future__ import annotations

from collections.abc import Iterable

from sowtide.garden import library
from sowtide.garden.crop import Crop
from sowtide.garden.library import CoverCrop, Row, cover_crops
from sowtide.garden.model import Garden
from sowtide.garden.varieties import built_in_crop
from sowtide.reasons import Origin
from sowtide.report.crops.figures import built_in_name, is_like
from sowtide.values import value


@value
class Listed:
    """A crop in the list.

    Parameters
    ----------
    crop
        Its figures.
    names
        Other names of it.
    botanical
        Botanical name, or None.
    sow_every
        Days from wave to wave as the table has them, ``once``, or None.
    place
        Where the file first speaks of it; None for a built-in crop as it stands.
    is_changed
        Whether a crop of the file takes the place of this built-in one.
    """

    crop: Crop
    names: tuple[str, ...]
    botanical: str | None
    sow_every: str | None
    place: Origin | None = None
    is_changed: bool = False


@value
class ListedCover:
    """A cover crop in the list.

    Parameters
    ----------
    cover
        Its figures.
    names, botanical
        As of a crop.
    """

    cover: CoverCrop
    names: tuple[str, ...]
    botanical: str | None


def own_crops(garden: Garden | None) -> tuple[Listed, ...]:
    """Return what a garden's file says of crops, its own and its varieties, in order of name."""
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
        place = defined or entries.get(id(crop)) or Origin(garden.label)
        own.append(_listed(crop, place=place, names=() if is_like(crop) else None))
    return tuple(own)


def built_in_crops(own: Iterable[Listed]) -> tuple[Listed, ...]:
    """Return the built-in crops as they stand, in order of family, then of name.

    Parameters
    ----------
    own
        The garden's own; those that its crops: change are remembered, not a variety of a wave.
    """
    defined = [each.crop for each in own if "name" in each.crop.origins]
    changed = {crop.kind for crop in defined if not is_like(crop)}
    found = (library.find(name) for name in library.names())
    crops = [built_in_crop(each) for each in found if each is not None]
    crops.sort(key=lambda crop: (crop.family, crop.name.casefold()))
    return tuple(_listed(crop, is_changed=crop.name in changed) for crop in crops)


def listed_covers() -> tuple[ListedCover, ...]:
    """Return the cover crops in order of name."""
    listed = []
    for cover in cover_crops():
        rows = _first(library.rows(cover.name))
        botanical = rows.get("botanical")
        listed.append(ListedCover(cover, _names(rows), botanical.value if botanical else None))
    return tuple(listed)


def _listed(
    crop: Crop,
    *,
    place: Origin | None = None,
    is_changed: bool = False,
    names: tuple[str, ...] | None = None,
) -> Listed:
    name = built_in_name(crop)
    rows = {} if name is None else _first(library.rows(name))
    if names is None:
        names = _names(rows)
    botanical, every = rows.get("botanical"), rows.get("sow_every")
    return Listed(
        crop,
        names,
        None if botanical is None else botanical.value,
        None if every is None else every.value,
        place,
        is_changed,
    )


def _first(rows: Iterable[Row]) -> dict[str, Row]:
    found: dict[str, Row] = {}
    for row in rows:
        found.setdefault(row.field, row)
    return found


def _names(rows: dict[str, Row]) -> tuple[str, ...]:
    return tuple(rows["names"].value.split(", ")) if "names" in rows else ()
