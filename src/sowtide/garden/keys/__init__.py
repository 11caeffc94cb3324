"""The keys of a garden's file: what each section may hold, and reading a section by that."""

from __future__ import annotations

from sowtide.garden.keys.reading import read_list, read_section
from sowtide.garden.keys.schema import (
    HALF,
    NO_FROST,
    BedKeys,
    CropKeys,
    FileKeys,
    FrostKeys,
    HeatKeys,
    NormalsKeys,
    Shares,
    SiteKeys,
    WantKeys,
    WatchKeys,
    WaveKeys,
)
from sowtide.garden.keys.section import (
    Each,
    Keyed,
    Leaf,
    Within,
    keys_of,
    known_keys,
    may,
    must,
    not_text,
)

__all__ = [
    "HALF",
    "NO_FROST",
    "BedKeys",
    "CropKeys",
    "Each",
    "FileKeys",
    "FrostKeys",
    "HeatKeys",
    "Keyed",
    "Leaf",
    "NormalsKeys",
    "Shares",
    "SiteKeys",
    "WantKeys",
    "WatchKeys",
    "WaveKeys",
    "Within",
    "keys_of",
    "known_keys",
    "may",
    "must",
    "not_text",
    "read_list",
    "read_section",
]
