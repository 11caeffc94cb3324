"""A season and its weeks, narrowed to a part of the garden once all of it is planned."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from sowtide.garden.model import Entry
from sowtide.schedule.only import Only
from sowtide.schedule.season import Season
from sowtide.schedule.work import Kind, Task, WeekSheet


def narrowed(season: Season, only: Only) -> Season:
    """Return a season with the waves, beds, gaps and problems of a part of its garden alone.

    Dates and places stay those of the whole plan. Of crops alone the beds are those they stand in.
    """
    garden = season.garden
    waves = tuple(wave for wave in season.waves if only.has(wave))
    stood_in = {stand.bed.name for wave in waves for stand in wave.stands}
    beds = garden.beds
    if only.beds is not None:
        beds = tuple(bed for bed in beds if bed.name in only.beds)
    elif stood_in:
        beds = tuple(bed for bed in beds if bed.name in stood_in)
    series = {wave.entry.name for wave in waves}
    entries = tuple(entry for entry in garden.entries if entry.name in series or _asks(entry, only))
    named = {entry.name for entry in entries}
    spans = {(entry.span.file, entry.span.line) for entry in entries}
    kept = {wave.id for wave in waves}
    return replace(
        season,
        garden=replace(garden, beds=beds, entries=entries),
        waves=waves,
        gaps=tuple(gap for gap in season.gaps if gap.series in named),
        problems=tuple(
            problem
            for problem in season.problems
            if problem.wave in kept
            or (
                problem.wave is None
                and problem.span is not None
                and (problem.span.file, problem.span.line) in spans
            )
        ),
        only=only,
        care=None if season.care is None else season.care.part(only),
    )


def _asks(entry: Entry, only: Only) -> bool:
    """Say whether an entry asks for something in a part of a garden, where it got no wave there."""
    if only.crops is not None and entry.crop.name not in only.crops:
        return False
    named = entry.beds_named and any(only.has_bed(bed.name) for bed in entry.beds)
    return only.beds is None or named


def narrowed_sheets(
    season: Season, only: Only, first: date, *, weeks: int
) -> tuple[WeekSheet, ...]:
    """Return the sheets of some weeks with the work of a part of the garden, its codes the same."""
    care = None if season.care is None else season.care.part(only)
    sheets = replace(season, care=care).sheets(first, weeks=weeks)
    return tuple(_narrowed(sheet, only) for sheet in sheets)


def _narrowed(sheet: WeekSheet, only: Only) -> WeekSheet:

    def kept(tasks: Iterable[Task]) -> tuple[Task, ...]:
        return tuple(
            task
            for task in tasks
            if only.has(task.wave) and (task.kind is Kind.PICK or only.has_bed(task.bed))
        )

    return replace(
        sheet,
        cannot_slip=kept(sheet.cannot_slip),
        pickings=tuple(each for each in sheet.pickings if only.has(each.task.wave)),
        tasks=kept(sheet.tasks),
        bench=tuple(each for each in sheet.bench if only.has(each.wave)),
        next_week=kept(sheet.next_week),
        overdue=kept(sheet.overdue),
    )
