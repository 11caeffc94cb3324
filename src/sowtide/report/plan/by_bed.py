"""The plan bed by bed: what stands in each and when it is empty, and how full the beds are."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.days import GrowingYear
from sowtide.report.blocks import (
    Block,
    Cells,
    Heading,
    ShareBar,
    ShareBars,
    Space,
    Span,
    Style,
    Table,
    Text,
    line,
    together,
)
from sowtide.report.kit import words
from sowtide.report.plan.beds_view import BedStands, BedWave, ByBed
from sowtide.report.plan.view import PlanView
from sowtide.units import Units, length_in, show_length, show_number


def beds_blocks(of: PlanView, beds: ByBed) -> Iterator[Block]:
    """Yield every bed with what stands in it, how full the beds are, and the longest gaps."""
    for each in beds.beds:
        yield Space()
        yield from _bed(each, of.setting.year, of.setting.units)
    yield Space()
    yield from _full(of, beds)
    yield Space()
    yield from _longest(of, beds)


def _bed(of: BedStands, year: GrowingYear, units: Units) -> Iterator[Block]:
    """Yield a bed's waves in order, and between them the days on which it lies empty."""
    wide = show_number(length_in(of.bed.size.width, units.long_unit))
    size = f"  {wide} x {show_length(of.bed.size.length, units)}"
    yield Text(line((of.bed.name, Style.HEADING), size))
    rows: list[tuple[date, str, tuple[str | Span, ...]]] = [
        (each.plant, each.wave, _row(each, year)) for each in of.waves
    ]
    for name, spans in (("empty", of.empty), ("kept", of.kept)):
        rows += [
            (span.first, name, ("", words.days_from_to(span.first, span.last, year), "", ""))
            for span in spans
        ]
    rows.sort(key=lambda each: each[0])
    yield Table(
        "",
        (
            Cells("plants", 6, right=True),
            Cells("in the bed", 15),
            Cells("of it", 5, right=True),
            Cells("", 11),
        ),
        tuple((name, texts) for _, name, texts in rows),
    )


def _row(of: BedWave, year: GrowingYear) -> tuple[str | Span, ...]:
    return (
        f"{of.plants:,}",
        f"{words.day(of.plant, year)} – {words.day(of.pull_out, year)}",
        f"{100 * of.share:.0f} %",
        words.verdict(of.judged.verdict),
    )


def _full(of: PlanView, beds: ByBed) -> Iterator[Block]:
    """Yield how much of the beds is planted, week by week, as a bar."""
    year = of.setting.year
    narrow = of.only is not None and of.only.beds is not None
    which = "these beds" if narrow else "all beds"
    together_ = "of this bed" if narrow and len(beds.beds) == 1 else f"of {which} together"
    yield Heading("HOW FULL", f"{together_}, week by week")
    yield ShareBars(
        tuple(
            ShareBar(together(words.day(week.from_, year)), f"{100 * week.share:.0f} %", week.share)
            for week in of.full
        )
    )
    mean = sum(week.share for week in of.full) / len(of.full)
    days = words.days_from_to(beds.within.first, beds.within.last, year)
    yield Text(words.unbroken(f"{100 * mean:.0f} % on average of {days}."))


def _longest(of: PlanView, beds: ByBed) -> Iterator[Block]:
    """Yield the longest stretches in which a bed is half free, with what would fit into each."""
    title = ": half of a bed or more, and what of the file would fit there"
    yield Text(line(("LONGEST FREE", Style.HEADING), title))
    if not beds.longest:
        yield Text(f"None from today on for {beds.shortest} days or more.")
    for each in beds.longest:
        days = words.days_from_to(each.span.first, each.span.last, of.setting.year)
        start = f"{each.bed}: {days}, {words.count(each.span.length, 'day')}"
        yield Text(words.unbroken(f"{start}: {each.fits}"), hang=2)
