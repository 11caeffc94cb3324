"""What one plant of a crop gives: the grower's own figure, else worked out from the built-in ones.

Published yields are of ten feet of row, some of an area. Plants in a bed stand in closer rows than
in the plots that those were weighed in, and each row gives less there: how much less is a rule of
sowtide's own, the square root of the share of the distance, halfway between the same yield of a row
and the same yield of an area.
"""

from __future__ import annotations

from math import sqrt

from sowtide.garden.crop import Crop, Yield
from sowtide.garden.library.table import Row, blocks, rows
from sowtide.garden.readers import PIECES, kind_of
from sowtide.reasons import OURS, Origin
from sowtide.units import KILOGRAMS, SQUARE_METRE, length_in
from sowtide.values import value

_FEWEST_CUT = 0.8
"""Of plants cut once, so many come to something at the least: sowtide's own reading. [0–1]"""

_ROW = 120.0
"""The row that yields are given of. [in]"""


@value
class KnownYield:
    """What a plant gives, where that comes from, and how it was worked out, in a few words."""

    gives: Yield
    origin: Origin
    how: str


def yield_of(crop: Crop, unit: str | None = None) -> KnownYield | None:
    """Return what one plant of a crop gives, or None where nothing is known of it.

    Parameters
    ----------
    crop
        The crop, on the spacing that it is grown at.
    unit
        What it is to be reckoned in; what is known, unless stated. None comes back where it cannot
        be: only of a crop cut once each plant is one piece.
    """
    known = _known(crop)
    if unit is None or (known is not None and kind_of(known.gives.unit) == kind_of(unit)):
        return known
    if crop.cut_once and kind_of(unit) == PIECES:
        how = "one of each plant, and eight to ten of ten come to something"
        return KnownYield(Yield(_FEWEST_CUT, 1.0, unit), OURS, how)
    return None


def _known(crop: Crop) -> KnownYield | None:
    if crop.yield_per_plant is not None:
        return KnownYield(crop.yield_per_plant, crop.origin("yield_per_plant"), "as written")
    if crop.kind not in blocks():
        return None
    figures = {row.field: row for row in rows(crop.kind)}
    by_row, by_area = figures.get("yield_per_row"), figures.get("yield_per_area")
    if by_row is not None:
        return _by_row(crop, by_row, figures.get("spacing_rows"))
    return None if by_area is None else _by_area(crop, by_area)


def _by_row(crop: Crop, row: Row, spacing: Row | None) -> KnownYield:
    unit = row.unit.partition("/")[0]
    closer = 1.0
    if spacing is not None:
        apart = sum(_ends(spacing.value.partition(" x ")[2])) / 2
        closer = min(1.0, sqrt(length_in(crop.between_rows, "in") / apart))
    share = length_in(crop.in_row, "in") / _ROW * closer
    if unit in KILOGRAMS:
        unit, share = "kg", share * float(KILOGRAMS[unit])
    low, high = _ends(row.value)
    how = "from the yield of 10 ft of row, less where its rows stand closer"
    return KnownYield(Yield(low * share, high * share, unit), Origin(source=row.source), how)


def _by_area(crop: Crop, row: Row) -> KnownYield:
    low, high = (end * crop.area_per_plant / SQUARE_METRE for end in _ends(row.value))
    how = "from the yield of an area"
    return KnownYield(Yield(low, high, "kg"), Origin(source=row.source), how)


def _ends(text: str) -> tuple[float, float]:
    low, _, high = text.partition("-")
    return float(low), float(high or low)
