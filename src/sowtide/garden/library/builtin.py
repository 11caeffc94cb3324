"""The built-in crops by any name a grower has for them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from sowtide.garden.crop import Heat
from sowtide.garden.library.crop_fields import CROP_FIELDS
from sowtide.garden.library.table import (
    blocks,
    families,
    is_cover,
    known_names,
    plain,
    rows,
    source,
    source_keys,
)
from sowtide.values import value

__all__ = [
    "LibraryCrop",
    "cover_named",
    "cover_names",
    "families",
    "find",
    "names",
    "near",
    "plain",
    "rows",
    "singulars",
    "source",
    "source_keys",
]


@value
class LibraryCrop:
    """A built-in crop."""

    name: str
    """Its canonical name."""
    values: Mapping[str, object]
    """Its figures by field of `sowtide.garden.crop.Crop`, in that field's type and unit; a field
    that nothing is known of is absent."""
    sources: Mapping[str, str]
    """Key of each figure's source, by the same names; of ``heat`` that of its base."""

    def is_called(self, name: str) -> bool:
        """Whether a name is its canonical one, however it is written."""
        return plain(self.name) in singulars(name)


def names() -> tuple[str, ...]:
    """Return the canonical names of all built-in crops but the cover crops, in order."""
    return tuple(sorted((name for name in blocks() if not is_cover(name)), key=str.casefold))


def cover_names() -> tuple[str, ...]:
    """Return the canonical names of the cover crops, in order."""
    return tuple(sorted((name for name in blocks() if is_cover(name)), key=str.casefold))


def find(name: str) -> LibraryCrop | None:
    """Return the built-in crop of that name, or None; a cover crop is none.

    Small and capital letters are one, hyphens are spaces, and plurals and other names of the
    crop are understood.

    Examples
    --------
    >>> find("Courgettes").name
    'summer squash'
    """
    found = _canonical(name)
    return None if found is None or is_cover(found) else _crop(found)


def cover_named(name: str) -> str | None:
    """Return the canonical name of the cover crop that goes by a name, or None.

    Examples
    --------
    >>> cover_named("rye")
    'winter rye'
    """
    found = _canonical(name)
    return found if found is not None and is_cover(found) else None


def near(name: str, *, covers: bool = False) -> tuple[str, ...]:
    """Return at most three crops' names that are written much like `name`, each as it is known.

    Parameters
    ----------
    name
        The name.
    covers
        Whether cover crops count.

    Examples
    --------
    >>> near("brocolli"), near("zuchini")
    (('broccoli',), ('zucchini',))
    """
    import difflib

    known = known_names()
    close: dict[str, str] = {}
    for form in singulars(name):
        for match in difflib.get_close_matches(form, known, n=5, cutoff=0.75):
            if covers or not is_cover(known[match]):
                close.setdefault(known[match], match)
    return tuple(close.values())[:3]


def _canonical(name: str) -> str | None:
    forms = singulars(name)
    if forms[0] in blocks():  # as most files have it: the other names need not be taken apart
        return forms[0]
    known = known_names()
    return next((known[form] for form in forms if form in known), None)


@cache
def _crop(name: str) -> LibraryCrop:
    values: dict[str, object] = {}
    sources: dict[str, str] = {}
    heat: dict[str, float] = {}
    for row in rows(name):
        field = CROP_FIELDS[row.field]
        if field.kind.of_row is None:
            continue  # it is told, and no date hangs on it
        found = field.kind.of_row(row)
        if field.part is None:
            values[field.name] = found
            sources[field.name] = row.source
        else:
            heat[field.part] = found
            sources.setdefault("heat", row.source)
    if heat:
        values["heat"] = Heat(base=heat.get("base"), upper=heat.get("upper"))
    return LibraryCrop(name, MappingProxyType(values), MappingProxyType(sources))


def singulars(name: str) -> tuple[str, ...]:
    """Return a name, plainly written, and what it may be the plural of, likeliest first."""
    name = plain(name)
    forms = [name]
    if name.endswith("ies"):
        forms.append(name[:-3] + "y")
    if name.endswith("s"):
        forms.append(name[:-1])
    if name.endswith("es"):
        forms.append(name[:-2])
    return tuple(forms)
