"""How one value is written: readers of text, and the keys that use them."""

from __future__ import annotations

from sowtide.garden.keys.dates import (
    DaysWritten,
    WeekWritten,
    Written,
    day,
    no_leap_day,
    resolve,
    resolve_span,
    year_of,
)
from sowtide.garden.keys.frame import Frame, frame_of
from sowtide.garden.keys.numbers import decimal, whole
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
from sowtide.garden.keys.words import choice, text, yes_no

__all__ = [
    "HALF",
    "NOT_YET",
    "NO_FROST",
    "BedKeys",
    "CropKeys",
    "DaysWritten",
    "FileKeys",
    "Frame",
    "FrostKeys",
    "HeatKeys",
    "NormalsKeys",
    "Shares",
    "SiteKeys",
    "WatchKeys",
    "WaveKeys",
    "WeekWritten",
    "Written",
    "choice",
    "day",
    "decimal",
    "frame_of",
    "known_keys",
    "no_leap_day",
    "not_text",
    "read_section",
    "resolve",
    "resolve_span",
    "text",
    "whole",
    "year_of",
    "yes_no",
]
