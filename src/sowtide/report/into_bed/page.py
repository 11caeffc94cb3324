"""What still fits into a bed as a page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sowtide.report.blocks import (
    Block,
    Cells,
    Heading,
    Space,
    Span,
    Style,
    Table,
    Text,
    line,
    together,
)
from sowtide.report.into_bed.view import CropThere, IntoBedView
from sowtide.report.kit import words
from sowtide.report.kit.alternatives import alternative
from sowtide.report.kit.seedlings import act
from sowtide.report.kit.spots import odds_title

_MOST_SAFE, _MOST_CHANCY, _MOST_CLOSED = 30, 10, 8


def page(of: IntoBedView) -> Iterator[Block]:
    """Yield what still fits into a bed."""
    on = together(words.weekday(of.on, of.setting.year))
    yield Text(line(("WHAT STILL FITS", Style.HEADING), f" into {of.bed} from {on}"))
    if of.safe:
        yield from _crops("SAFE", "soonest first", of.safe, _MOST_SAFE, of)
    else:
        yield Text("No crop would be safe there.")
    if of.chancy:
        yield from _crops("CHANCY", "likeliest first", of.chancy, _MOST_CHANCY, of)
    yield from _while_away(of)
    if of.cover_crops:
        yield Space()
        yield Heading("TO CLOSE THE SPACE")
        yield from map(alternative, of.cover_crops)
    if of.closed_by_rotation:
        yield Space()
        yield Text(_kept_out(of.closed_by_rotation))
    yield Space()
    yield Text(words.how_sure(of.setting.sure, of.basis))


def _while_away(of: IntoBedView) -> Iterator[Block]:
    """Say what would be planted or first picked on days on which nobody is there."""
    planted = [each.title for each in of.crops if each.away_when_planted]
    picked = [each.title for each in of.crops if each.away_when_picked]
    said = (("Planted", planted), ("First picked", picked))
    if any(crops for _, crops in said):
        yield Space()
    for done, crops in said:
        if crops:
            names = ", ".join(crops[:_MOST_CLOSED])
            more = len(crops) - _MOST_CLOSED
            names += f" and {more} more" if more > 0 else ""
            yield Text(f"{done} while nobody is there: {names}.", hang=2)


def _kept_out(names: Sequence[str]) -> str:
    """Name the crops that rotation keeps out, or count them where they are many."""
    if len(names) <= _MOST_CLOSED:
        return f"Rotation keeps out: {', '.join(names)}."
    return f"Rotation keeps out {len(names)} crops; `--format json` lists them all."


def _crops(
    title: str, order: str, crops: Sequence[CropThere], most: int, of: IntoBedView
) -> Iterator[Block]:
    yield Space()
    yield Heading(title, order)
    shown = crops[:most]
    columns = (
        Cells("plants", 6, right=True),
        Cells("", 16),
        Cells("first pick", 10),
        Cells(odds_title(shown[0].spot.judged), 6, right=True),
    )
    yield Table("", columns, tuple((each.title, _row(each, of)) for each in shown))
    if len(crops) > most:
        yield Text(f"and {len(crops) - most} more; `--format json` lists them all")


def _row(of: CropThere, whole: IntoBedView) -> tuple[str | Span, ...]:
    year, spot = whole.setting.year, of.spot
    return (
        f"{spot.plants:,}",
        f"{act(of.raised)} {words.days_from_to(spot.free_from, spot.until, year)}",
        "" if spot.first_pick is None else words.day(spot.first_pick[0], year),
        words.short_odds(words.odds_cell(spot.judged)),
    )
