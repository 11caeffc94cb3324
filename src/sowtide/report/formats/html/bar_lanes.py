"""Bars in lanes: several beside each other where neither they nor their names touch.

A bar's name stands in it where it has room, else before or behind it; so do its days of picking.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import timedelta
from itertools import product

from sowtide.days import MONTHS, short_span
from sowtide.report.blocks import ChartBar, ChartSpace
from sowtide.report.formats.html.day_scale import DayScale
from sowtide.report.formats.html.extent import extent, shortened_to
from sowtide.report.formats.html.marks import Box, Words
from sowtide.values import value

_GAP, _PAD, _LEAST = 0.9, 0.6, 0.8  # [mm]
_IN_BAR = 0.82
"""How much of a lane's height a bar takes; the rest parts it from the next. [1]"""


@value
class LaneMeasures:
    """How high a lane is, and the size of what is written in it. [mm]"""

    height: float
    letters: float


@value
class BarSpan:
    """A bar on the paper."""

    left: float
    right: float
    """Its ends. [mm]"""
    picked: tuple[float, float] | None
    """The ends of its days of picking; None without any. [mm]"""
    kind: str
    """What its days before picking are."""
    since: bool
    on: bool
    """Whether it stands since before the days shown, and beyond them."""
    names: tuple[str, ...]
    """What it may be called, the fullest first."""
    tail: str
    """Its days of picking and what ends them; empty where nothing is said."""

    @property
    def name_room(self) -> float:
        """How much of it lies before its picking. [mm]"""
        return (self.right if self.picked is None else self.picked[0]) - self.left


@value
class _Written:
    """A bar with its words, as far as they reach at both sides; behind it first its name. [mm]"""

    bar: BarSpan
    first: float
    beyond: float
    name: str
    tail: str
    before: str
    behind: tuple[str, str]


def span_of(of: ChartBar, scale: DayScale, kind: str) -> BarSpan | None:
    """Return a bar on the paper, or None where it lies outside the days shown."""
    if of.beyond <= scale.first or of.first >= scale.beyond:
        return None
    left, right = scale.at(of.first), scale.at(of.beyond)
    right = max(right, left + _LEAST)
    picked, tail = None, of.note
    if of.picked is not None:
        first, beyond = of.picked
        picked = scale.at(max(first, of.first)), scale.at(min(beyond, of.beyond))
        picked = picked[0], max(picked[1], picked[0] + _LEAST)
        right = max(right, picked[1])
        tail = short_span(first, beyond - timedelta(days=1))
        tail += f", {of.note}" if of.note else ""
    since = of.first < scale.first
    day = f"{':' * of.name.isdecimal()} {of.first.day} {MONTHS[of.first.month - 1]}"
    return BarSpan(
        left=left,
        right=right,
        picked=picked,
        kind=kind,
        since=since,
        on=of.beyond > scale.beyond,
        names=(of.name,) if since or not of.name else (f"{of.name}{day}", of.name),
        tail=tail,
    )


def free_lane(spaces: Iterable[ChartSpace], scale: DayScale, size: float) -> tuple[_Written, ...]:
    """Return what is free in a lane of its own, each stretch with how much it is where that fits.

    Parameters
    ----------
    spaces
        Stretches of days that do not overlap, in order.
    scale
        The days shown.
    size
        Of the letters. [mm]
    """
    found: list[_Written] = []
    for each in spaces:
        left, right = scale.at(each.first), scale.at(each.beyond)
        if right <= left:
            continue
        names = (each.said,) if found else (f"free: {each.said}", each.said)
        bar = BarSpan(
            left=left,
            right=right,
            picked=None,
            kind="free",
            since=False,
            on=False,
            names=names,
            tail="",
        )
        name = next((name for name in names if _fits(name, bar.name_room, size)), "")
        found.append(_written(bar, size, name=name, tail="", before="", behind=("", "")))
    return tuple(found)


def lanes(bars: Iterable[BarSpan], width: float, size: float) -> tuple[tuple[_Written, ...], ...]:
    """Return bars in as few lanes as they fit with their words.

    Parameters
    ----------
    bars
        Bars within the width.
    width
        Of the paper. [mm]
    size
        Of the letters. [mm]
    """
    found: list[list[_Written]] = []
    for bar in sorted(bars, key=lambda bar: (bar.left, -bar.right)):
        ways = [each for each in _ways(bar, size) if each.first >= 0 and each.beyond <= width]
        for lane, way in product(found, ways):
            if all(way.first >= each.beyond or way.beyond <= each.first for each in lane):
                lane.append(way)
                break
        else:
            found.append([ways[0] if ways else _cut(bar, width, size)])
    return tuple(tuple(lane) for lane in found)


def one_lane(bars: Iterable[BarSpan], width: float, size: float) -> tuple[_Written, ...]:
    """Return bars that do not touch in one lane, without names; their days where these have room.

    Parameters
    ----------
    bars
        Bars within the width, from left to right.
    width
        Of the paper. [mm]
    size
        Of the letters. [mm]
    """
    listed = tuple(bars)
    ends = [*(bar.left for bar in listed[1:]), width]
    found = []
    for bar, end in zip(listed, ends, strict=True):
        silent = _written(bar, size, name="", tail="", before="", behind=("", ""))
        fitting = (way for way in _ways(bar, size) if way.beyond <= end)
        found.append(next(fitting, silent))
    return tuple(found)


def _ways(bar: BarSpan, size: float) -> Iterator[_Written]:
    """Yield the ways in which a bar's words can stand, the best first."""
    tail_fits = bar.picked is not None and _fits(bar.tail, bar.picked[1] - bar.picked[0], size)
    tails = ("in", "behind") if tail_fits else ("behind",)
    in_bar = [name for name in bar.names if _fits(name, bar.name_room, size, bold=True)]
    for name, at in (
        *((name, "in") for name in in_bar),
        *product(bar.names or ("",), ("before", "behind")),
    ):
        for tail_at in tails:
            yield _written(
                bar,
                size,
                name=name if at == "in" else "",
                tail=bar.tail if tail_at == "in" else "",
                before=name if at == "before" else "",
                behind=(
                    name if at == "behind" else "",
                    bar.tail if tail_at == "behind" else "",
                ),
            )


def _fits(text: str, room: float, size: float, *, bold: bool = False) -> bool:
    return extent(text, size, bold=bold) + 2 * _PAD <= room


def _written(
    bar: BarSpan, size: float, *, name: str, tail: str, before: str, behind: tuple[str, str]
) -> _Written:
    return _Written(
        bar=bar,
        first=bar.left - (_wide(before, size, bold=True) + _GAP if before else 0.0),
        beyond=bar.right + _GAP + _wide(behind[0], size, bold=True) + _wide(behind[1], size),
        name=name,
        tail=tail,
        before=before,
        behind=behind,
    )


def _wide(text: str, size: float, *, bold: bool = False) -> float:
    """Return how wide a text is with the space before it; nothing for no text. [mm]"""
    return extent(text, size, bold=bold) + _PAD if text else 0.0


def _cut(bar: BarSpan, width: float, size: float) -> _Written:
    """Return a bar that no way has room for, its name shortened where it has the most."""
    name = bar.names[-1]
    rooms = {
        "before": bar.left - _PAD - _GAP,
        "name": bar.name_room - 2 * _PAD,
        "behind": width - bar.right - _PAD - _GAP,
    }
    where = max(rooms, key=lambda each: rooms[each])
    said = shortened_to(name, size, rooms[where], bold=True)
    return _written(
        bar,
        size,
        name=said if where == "name" else "",
        tail="",
        before=said if where == "before" else "",
        behind=(said if where == "behind" else "", ""),
    )


def drawn(lane: Iterable[_Written], top: float, of: LaneMeasures) -> Iterator[Box | Words]:
    """Yield the boxes and the words of a lane."""
    high = of.height * _IN_BAR
    middle, size = top + of.height / 2, of.letters
    for each in lane:
        bar = each.bar
        until = bar.right if bar.picked is None else bar.picked[0]
        if until > bar.left:
            yield Box(bar.left, middle - high / 2, until - bar.left, high, bar.kind)
        if bar.picked is not None:
            first, beyond = bar.picked
            yield Box(first, middle - high / 2, beyond - first, high, "picking")
            if bar.right > beyond:
                yield Box(beyond, middle - high / 2, bar.right - beyond, high, bar.kind)
        if bar.since:
            yield Box(0.0, middle - high / 2, _PAD / 2, high, "since")
        if bar.on:
            yield Box(bar.right - _PAD / 2, middle - high / 2, _PAD / 2, high, "since")
        yield from _words(each, middle, high, size)


def _words(of: _Written, middle: float, high: float, size: float) -> Iterator[Box | Words]:
    bar = of.bar
    if of.name:
        kind = "plain" if bar.kind == "free" else "name"
        yield Words(bar.left + _PAD, middle, of.name, size, kind)
    if of.tail:
        assert bar.picked is not None  # it stands in there
        wide = extent(of.tail, size)
        left = (bar.picked[0] + bar.picked[1] - wide) / 2
        plate = high - _PAD / 2
        yield Box(left - _PAD / 2, middle - plate / 2, wide + _PAD, plate, "plate")
        yield Words(left, middle, of.tail, size)
    if of.before:
        left = bar.left - _PAD - extent(of.before, size, bold=True)
        yield Words(left, middle, of.before, size, "name")
    name, tail = of.behind
    at = bar.right + _PAD
    if name:
        yield Words(at, middle, name, size, "name")
        at += _wide(name, size, bold=True)
    if tail:
        yield Words(at, middle, tail, size)
