"""What each recorded year would have done to a wave, in a table."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.days import short_day
from sowtide.report.blocks import Block, Cells, Heading, Space, Span, Style, Table, Text
from sowtide.report.kit import words
from sowtide.report.why.view import WhyView, YearView


def years_table(of: WhyView) -> Iterator[Block]:
    """Yield every recorded year: first pick, what ended it, picking days, if it was worth it."""
    yield Space()
    if not of.years:
        why = "it stands over the winter" if of.judged.odds is None else "there is no record"
        yield Text(f"No recorded year tells of it: {why}.")
        return
    once = of.judged.cut_once
    yield Heading("YEAR BY YEAR", "the same planting in each recorded year")
    yield Table(
        "",
        (
            Cells("first pick", 15),
            Cells("ended by", 12),
            Cells("" if once else "picked", 8),
            Cells("worth it", 8),
        ),
        tuple((str(each.year), _row(each, once=once)) for each in of.years),
    )
    days = words.count(of.judged.worthwhile_days, "day")
    work = "to cut it" if once else "of picking"
    yield Text(
        f"Worth it: {days} or more {work} before the end; a share where the early days to harvest "
        "reach that and the late ones do not."
    )


def _row(told: YearView, *, once: bool) -> tuple[str | Span, ...]:
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


def _worth(told: YearView) -> Span:
    if told.worth >= 1:
        return "yes", Style.GOOD
    if told.worth <= 0:
        return "no", Style.BAD
    percent = min(max(round(100 * told.worth), 1), 99)
    return f"{percent} %", Style.BAD if told.is_poor else Style.WARN
