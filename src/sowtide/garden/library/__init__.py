"""The built-in crops."""

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
from sowtide.garden.library.crop_fields import CROP_FIELDS, SECTIONS, CropField, Section
from sowtide.garden.library.kinds import Wording
from sowtide.garden.library.table import Row
from sowtide.garden.library.unplanned import why_unplanned
from sowtide.garden.library.yields import KnownYield, yield_of

__all__ = [
    "CROP_FIELDS",
    "SECTIONS",
    "CoverCrop",
    "CropField",
    "KnownYield",
    "LibraryCrop",
    "Row",
    "Section",
    "Wording",
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
    "why_unplanned",
    "yield_of",
]
