"""The head over the beds: months, weeks, frost odds, hot weeks, today."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from itertools import pairwise

from sowtide.days import MONTHS, short_span
from sowtide.report.blocks import ChartOdds, SeasonChart
from sowtide.report.formats.html.day_scale import DayScale
from sowtide.report.formats.html.extent import extent
from sowtide.report.formats.html.marks import Box, Drawing, Stroke, Words
from sowtide.values import value

_MONTHS, _WEEKS, _NUMBERS, _BAND, _ODDS, _MARKS = 4.4, 3.4, 2.8, 3.0, 2.9, 3.6  # [mm]
_LARGE, _PLAIN, _SMALL = 2.9, 2.3, 1.9  # [mm]


@value
class FrostFade:
    """A stretch of the head that darkens with the odds of frost."""

    name: str
    """What the drawing calls it."""
    box: Box
    """Where it lies."""
    stops: tuple[tuple[float, float], ...]
    """How far along each is, and how dark. [0–1, 0–1]"""


@value
class SeasonHead:
    """The head over the columns, what stands before its rows, and its fades."""

    drawing: Drawing
    labels: Drawing
    fades: tuple[FrostFade, ...]


@value
class _Rows:
    """How far down each row of the head begins, and where it ends. [mm]"""

    weeks: float
    numbers: float
    band: float
    odds: float
    marks: float
    end: float


def season_head(of: SeasonChart, scale: DayScale, label: float) -> SeasonHead:
    """Return the head of a season.

    Parameters
    ----------
    of
        The season.
    scale
        Its days.
    label
        How wide the names before the rows are. [mm]
    """
    rows = _rows(of)
    words = [
        *_months(scale),
        *_weeks(scale, rows),
        *_odds(of.odds, scale, rows),
        *(each for each in _marks(of, scale, rows) if isinstance(each, Words)),
    ]
    boxes = [each for each in _marks(of, scale, rows) if isinstance(each, Box)]
    strokes = [
        Stroke(scale.at(day), 0.0, scale.at(day), rows.band, "month") for day, _ in scale.months()
    ]
    strokes += [
        Stroke(scale.at(day), rows.weeks, scale.at(day), rows.band, "week") for day in scale.weeks()
    ]
    strokes += [
        Stroke(scale.at(each.day), rows.band, scale.at(each.day), rows.odds + 0.6, "tick")
        for each in of.odds
        if scale.holds(each.day)
    ]
    return SeasonHead(
        drawing=Drawing(
            said=_said(of),
            width=scale.width,
            height=rows.end,
            strokes=tuple(strokes),
            boxes=tuple(boxes),
            words=tuple(words),
        ),
        labels=_labels(of, rows, label),
        fades=tuple(_fades(of.odds, scale, rows)),
    )


def _rows(of: SeasonChart) -> _Rows:
    weeks = _MONTHS
    numbers = weeks + _WEEKS
    band = numbers + _NUMBERS
    odds = band + (_BAND if of.odds else 0.0)
    marks = odds + (2 * _ODDS if of.odds else 0.0)
    return _Rows(
        weeks=weeks,
        numbers=numbers,
        band=band,
        odds=odds,
        marks=marks,
        end=marks + _MARKS * len(_marked(of)),
    )


def _marked(of: SeasonChart) -> tuple[tuple[str, tuple[tuple[date, date], ...]], ...]:
    """Return the rows of marks but for the frosts, which are drawn as odds."""
    return tuple(
        (head.name, tuple((mark.days.first, mark.days.last) for mark in head.marks))
        for head in of.heads
        if not head.is_odds
    )


def _months(scale: DayScale) -> Iterator[Words]:
    starts = [*scale.months(), (scale.beyond, "")]
    for (day, name), (following, _) in pairwise(starts):
        room = scale.at(following) - scale.at(day) - 1.0
        for text in (name, name.split(" ")[0]):
            if extent(text, _LARGE, bold=True) <= room:
                yield Words(scale.at(day) + 0.7, _MONTHS / 2, text, _LARGE, "strong")
                break


def _weeks(scale: DayScale, rows: _Rows) -> Iterator[Words]:
    for day in scale.weeks():
        left = scale.at(day) + 0.5
        if extent("30", _PLAIN) + 0.5 <= scale.a_week:
            yield Words(left, rows.weeks + _WEEKS / 2, str(day.day), _PLAIN)
        if extent("30", _SMALL) + 0.5 <= scale.a_week:
            number = (day + timedelta(days=3)).isocalendar().week
            yield Words(left, rows.numbers + _NUMBERS / 2, str(number), _SMALL, "quiet")


def _odds(odds: Iterable[ChartOdds], scale: DayScale, rows: _Rows) -> Iterator[Words]:
    """Yield the days of the odds, in the second line where the first has no room for them."""
    ends = [0.0, 0.0]
    for each in sorted(odds, key=lambda each: (each.day, -each.share)):
        if not scale.holds(each.day):
            continue
        text = f"{round(each.share * 100)}: {each.day.day} {MONTHS[each.day.month - 1]}"
        wide = extent(text, _PLAIN, bold=True)
        left = max(min(scale.at(each.day) - wide / 2, scale.width - wide), 0.0)
        line = next((n for n, end in enumerate(ends) if left >= end), None)
        if line is not None:
            ends[line] = left + wide + 0.8
            kind = "strong" if each.share == 0.5 else "plain"
            yield Words(left, rows.odds + (line + 0.6) * _ODDS, text, _PLAIN, kind)


def _fades(odds: tuple[ChartOdds, ...], scale: DayScale, rows: _Rows) -> Iterator[FrostFade]:
    for coming in (True, False):
        half = sorted((each for each in odds if each.coming is coming), key=lambda each: each.day)
        if len(half) < 2:
            continue
        first, last = half[0], half[-1]
        slope = (last.share - first.share) / max((last.day - first.day).days, 1)
        days = round(abs(min(first.share, last.share) / slope)) if slope else 0
        if coming:
            begin, end = scale.first, last.day + timedelta(days=days)
            stops = [(begin, first.share), *((each.day, each.share) for each in half), (end, 0.0)]
        else:
            begin, end = first.day - timedelta(days=days), scale.beyond
            stops = [(begin, 0.0), *((each.day, each.share) for each in half), (end, last.share)]
        left, wide = scale.at(begin), scale.at(end) - scale.at(begin)
        if wide > 0:
            yield FrostFade(
                f"frost-{'to-come' if coming else 'come'}",
                Box(left, rows.band, wide, _BAND, "fade"),
                tuple((min(max((scale.at(d) - left) / wide, 0), 1), share) for d, share in stops),
            )


def _marks(of: SeasonChart, scale: DayScale, rows: _Rows) -> Iterator[Box | Words]:
    """Yield a band for each run of days, a spot for a single one, each with its days behind it."""
    for number, (_, spans) in enumerate(_marked(of)):
        middle = rows.marks + (number + 0.5) * _MARKS
        for first, last in spans:
            if last < scale.first or first >= scale.beyond:
                continue
            left, right = scale.at(first), scale.at(last + timedelta(days=1))
            kind = "day" if first == last else "hot"
            yield Box(left, middle - 0.36 * _MARKS, right - left, 0.72 * _MARKS, kind)
            text = short_span(first, last)
            wide = extent(text, _PLAIN)
            at = right + 0.7 if right + 0.7 + wide <= scale.width else left - 0.7 - wide
            yield Words(max(at, 0.0), middle, text, _PLAIN)


def _labels(of: SeasonChart, rows: _Rows, label: float) -> Drawing:
    said = [
        (f"{of.weekday} the", rows.weeks + _WEEKS / 2),
        ("week", rows.numbers + _NUMBERS / 2),
    ]
    if of.odds:
        said.append(("frost, in how many", rows.band + _BAND / 2))
        said.append(("years of 100", rows.odds + 0.6 * _ODDS))
    said += [
        (name, rows.marks + (number + 0.5) * _MARKS) for number, (name, _) in enumerate(_marked(of))
    ]
    words = tuple(
        Words(max(label - 1.2 - extent(text, _PLAIN), 0.0), middle, text, _PLAIN)
        for text, middle in said
    )
    return Drawing(
        said="what the rows are", width=label, height=rows.end, strokes=(), boxes=(), words=words
    )


def _said(of: SeasonChart) -> str:
    """Say what the head shows, for those who hear it read."""
    said = [
        f"{head.name} {', '.join(short_span(m.days.first, m.days.last) for m in head.marks)}"
        for head in of.heads
        if head.marks and not head.is_odds
    ]
    for coming, which in ((True, "a frost still to come"), (False, "a frost already come")):
        half = [
            f"{round(e.share * 100)} on {short_span(e.day, e.day)}"
            for e in of.odds
            if e.coming is coming
        ]
        if half:
            said.append(f"of 100 years with {which}: {', '.join(half)}")
    return "; ".join(said) or "weeks"
