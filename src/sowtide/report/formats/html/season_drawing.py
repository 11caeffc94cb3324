"""A season drawn for paper: the head, and a strip of lanes for each bed, series and kind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from sowtide.days import short_span
from sowtide.garden.want import Met
from sowtide.report.blocks import ChartBar, ChartRow, SeasonChart
from sowtide.report.formats.html.bar_lanes import (
    LaneMeasures,
    drawn,
    free_lane,
    lanes,
    one_lane,
    span_of,
)
from sowtide.report.formats.html.day_scale import DayScale, in_weeks
from sowtide.report.formats.html.extent import extent
from sowtide.report.formats.html.marks import Box, Drawing, Stroke, Words
from sowtide.report.formats.html.paper import PrintSheet
from sowtide.report.formats.html.season_head import SeasonHead, season_head
from sowtide.values import value

_AMPLE, _CLOSE = LaneMeasures(4.6, 2.45), LaneMeasures(3.55, 2.15)
_LABEL_LEAST, _LABEL_MOST, _LABEL_SIZE = 22.0, 34.0, 2.6  # [mm]
_MOST_LANES = 16
"""Lanes of one strip; a bed with more has several, between which a page may end. [1]"""
_ABOVE, _SECTION, _BELOW = 17.0, 5.5, 60.0
"""Room for the title over the drawing, that of a section, and what follows it all. [mm]"""
_LABEL_LINE = 3.1
"""How high a line of a name is. [mm]"""
_A_DAY = timedelta(days=1)
_MET = {Met.ENOUGH: "comes", Met.SOME: "partly", Met.LESS: "lacking"}
"""How weeks with a want are filled."""
_LOW = 0.6
"""How high they are drawn, of a lane. [1]"""
_NOTES = {
    False: "what is picked; a blank is a gap",
    True: "what is picked; under it, if it is enough",
}
_TRAYS, _PICKED = "trays", "picked"
"""Said beside a name, so that a row means the same on a page that its title does not stand on."""


@value
class Strip:
    """A row of the drawing: its name, what is said beside it, and its lanes."""

    name: str
    below: str
    drawing: Drawing


@value
class StripSection:
    """Rows under a title; its beds may be parted by the end of a page."""

    title: str
    note: str
    strips: tuple[Strip, ...]


@value
class WaveDays:
    """A bar in words, for the table beside the drawing."""

    row: str
    name: str
    from_: str
    picked: str
    until: str
    note: str


@value
class DrawnSeason:
    """A season drawn."""

    label: float
    """How wide the names before the rows are. [mm]"""
    head: SeasonHead
    """What stands over the columns, on every page."""
    sections: tuple[StripSection, ...]
    """The rows."""
    key: tuple[tuple[str, str], ...]
    """What the fillings mean, those that are used."""
    ends: tuple[str, ...]
    """What ends a wave, as it is written behind its days of picking."""
    table: tuple[WaveDays, ...]
    """The same in words."""


def drawn_season(of: SeasonChart, sheet: PrintSheet) -> DrawnSeason:
    """Draw a season as wide as a sheet.

    It is drawn closer where that saves a page.
    """
    label = _label(of)
    scale = in_weeks(of.days, sheet.width - label)
    head = season_head(of, scale, label)
    room = sheet.height - head.drawing.height
    ample, close = (tuple(_sections(of, scale, each)) for each in (_AMPLE, _CLOSE))
    pages = [_pages(each, room, label) for each in (ample, close)]
    sections = ample if pages[0] == pages[1] else close
    return DrawnSeason(
        label=label,
        head=head,
        sections=sections,
        key=tuple(_key(of)),
        ends=tuple(sorted({b.note for row in of.beds for b in row.bars if b.note})),
        table=tuple(_in_words(of)),
    )


def _label(of: SeasonChart) -> float:
    beds, rows = of.names
    said = extent(f" {_TRAYS}", _LABEL_SIZE)
    wide = [extent(name, _LABEL_SIZE, bold=True) for name in beds]
    wide += [extent(name, _LABEL_SIZE, bold=True) + said for name in rows]
    widest = max(wide, default=0.0)
    return min(max(widest + 2.0, _LABEL_LEAST), _LABEL_MOST)


def _pages(sections: Iterable[StripSection], room: float, label: float) -> int:
    """Return how many pages a season takes with what follows it; no strip is parted by an end.

    Parameters
    ----------
    sections
        Its rows.
    room
        Of a page below the head that each has. [mm]
    label
        How wide the names before the rows are. [mm]
    """
    pages, left = 1, room - _ABOVE
    for section in sections:
        for number, strip in enumerate(section.strips):
            high = max(strip.drawing.height, _label_height(strip, label)) + 0.4
            high += _SECTION if section.title and not number else 0.0
            if high > left:
                pages, left = pages + 1, room
            left -= high
    return pages + (left < _BELOW)


def _label_height(of: Strip, label: float) -> float:
    """Return how high a name is, with what is said beside it or else below it. [mm]"""
    wide = extent(of.name, _LABEL_SIZE, bold=True) + extent(f" {of.below}", _LABEL_SIZE)
    return _LABEL_LINE * (1 if wide <= label - 1.0 else 2)


def _sections(of: SeasonChart, scale: DayScale, measures: LaneMeasures) -> Iterator[StripSection]:
    behind = tuple(_behind(of, scale))
    bench = tuple(ChartRow(row.name, row.bars, _TRAYS) for row in of.bench)
    parts = (
        ("", "", of.beds, "bed"),
        ("Bench", "in trays, by series; the number is the wave's", bench, "trays"),
        ("On the table", _NOTES[_has_wants(of)], _picked_rows(of.table), "bed"),
    )
    for title, note, rows, kind in parts:
        strips = [
            strip
            for row in rows
            for strip in (
                *_strips(row, kind, scale, measures, behind),
                *_wanted(row, scale, measures, behind),
            )
        ]
        if strips:
            yield StripSection(title, note, tuple(strips))


def _picked_rows(rows: Iterable[ChartRow]) -> tuple[ChartRow, ...]:
    """Return what is picked of each kind, days that follow one another as one, the first first."""
    found: list[tuple[date, ChartRow]] = []
    for row in rows:
        runs: list[tuple[date, date]] = []
        for first, beyond in sorted(bar.picked for bar in row.bars if bar.picked is not None):
            if runs and first <= runs[-1][1]:
                runs[-1] = (runs[-1][0], max(beyond, runs[-1][1]))
            else:
                runs.append((first, beyond))
        if runs or row.wanted:
            bars = tuple(ChartBar("", first, beyond, (first, beyond)) for first, beyond in runs)
            first = runs[0][0] if runs else date.max
            found.append((first, ChartRow(row.name, bars, _PICKED, wanted=row.wanted)))
    return tuple(row for _, row in sorted(found, key=lambda each: (each[0], each[1].name)))


def _strips(
    row: ChartRow,
    kind: str,
    scale: DayScale,
    measures: LaneMeasures,
    behind: tuple[tuple[float, str], ...],
) -> Iterator[Strip]:
    bars = [span for bar in row.bars if (span := span_of(bar, scale, kind)) is not None]
    free = free_lane(row.free, scale, measures.letters)
    if not bars and not free:
        return
    if row.bars and not row.bars[0].name:
        found = (one_lane(bars, scale.width, measures.letters),)
    else:
        found = (*lanes(bars, scale.width, measures.letters), *([free] if free else ()))
    parts = range(0, len(found), _MOST_LANES)
    for number, start in enumerate(parts):
        some = found[start : start + _MOST_LANES]
        high = measures.height
        marks = [m for n, lane in enumerate(some) for m in drawn(lane, n * high, measures)]
        high *= len(some)
        below = row.below if not number else "continued"
        yield Strip(
            row.name,
            below,
            Drawing(
                said="continued" if number else "; ".join(_said(row)),
                width=scale.width,
                height=high,
                strokes=tuple(Stroke(at, 0.0, at, high, kind) for at, kind in behind),
                boxes=tuple(mark for mark in marks if isinstance(mark, Box)),
                words=tuple(mark for mark in marks if isinstance(mark, Words)),
            ),
        )


def _wanted(
    row: ChartRow, scale: DayScale, measures: LaneMeasures, behind: tuple[tuple[float, str], ...]
) -> Iterator[Strip]:
    """Yield the days on which what is picked in a row is wanted, filled by how much comes."""
    high = measures.height * _LOW
    boxes, said = [], []
    for each in row.wanted:
        left, right = scale.at(each.first), scale.at(each.beyond)
        if right > left:
            kind = _MET[each.met]
            boxes.append(Box(left, high * 0.15, right - left, high * 0.7, kind))
            said.append(f"{each.met.value} {short_span(each.first, each.beyond - _A_DAY)}")
    if boxes:
        yield Strip(
            "" if row.bars else row.name,
            "wanted",
            Drawing(
                said="; ".join(said),
                width=scale.width,
                height=high,
                strokes=tuple(Stroke(at, 0.0, at, high, kind) for at, kind in behind),
                boxes=tuple(boxes),
                words=(),
            ),
        )


def _has_wants(of: SeasonChart) -> bool:
    return any(row.wanted for row in of.table)


def _behind(of: SeasonChart, scale: DayScale) -> Iterator[tuple[float, str]]:
    """Yield the lines that run down through all rows: weeks, months, average frosts, today."""
    months = {day for day, _ in scale.months()}
    for day in scale.weeks():
        if day not in months:
            yield scale.at(day), "week"
    for day in sorted(months):
        yield scale.at(day), "month"
    for frost in of.frosts:
        if frost is not None and scale.holds(frost):
            yield scale.at(frost), "frost"
    for head in of.heads:
        for mark in head.marks:
            if mark.days.length == 1 and not head.is_odds and scale.holds(mark.days.first):
                yield scale.at(mark.days.first), "today"


def _key(of: SeasonChart) -> Iterator[tuple[str, str]]:
    if of.trays:
        yield "trays", "in trays"
    yield "bed", "in the bed"
    yield "picking", "picking"
    bars = [bar for bed in of.beds for bar in bed.bars]
    if any(bar.first < of.days.first or bar.beyond > of.days.last + _A_DAY for bar in bars):
        yield "since", "since before, or stands on"
    if any(bed.free for bed in of.beds):
        yield "free", "still free"
    met = {each.met for row in of.table for each in row.wanted}
    for each, kind in _MET.items():
        if each in met:
            yield kind, f"wanted: {each.value}"
    if any(of.frosts):
        yield "frost", "average last and first frost"


def _in_words(of: SeasonChart) -> Iterator[WaveDays]:
    for row in of.beds:
        for bar in row.bars:
            first, beyond = bar.picked or (None, None)
            picked = short_span(first, beyond - _A_DAY) if first and beyond else ""
            yield WaveDays(
                row=row.name,
                name=bar.name,
                from_=short_span(bar.first, bar.first),
                picked=picked,
                until=short_span(bar.beyond, bar.beyond),
                note=bar.note,
            )
        for space in row.free:
            yield WaveDays(
                row=row.name,
                name=f"free, {space.said}",
                from_=short_span(space.first, space.first),
                picked="",
                until=short_span(space.beyond, space.beyond),
                note="",
            )


def _said(of: ChartRow) -> Iterator[str]:
    """Yield what stands in a row and what of it is free, for those who hear it read."""
    yield from map(_bar_said, of.bars)
    for space in of.free:
        yield f"{space.said} free {short_span(space.first, space.beyond - _A_DAY)}"


def _bar_said(bar: ChartBar) -> str:
    said = f"{bar.name} {short_span(bar.first, bar.beyond)}"
    if bar.picked is not None:
        said += f", picked {short_span(bar.picked[0], bar.picked[1] - _A_DAY)}"
    return said.strip() + (f", {bar.note}" if bar.note else "")
