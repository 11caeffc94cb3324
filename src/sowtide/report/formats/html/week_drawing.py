"""Strips of weeks drawn for paper: a box for each week, the months over them."""

from __future__ import annotations

from datetime import timedelta

from sowtide.report.blocks import WeekStrip, WeekStrips
from sowtide.report.formats.html.day_scale import DayScale
from sowtide.report.formats.html.extent import extent
from sowtide.report.formats.html.marks import Box, Drawing, Stroke, Words
from sowtide.report.formats.html.paper import PrintSheet, breakable

_HIGH, _HEAD, _SIZE = 4.4, 4.8, 2.7  # [mm]
_FILLED = {"#": "picking", "=": "trays", "*": "since", "o": "bed", " ": "white"}
"""How the weeks of a sign are filled; for those of any other nothing is drawn."""


def drawn_weeks(of: WeekStrips, sheet: PrintSheet) -> tuple[Drawing, ...]:
    """Draw strips as wide as a sheet, each labelled at its left, some in each drawing."""
    label = max(extent(each.label, _SIZE, bold=True) for each in of.strips) + 2.0
    return tuple(_drawn(of, some, label, sheet) for some in breakable(of.strips))


def _drawn(
    of: WeekStrips, strips: tuple[WeekStrip, ...], label: float, sheet: PrintSheet
) -> Drawing:
    weeks = len(strips[0].signs)
    scale = DayScale(of.first, 7 * weeks, sheet.width - label)
    high = _HEAD + _HIGH * len(strips)
    words = [
        Words(label + scale.at(day) + 0.6, _HEAD / 2, name.split(" ")[0], _SIZE, "strong")
        for day, name in scale.months()
    ]
    strokes = [
        Stroke(label + scale.at(day), 0.0, label + scale.at(day), high, "month")
        for day, _ in scale.months()
    ]
    if of.today is not None and scale.holds(of.today):
        at = label + scale.at(of.today)
        strokes.append(Stroke(at, _HEAD - 1.0, at, high, "today"))
    boxes = []
    for number, strip in enumerate(strips):
        top = _HEAD + number * _HIGH
        words.append(Words(0.0, top + _HIGH / 2, strip.label, _SIZE, "name"))
        for week, sign in enumerate(strip.signs):
            if sign in _FILLED:
                left = scale.at(of.first + timedelta(days=7 * week))
                width = scale.a_week - 0.15
                boxes.append(Box(label + left, top + 0.5, width, _HIGH - 1.0, _FILLED[sign]))
    return Drawing(
        said=f"{', '.join(each.label for each in strips)}: a box for each week",
        width=sheet.width,
        height=high,
        strokes=tuple(strokes),
        boxes=tuple(boxes),
        words=tuple(each for each in words if each.right <= sheet.width),
    )


def key_of(of: WeekStrips) -> tuple[tuple[str, str], ...]:
    """Return how each sign of the key is filled, empty for not at all, and what it means."""
    signs = (" " if sign == "blank" else sign for sign, _ in of.key)
    return tuple(
        (_FILLED.get(sign, ""), means) for sign, (_, means) in zip(signs, of.key, strict=True)
    )
