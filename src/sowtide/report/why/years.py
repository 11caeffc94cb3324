"""What each recorded year would have done to a wave, in a table."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.climate.answers import YearTold
from sowtide.days import short_day
from sowtide.report.blocks import EMPTY, Line, Span, Style, line
from sowtide.report.formats.terminal.cells import Column, wrap
from sowtide.report.formats.terminal.named_table import named_table
from sowtide.report.kit import words
from sowtide.schedule.waves import Wave
from sowtide.season import Season

_COLUMNS = (Column(15), Column(12), Column(8), Column(8))


def years_table(wave: Wave, season: Season, *, width: int) -> Iterator[Line]:
    """Yield every recorded year: first pick, what ended it, picking days, and if it was worth it.

    Parameters
    ----------
    wave
        A wave of the season.
    season
        The season.
    width
        Of the screen. [cells]
    """
    yield EMPTY
    told = season.years_of(wave)
    if not told:
        why = "it stands over the winter" if wave.judged.odds is None else "there is no record"
        yield from wrap(f"No recorded year tells of it: {why}.", width)
        return
    yield line(("YEAR BY YEAR", Style.HEADING), "  the same planting in each recorded year")
    picked = "" if wave.crop.cut_once else "picked"
    rows = [(str(each.season), _row(each, once=wave.crop.cut_once)) for each in told]
    titles = ("", "first pick", "ended by", picked, "worth it")
    yield from named_table(_COLUMNS, titles, rows, width=width)
    days = words.count(wave.crop.worthwhile_days, "day")
    work = "to cut it" if wave.crop.cut_once else "of picking"
    yield from wrap(
        f"Worth it: {days} or more {work} before the end; a share where the early days to harvest "
        "reach that and the late ones do not.",
        width,
    )


def _row(told: YearTold, *, once: bool) -> tuple[str | Span, ...]:
    ended = ""
    if told.ended_by is not None and told.end is not None:
        ended = f"{told.ended_by.value} {short_day(told.end)}"
    picked = "" if once else words.mean_days(told.picking_days) if told.picking_days else "none"
    return _first(*told.first_pick), ended, picked, _worth(told)


def _first(early: date | None, late: date | None) -> str:
    if early is None:
        return "not ripe"
    if late is None:
        return f"from {short_day(early)}"
    if early == late:
        return short_day(early)
    return f"{short_day(early)} – {short_day(late)}"


def _worth(told: YearTold) -> Span:
    if told.worth >= 1:
        return "yes", Style.GOOD
    if told.worth <= 0:
        return "no", Style.BAD
    percent = min(max(round(100 * told.worth), 1), 99)
    return f"{percent} %", Style.BAD if told.is_poor else Style.WARN
