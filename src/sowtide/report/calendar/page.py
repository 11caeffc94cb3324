"""The season at a glance: every bed's waves over the weeks, to read in a terminal or to print.

Bars are plain characters, so that the sheet says the same without colour and in a pipe.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from sowtide.days import Half
from sowtide.garden.model import Bed
from sowtide.report.blocks import Line, Style, line, styled, together
from sowtide.report.calendar import sections
from sowtide.report.calendar.bars import (
    EARLIER,
    EMPTY,
    END_MARKS,
    FROST_COLUMN,
    IN_BED,
    IN_TRAYS,
    LATER,
    PICKING,
    bed_bar,
    packed,
    painted,
    with_frosts,
)
from sowtide.report.calendar.last_days import last_day_rows
from sowtide.report.calendar.scale import (
    Scale,
    days_shown,
    frost_day,
    marks_over,
    months_over,
    scale_for,
    span_over,
    weeks_over,
)
from sowtide.report.formats.terminal import rendered
from sowtide.report.formats.terminal.cells import cells, cut, fit, pad, wrap
from sowtide.report.kit import words
from sowtide.schedule.season import Season
from sowtide.units import Units, length_in, show_length, show_number

_SHARES = ((0.9, "9"), (0.2, "2"), (0.5, "5"))
"""Frosts marked in the head, each with its years in ten; the average last, so that it stays."""

HOT, TODAY = "~", "v"
_ROWS_BETWEEN_HEADS = 40
_LABELS = ("frost, of 10",)


def calendar_text(season: Season, *, width: int) -> tuple[Line, ...]:
    """Return the season calendar.

    Parameters
    ----------
    season
        The season.
    width
        Most cells a line may have, at least 40. [cells]
    """
    label, scale = _columns(season, width)
    return (
        *_title(season, scale, width),
        Line(),
        *_chart(season, scale, label),
        *_below(season, scale, width),
    )


def _columns(season: Season, width: int) -> tuple[int, Scale]:
    """Return the width of the labels and the scale beside them.

    Names of beds have room first, as far as it goes; those of series and crops get what is left
    over at the same scale.
    """
    days = days_shown(season)
    most = min(16 if width < 100 else 24, width // 3)
    beds = (*_LABELS, *(bed.name for bed in season.garden.beds))
    least = min(max(cells(name) for name in beds), most)
    names = (*beds, *sections.names_below(season))
    scale = scale_for(days, columns=width - least - 1)
    for label in range(min(max(cells(name) for name in names), most), least, -1):
        wider = scale_for(days, columns=width - label - 1)
        if wider.step == scale.step:
            return label, wider
    return least, scale


def _title(season: Season, scale: Scale, width: int) -> Iterator[Line]:
    garden = season.garden
    year = garden.year
    what = (
        f"   season {words.season_name(year)}: {words.count(len(garden.beds), 'bed')}, "
        f"{words.count(len(season.waves), 'wave')}"
    )
    yield fit(
        line((cut(garden.site.name.upper(), max(width - len(what), 8)), Style.HEADING), what), width
    )
    frosts = [
        together(f"{which} {words.day(day, year)}")
        for which, day in zip(("last", "first"), _average_frosts(season), strict=True)
        if day is not None
    ]
    yield from wrap(
        f"{_seen(season)} "
        + (f"Average frosts: {', '.join(frosts)}. " if frosts else "No frost here. ")
        + together(f"A column is {words.count(scale.step, 'day')}."),
        width,
    )


def _seen(season: Season) -> str:
    """Say the day it is seen on, and whether that lies in the year that the file plans."""
    year, today = season.garden.year, season.today
    if today in year:
        return f"{together(words.weekday(today, year))}: what comes later is forecast."
    return f"Seen on {words.day(today, year)}, {words.plans_another(year, today)}."


def _average_frosts(season: Season) -> tuple[date | None, date | None]:
    return (
        frost_day(season, Half.SPRING, share=0.5),
        frost_day(season, Half.AUTUMN, share=0.5),
    )


def _chart(season: Season, scale: Scale, label: int) -> Iterator[Line]:
    frosts = [scale.holding(day) if day else None for day in _average_frosts(season)]
    head = tuple(_head(season, scale, label))
    rule = _rule(scale, label, frosts)
    yield from head
    yield rule
    since = 0
    for bed, waves in season.by_bed():
        bars = [bar for wave in waves if (bar := bed_bar(wave, scale)) is not None]
        if not bars:
            continue
        if since > _ROWS_BETWEEN_HEADS:
            yield from (rule, *head, rule)
            since = 0
        rows = packed(bars, scale.columns, empty=EMPTY)
        for name, drawn in zip(_bed_labels(season, bed, label, len(rows)), rows, strict=True):
            yield line(pad(name, label), " ", painted(with_frosts(drawn, frosts)))
        since += len(rows)
    for title, found in (
        ("BENCH  in trays, by series; the number is the wave's", sections.bench_rows),
        ("ON THE TABLE  what is picked; a blank is a gap", sections.table_rows),
    ):
        lines = tuple(found(season, scale, label=label))
        if lines:
            yield rule
            yield fit((title, Style.HEADING), label + 1 + scale.columns)
            yield from lines
    yield rule


def _head(season: Season, scale: Scale, label: int) -> Iterator[Line]:
    weekday = words.WEEKDAYS[season.garden.site.week_starts]
    frosts = [
        (frost_day(season, half, share=share), mark) for share, mark in _SHARES for half in Half
    ]
    for name, text in (
        ("", months_over(scale)),
        (f"{weekday} the", weeks_over(scale)),
        ("frost, of 10", marks_over(scale, frosts)),
        ("too hot", span_over(scale, season.climate.hot_weeks, HOT)),
        ("today", marks_over(scale, ((season.today, TODAY),))),
    ):
        if text:
            yield line(f"{pad(name, label)} {text}")


def _rule(scale: Scale, label: int, frosts: Iterable[int | None]) -> Line:
    drawn = ["-"] * scale.columns
    for column in frosts:
        if column is not None:
            drawn[column] = "+"
    return styled("-" * (label + 1) + "".join(drawn), Style.DIM)


def _bed_labels(season: Season, bed: Bed, label: int, rows: int) -> tuple[str, ...]:
    """Return what stands before the rows of a bed: its name, and its size where it has room."""
    size = _size(bed, season.garden.site.units)
    beside = f"{bed.name}  {size}"
    if cells(beside) <= label:
        return (beside, *[""] * (rows - 1))
    return (bed.name, size, *[""] * (rows - 2))[:rows]


def _size(bed: Bed, units: Units) -> str:
    width = show_number(length_in(bed.size.width, units.long_unit))
    return f"{width} x {show_length(bed.size.length, units)}"


def _below(season: Season, scale: Scale, width: int) -> Iterator[Line]:
    shown = {wave.id for wave in season.waves if wave.places and bed_bar(wave, scale) is not None}
    unseen = [wave for wave in season.waves if wave.places and wave.id not in shown]
    yield from _key(season, scale, width)
    for lines in (
        tuple(last_day_rows(season, width=width)),
        _look_for(season, width),
        (
            *sections.no_room(season, width=width),
            *sections.not_safe(season, width=width),
            *sections.may_bolt(season, width=width),
            *sections.gaps(season, width=width),
            *sections.unused_beds(season, width=width),
            *sections.outside(unseen, width=width),
        ),
        wrap(words.rests_on(season.climate.basis), width),
    ):
        if lines:
            yield Line()
            yield from lines


def _look_for(season: Season, width: int) -> tuple[Line, ...]:
    if not season.lookouts:
        return ()
    from sowtide.report.kit.lookouts import lookout_view, season_list

    views = [lookout_view(each, season.garden.site.units) for each in season.lookouts]
    return tuple(rendered(season_list(views, season.garden.year), width))


def _key(season: Season, scale: Scale, width: int) -> Iterator[Line]:
    """Yield what the marks mean, as far as there are any."""
    waves = [wave for wave in season.waves if wave.places]
    ends = {wave.judged.ended_by for wave in waves}
    marks = [
        (True, f"{EMPTY} empty"),
        (True, f"{IN_BED} in the bed"),
        (True, f"{PICKING} picking"),
        (any(wave.from_trays for wave in waves), f"{IN_TRAYS} in trays"),
        *((ended in ends, f"{mark} {ended.value} ends it") for ended, mark in END_MARKS.items()),
        (any(wave.stages.plant.day < scale.first for wave in waves), f"{EARLIER} since before"),
        (any(wave.stages.pull_out.day > scale.last for wave in waves), f"{LATER} stands on"),
    ]
    frosts = any(_average_frosts(season))
    if frosts:
        marks.append((True, f"{FROST_COLUMN} average frost"))
    yield from _flowing([text for used, text in marks if used], width)
    if frosts:
        yield from wrap(
            "frost, of 10: years with a frost still to come (spring), already come (autumn)", width
        )


def _flowing(texts: Iterable[str], width: int) -> Iterator[Line]:
    """Yield texts beside each other, as many in a line as it holds."""
    shown = ""
    for text in texts:
        if shown and cells(shown) + 2 + cells(text) > width:
            yield line(shown)
            shown = ""
        shown += f"  {text}" if shown else text
    yield line(shown)
