"""The keys of a garden's file: what each section may hold, and reading a section by that."""

from __future__ import annotations

from sowtide.garden.keys.reading import read_section
from sowtide.garden.keys.schema import (
    HALF,
    NO_FROST,
    NOT_YET,
    BedKeys,
    CropKeys,
    FileKeys,
    FrostKeys,
    HeatKeys,
    NormalsKeys,
    Shares,
    SiteKeys,
    WatchKeys,
    WaveKeys,
)
from sowtide.garden.keys.section import known_keys, not_text

__all__ = [
    "HALF",
    "NOT_YET",
    "NO_FROST",
    "BedKeys",
    "CropKeys",
    "FileKeys",
    "FrostKeys",
    "HeatKeys",
    "NormalsKeys",
    "Shares",
    "SiteKeys",
    "WatchKeys",
    "WaveKeys",
    "known_keys",
    "not_text",
    "read_section",
]
