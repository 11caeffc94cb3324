"""What a drawing shows, in words: a row for each of its strips."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import groupby

from sowtide.days import short_span
from sowtide.report.blocks.tracks import Tracks, WeekStrips

_A_DAY = timedelta(days=1)


def track_rows(of: Tracks) -> Iterator[tuple[str, str]]:
    """Yield the name of each track, and the days of its marks from left to right."""
    means = dict(of.key)
    for track in of.tracks:
        marks = sorted(track.marks, key=lambda mark: mark.first)
        said = (f"{means[mark.sign]} {_span(mark.first, mark.beyond)}" for mark in marks)
        yield track.label, "; ".join(said)


def _span(first: date, beyond: date | None) -> str:
    return short_span(first, first if beyond is None else beyond - _A_DAY)


def strip_rows(of: WeekStrips) -> Iterator[tuple[str, str]]:
    """Yield the name of each strip, and the weeks of each of its signs from left to right."""
    means = dict(of.key)
    for strip in of.strips:
        found, at = [], 0
        for sign, group in groupby(strip.signs):
            weeks = len(tuple(group))
            first = of.first + timedelta(weeks=at)
            if sign != " ":
                last = first + timedelta(weeks=weeks, days=-1)
                found.append(f"{means.get(sign, sign)} {short_span(first, last)}")
            at += weeks
        yield strip.label, "; ".join(found)
