"""Drawings in words and tables, for Markdown."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.days import short_span
from sowtide.report.blocks import ChartRow, SeasonChart, Tracks, WeekStrips, strip_rows, track_rows
from sowtide.report.formats.markdown_words import paragraph, said, table_rows

_A_DAY = timedelta(days=1)


def days_of_tracks(of: Tracks) -> Iterator[str]:
    """Yield a row for each track: the days of its marks, which is what a picture would show."""
    yield from table_rows(("", "days"), track_rows(of))


def weeks_of_strips(of: WeekStrips) -> Iterator[str]:
    """Yield a row for each strip: the weeks of each of its signs."""
    yield from table_rows(("", "weeks"), strip_rows(of))


def season_in_words(of: SeasonChart) -> Iterator[str]:
    yield f"## {said(of.title)}: {said(of.what.strip())}"
    yield ""
    yield paragraph(of.caption)
    yield ""
    rows = [
        (head.name, ", ".join(short_span(m.days.first, m.days.last) for m in head.marks))
        for head in of.heads
        if not head.is_odds
    ]
    for coming, name in ((True, "frost still to come"), (False, "frost already come")):
        odds = (e for e in of.odds if e.coming is coming)
        days = [f"{round(100 * e.share)} in 100 on {short_span(e.day, e.day)}" for e in odds]
        if days:
            rows.append((name, ", ".join(days)))
    yield from table_rows(("season", "days"), rows)
    yield ""
    yield from table_rows(
        ("bed", "what", "in from", "picked", "out on", "ended by"),
        (
            (
                bed.name,
                bar.name,
                short_span(bar.first, bar.first),
                _picked(bar.picked),
                short_span(bar.beyond, bar.beyond),
                bar.note,
            )
            for bed in of.beds
            for bar in bed.bars
        ),
    )
    for title, lines in (("In trays", of.bench), ("On the table", of.table)):
        if lines:
            yield ""
            yield f"### {title}"
            yield ""
            yield from table_rows(
                ("what", "days"), (cells for row in lines for cells in _rows(row, title))
            )


def _rows(row: ChartRow, title: str) -> Iterator[tuple[str, str]]:
    """Yield a row's days, and below them when what is picked there is wanted."""
    yield row.name, _runs(row, title)
    if row.wanted:
        spans = (f"{_picked((each.first, each.beyond))} {each.met.value}" for each in row.wanted)
        yield f"{row.name}, wanted", ", ".join(spans)


def _runs(row: ChartRow, title: str) -> str:
    """Say the days of a row: of each wave in trays, or those on which anything is picked."""
    if title == "In trays":
        return ", ".join(f"{b.name}: {short_span(b.first, b.beyond - _A_DAY)}" for b in row.bars)
    return ", ".join(
        _picked(span) for span in sorted(bar.picked for bar in row.bars if bar.picked is not None)
    )


def _picked(span: tuple[date, date] | None) -> str:
    return "" if span is None else short_span(span[0], span[1] - _A_DAY)
