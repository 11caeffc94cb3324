"""The week's sheet: what cannot slip, what to pick, the work bed by bed, and the bench."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from sowtide.days import MONTHS, Half
from sowtide.report.blocks import Line, Style, line, together
from sowtide.report.formats.terminal.cells import cells, cut, fit, rule, wrap
from sowtide.report.kit import words
from sowtide.report.kit.cautions import cautions_of
from sowtide.report.kit.of_waves import problem_lines
from sowtide.report.week.picking import picking_grid
from sowtide.report.week.work import Layout, bench_table, grouped, next_week, work_lines
from sowtide.schedule.season import Season
from sowtide.schedule.work import Task, WeekSheet


def week_text(sheet: WeekSheet, season: Season, *, width: int, by: str) -> tuple[Line, ...]:
    """Return a week's sheet.

    Parameters
    ----------
    sheet
        The week's work.
    season
        The season it belongs to.
    width
        Most cells a line may have, at least 40. [cells]
    by
        ``bed`` or ``work``: what the work is grouped by.
    """
    lines = [*_heading(sheet, season, width), rule(width)]
    urgent = {task.id for task in sheet.cannot_slip}
    rest = tuple(task for task in sheet.tasks if task.id not in urgent)
    layout = Layout.of(
        (*sheet.overdue, *sheet.cannot_slip, *rest), season.garden.year, sheet, width
    )
    if sheet.overdue:
        lines.append(line(("OVERDUE", Style.HEADING)))
        for task in sheet.overdue:
            lines += work_lines(task, layout, bed=True, verb=True)
    if sheet.cannot_slip:
        lines.append(line(("CANNOT SLIP", Style.HEADING)))
        for task in sheet.cannot_slip:
            lines += work_lines(task, layout, bed=True, verb=True, must=True)
    lines += picking_grid(sheet, season, width=width)
    for title, tasks in grouped(rest, season.garden.beds, by=by):
        lines.append(line((title, Style.HEADING)))
        for task in tasks:
            lines += work_lines(task, layout, bed=by == "work", verb=by == "bed")
    if not (sheet.overdue or sheet.cannot_slip or sheet.pickings or sheet.tasks):
        lines += wrap(_nothing_to_do(sheet, season), width)
    if season.lookouts:
        from sowtide.report.kit.lookouts import look_for

        lines += look_for(sheet, season, width=width)
    lines += problem_lines(sheet, season, width=width)
    lines += bench_table(sheet, season, width=width)
    lines += next_week(sheet, season, width=width)
    lines += _foot(sheet, season, width)
    return tuple(lines)


def _heading(sheet: WeekSheet, season: Season, width: int) -> Iterator[Line]:
    number = int(sheet.week.partition("-W")[2])
    right = f"WEEK {number}   {_dates(sheet.first, sheet.last)}"
    name = cut(season.garden.site.name.upper(), max(width - cells(right) - 2, 8))
    gap = " " * max(width - cells(name) - cells(right), 2)
    yield fit(line((name, Style.HEADING), gap, (right, Style.STRONG)), width)
    where = _other_year(sheet, season) or _frost_ahead(sheet.first, season)
    yield from wrap(f"{where}{_season_so_far(season)}", width)


def _season_so_far(season: Season) -> str:
    """Say by how many days the season is ahead or behind, where its temperatures are known."""
    found = season.climate.so_far
    if found is None:
        return ""
    until = together(words.day(found.until, season.garden.year))
    ahead = found.days_ahead
    if ahead == 0:
        return f" By its warmth to {until} the season is as far as in the middle of the years."
    side = "ahead of" if ahead > 0 else "behind"
    days = together(words.count(abs(ahead), "day"))
    return f" By its warmth to {until} the season is {days} {side} the middle of the years."


def _dates(first: date, last: date) -> str:
    """Say the days of a week with the year: ``Mon 13 – Sun 19 Jul 2026``."""
    begin = f"{words.WEEKDAYS[first.weekday()]} {first.day}"
    if first.month != last.month:
        begin += f" {MONTHS[first.month - 1]}"
    if first.year != last.year:
        begin += f" {first.year}"
    end = f"{words.WEEKDAYS[last.weekday()]} {last.day} {MONTHS[last.month - 1]} {last.year}"
    return f"{begin} – {end}"


def _other_year(sheet: WeekSheet, season: Season) -> str | None:
    """Say that the file plans another year than that of the week; None where it does not."""
    year = season.garden.year
    if sheet.first in year or sheet.last in year:
        return None
    named = words.season_name(year.holding(sheet.first))
    return f"This week lies in {named}, {words.plans_another(year, sheet.first)}."


def _frost_ahead(first: date, season: Season) -> str:
    """Say how far the average frosts are from the first day of the week."""
    year = season.garden.year
    texts = []
    for half, name in ((Half.SPRING, "last"), (Half.AUTUMN, "first")):
        dated = season.climate.frost_day(half, at=0.0, share=0.5)
        if dated is None:
            continue
        away = (dated.day - first).days
        on = together(f"({words.day(dated.day, year)})")
        frost = f"the average {name} frost {on}"
        if away > 0:
            texts.append(f"{words.count(away, 'day')} to {frost}")
        elif away == 0:
            texts.append(f"{frost} is the first day of this week")
        elif half is Half.AUTUMN:
            texts.append(f"{words.count(-away, 'day')} past {frost}")
    return words.sentence(", ".join(texts)) if texts else "No frost here."


def _nothing_to_do(sheet: WeekSheet, season: Season) -> str:
    if _other_year(sheet, season) is not None:
        return "Nothing is planned for this week."
    text = "Nothing to sow, plant, pick or pull this week: time to weed, water and sit down."
    coming = _next_dated(sheet, season)
    if coming is None:
        return f"{text} Nothing more is dated this season."
    day, what = coming
    return f"{text} Next: {together(words.weekday(day, season.garden.year))}, {what}."


def _next_dated(sheet: WeekSheet, season: Season) -> tuple[date, str] | None:
    """Return the first work after the week, from next week's tasks or else from the waves."""
    coming = [(task.due, f"{task.kind.value} {task.wave.id}") for task in sheet.next_week]
    if not coming:
        for wave in (wave for wave in season.waves if wave.places):
            stages = wave.stages
            pick = stages.first_pick[0] if stages.first_pick else None
            plant = "plant out" if wave.from_trays else "sow"
            for dated, what in (
                (stages.sow, "sow"),
                (stages.harden_off, "harden off"),
                (stages.plant, plant),
                (pick, "pick"),
                (stages.pull_out, "pull out"),
            ):
                if dated is not None and dated.day > sheet.last:
                    coming.append((dated.day, f"{what} {wave.id}"))
    return min(coming, default=None, key=lambda each: each[0])


def _foot(sheet: WeekSheet, season: Season, width: int) -> Iterator[Line]:
    yield rule(width)
    site = season.garden.site
    slugs = frozenset(slug for task in _all_tasks(sheet) for slug in task.cautions)
    for caution in cautions_of(slugs):
        yield from wrap(caution.text, width)
    if slugs and site.help:
        yield from wrap(f"Help: {site.help}", width)
    yield from wrap(words.rests_on(season.climate.basis), width)


def _all_tasks(sheet: WeekSheet) -> Sequence[Task]:
    return (
        *sheet.overdue,
        *sheet.cannot_slip,
        *sheet.tasks,
        *(picking.task for picking in sheet.pickings),
    )
