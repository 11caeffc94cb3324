"""A bed is wider than any are, or plants stand closer or wider: is the unit the right one?"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from sowtide.diagnostics import Severity, Span
from sowtide.garden import library
from sowtide.garden.crop import Crop
from sowtide.garden.model import Garden
from sowtide.schedule.checks import Plan, Said, SeasonRule
from sowtide.units import show_length, show_spacing

WIDEST = 12_500_000
"""The first side of a bed, its width, from which on it is asked about: ours. [µm]"""

NARROWEST_ROWS = 40_000
"""Rows closer than this are asked about: ours. [µm]"""

FAR = 2.2
"""So many times a built-in crop's spacing, or so few, both ways: an inch is 2.54 cm. Ours. [1]"""


_WORDS = {"ft": "feet", "in": "inches"}


def _check(plan: Plan) -> Iterator[Said]:
    yield from chain(_beds(plan.garden), _crops(plan.garden))


def _beds(garden: Garden) -> Iterator[Said]:
    units = garden.site.units
    for bed in garden.beds:
        if bed.size.width >= WIDEST:
            yield Said(
                f"{bed.name} is {show_length(bed.size.width, units)} wide",
                f"beds are written in {_word(units.long_unit)}, the width first: is that right?",
                span=bed.span,
            )


def _crops(garden: Garden) -> Iterator[Said]:
    units = garden.site.units
    for crop in garden.crops:
        row, rows = crop.origin("in_row"), crop.origin("between_rows")
        if rows.file is None or rows.line is None:
            continue
        if crop.between_rows < NARROWEST_ROWS or (row.file is not None and _is_far(crop)):
            yield Said(
                f"{crop.name} stands {show_spacing(crop.in_row, units)} apart in rows "
                f"{show_spacing(crop.between_rows, units)} apart",
                f"spacings are written in {_word(units.short_unit)}: is that right?",
                span=Span(rows.file, rows.line),
            )


def _is_far(crop: Crop) -> bool:
    """Whether both spacings are far from those of the built-in crop, to the same side."""
    usual = library.find(crop.kind)
    if usual is None:
        return False
    times = [
        getattr(crop, name) / usual.values[name]
        for name in ("in_row", "between_rows")
        if name in usual.values
    ]
    return len(times) == 2 and (min(times) >= FAR or max(times) <= 1 / FAR)


def _word(unit: str) -> str:
    return _WORDS.get(unit, unit)


RULE = SeasonRule("odd-size", Severity.NOTE, _check)
