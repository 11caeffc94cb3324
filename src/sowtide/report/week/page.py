"""The week's sheet: what cannot slip, what to pick, the work bed by bed, and the bench."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.days import MONTHS, short_day
from sowtide.diagnostics import Severity
from sowtide.report.blocks import (
    Banner,
    Block,
    Heading,
    Rule,
    Space,
    Style,
    Text,
    ToFillIn,
    line,
    together,
)
from sowtide.report.heat import HeatView
from sowtide.report.kit import words
from sowtide.report.kit.cautions import cautions_of
from sowtide.report.kit.faults import alike
from sowtide.report.kit.lookouts import look_for
from sowtide.report.week.bench import bench_table, coming_free, next_week
from sowtide.report.week.care_page import care_of_week
from sowtide.report.week.frost_view import FrostRisk
from sowtide.report.week.view import SheetView, WeekView
from sowtide.report.week.work import work
from sowtide.units import in_hundred

_MOST_TENDER = 4
"""Tender waves named in the line of the frost. [1]"""
_MOST_PROBLEMS = 10
"""Problems said one by one. [1]"""


def page(of: WeekView) -> Iterator[Block]:
    """Yield the sheet of each week."""
    for number, sheet in enumerate(of.sheets):
        if number:
            yield Space()
        if sheet.heat is not None:
            yield from _heat(sheet.heat, of)
        yield from _sheet(sheet, of)
    foot = tuple(_foot(of))
    if foot:
        yield Rule()
    yield from foot


def _sheet(sheet: SheetView, of: WeekView) -> Iterator[Block]:
    yield from _heading(sheet, of)
    yield _weather(sheet)
    if sheet.frost_risk is not None:
        yield Text(_frost_risk(sheet.frost_risk))
    yield Rule()
    yield work(sheet, of)
    if not sheet.tasks:
        yield Text(_nothing_to_do(sheet, of))
    yield from care_of_week(sheet, of)
    yield from look_for(sheet.look_for, of.setting.year)
    yield from _problems(sheet)
    yield from coming_free(sheet, of)
    yield from bench_table(sheet, of.setting.year)
    yield from next_week(sheet, of.setting.year)
    for noted in sheet.earlier:
        head = f"IN {noted.on.year}, {short_day(noted.on)}: "
        yield Text(f"{noted.what}: {noted.note}", first=head, hang=2)
    yield ToFillIn("NOTES", (), ("", ""))


def _heat(heat: HeatView, of: WeekView) -> Iterator[Block]:
    """Yield the sheet of the heat, before that of its week: a page to hang at the door."""
    from sowtide.report.heat import page_of_heat

    yield from page_of_heat(heat, of.setting)
    yield Space()


def _heading(sheet: SheetView, of: WeekView) -> Iterator[Block]:
    number = int(sheet.week.partition("-W")[2])
    yield Banner(of.setting.name.upper(), f"WEEK {number}   {_dates(sheet.from_, sheet.to)}")
    where = _other_year(sheet, of) or _frost_ahead(sheet, of)
    yield Text(f"{where}{_season_so_far(of)}")
    if of.only is not None:
        yield Text((words.only(of.only), Style.STRONG))


def _weather(sheet: SheetView) -> ToFillIn:
    """Return lines for the weather of each day, as the journal of a garden asks for it."""
    days = range((sheet.to - sheet.from_).days + 1)
    names = tuple(words.WEEKDAYS[(sheet.from_.weekday() + day) % 7] for day in days)
    return ToFillIn("WEATHER", names, ("low / high", "rain"))


def _frost_risk(of: FrostRisk) -> str:
    """Say what is tender, where, and how often this week ends it."""
    waves = f"{', '.join(of.waves[:_MOST_TENDER])}"
    more = len(of.waves) - _MOST_TENDER
    waves += f" and {more} more" if more > 0 else ""
    odds = in_hundred(of.odds)
    return (
        f"Tender: {waves}, in {words.listed(of.beds)}. In {odds} of 100 years frost ends it this "
        "week; when one is forecast ask `sowtide frost --tonight`."
    )


def _season_so_far(of: WeekView) -> str:
    """Say by how many days the season is ahead or behind, where its temperatures are known."""
    if of.so_far is None:
        return ""
    until = together(words.day(of.so_far.until, of.setting.year))
    ahead = of.so_far.days_ahead
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


def _other_year(sheet: SheetView, of: WeekView) -> str | None:
    """Say that the file plans another year than that of the week; None where it does not."""
    year = of.setting.year
    if sheet.from_ in year or sheet.to in year:
        return None
    named = words.season_name(year.holding(sheet.from_))
    return f"This week lies in {named}, {words.plans_another(year, sheet.from_)}."


def _frost_ahead(sheet: SheetView, of: WeekView) -> str:
    """Say how far the average frosts are from the first day of the week."""
    texts = []
    for day, name in ((of.average_last_frost, "last"), (of.average_first_frost, "first")):
        if day is None:
            continue
        away = (day - sheet.from_).days
        on = together(f"({words.day(day, of.setting.year)})")
        frost = f"the average {name} frost {on}"
        if away > 0:
            texts.append(f"{words.count(away, 'day')} to {frost}")
        elif away == 0:
            texts.append(f"{frost} is the first day of this week")
        elif name == "first":
            texts.append(f"{words.count(-away, 'day')} past {frost}")
    return words.sentence(", ".join(texts)) if texts else "No frost here."


def _nothing_to_do(sheet: SheetView, of: WeekView) -> str:
    year = of.setting.year
    text = "Nothing to sow, plant, pick or pull this week: time to weed, water and sit down."
    if _other_year(sheet, of) is not None:
        text = "Nothing is planned for this week."
        if not year.lies_ahead(sheet.from_):
            return text
    coming = sheet.coming
    if coming is None:
        return f"{text} Nothing more is dated this season."
    day = together(words.weekday(coming.due, year))
    return f"{text} Next: {day}, {coming.kind} {coming.wave}."


def _problems(sheet: SheetView) -> Iterator[Block]:
    """Yield the problems of a week: what is wrong and what to do; how many more there are."""
    if not sheet.problems:
        return
    yield Heading("PROBLEMS")
    found = alike(sheet.problems)
    for each in found[:_MOST_PROBLEMS]:
        problem = each.first
        style = Style.BAD if problem.severity is Severity.ERROR else Style.WARN
        # Not as a sentence: it begins with the name of a wave, which is written small.
        text = f"{words.also(problem.message, each.names)}."
        if problem.hint is not None:
            text += f" {words.sentence(problem.hint)}"
        head = (f"{problem.severity.value}:", style)
        yield Text(line(head, f" {words.unbroken(text)}"), first=" ", hang=5)
    more = sheet.more_problems + sum(1 + len(each.others) for each in found[_MOST_PROBLEMS:])
    if more:
        them = "it" if more == 1 else "them"
        yield Text(f"{more:,} more in the plan: `sowtide check` lists {them}.", first=" ")


def _foot(of: WeekView) -> Iterator[Block]:
    """Yield the cautions of all sheets, and what they rest on; a quiet one keeps what must be."""
    slugs = frozenset(slug for sheet in of.sheets for slug in sheet.cautions)
    said = [each for each in cautions_of(slugs) if each.always or not of.quiet]
    for caution in said:
        yield Text(caution.text)
    if said and of.help:
        yield Text(f"Help: {of.help}")
    if not of.quiet:
        yield Text(words.rests_shortly(of.basis))
