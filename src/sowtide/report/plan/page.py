"""The plan as a page: every wave with its dates, its beds and how sure it is."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import groupby

from sowtide.days import MONTHS, GrowingYear
from sowtide.diagnostics import Severity
from sowtide.garden.crop import Raised
from sowtide.report.blocks import (
    Block,
    DatedRow,
    DatedTable,
    Heading,
    Space,
    Span,
    Style,
    Text,
    line,
)
from sowtide.report.kit import words
from sowtide.report.kit.faults import alike
from sowtide.report.plan.by_bed import beds_blocks
from sowtide.report.plan.judged import MOST_SPARE, is_held, judged_cells, judgement, place_cell
from sowtide.report.plan.view import PlanView, WaveView

_DATES = ("sow", "harden", "plant", "first pick", "last", "out")
_JUDGED_TITLES = ("odds", "days", "spare", "verdict")
_KEY = (
    "first pick: its early and its late day; last: the last pick; out: the bed is clear. "
    "Odds count {years} in which a wave can be picked for its worthwhile days; picking days "
    "are the mean of all years; days to spare run from the last worthwhile pick to the average "
    f"frost that ends the crop, where they are {MOST_SPARE} or fewer."
)
_KEY_HELD = "A day out in brackets is not known: the bed is only held until then."


def page(of: PlanView) -> Iterator[Block]:
    """Yield the whole plan, by series or by bed."""
    yield from _head(of)
    if not of.waves:
        yield Text("No waves: the file's `waves:` asks for none.")
    if of.by_bed is not None:
        yield from beds_blocks(of, of.by_bed)
    else:
        longest = max((len(wave.id) for wave in of.waves), default=0)
        for _, group in groupby(of.waves, key=lambda wave: wave.series):
            yield from _series(tuple(group), of, longest)
    yield from _gaps(of)
    yield from _problems(of)
    safe = words.sentence(words.safe_means(of.setting.sure))
    held = f" {_KEY_HELD}" if any(is_held(wave.judged) for wave in of.waves) else ""
    years = "recorded years" if words.counts_years(of.basis) else "years of 100"
    key = safe if of.by_bed is not None else f"{_KEY.format(years=years)}{held} {safe}"
    if not of.quiet:
        yield Space()
        yield Text((key, Style.DIM))
        yield Space()
        yield Text(words.rests_shortly(of.basis))


def _head(of: PlanView) -> Iterator[Block]:
    setting = of.setting
    assert setting.today is not None  # a plan is looked at from a day
    yield Heading(f"PLAN {words.season_name(setting.year)}", setting.name)
    counted = words.listed(
        (
            words.count(len(of.waves), "wave"),
            words.count(len({wave.series for wave in of.waves}), "series", many="series"),
            words.count(of.number_of_beds, "bed"),
        )
    )
    looked = words.weekday(setting.today, setting.year)
    yield Text(f"{counted}; from {of.file}, looked at on {looked}")
    if of.only is not None:
        yield Text((words.only(of.only), Style.STRONG))


def _series(waves: tuple[WaveView, ...], of: PlanView, longest: int) -> Iterator[Block]:
    assert of.setting.today is not None
    yield Space()
    yield Text(line((waves[0].series, Style.HEADING), f": {_asks_for(waves[0])}"))
    yield DatedTable(
        _DATES,
        _JUDGED_TITLES,
        of_years=words.counts_years(of.basis),
        longest=longest,
        rows=tuple(_row(wave, of.setting.today, of.setting.year) for wave in waves),
    )


def _row(wave: WaveView, today: date, year: GrowingYear) -> DatedRow:
    return DatedRow(
        name=wave.id,
        days=_days(wave, today, year),
        judged=judged_cells(wave),
        place=place_cell(wave),
        said=judgement(wave, today),
    )


def _asks_for(wave: WaveView) -> str:
    """Say what an entry of the file asks for, the crop only where its name does not say it."""
    asked = wave.asked
    named = wave.series.replace("-", " ") == asked.title.replace("-", " ")
    title = "" if named else f"{asked.title}, "
    raised = "raised in trays" if asked.raised is Raised.TRAYS else "sown direct"
    text = f"{title}{asked.family}, {raised}, {words.count(wave.plants, 'plant')}"
    if asked.every is not None:
        text += f" {asked.every}"
    return text


def _days(wave: WaveView, today: date, year: GrowingYear) -> tuple[Span, ...]:
    """Return the days of a wave with their styles, dim where they are past or have no room."""
    first = wave.first_pick
    days = (
        wave.sow,
        wave.harden_off,
        None if wave.plant == wave.sow or wave.pull_out < wave.plant else wave.plant,
        first,
        wave.last_pick,
        wave.pull_out,
    )
    since = today if wave.beds else date.max  # without room all of them are dim
    texts = [_said(each, year, since=since) for each in days]
    if is_held(wave.judged):
        texts[-1] = (f"({texts[-1][0]})", texts[-1][1])
    return tuple(texts)


def _said(of: date | tuple[date, date] | None, year: GrowingYear, *, since: date) -> Span:
    """Say a day, or the early and the late end of one, dim where it is before another."""
    if of is None:
        return "", Style.PLAIN
    early, late = of if isinstance(of, tuple) else (of, of)
    text = _day(late, year)
    if early != late:
        same = (early.year, early.month) == (late.year, late.month)
        text = f"{early.day}–{text}" if same else f"{_day(early, year)} – {text}"
    return text, Style.DIM if early < since else Style.PLAIN


def _day(day: date, year: GrowingYear) -> str:
    """Write a day for the table, with its year in two figures where it is another one."""
    text = f"{day.day} {MONTHS[day.month - 1]}"
    return text if day in year else f"{text} {day.year % 100:02}"


def _gaps(of: PlanView) -> Iterator[Block]:
    if not of.gaps:
        return
    yield Space()
    yield Heading("GAPS in a series, without a safe planting day")
    for gap in of.gaps:
        days = words.days_from_to(gap.from_, gap.to, of.setting.year)
        yield Text(line((gap.series, Style.STRONG), f": {days}, {gap.why}"), hang=2)


def _problems(of: PlanView) -> Iterator[Block]:
    problems = [problem for problem in of.problems if problem.code != "gap"]
    if not problems:
        return
    yield Space()
    yield Heading(f"PROBLEMS ({len(problems)}); `sowtide check` says what to do")
    for each in alike(problems):
        problem = each.first
        style = Style.BAD if problem.severity is Severity.ERROR else Style.WARN
        where = f" ({problem.file}:{problem.line})" if problem.file else ""
        said = words.unbroken(words.also(f"{problem.message}{where}", each.also))
        yield Text(line((problem.severity.value, style), f": {said}"), hang=2)
