"""Tracks of days drawn for paper: a strip for each, the months over them."""

from __future__ import annotations

from datetime import timedelta

from sowtide.report.blocks import Mark, Track, Tracks
from sowtide.report.formats.html.day_scale import DayScale
from sowtide.report.formats.html.extent import extent
from sowtide.report.formats.html.marks import Box, Drawing, Stroke, Words
from sowtide.report.formats.html.paper import PrintSheet, breakable

_HIGH, _HEAD, _SIZE, _THIN = 3.4, 4.6, 2.4, 0.7  # [mm]
_ONE_DAY = timedelta(days=1)
_KINDS = {
    "-": "frosty",
    "|": "edge",
    "?": "unknown",
    "#": "since",
    "=": "frosty",
    ":": "unknown",
    "~": "hot",
    ".": "bed",
}
"""How the signs of a track are filled; any other is as the end of something."""


def drawn_tracks(of: Tracks, sheet: PrintSheet) -> tuple[Drawing, ...]:
    """Draw tracks as wide as a sheet, each labelled at its left, some in each drawing."""
    label = max(extent(track.label, _SIZE) for track in of.tracks) + 2.0
    return tuple(_drawn(of, some, label, sheet) for some in breakable(of.tracks))


def _drawn(of: Tracks, tracks: tuple[Track, ...], label: float, sheet: PrintSheet) -> Drawing:
    head = DayScale(of.head, of.days, sheet.width - label)
    words: list[Words] = []
    boxes: list[Box] = []
    strokes: list[Stroke] = []
    high = _HEAD + _HIGH * len(tracks)
    for day, name in head.months():
        left = label + head.at(day)
        strokes.append(Stroke(left, 0.0, left, high, "month"))
        words.append(Words(left + 0.6, _HEAD / 2, name.split(" ")[0], _SIZE, "strong"))
    if words and words[-1].right > sheet.width:
        words.pop()
    for number, track in enumerate(tracks):
        top = _HEAD + number * _HIGH
        words.append(Words(0.0, top + _HIGH / 2, track.label, _SIZE))
        scale = DayScale(track.start, of.days, head.width)
        boxes += [_box(mark, scale, label, top) for mark in track.marks]
    return Drawing(
        said=f"{', '.join(track.label for track in tracks)}: a strip of days for each",
        width=sheet.width,
        height=high,
        strokes=tuple(strokes),
        boxes=tuple(boxes),
        words=tuple(words),
    )


def key_of_tracks(of: Tracks) -> tuple[tuple[str, str], ...]:
    """Return how each sign of the key is filled, and what it means."""
    return tuple((_KINDS.get(sign, "edge"), means) for sign, means in of.key)


def _box(mark: Mark, scale: DayScale, label: float, top: float) -> Box:
    """Return the days of a mark; a single day is as wide as can be seen."""
    left = scale.at(mark.first)
    right = scale.at(mark.first + _ONE_DAY if mark.beyond is None else mark.beyond)
    kind = _KINDS.get(mark.sign, "edge")
    if kind == "edge":
        return Box(label + left, top + 0.2, max(right - left, _THIN), _HIGH - 0.4, kind)
    return Box(label + left, top + 0.7, right - left, _HIGH - 1.4, kind)
