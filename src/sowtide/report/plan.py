"""The plan as text: every wave with its dates, its beds and how sure it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from itertools import groupby

from sowtide.climate.outlook import EndedBy
from sowtide.diagnostics import Problem, Severity
from sowtide.garden.crop import Raised
from sowtide.garden.model import Entry
from sowtide.report import words
from sowtide.report.sheet import (
    EMPTY,
    Column,
    Line,
    Span,
    Style,
    line,
    row,
    styled,
    wrap,
)
from sowtide.schedule.wave import Judged, Stages, Wave
from sowtide.season import Season
from sowtide.values import value

_DATES = ("sow", "harden", "plant", "first", "pick", "last", "out")
_DATE = 6
_JUDGED = (Column(4, right=True), Column(4, right=True), Column(5, right=True), Column(9))
_JUDGED_TITLES = ("odds", "days", "spare", "verdict")
_LEAST_FOR_BEDS = 12
_MOST_FOR_NAMES = 24
_KEY = (
    "first pick: its early and its late day; last: last pick; out: pulled out, the bed is clear. "
    "Odds count years of 100 in which a wave can be picked for its worthwhile days; picking days "
    "are the mean of all years; days to spare run from the last worthwhile pick to the average "
    "frost that ends the crop."
)


@value
class _Layout:
    """Columns of the table, and whether a wave takes one row or a row and its judgement below."""

    first: date
    last: date
    today: date
    width: int
    name: int
    beds: int | None

    @property
    def wide(self) -> bool:
        return self.beds is not None


def plan_text(season: Season, *, width: int) -> tuple[Line, ...]:
    """Lay out the whole plan.

    Parameters
    ----------
    season
        The season.
    width
        Of the screen; 80 is enough, from about 120 a wave takes one row. [cells]
    """
    layout = _layout(season, width)
    lines = [*_head(season, width)]
    if not season.waves:
        lines += wrap("No waves: the file's `waves:` asks for none.", width)
    for _, group in groupby(season.waves, key=lambda wave: wave.entry.name):
        lines += _series(tuple(group), layout)
    lines += _gaps(season, width)
    named = tuple(problem for problem in season.problems if problem.code != "gap")
    lines += _problems(named, width)
    safe = words.sentence(words.safe_means(season.garden.site.sure))
    lines += (EMPTY, *wrap((f"{_KEY} {safe}", Style.DIM), width), EMPTY)
    lines += wrap(words.rests_on(season.climate.basis), width)
    return tuple(lines)


def _layout(season: Season, width: int) -> _Layout:
    year = season.garden.year
    name = max((len(wave.id) for wave in season.waves), default=0)
    name = max(min(name, _MOST_FOR_NAMES), len("wave"))
    table = name + 2 + len(_DATES) * (_DATE + 2) + sum(column.width + 2 for column in _JUDGED)
    left = width - table
    beds = left if left >= _LEAST_FOR_BEDS else None
    return _Layout(year.first, year.last, season.today, width, name, beds)


def _head(season: Season, width: int) -> Iterator[Line]:
    garden = season.garden
    series = len({wave.entry.name for wave in season.waves})
    yield line((f"PLAN {words.season_name(garden.year)}", Style.HEADING), f"  {garden.site.name}")
    counted = words.listed(
        (
            words.count(len(season.waves), "wave"),
            words.count(series, "series", many="series"),
            words.count(len(garden.beds), "bed"),
        )
    )
    looked = words.weekday(season.today, garden.year)
    yield from wrap(f"{counted}; from {garden.label}, looked at on {looked}", width)


def _series(waves: tuple[Wave, ...], layout: _Layout) -> Iterator[Line]:
    entry = waves[0].entry
    yield EMPTY
    yield from wrap(line((entry.name, Style.HEADING), f": {_asks_for(entry)}"), layout.width)
    columns = _columns(layout.name, waves, layout)
    if layout.beds is not None:
        columns += _JUDGED
        columns += (Column(layout.width - sum(column.width + 2 for column in columns)),)
    # Where the dates leave no room, the names go on lines of their own.
    own_line = sum(column.width + 2 for column in columns) - 2 > layout.width
    if own_line:
        columns = (Column(2), *columns[1:])
    titles: tuple[str, ...] = ("" if own_line else "wave", *_DATES)
    if layout.wide:
        titles += (*_JUDGED_TITLES, "bed")
    yield row(columns, [(title, Style.DIM) for title in titles])
    for wave in waves:
        if own_line:
            yield styled(wave.id, Style.STRONG)
        yield from _wave(wave, columns, layout, named=not own_line)


def _columns(name: int, waves: tuple[Wave, ...], layout: _Layout) -> tuple[Column, ...]:
    """Return the columns of name and dates, wider where a day needs its year."""
    days = zip(*(_dates(wave.stages) for wave in waves), strict=True)
    widths = [max(_DATE, *(len(_day(day, layout)) for day in column)) for column in days]
    return (Column(name), *(Column(width, right=True) for width in widths))


def _asks_for(entry: Entry) -> str:
    """Say what an entry of the file asks for, the crop only where its name does not say it."""
    crop = entry.crop
    named = entry.name.replace("-", " ") == crop.title.replace("-", " ")
    title = "" if named else f"{crop.title}, "
    raised = "raised in trays" if entry.raised is Raised.TRAYS else "sown direct"
    text = f"{title}{crop.family}, {raised}, {words.count(entry.plants, 'plant')}"
    if entry.every is not None:
        text += f" every {entry.every} days"
    return text


def _dates(stages: Stages) -> tuple[date | None, ...]:
    first = stages.first_pick
    return (
        stages.sow.day,
        stages.harden_off.day if stages.harden_off else None,
        None if stages.plant.day == stages.sow.day else stages.plant.day,
        first[0].day if first else None,
        first[1].day if first else None,
        stages.last_pick.day if stages.last_pick else None,
        stages.pull_out.day,
    )


def _day(day: date | None, layout: _Layout) -> str:
    """Write a day for the table, with its year in two figures where it is another one."""
    if day is None:
        return ""
    text = f"{day.day} {words.MONTHS[day.month - 1]}"
    return text if layout.first <= day <= layout.last else f"{text} {day.year % 100:02}"


def _wave(
    wave: Wave, columns: tuple[Column, ...], layout: _Layout, *, named: bool
) -> Iterator[Line]:
    texts: list[str | Span] = [(wave.id if named else "", Style.STRONG)]
    for day in _dates(wave.stages):
        gone = day is not None and day < layout.today
        texts.append((_day(day, layout), Style.DIM if gone else Style.PLAIN))
    if not layout.wide:
        yield row(columns, texts)
        yield from wrap(_judgement(wave, layout.today), layout.width, first="  ")
        return
    texts += _judged_cells(wave)
    # How many plants is said above the series; a split wave says it for each bed.
    bed = styled("NO ROOM", Style.BAD) if not wave.places else line(words.places(wave.places))
    place = _joined((bed, *_ended(wave)))
    if place.width <= columns[-1].width:
        style = Style.PLAIN if wave.places else Style.BAD
        yield row(columns, [*texts, (place.plain, style)])
        return
    yield row(columns, [*texts, ""])
    yield from wrap(place, layout.width, first=" " * (columns[0].width + 2))


def _judged_cells(wave: Wave) -> tuple[str | Span, ...]:
    judged = wave.judged
    days = judged.expected_picking_days
    picking = "" if days is None or wave.crop.cut_once else str(int(days + 0.5))
    spare = _spare(judged)
    margin = "" if spare is None else str(spare)
    return _in_hundred(judged), picking, margin, words.verdict(judged.verdict)


def _in_hundred(judged: Judged) -> str:
    """Say the odds as short as a table wants them."""
    if judged.odds is None:
        return ""
    said = words.in_hundred(judged.odds, estimated=words.is_estimated(judged))
    return said.replace("over ", ">").replace("under ", "<")


def _spare(judged: Judged) -> int | None:
    """Return the days to spare before frost, or None where heat comes before it. [days]"""
    return None if judged.ended_by is EndedBy.HEAT else judged.margin


def _place(wave: Wave) -> Line:
    """Say how many plants stand where."""
    if not wave.places:
        return styled(f"NO ROOM for {wave.plants:,}", Style.BAD)
    text = words.places(wave.places)
    if len(wave.places) == 1:
        text = f"{wave.plants:,} in {text}"
    return styled(text, Style.PLAIN)


def _judgement(wave: Wave, today: date) -> Line:
    """Say on one line where a wave stands and what is to be thought of it."""
    judged, parts = wave.judged, [_place(wave)]
    if wave.places and wave.stages.sow.day <= today:
        parts.append(line(_reached(wave, today)))
    if judged.verdict is not None:
        parts.append(line(words.verdict(judged.verdict), _odds(judged)))
    else:
        parts.append(line("over the winter"))
    if judged.stages.first_pick is None:
        parts.append(styled("nothing to pick", Style.BAD))
    elif judged.expected_picking_days is not None and not wave.crop.cut_once:
        days = int(judged.expected_picking_days + 0.5)
        parts.append(line(words.count(days, "picking day")))
    spare = _spare(judged)
    if spare is not None:
        parts.append(line(_margin(spare)))
    return _joined((*parts, *_ended(wave)))


def _ended(wave: Wave) -> Iterator[Line]:
    """Say what ends a wave, where it is not picked out first."""
    if wave.judged.ended_by not in (EndedBy.PICKED_OUT, EndedBy.PULLED):
        yield line(f"ended by {wave.judged.ended_by.value}")


def _odds(judged: Judged) -> str:
    if judged.odds is None:
        return ""
    if judged.odds == 1 and not words.is_estimated(judged):
        return ", nothing ends it early"
    return f" {_in_hundred(judged)} in 100"


def _reached(wave: Wave, today: date) -> str:
    """Say how far a wave has come by a day, if all went as planned."""
    if today >= wave.stages.pull_out.day:
        return "over"
    return "standing" if today >= wave.stages.plant.day else "in trays"


def _joined(parts: Iterable[Line]) -> Line:
    spans: list[Line | str] = []
    for part in parts:
        if spans:
            spans.append("; ")
        spans.append(part)
    return line(*spans)


def _margin(days: int) -> str:
    if days < 0:
        return f"{words.count(-days, 'day')} short"
    return f"{words.count(days, 'day')} to spare"


def _gaps(season: Season, width: int) -> Iterator[Line]:
    if not season.gaps:
        return
    yield EMPTY
    yield styled("GAPS in a series, without a safe planting day", Style.HEADING)
    for gap in season.gaps:
        days = words.days_from_to(gap.first, gap.last, season.garden.year)
        yield from wrap(line((gap.series, Style.STRONG), f": {days}, {gap.why}"), width, hang=2)


def _problems(problems: tuple[Problem, ...], width: int) -> Iterator[Line]:
    if not problems:
        return
    yield EMPTY
    yield styled(f"PROBLEMS ({len(problems)}); `sowtide check` says what to do", Style.HEADING)
    for problem in problems:
        style = Style.BAD if problem.severity is Severity.ERROR else Style.WARN
        where = f" ({problem.span.file}:{problem.span.line})" if problem.span else ""
        text = line((problem.severity.value, style), f": {problem.message}{where}")
        yield from wrap(text, width, hang=2)
