"""The plan bed by bed: what stands in each and when it is empty, and how full the beds are."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.model import Bed
from sowtide.report.blocks import EMPTY, Line, Span, Style, line, together
from sowtide.report.formats.terminal.cells import Column, row, wrap
from sowtide.report.formats.terminal.named_table import named_table
from sowtide.report.kit import words
from sowtide.schedule.beds import (
    SHORTEST,
    FreeBed,
    free_spans,
    full_weeks,
    growing_days,
    longest_free,
)
from sowtide.schedule.fits import BedQuestion, what_fits
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.units import length_in, show_length, show_number

_MOST_GAPS = 6
_MOST_CROPS = 4
_COLUMNS = (Column(6, right=True), Column(15), Column(5, right=True), Column(11))
_BAR = "#"


def beds_text(season: Season, *, width: int) -> tuple[Line, ...]:
    """Lay out every bed with what stands in it, how full the beds are, and the longest gaps.

    Parameters
    ----------
    season
        The season.
    width
        Of the screen. [cells]
    """
    year = season.garden.year
    within = growing_days(season.climate, year)
    lines: list[Line] = []
    for bed, waves in season.by_bed():
        lines += (EMPTY, *_bed(bed, waves, season, within, width))
    lines += (EMPTY, *_full(season, within, width))
    lines += (EMPTY, *_longest(season, within, width))
    return tuple(lines)


def _bed(
    bed: Bed, waves: list[Wave], season: Season, within: DateSpan, width: int
) -> Iterator[Line]:
    """Yield a bed's waves in order, and between them the days on which it lies empty."""
    units = season.garden.site.units
    wide = show_number(length_in(bed.size.width, units.long_unit))
    size = f"  {wide} x {show_length(bed.size.length, units)}"
    yield from wrap(line((bed.name, Style.HEADING), size), width)
    year = season.garden.year
    rows: list[tuple[date, str, tuple[str | Span, ...]]] = [
        (wave.stages.plant.day, wave.id, _row(wave, bed, year)) for wave in waves
    ]
    rows += [
        (span.first, "empty", ("", words.days_from_to(span.first, span.last, year), "", ""))
        for span in free_spans(season.room, bed, within, least=bed.area)
        if span.length >= SHORTEST
    ]
    rows += [
        (span.first, "kept", ("", words.days_from_to(span.first, span.last, year), "", ""))
        for span in bed.taken
    ]
    rows.sort(key=lambda each: each[0])
    titles = ("", "plants", "in the bed", "of it", "")
    named = [(name, texts) for _, name, texts in rows]
    yield from named_table(_COLUMNS, titles, named, width=width)


def _row(wave: Wave, bed: Bed, year: GrowingYear) -> tuple[str | Span, ...]:
    plants = sum(place.plants for place in wave.places if place.bed is bed)
    stages = wave.stages
    share = plants * wave.crop.area_per_plant / bed.area
    return (
        f"{plants:,}",
        _stands(stages.plant.day, stages.pull_out.day, year),
        f"{100 * share:.0f} %",
        words.verdict(wave.judged.verdict),
    )


def _stands(planted: date, pulled: date, year: GrowingYear) -> str:
    return f"{words.day(planted, year)} – {words.day(pulled, year)}"


def _full(season: Season, within: DateSpan, width: int) -> Iterator[Line]:
    """Yield how much of all beds is planted, week by week, as a bar."""
    year = season.garden.year
    yield line(("HOW FULL", Style.HEADING), "  of all beds together, week by week")
    columns = (Column(10, right=True), Column(5, right=True))
    room = width - 2 - sum(column.width + 2 for column in columns)
    weeks = full_weeks(season.room, within, starts=season.garden.site.week_starts)
    for week in weeks:
        bar = _BAR * round(min(week.share, 1) * room)
        texts = (together(words.day(week.first, year)), f"{100 * week.share:.0f} %")
        yield line(row(columns, texts), f"  {bar}")
    mean = sum(week.share for week in weeks) / len(weeks)
    days = words.days_from_to(within.first, within.last, year)
    yield from wrap(words.unbroken(f"{100 * mean:.0f} % on average of {days}."), width)


def _longest(season: Season, within: DateSpan, width: int) -> Iterator[Line]:
    """Yield the longest stretches in which a bed is half free, with what would fit into each."""
    title = ": half of a bed or more, and what of the file would fit there"
    yield from wrap(line(("LONGEST FREE", Style.HEADING), title), width)
    ahead = DateSpan(max(within.first, season.today), within.last)
    found = longest_free(season.room, ahead, most=_MOST_GAPS)
    if not found:
        yield from wrap(f"None from today on for {SHORTEST} days or more.", width)
    year = season.garden.year
    for each in found:
        days = words.days_from_to(each.span.first, each.span.last, year)
        start = f"{each.bed.name}: {days}, {words.count(each.span.length, 'day')}"
        yield from wrap(words.unbroken(f"{start}: {_would_fit(each, season)}"), width, hang=2)


def _would_fit(free: FreeBed, season: Season) -> str:
    """Name the crops of the file that would be safe in a free bed, soonest picked first."""
    question = BedQuestion(free.bed, free.span.first, seedlings=True, crops=season.garden.crops)
    found = what_fits(season, question)
    names = [
        each.crop.title for each in found.safe if each.spot.judged.stages.plant.day in free.span
    ]
    if names:
        return words.listed(names[:_MOST_CROPS])
    covers = [each.text for each in found.covers][:1]
    return covers[0] if covers else "nothing that would be safe"
