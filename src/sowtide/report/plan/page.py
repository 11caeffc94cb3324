"""The plan as text: every wave with its dates, its beds and how sure it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from itertools import groupby

from sowtide.days import MONTHS
from sowtide.diagnostics import Problem, Severity
from sowtide.garden.crop import Raised
from sowtide.garden.model import Entry
from sowtide.report.blocks import EMPTY, Line, Span, Style, line, styled, together
from sowtide.report.formats.terminal.cells import Column, cells, fit, row, width_of, wrap
from sowtide.report.kit import words
from sowtide.report.plan.judged import MOST_SPARE, is_held, judged_cells, judgement, place_cell
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.values import value

_DATES = ("sow", "harden", "plant", "first", "pick", "last", "out")
_DATE = 6
_JUDGED = (Column(4, right=True), Column(4, right=True), Column(5, right=True), Column(11))
_JUDGED_OF_YEARS = (Column(8, right=True), *_JUDGED[1:])
_JUDGED_TITLES = ("odds", "days", "spare", "verdict")
_LEAST_FOR_BEDS = 10
_MOST_FOR_NAMES = 24
_INDENT = 2
_KEY = (
    "first pick: its early and its late day; last: last pick; out: pulled out, the bed is clear. "
    "Odds count {years} in which a wave can be picked for its worthwhile days; picking days "
    "are the mean of all years; days to spare run from the last worthwhile pick to the average "
    f"frost that ends the crop, where they are {MOST_SPARE} or fewer."
)
_KEY_HELD = "A day out in brackets is not known: the bed is only held until then."


@value
class _Layout:
    """Columns of the table, and whether a wave takes one row or a row and its judgement below."""

    first: date
    last: date
    today: date
    width: int
    name: int
    beds: int | None
    judged: tuple[Column, ...] = _JUDGED

    @property
    def wide(self) -> bool:
        return self.beds is not None


def plan_text(season: Season, *, width: int, by: str = "series") -> tuple[Line, ...]:
    """Lay out the whole plan.

    Parameters
    ----------
    season
        The season.
    width
        Of the screen; 80 is enough, from about 120 a wave takes one row. [cells]
    by
        ``series`` or ``bed``: what the waves are grouped by.
    """
    layout = _layout(season, width)
    lines = [*_head(season, width)]
    if not season.waves:
        lines += wrap("No waves: the file's `waves:` asks for none.", width)
    if by == "bed":
        from sowtide.report.plan.by_bed import beds_text

        lines += beds_text(season, width=width)
    else:
        for _, group in groupby(season.waves, key=lambda wave: wave.entry.name):
            lines += _series(tuple(group), layout)
    lines += _gaps(season, width)
    named = tuple(problem for problem in season.problems if problem.code != "gap")
    lines += _problems(named, width)
    safe = words.sentence(words.safe_means(season.garden.site.sure))
    held = f" {_KEY_HELD}" if any(is_held(wave.judged) for wave in season.waves) else ""
    years = "years of 100" if season.climate.basis.years_used is None else "recorded years"
    key = f"{_KEY.format(years=years)}{held} {safe}" if by == "series" else safe
    lines += (EMPTY, *wrap((key, Style.DIM), width), EMPTY)
    lines += wrap(words.rests_on(season.climate.basis), width)
    return tuple(lines)


def _layout(season: Season, width: int) -> _Layout:
    year = season.garden.year
    judged = _JUDGED if season.climate.basis.years_used is None else _JUDGED_OF_YEARS
    name = max((len(wave.id) for wave in season.waves), default=0)
    name = max(min(name, _MOST_FOR_NAMES), len("wave"))
    table = name + 2 + len(_DATES) * (_DATE + 2) + sum(column.width + 2 for column in judged)
    left = width - table
    beds = left if left >= _LEAST_FOR_BEDS else None
    return _Layout(year.first, year.last, season.today, width, name, beds, judged)


def _head(season: Season, width: int) -> Iterator[Line]:
    garden = season.garden
    series = len({wave.entry.name for wave in season.waves})
    title = (f"PLAN {words.season_name(garden.year)}", Style.HEADING)
    yield fit(line(title, f"  {garden.site.name}"), width)
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
    dates = _Dates.of(waves, layout)
    columns = (Column(layout.name), *dates.columns)
    if layout.beds is not None:
        columns += layout.judged
        columns += (Column(layout.width - sum(column.width + 2 for column in columns)),)
    # Where the dates leave no room, the names go on lines of their own.
    longest = max(cells(wave.id) for wave in waves)
    own_line = longest > layout.name or _width_of(columns) > layout.width
    if own_line:
        columns = (Column(_INDENT), *columns[1:])
    if _width_of(columns) > layout.width:
        for wave, texts in zip(waves, dates.texts, strict=True):
            yield from _running(wave, dates.titles, texts, layout)
        return
    titles: tuple[str, ...] = ("" if own_line else "wave", *dates.titles)
    if layout.wide:
        titles += (*_JUDGED_TITLES, "bed")
    yield row(columns, [(title, Style.DIM) for title in titles])
    for wave, texts in zip(waves, dates.texts, strict=True):
        if own_line:
            yield styled(wave.id, Style.STRONG)
        beside: Span = ("" if own_line else wave.id, Style.STRONG)
        yield from _wave(wave, (beside, *texts), columns, layout)


def _width_of(columns: Iterable[Column]) -> int:
    return sum(column.width + 2 for column in columns) - 2


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


@value
class _Dates:
    """The dates of a series as they are written: titles, columns, and texts for each wave.

    Where a day needs its year, the columns in which nothing stands leave their room to it.
    """

    titles: tuple[str, ...]
    columns: tuple[Column, ...]
    texts: tuple[tuple[Span, ...], ...]

    @classmethod
    def of(cls, waves: tuple[Wave, ...], layout: _Layout) -> _Dates:
        texts = tuple(_date_texts(wave, layout) for wave in waves)
        widths = [
            max(_DATE, *[len(text) for text, _ in column]) for column in zip(*texts, strict=True)
        ]
        kept = list(range(len(_DATES)))
        if max(widths) > _DATE:
            kept = [n for n in kept if any(each[n][0] for each in texts)]
        return cls(
            tuple(_DATES[n] for n in kept),
            tuple(Column(widths[n], right=True) for n in kept),
            tuple(tuple(each[n] for n in kept) for each in texts),
        )


def _date_texts(wave: Wave, layout: _Layout) -> tuple[Span, ...]:
    """Return the days of a wave with their styles, dim where they are past or have no room."""
    stages = wave.stages
    first = stages.first_pick
    days = (
        stages.sow.day,
        stages.harden_off.day if stages.harden_off else None,
        None if stages.plant.day == stages.sow.day else stages.plant.day,
        first[0].day if first else None,
        first[1].day if first else None,
        stages.last_pick.day if stages.last_pick else None,
        stages.pull_out.day,
    )
    # Without room all of them are dim.
    today = layout.today if wave.places else date.max
    texts = [
        ("", Style.PLAIN)
        if day is None
        else (_day(day, layout), Style.DIM if day < today else Style.PLAIN)
        for day in days
    ]
    if is_held(wave.judged):
        texts[-1] = (f"({texts[-1][0]})", texts[-1][1])
    return tuple(texts)


def _day(day: date, layout: _Layout) -> str:
    """Write a day for the table, with its year in two figures where it is another one."""
    text = f"{day.day} {MONTHS[day.month - 1]}"
    return text if layout.first <= day <= layout.last else f"{text} {day.year % 100:02}"


def _wave(
    wave: Wave, texts: tuple[Span, ...], columns: tuple[Column, ...], layout: _Layout
) -> Iterator[Line]:
    if not layout.wide:
        yield row(columns, texts)
        yield from wrap(judgement(wave, layout.today), layout.width, first="  ")
        return
    place = place_cell(wave)
    shown = (*texts, *judged_cells(wave))
    if width_of(place) <= columns[-1].width:
        style = Style.PLAIN if wave.places else Style.BAD
        yield row(columns, (*shown, (place.plain, style)))
        return
    yield row(columns, (*shown, ""))
    yield from wrap(place, layout.width, first=" " * (columns[0].width + 2))


def _running(
    wave: Wave, titles: tuple[str, ...], texts: tuple[Span, ...], layout: _Layout
) -> Iterator[Line]:
    """Yield a wave whose dates have no room beside each other, one after another."""
    yield styled(wave.id, Style.STRONG)
    said = [
        together(f"{title} {text}") for title, (text, _) in zip(titles, texts, strict=True) if text
    ]
    yield from wrap(", ".join(said), layout.width, first="  ")
    yield from wrap(judgement(wave, layout.today), layout.width, first="  ")


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
        text = line((problem.severity.value, style), f": {words.unbroken(problem.message)}{where}")
        yield from wrap(text, width, hang=2)
