"""The built-in crops."""

from __future__ import annotations

from sowtide.garden.library.builtin import (
    LibraryCrop,
    cover_named,
    cover_names,
    families,
    find,
    names,
    near,
    plain,
    rows,
    singulars,
    source,
)
from sowtide.garden.library.covers import CoverCrop, cover_crops
from sowtide.garden.library.table import Row

__all__ = [
    "CoverCrop",
    "LibraryCrop",
    "Row",
    "cover_crops",
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
]
