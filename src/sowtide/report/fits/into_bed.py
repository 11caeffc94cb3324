"""What still fits into a bed, as text and for other programs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sowtide.garden.crop import Raised
from sowtide.report.blocks import EMPTY, Line, Span, Style, line, together
from sowtide.report.formats.terminal.cells import Column, wrap
from sowtide.report.formats.terminal.named_table import named_table
from sowtide.report.kit import words
from sowtide.schedule.fits import BedAnswer, StillFits
from sowtide.schedule.season import Season

_MOST_SAFE, _MOST_CHANCY, _MOST_CLOSED = 30, 10, 8
_COLUMNS = (Column(6, right=True), Column(16), Column(10), Column(6, right=True))


def fits_bed_text(answer: BedAnswer, season: Season, *, width: int) -> tuple[Line, ...]:
    """Lay out what still fits into a bed.

    Parameters
    ----------
    answer
        The answer.
    season
        The season.
    width
        Of the screen. [cells]
    """
    year = season.garden.year
    on = together(words.weekday(answer.asked_on, year))
    lines = [
        *wrap(line(("WHAT STILL FITS", Style.HEADING), f" into {answer.bed.name} from {on}"), width)
    ]
    if answer.safe:
        lines += (EMPTY, *_table("SAFE", "soonest first", answer.safe, _MOST_SAFE, season, width))
    else:
        lines += wrap("No crop would be safe there.", width)
    if answer.chancy:
        lines += (
            EMPTY,
            *_table("CHANCY", "likeliest first", answer.chancy, _MOST_CHANCY, season, width),
        )
    if answer.covers:
        lines += (EMPTY, line(("TO CLOSE THE SPACE", Style.HEADING)))
        for each in answer.covers:
            lines += wrap(words.unbroken(words.sentence(each.text)[:-1]), width, first="- ")
    if answer.closed:
        lines += (EMPTY, *wrap(_kept_out(answer.closed), width))
    safe = words.sentence(words.safe_means(season.garden.site.sure))
    lines += (EMPTY, *wrap(f"{safe} {words.rests_on(season.climate.basis)}", width))
    return tuple(lines)


def _kept_out(names: Sequence[str]) -> str:
    """Name the crops that rotation keeps out, or count them where they are many."""
    if len(names) <= _MOST_CLOSED:
        return f"Rotation keeps out: {', '.join(names)}."
    return f"Rotation keeps out {len(names)} crops; `--format json` lists them all."


def _table(
    title: str, order: str, crops: Sequence[StillFits], most: int, season: Season, width: int
) -> Iterator[Line]:
    yield line((title, Style.HEADING), f"  {order}")
    shown = crops[:most]
    odds = "in 100" if shown[0].spot.judged.years is None else "years"
    rows = [(each.crop.title, _row(each, season)) for each in shown]
    yield from named_table(_COLUMNS, ("", "plants", "", "first pick", odds), rows, width=width)
    if len(crops) > most:
        yield from wrap(f"and {len(crops) - most} more; `--format json` lists them all", width)


def _row(of: StillFits, season: Season) -> tuple[str | Span, ...]:
    year, spot = season.garden.year, of.spot
    picks = spot.judged.stages.first_pick
    until = max(spot.free_until or spot.free_from, spot.free_from)
    act = "plant out" if of.raised is Raised.TRAYS else "sow"
    return (
        f"{spot.plants:,}",
        f"{act} {words.days_from_to(spot.free_from, until, year)}",
        "" if picks is None else words.day(picks[0].day, year),
        words.short_odds(words.odds_cell(spot.judged)),
    )
